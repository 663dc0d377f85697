#ifndef REPORT_ADVICE_H
#define REPORT_ADVICE_H

// What is wrong with a scan and what to do about it, in the order of urgency. Private to report.c.

#include <stdbool.h>
#include <stddef.h>

// clang-format off
#define REPORT_FINDINGS(X)                                                                         \
    X(ALT, 2, "Turn ALT mode off: the scanner types Alt and numbers. Let it send plain keys.")     \
    X(LAYOUT, 2, "Set the scanner's keyboard layout to US English. It is set to %s.")              \
    X(CAPS, 2, "Turn the scanner's Caps Lock setting off: it turns Shift round.")                  \
    X(NO_TEXT, 2, "Set the same speed, 8 data bits, no parity in the scanner and in the settings.") \
    X(ENDLESS, 2, "Let the scanner send one code at a time and Enter (CR) after it.")              \
    X(TAB, 2, "Let the scanner send Enter instead of Tab, or set the suffix to tab here.")         \
    X(NO_END, 2, "Let the scanner send Enter (CR) after each code.")                               \
    X(OTHER_CODE, 2, "This is no ticket's code. Scan the check card, or a ticket of this shop.")   \
    X(CONTROL, 2, "Let the scanner send no control characters (STX, ETX, GS) around the code.")    \
    X(EXTRA, 2, "Turn off what the scanner adds to the code, or set its beginning as prefix here.") \
    X(MISREAD, 2, "A character was lost or changed. Lengthen the gap between characters a little.") \
    X(UNKNOWN, 2, "This is no ticket. Scan the check card, or a ticket of this shop.")             \
    X(DAMAGED, 2, "Its check character does not fit. Clean the ticket, or print it again.")         \
    X(SLOW, 1, "Shorten the gap between characters to 10 ms or less, or set a prefix.")            \
    X(BREAKS, 1, "Shorten the gap between characters to 10 ms or less: codes break off at it.")    \
    X(NO_PREFIX, 1, "The prefix in the settings did not come. Make the two alike.")                \
    X(FAINT, 1, "Hold it nearer and still, out of glare. A bar should be 3 camera pixels wide.")    \
    X(SMALL, 1, "Turn case conversion off: capitals came as small letters.")                       \
    X(NO_AIM, 0, "Best let the scanner send AIM identifiers: other kinds of code then show.")
// clang-format on
enum report_finding {
#define X(name, weight, text) REPORT_##name,
    REPORT_FINDINGS(X)
#undef X
        REPORT_FINDING_COUNT
};

// `%s` in it stands for the layouts.
const char *report_finding_text(enum report_finding finding);
int report_finding_weight(enum report_finding finding); // 0 wish, 1 works but, 2 bad

// What can be said from the text alone, everything that came before the end: a bit each, 1u <<
// finding.
unsigned report_findings(const char *text, const char *prefix);

#endif
