// A shift at the real bench with nothing but a scanner and one button: two clubs of the demo
// workshop, one with a dry fit, a wrong pair, wrong parts, a bench that is started again in the
// middle, the end of the shift.

#include "run.h"
#include "ticket_number.h"

#include <stdio.h>
#include <stdlib.h>

static struct scratch scratch;
static struct ran ran;
static char steps[8192];

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    scratch_write(&scratch, "bench.ini", "[button]\none_button = yes\n");
    run_expect(&scratch, &ran, 0, "demo --db shift.db");
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static void step(const char *text) {
    strcat(steps, text);
    strcat(steps, "\n");
}

// A number ticket by what it is called in ticket_number.c.
static void number(const char *body) {
    struct ticket ticket;
    char text[40];
    assert_true(ticket_make(TICKET_COMMAND, body, &ticket));
    snprintf(text, sizeof text, "scan %s", ticket.text);
    step(text);
}

static void play(void) {
    scratch_write(&scratch, "steps", steps);
    run(&scratch, &ran, "bench --db shift.db --settings bench.ini --script steps --shots shots");
    if (ran.status != 0) {
        fail_msg("%s", ran.err);
    }
    steps[0] = '\0';
}

static void a_whole_shift(void **state) {
    (void)state;
    step("scan W-00029\nexpect READY");
    // Two parts of different clubs.
    step("scan H-0001A\nscan S-0002Q\nexpect HOLD wrong_pair\npress\nexpect READY");
    step("scan H-0001A\nscan S-0001S\nexpect CARE\npress\nexpect TIP_CUT");
    // Held: what is wrong? Pressed on to `wrong parts`, the third, and held.
    step("hold\nexpect HOLD something_wrong\nsee Press until the right one has the ring.");
    step("press\npress\npress\nsee Wrong parts: hold 2 seconds\nshot wrong\nhold\nexpect HOLD "
         "wrong_parts");
    step("press\nexpect READY");
    step("scan H-0001A\nscan S-0001S\nexpect RESUME\npress\nsee hold 2 seconds\nshot resume\nhold");
    step("expect TIP_CUT\npress\nexpect BUTT_CUT");
    play(); // and the power goes
    step("scan W-00029\nscan S-0001S\nscan H-0001A\nexpect CARE\npress\nexpect RESUME");
    step("press\npress\nhold\nexpect BUTT_CUT\npress\nexpect MEASURE");
    step("press\npress\nsee Enter 43 7/16 in: hold 2 seconds");
    // Round again to the planned one.
    step("press\npress\npress\npress\npress\npress\nsee Enter 43 3/8 in: hold 2 seconds");
    step("shot measure\nhold\nexpect LOGGED\npress\nexpect READY");
    // A dry fit: 47 1/8 in, entered with a mistake, from number tickets.
    step("scan H-00132\nscan S-0013K\nexpect DRY_FIT");
    number("N4");
    number("N1");
    number("RUBOUT");
    number("N7");
    number("R2");
    step("see 47 1/8\npress\nsee Enter 47 1/8: hold 2 seconds\nshot dry-fit\nhold\nexpect TIP_CUT");
    step("press\nexpect BUTT_CUT\npress\nexpect MEASURE");
    step("press\nhold\nexpect LOGGED\npress\nexpect READY");
    // The end: one of the choices of this view.
    step("press\npress\nsee Sign off: hold 2 seconds\nhold\nexpect SIGNED_OUT");
    play();
    run_expect(&scratch, &ran, 0, "log --db shift.db");
    run_expect(&scratch, &ran, 0, "check --db shift.db");
}

// Both sides of a sheet, what each types large; every one of them can be read by its code.
static void prints_the_numbers(void **state) {
    char command[300];
    char text[4096];
    (void)state;
    run_expect(&scratch, &ran, 0, "tickets --db shift.db --numbers --pdf n.pdf");
    assert_string_equal(ran.out, "n.pdf: 30 tickets on 2 pages of a4\n");
    snprintf(command, sizeof command, "pdftotext '%s' -", scratch_path(&scratch, "n.pdf"));
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    text[fread(text, 1, sizeof text - 1, pipe)] = '\0';
    assert_int_equal(pclose(pipe), 0);
    run_says(text, "15/16 in");
    run_says(text, "Rub out");
    for (int i = 0; ticket_number(i) != NULL; i++) {
        struct ticket ticket;
        assert_true(ticket_make(TICKET_COMMAND, ticket_number(i)->body, &ticket));
        assert_ptr_equal(ticket_number_of(ticket.text), ticket_number(i));
        run_says(text, ticket.text);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_whole_shift),
        cmocka_unit_test(prints_the_numbers),
    };
    return cmocka_run_group_tests(tests, opened, closed);
}
