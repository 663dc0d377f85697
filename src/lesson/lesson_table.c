// The lessons and the tour: every step, what it says, and what it leads to.

#include "lesson_inner.h"

#define STEPS(array) .step = (array), .count = (int)(sizeof(array) / sizeof *(array))
#define NEEDS(name) (1u << OFFER_##name)
#define PAIR_NEEDS (NEEDS(HEAD) | NEEDS(SHAFT))

// --- steps that several lessons begin with -------------------------------------------------------
#define SIGN_ON                                                                                    \
    {                                                                                              \
        .where = AT(SIGNED_OUT),                                                                   \
        .text = N_("Sign on: scan your badge, or touch the one shown here."),                      \
        .offer = {OFFER_BADGE}, .does = DOES_SCAN, .done = ~(AT(SIGNED_OUT) | AT(HOLD)),           \
    }
#define SCAN_HEAD                                                                                  \
    {                                                                                              \
        .where = AT(READY) | AT(LOGGED),                                                           \
        .text = N_("Scan this head or its shaft, either one first. The bench shows what it is."),  \
        .offer = {OFFER_HEAD, OFFER_SHAFT}, .does = DOES_SCAN, .done = AT(PAIR) | BEHIND_PAIR,     \
    }
#define BEHIND_PAIR (AT(CARE) | AT(TIP_CUT) | AT(BUTT_CUT) | AT(RESUME))
#define SCAN_SHAFT                                                                                 \
    {                                                                                              \
        .where = AT(PAIR),                                                                         \
        .text = N_("Scan the other one. They belong together, so the care list comes, or the "     \
                   "mark when you have confirmed the list already."),                              \
        .offer = {OFFER_SHAFT, OFFER_HEAD}, .does = DOES_SCAN, .done = BEHIND_PAIR,                \
    }
#define CONFIRM_CARE                                                                               \
    {                                                                                              \
        .where = AT(CARE),                                                                         \
        .text = N_("Read the list as at the saw: is all of it in place? Then press the button, "   \
                   "or touch the band below. The mark comes."),                                    \
        .does = DOES_PRESS, .done = AT(TIP_CUT) | AT(BUTT_CUT) | AT(RESUME),                       \
    }
#define TO_THE_MARK SIGN_ON, SCAN_HEAD, SCAN_SHAFT, CONFIRM_CARE
#define HOME_FROM_HOLD(words)                                                                      \
    {                                                                                              \
        .where = AT(HOLD), .text = words, .does = DOES_ACTION, .action = ACTION_START_OVER,        \
        .done = AT(READY),                                                                         \
    }

// --- a whole club --------------------------------------------------------------------------------
#define REST_OF_THE_CLUB                                                                           \
    {.where = AT(TIP_CUT),                                                                         \
     .text = N_("The large number comes off the tip; beside it why. Measure from the tip, mark, "  \
                "cut on the waste side. When it is cut, press."),                                  \
     .does = DOES_PRESS,                                                                           \
     .done = AT(BUTT_CUT) | AT(MEASURE)},                                                          \
        {.where = AT(BUTT_CUT),                                                                    \
         .text = N_("Logged. Now measure from the new tip end: that length is kept. Cut, then "    \
                    "press."),                                                                     \
         .does = DOES_PRESS,                                                                       \
         .done = AT(MEASURE)},                                                                     \
    {                                                                                              \
        .where = AT(MEASURE),                                                                      \
        .text = N_("Measure the shaft. Touch its length, or type it, then press. The planned "     \
                   "one has the red mark."),                                                       \
        .does = DOES_PLANNED, .done = AT(LOGGED) | AT(READY)                                       \
    }

static const struct lesson_step club[] = {TO_THE_MARK, REST_OF_THE_CLUB};

static const struct lesson_step tour[] = {
    {.where = ANYWHERE,
     .text = N_("An imaginary workshop, and one club of it. Read this first: it comes before "
                "everything else."),
     .does = DOES_NOTHING,
     .page = true},
    SIGN_ON,
    SCAN_HEAD,
    SCAN_SHAFT,
    CONFIRM_CARE,
    REST_OF_THE_CLUB,
    {.where = ANYWHERE,
     .text = N_("The imaginary workshop goes away when you end the tour. The lessons show what to "
                "do when something is wrong."),
     .does = DOES_NOTHING,
     .page = true},
};

// --- stops ---------------------------------------------------------------------------------------
static const struct lesson_step wrong_pair[] = {
    SIGN_ON,
    {.where = AT(READY) | AT(LOGGED),
     .text = N_("Scan this head."),
     .offer = {OFFER_HEAD},
     .does = DOES_SCAN,
     .done = AT(PAIR)},
    {.where = AT(PAIR),
     .text = N_("Now scan this shaft, which is another club's. The bench stops in red; no mark is "
                "shown."),
     .offer = {OFFER_OTHER},
     .does = DOES_SCAN,
     .done = AT(HOLD),
     .cause = HOLD_WRONG_PAIR},
    HOME_FROM_HOLD(N_("Read whose each of them is, and what to do. At the saw put both back. Then "
                      "start over.")),
};

static const struct lesson_step unknown[] = {
    SIGN_ON,
    {.where = AT(READY) | AT(LOGGED),
     .text = N_("Scan this ticket. It is well printed, but the shop has no such part: the bench "
                "stops."),
     .offer = {OFFER_UNKNOWN},
     .does = DOES_SCAN,
     .done = AT(HOLD),
     .cause = HOLD_UNKNOWN_PART},
    HOME_FROM_HOLD(N_("Such a part waits until the desk has taken it in. Start over, and go on "
                      "with another.")),
};

static const struct lesson_step cut_already[] = {
    SIGN_ON,
    {.where = AT(READY) | AT(LOGGED),
     .text = N_("Scan this shaft, which was cut before. One shaft has one life: the bench stops."),
     .offer = {OFFER_CUT},
     .does = DOES_SCAN,
     .done = AT(HOLD)},
    HOME_FROM_HOLD(N_("It says which club the shaft was cut for. Start over.")),
};

// --- mistakes ------------------------------------------------------------------------------------
static const struct lesson_step too_early[] = {
    TO_THE_MARK,
    {.where = AT(TIP_CUT),
     .text = N_("Press now, as if by mistake: nothing is cut yet. The bench takes it as cut and "
                "shows the next mark."),
     .does = DOES_PRESS,
     .done = AT(BUTT_CUT)},
    {.where = AT(BUTT_CUT),
     .text = N_("But the tip is not cut. Hold the button for 2 seconds: something is wrong."),
     .does = DOES_HOLD,
     .done = AT(HOLD),
     .cause = HOLD_SOMETHING_WRONG},
    {.where = AT(HOLD),
     .text = N_("Choose that you pressed too early. The log keeps both: the press, and that you "
                "took it back."),
     .does = DOES_ACTION,
     .action = ACTION_WRONG_TOO_EARLY,
     .done = AT(TIP_CUT)},
};

static const struct lesson_step miscut[] = {
    TO_THE_MARK,
    {.where = AT(TIP_CUT),
     .text = N_("Think that the blade slipped and took more than the mark. Do not press: hold the "
                "button for 2 seconds."),
     .does = DOES_HOLD,
     .done = AT(HOLD),
     .cause = HOLD_SOMETHING_WRONG},
    {.where = AT(HOLD),
     .text = N_("Choose that the tip is cut off the mark."),
     .does = DOES_ACTION,
     .action = ACTION_WRONG_MISCUT,
     .done = AT(MISCUT)},
    {.where = AT(MISCUT),
     .text = N_("Measure what is off and say so: touch the length on the far right, then press. "
                "Below stands what it does to the club."),
     .does = DOES_PAST,
     .done = AT(HOLD),
     .cause = HOLD_TIP_PAST},
    {.where = AT(HOLD),
     .text = N_("It is logged, and a supervisor decides: use, recut or scrap. Put the club aside "
                "and press."),
     .does = DOES_PRESS,
     .done = AT(READY)},
};

// --- when the bench itself is in trouble ---------------------------------------------------------
static const struct lesson_step not_logged[] = {
    TO_THE_MARK,
    {.where = AT(TIP_CUT),
     .text = N_("From here on the disk refuses. Think that the tip is cut, and press."),
     .does = DOES_PRESS,
     .refused = true,
     .refuses = true},
    {.where = ANYWHERE,
     .text = N_("NOT LOGGED: write the number down, cut nothing else, call somebody. The bench "
                "tries again by itself. Go on here when you have read it: then the disk is well."),
     .does = DOES_NOTHING,
     .refuses = true},
    {.where = ANYWHERE,
     .text = N_("The disk is well again. Within some seconds the bench logs the cut by itself and "
                "goes on."),
     .does = DOES_NOTHING,
     .done = AT(BUTT_CUT) | AT(MEASURE)},
};

static const struct lesson_step power_cut[] = {
    TO_THE_MARK,
    {.where = AT(TIP_CUT),
     .text = N_("You are in the middle of this cut, and the power goes. Touch here: the bench ends "
                "at once, closes nothing, and starts again."),
     .does = DOES_POWER,
     .done = AT(SIGNED_OUT)},
    {.where = AT(SIGNED_OUT),
     .text = N_("The power is back. Sign on again."),
     .offer = {OFFER_BADGE},
     .does = DOES_SCAN,
     .done = AT(READY)},
    {.where = AT(READY),
     .text = N_("The half-cut club stands first in the list. Scan both its tickets again."),
     .offer = {OFFER_HEAD, OFFER_SHAFT},
     .does = DOES_SCAN,
     .done = AT(PAIR)},
    {.where = AT(PAIR),
     .text = N_("And the other ticket. The care list comes once more, as after every sign-on."),
     .offer = {OFFER_SHAFT, OFFER_HEAD},
     .does = DOES_SCAN,
     .done = AT(CARE) | AT(RESUME)},
    {.where = AT(CARE),
     .text = N_("Press when all is in place."),
     .does = DOES_PRESS,
     .done = AT(RESUME)},
    {.where = AT(RESUME),
     .text = N_("Nobody but you can know whether the blade went through. Measure the shaft, then "
                "choose: not cut yet."),
     .does = DOES_ACTION,
     .action = ACTION_RESUME_NOT_CUT,
     .done = AT(TIP_CUT)},
};

static const struct lesson_spec specs[LESSON_COUNT] = {
    [LESSON_TOUR] = {"tour", N_("Tour"), N_("One imaginary club, from badge to log"), STEPS(tour),
                     .needs = PAIR_NEEDS},
    [LESSON_CLUB] = {"club", N_("A whole club"), N_("From the badge to the log, as every day"),
                     STEPS(club), .needs = PAIR_NEEDS},
    [LESSON_WRONG_PAIR] = {"wrong_pair", N_("Wrong pair"),
                           N_("A head and a shaft of two different clubs"), STEPS(wrong_pair),
                           .needs = NEEDS(HEAD) | NEEDS(OTHER)},
    [LESSON_UNKNOWN] = {"unknown", N_("Unknown ticket"), N_("A ticket that nobody knows"),
                        STEPS(unknown), .needs = NEEDS(UNKNOWN)},
    [LESSON_TOO_EARLY] = {"too_early", N_("Pressed too early"),
                          N_("The button pressed, and nothing cut"), STEPS(too_early),
                          .needs = PAIR_NEEDS},
    [LESSON_MISCUT] = {"miscut", N_("Cut off the mark"), N_("The tip is cut too short"),
                       STEPS(miscut), .needs = PAIR_NEEDS},
    [LESSON_CUT_ALREADY] = {"cut_already", N_("Cut already"), N_("A shaft that was cut before"),
                            STEPS(cut_already), .needs = NEEDS(CUT)},
    [LESSON_NOT_LOGGED] = {"not_logged", N_("NOT LOGGED"), N_("The disk refuses a cut"),
                           STEPS(not_logged), .needs = PAIR_NEEDS},
    [LESSON_POWER_CUT] = {"power_cut", N_("Power cut"), N_("It goes in the middle of a cut"),
                          STEPS(power_cut), .needs = PAIR_NEEDS},
};

const struct lesson_spec *lesson_spec(enum lesson_id id) {
    return &specs[id];
}

const char *lesson_name(enum lesson_id id) {
    return id < LESSON_COUNT ? specs[id].name : NULL;
}
