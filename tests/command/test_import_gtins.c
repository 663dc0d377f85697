// Suppliers' codes: what a file says they name, and nothing else.

#include "scratch.h"

#include <stdio.h>
#include <stdlib.h>

static struct scratch scratch;

#define GTINS "gtin,head_model,shaft_model,flex\n"

static int workshop(void **state) {
    (void)state;
    scratch_init(&scratch);
    scratch_import_workshop(&scratch);
    return 0;
}

static int release(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static void imports(const char *name, const char *text) {
    if (scratch_import_text(&scratch, name, text) != STORE_OK) {
        fail_msg("%s%s\n%s", text, scratch.messages, store_message(scratch.store));
    }
}

static void changes_nothing(const char *text) {
    char *before = scratch_dump(&scratch);
    imports("gtins.csv", text);
    char *after = scratch_dump(&scratch);
    assert_string_equal(before, after);
    free(before);
    free(after);
}

static struct code_model names(const char *gtin) {
    struct code_model model;
    if (store_model_of_code(scratch.store, gtin, &model) != STORE_OK) {
        fail_msg("%s: %s", gtin, store_message(scratch.store));
    }
    return model;
}

// Published worked examples of check digits: 629104150021 3 (gs1.org), 730001100001 7 (gs1.se),
// 890400021003 7 (gs1india.org).
static void codes_name_models(void **state) {
    struct code_model model;
    (void)state;
    imports("gtins.csv", GTINS "6291041500213,Knob,,\n7300011000017,,Rod,R\n8904000210037,,Rod,\n");
    assert_int_equal(scratch_ask(&scratch, "SELECT count(*) FROM log WHERE kind = 'import' AND "
                                           "note = 'gtins.csv 3 rows, 3 new, 0 changed'"),
                     1);
    model = names("6291041500213");
    assert_true(model.is_head);
    assert_string_equal(model.model, "Knob");
    assert_string_equal(model.flex, "");
    assert_int_equal(model.parts, 1); // H-0001A is reserved, H-00028 is not
    model = names("7300011000017");
    assert_false(model.is_head);
    assert_string_equal(model.model, "Rod");
    assert_string_equal(model.flex, "R");
    assert_int_equal(model.parts, 2); // S-0001S is reserved
    imports("shafts.csv", "ticket,model,flex,raw_length,weight_g,rack\nS-0004M,Rod,S,46,110,A1\n");
    assert_int_equal(names("7300011000017").parts, 2);
    assert_int_equal(names("8904000210037").parts, 3); // of whatever flex
    scratch_ask(&scratch, "UPDATE shaft SET life = 'cut' WHERE ticket = 'S-0002Q' RETURNING 1");
    assert_int_equal(names("7300011000017").parts, 1);
    assert_int_equal(store_model_of_code(scratch.store, "2004100000012", &model), STORE_NONE);
    assert_int_equal(store_model_of_code(scratch.store, "2004100000013", &model), STORE_REFUSED);
    assert_int_equal(store_model_of_code(scratch.store, "H-0001A", &model), STORE_REFUSED);
    assert_non_null(strstr(store_message(scratch.store), "no GTIN with a right check digit"));
}

// GS1 General Specifications 7.9, written apart from the program: the digits in odd places, from
// the right, weigh 1 with the check digit itself, the others 3.
static bool right(const char *gtin) {
    int sum = 0;
    size_t size = strlen(gtin);
    for (size_t i = 0; i < size; i++) {
        sum += (gtin[size - 1 - i] - '0') * (i % 2 == 0 ? 1 : 3);
    }
    return sum % 10 == 0;
}

// One number, written in each of the four lengths, is one code.
static void lengths_are_one_number(void **state) {
    static const char *const writings[] = {"20123451", "000020123451", "0000020123451",
                                           "00000020123451"};
    (void)state;
    imports("gtins.csv", GTINS "20123451,Knob,,\n");
    for (size_t i = 0; i < 4; i++) {
        char text[80];
        assert_true(right(writings[i]));
        assert_string_equal(names(writings[i]).model, "Knob");
        snprintf(text, sizeof text, GTINS "%s,Knob,,\n", writings[i]);
        changes_nothing(text);
        snprintf(text, sizeof text, GTINS "%s,Knob,,\n20123451,Knob,,\n", writings[i]);
        assert_int_equal(scratch_import_text(&scratch, "gtins.csv", text), STORE_REFUSED);
        assert_non_null(strstr(scratch.messages, "gtins.csv:3: column gtin: is there already in "
                                                 "gtins.csv:2"));
    }
    // UPC-A, and the 13 digits many scanners make of it.
    imports("gtins.csv", GTINS "204100000018,,Rod,R\n");
    assert_string_equal(names("0204100000018").model, "Rod");
    changes_nothing(GTINS "0204100000018,,Rod,R\n");
    assert_int_equal(scratch_ask(&scratch, "SELECT count(*) FROM supplier_code"), 2);
}

// Of many numbers exactly those with a right check digit are taken, in every length that has room.
static void only_right_check_digits_are_taken(void **state) {
    static const int sizes[] = {8, 12, 13, 14};
    uint32_t seed = 20261125;
    (void)state;
    for (int i = 0; i < 400; i++) {
        struct code_model model;
        char gtin[16] = "";
        int size = sizes[i % 4];
        for (int j = 0; j < size; j++) {
            seed = seed * 1664525u + 1013904223u;
            gtin[j] = (char)('0' + (seed >> 16) % 10);
        }
        for (int check = 0; check < 10; check++) {
            gtin[size - 1] = (char)('0' + check);
            enum store_result wanted = right(gtin) ? STORE_NONE : STORE_REFUSED;
            assert_int_equal(store_model_of_code(scratch.store, gtin, &model), wanted);
        }
    }
}

static void a_file_that_says_otherwise_changes_it(void **state) {
    (void)state;
    imports("gtins.csv", GTINS "6291041500213,Knob,,\n7300011000017,,Rod,R\n");
    changes_nothing(GTINS "6291041500213,Knob,,\n7300011000017,,Rod,R\n");
    changes_nothing("shaft_model,gtin,head_model\n,06291041500213,Knob\n");
    imports("gtins.csv", GTINS "6291041500213,,Rod,S\n7300011000017,,Rod,\n");
    assert_false(names("6291041500213").is_head);
    assert_string_equal(names("6291041500213").flex, "S");
    assert_string_equal(names("7300011000017").flex, "");
    assert_int_equal(scratch_ask(&scratch, "SELECT count(*) FROM log WHERE kind = 'import' AND "
                                           "note = 'gtins.csv 2 rows, 0 new, 2 changed'"),
                     1);
    imports("gtins.csv", GTINS "6291041500213,Knob,,\n");
    assert_string_equal(names("6291041500213").model, "Knob");
}

// A model in the same import is good enough; one bad row keeps all of them out.
static void all_or_nothing(void **state) {
    (void)state;
    scratch_write(&scratch, "gtins.csv", GTINS "6291041500213,Ball,,\n7300011000017,Knob,,\n");
    scratch_write(&scratch, "head_models.csv",
                  "model,kind,engraved,weight_g,hosel_bore,insertion,bore_height,loft,lie\n"
                  "Ball,fairway,5,215,0.335,1 1/2,1,18,57\n");
    char *before = scratch_dump(&scratch);
    assert_int_equal(scratch_import(&scratch, "gtins.csv", NULL), STORE_REFUSED);
    assert_non_null(strstr(scratch.messages, "gtins.csv:2: column head_model: no head model "
                                             "\"Ball\" in the shop"));
    char *after = scratch_dump(&scratch);
    assert_string_equal(before, after);
    free(before);
    free(after);
    assert_int_equal(scratch_import(&scratch, "gtins.csv", "head_models.csv", NULL), STORE_OK);
    assert_string_equal(names("6291041500213").model, "Ball");
    assert_int_equal(names("6291041500213").parts, 0);
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, workshop, release)
    const struct CMUnitTest tests[] = {
        TEST(codes_name_models),
        TEST(lengths_are_one_number),
        TEST(only_right_check_digits_are_taken),
        TEST(a_file_that_says_otherwise_changes_it),
        TEST(all_or_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
