// Orders, stock levels and lots from files, and what queue, pick and stock say of them.

#include "run.h"

#include <stdlib.h>

static struct scratch scratch;
static struct ran ran;

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    run(&scratch, &ran, "demo --db demo.db");
    assert_int_equal(ran.status, 0);
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static void imports(const char *name, const char *text, int status, const char *words) {
    scratch_write(&scratch, name, text);
    run(&scratch, &ran, "import %s --db demo.db", name);
    if (ran.status != status ||
        (strstr(ran.err, words) == NULL && strstr(ran.out, words) == NULL)) {
        fail_msg("%d %s%s", ran.status, ran.out, ran.err);
    }
}

static void says(const char *arguments, const char *words, bool there) {
    run(&scratch, &ran, "%s --db demo.db", arguments);
    assert_int_equal(ran.status, 0);
    if ((strstr(ran.out, words) != NULL) != there) {
        fail_msg("%s: %s", arguments, ran.out);
    }
}

static void the_queue_goes_by_status_and_priority(void **state) {
    (void)state;
    says("queue", "2048", false); // held
    says("queue", "53 clubs wait, 0 are half cut.", true);
    assert_true(strstr(ran.out, "2046 ") < strstr(ran.out, "2041 ")); // priority 1
    imports("orders.csv", "build,status,priority,reference,note\n2048,released,1,,\n", 0, "");
    says("queue", "2048", true);
    says("queue", "54 clubs wait", true);
    imports("orders.csv", "build,status,priority,reference,note\n2048,released,1,,\n", 0,
            "nothing"); // says nothing new, and keeps what it leaves empty
    run(&scratch, &ran, "check --db demo.db");
    assert_int_equal(ran.status, 0);
}

static void bad_orders_are_named(void **state) {
    static const char *const rows[][2] = {
        {"2041,waiting,3,,\n", "column status: \"waiting\" is none of"},
        {"2041,released,0,,\n", "column priority: \"0\" is not a whole number from 1 to 5"},
        {"2041,,3,,\n", "column status: is empty"},
        {"20-41,held,3,,\n", "column build"},
        {"2041,held,3,,\n2041,held,2,,\n", "is there already"},
        {"2041,held,3,0123456789012345678901234567890123456789012345678,\n", "column reference"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char text[512] = "build,status,priority,reference,note\n";
        strcat(text, rows[i][0]);
        imports("orders.csv", text, 1, rows[i][1]);
    }
    imports("stock_levels.csv",
            "head_model,shaft_model,flex,least,wanted\n,Tarnbeck Rill 64,R,5,4\n", 1,
            "column wanted");
    imports("stock_levels.csv",
            "head_model,shaft_model,flex,least,wanted\n,Tarnbeck Rill 64,,4,5\n", 1, "column flex");
    imports("stock_levels.csv", "head_model,shaft_model,flex,least,wanted\n,Unheard of,R,4,5\n", 1,
            "no shaft model");
}

static void a_cancelled_order_gives_back_its_parts(void **state) {
    (void)state;
    says("pick 2041", "S-0001S", true);
    imports("orders.csv", "build,status,priority,reference,note\n2041,cancelled,3,,\n", 0, "");
    run(&scratch, &ran, "pick 2041 --db demo.db");
    assert_int_equal(ran.status, 1);
    run_says(ran.err, "nothing is to be fetched for 2041");
    says("queue", "2041", false);
    // Its file once more reserves nothing for it.
    run(&scratch, &ran, "import %s/db/demo/builds.csv --db demo.db", KERFSIDE_SOURCE_DIR);
    assert_int_equal(ran.status, 0);
    run(&scratch, &ran, "pick 2041 --db demo.db");
    assert_int_equal(ran.status, 1);
    run(&scratch, &ran, "check --db demo.db");
    assert_int_equal(ran.status, 0);
}

static void a_cancelled_line_stays_so(void **state) {
    (void)state;
    imports("builds.csv",
            "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,swingweight,step,"
            "uniform_flex,cancelled\n2041,1,2026-01-01,H-0001A,S-0001S,45,1/8,50,D7,0,no,yes\n",
            0, "");
    says("pick 2041", "S-0001S", false);
    says("pick 2041", "S-0002Q", true);
    run(&scratch, &ran, "import %s/db/demo/builds.csv --db demo.db", KERFSIDE_SOURCE_DIR);
    assert_int_equal(ran.status, 0); // has no such column
    says("pick 2041", "S-0001S", false);
}

static void picks_by_rack_and_says_what_is_missing(void **state) {
    (void)state;
    says("pick 2050",
         "no shaft yet                 2050         3                Ullock Straight "
         "115, S",
         true);
    says("pick B-20416", "A1           shaft        S-0001S", true);
    run(&scratch, &ran, "pick --db demo.db");
    assert_int_equal(ran.status, 2);
    run(&scratch, &ran, "pick 2041 --due 2026-03-31 --db demo.db");
    assert_int_equal(ran.status, 2);
    run(&scratch, &ran, "pick --due 2026-02-30 --db demo.db");
    assert_int_equal(ran.status, 2);
    says("pick --due 2999-12-31", "no shaft yet", true);
    says("pick --due 2999-12-31", " 2048 ", false); // held
}

static void counts_the_stock(void **state) {
    (void)state;
    says("stock --csv", "shaft,Tarnbeck Rill 64,R,0,1,0,0,4,12,12\r\n", true);
    says("stock --csv", "shaft,\"Ullock Straight 115\",S", false); // quoted only where it must be
    says("stock --csv", "shaft,Ullock Straight 115,S,26,8,8,0,6,30,0\r\n", true);
    says("stock", "Tarnbeck Rill 64, R", true);
    imports("shafts.csv",
            "ticket,model,flex,raw_length,weight_g,rack,lot\nS-9001W,Tarnbeck Rill 64,R,46,64,A9,"
            "April\n",
            0, "");
    says("stock --csv", "shaft,Tarnbeck Rill 64,R,1,1,0,0,4,12,11\r\n", true);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(the_queue_goes_by_status_and_priority),  TEST(bad_orders_are_named),
        TEST(a_cancelled_order_gives_back_its_parts), TEST(a_cancelled_line_stays_so),
        TEST(picks_by_rack_and_says_what_is_missing), TEST(counts_the_stock),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
