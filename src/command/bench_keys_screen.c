// Who looks at the bench, from where and with what eyes and hands.

#include "bench_set.h"

#define AT(member)                                                                                 \
    .at = offsetof(struct bench_settings, member),                                                 \
    .size = sizeof((struct bench_settings *)0)->member

static const char *const no_yes[] = {"no", "yes", NULL};
static const char *const themes[] = {"normal", "contrast", NULL};
_Static_assert(SCREEN_THEME_NORMAL == 0 && SCREEN_THEME_CONTRAST == 1, "themes by index");

static const struct bench_key keys[] = {
    {.section = "screen",
     .key = "distance_m",
     .label = N_("Read from"),
     .kind = BENCH_OTHER,
     .set = bench_set_distance,
     .allowed = N_("metres, 0.5 to 3"),
     .standard = "2",
     .holds = HOLDS_NEXT_START,
     .what = N_("How far from the screen the worker stands, in metres: the mark, the line of what "
                "to do, titles and numbers are as large as that takes, on whatever screen."),
     .why = N_("From the saw to a screen beside it. Capitals of 20 minutes of arc: 12 mm at 2 m.")},
    {.section = "screen",
     .key = "diagonal_in",
     .label = N_("Diagonal of the screen"),
     .kind = BENCH_OTHER,
     .set = bench_set_diagonal,
     .allowed = N_("inches, 7 to 65"),
     .standard = "24",
     .holds = HOLDS_NEXT_START,
     .what = N_("Of the screen's picture, in inches: pixels alone do not say how large a letter "
                "or a button is. Small screens have buttons of 15 mm where 22 mm do not fit."),
     .why = N_("A common size for a screen on a wall or an arm. Measure yours.")},
    {.section = "screen",
     .key = "theme",
     .label = N_("Colours"),
     .kind = BENCH_CHOICE,
     AT(theme),
     .words = themes,
     .allowed = N_("normal or contrast"),
     .standard = "normal",
     .holds = HOLDS_NEXT_START,
     .what = N_("contrast: black on white with heavy outlines, every text at least 10:1, for poor "
                "light and poor sight."),
     .why = N_("In the normal colours every text has at least 7:1 (WCAG 2.2, 1.4.6) already.")},
    {.section = "screen",
     .key = "mirrored",
     .label = N_("Left-handed"),
     .kind = BENCH_CHOICE,
     AT(mirrored),
     .words = no_yes,
     .allowed = N_("yes or no"),
     .standard = "no",
     .holds = HOLDS_NEXT_START,
     .what = N_("yes: buttons and keys lie at the left, for the left hand or a bench that is built "
                "the other way round. Where the tip lies is set apart."),
     .why = N_("Most people touch with the right hand.")},
    {.section = "screen",
     .key = "blank_after",
     .label = N_("Dark after"),
     .kind = BENCH_WHOLE,
     AT(blank_minutes),
     .low = 0,
     .high = 480,
     .allowed = N_("minutes, 0 (never) to 480"),
     .standard = "0",
     .what = N_("Minutes without a scan, a press or a touch until the screen is dark, while nobody "
                "is signed on and nothing is to be saved. A scan counts at once; a press or a "
                "touch only makes it light."),
     .why =
         N_("A dark screen looks like a bench that is off: where that saves something, set it.")},
};

const struct bench_key *bench_keys_screen(size_t *ret_count) {
    *ret_count = sizeof keys / sizeof keys[0];
    return keys;
}
