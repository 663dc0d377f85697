// What the PIN's screen says when the store will not look at a PIN.

#include "bench.h"
#include "cmocka_all.h"

#include <string.h>

static struct bench bench;
static struct station_ops ops;
static enum station_pin answer;
static int asked;

static enum station_pin pin(void *ctx, const char *badge, const char *digits, int *ret_wait_s) {
    (void)ctx;
    (void)ret_wait_s;
    assert_string_equal(digits, "4711");
    assert_true(badge[0] != '\0');
    asked++;
    return answer;
}

static int fresh(void **state) {
    *state = &bench;
    asked = 0;
    bench_init(&bench);
    ops = *bench.station.ops;
    ops.pin = pin;
    bench.station.ops = &ops;
    bench_sign_on(&bench);
    bench_scan(&bench, TICKET_WORKER, "3");
    return 0;
}

static void says_why(void **state) {
    static const struct {
        enum station_pin answer;
        const char *message;
        const char *cause; // logged, NULL: nothing
    } rows[] = {
        {STATION_PIN_LOCKED,
         "Locked. Another supervisor unlocks it here; without one, root does: kerfside pin "
         "--recover",
         "waiting"},
        {STATION_PIN_NO_PEPPER,
         "The key file of the PINs is missing. Call whoever set up this bench.", NULL},
        {STATION_PIN_NOT_SET, "Cleo Marsh has no PIN yet. It is set on the command line.", NULL},
        {STATION_PIN_FAILED, "The PIN could not be checked: the log does not answer. Try again.",
         NULL},
        {STATION_PIN_WRONG, "The PIN is wrong. Try again.", "refused"},
    };
    struct bench *b = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        int logged = shop_count(&b->shop, ENTRY_PIN);
        answer = rows[i].answer;
        bench_type(b, "4711");
        bench_press(b);
        assert_int_equal(asked, i + 1);
        assert_string_equal(b->view.pin_message, rows[i].message);
        assert_int_equal(b->station.state, STATION_PIN);
        assert_int_equal(b->view.pin_digits, 0); // nothing stays
        assert_int_equal(strlen(b->station.pin.digits), 0);
        assert_int_equal(shop_count(&b->shop, ENTRY_PIN), logged + (rows[i].cause != NULL));
        if (rows[i].cause != NULL) {
            assert_string_equal(shop_last(&b->shop, ENTRY_PIN)->cause, rows[i].cause);
        }
    }
    answer = STATION_PIN_RIGHT;
    bench_type(b, "4711");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_REVIEW);
    assert_string_equal(shop_last(&b->shop, ENTRY_PIN)->cause, "accepted");
}

// --- unlocking -----------------------------------------------------------------------------------

static char unlocked[TICKET_TEXT_MAX];
static char unlocked_by[TICKET_TEXT_MAX];
static enum station_save unlocking;

static enum station_save unlock(void *ctx, const char *badge, const char *by) {
    (void)ctx;
    strcpy(unlocked, badge);
    strcpy(unlocked_by, by);
    return unlocking;
}

// A second supervisor besides the shop's one.
static enum station_lookup two(void *ctx, const char *badge, struct worker *ret_worker) {
    if (strcmp(badge, shop_ticket(TICKET_WORKER, "4")) != 0) {
        return shop_ops.worker(ctx, badge, ret_worker);
    }
    strcpy(ret_worker->badge, badge);
    strcpy(ret_worker->name, "Dora Fell");
    ret_worker->role = ROLE_SUPERVISOR;
    return STATION_FOUND;
}

static void another_supervisor_unlocks(void **state) {
    struct bench *b = *state;
    ops.unlock = unlock;
    ops.worker = two;
    unlocked[0] = '\0';
    assert_false(bench_can(b, ACTION_UNLOCK));
    answer = STATION_PIN_LOCKED;
    bench_type(b, "4711");
    bench_press(b);
    assert_true(bench_can(b, ACTION_UNLOCK));
    bench_act(b, ACTION_UNLOCK, 0);
    assert_string_equal(b->view.title, "Supervisor: scan your badge");
    assert_non_null(strstr(b->view.pin_message, "another supervisor scans the badge"));
    assert_non_null(strstr(b->view.pin_message, shop_ticket(TICKET_WORKER, "3")));
    bench_scan(b, TICKET_WORKER, "3"); // not oneself
    assert_string_equal(b->view.pin_message, "Another supervisor must do that.");
    bench_scan(b, TICKET_WORKER, "14");
    assert_non_null(strstr(b->view.pin_message, "is no supervisor"));
    bench_scan(b, TICKET_WORKER, "4");
    assert_string_equal(b->view.subtitle, "Dora Fell");
    answer = STATION_PIN_WRONG;
    bench_type(b, "4711");
    bench_press(b);
    assert_string_equal(unlocked, ""); // nothing without the PIN
    answer = STATION_PIN_RIGHT;
    unlocking = STATION_SAVE_FAILED;
    bench_type(b, "4711");
    bench_press(b);
    assert_non_null(strstr(b->view.pin_message, "the log does not answer"));
    assert_int_equal(b->station.state, STATION_PIN);
    unlocking = STATION_SAVED;
    bench_type(b, "4711");
    bench_press(b);
    assert_string_equal(unlocked, shop_ticket(TICKET_WORKER, "3"));
    assert_string_equal(unlocked_by, shop_ticket(TICKET_WORKER, "4"));
    // The one who unlocked is not let in by that; the other types the PIN.
    assert_int_equal(b->station.state, STATION_PIN);
    assert_string_equal(b->view.pin_message, "Unlocked. Type the PIN.");
    assert_string_equal(b->view.subtitle, "Cleo Marsh");
    bench_type(b, "4711");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_REVIEW);
    assert_string_equal(b->view.worker, "Cleo Marsh");
}

// A badge whose name was withdrawn is one the store does not know.
static enum station_lookup nobody(void *ctx, const char *badge, struct worker *ret_worker) {
    (void)ctx;
    (void)badge;
    (void)ret_worker;
    return STATION_ABSENT;
}

static void a_withdrawn_badge_is_unknown(void **state) {
    struct bench *b = *state;
    ops.worker = nobody;
    bench_act(b, ACTION_BACK, 0);
    int signed_on = shop_count(&b->shop, ENTRY_SIGN_ON);
    bench_scan(b, TICKET_WORKER, "15");
    assert_int_equal(b->station.hold.cause, HOLD_UNKNOWN_BADGE);
    assert_int_equal(shop_count(&b->shop, ENTRY_SIGN_ON), signed_on);
    bench_press(b);
    bench_act(b, ACTION_REVIEW, 0);
    bench_scan(b, TICKET_WORKER, "3");
    assert_string_equal(b->view.pin_message,
                        "This badge is not known here. Scan a supervisor's badge.");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(says_why, fresh),
        cmocka_unit_test_setup(another_supervisor_unlocks, fresh),
        cmocka_unit_test_setup(a_withdrawn_badge_is_unknown, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
