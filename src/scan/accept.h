#ifndef ACCEPT_H
#define ACCEPT_H

// Which of the codes seen in frames count. A misread must never become a part: a ticket counts
// when it is Code 128 or QR, whole, canonical, with its check character, and either enough scan
// lines of one frame or two frames agree on it. An EAN-13 with its check digit names a model, under
// the same rule. Anything else is said to be unreadable, after two frames, and never more. Pure.

#include "frame.h"

#define ACCEPT_QUALITY 3        // scan lines that are enough in one frame
#define ACCEPT_AGREE_US 1000000 // two frames agree when no further apart
#define ACCEPT_AWAY_US 1500000  // a code out of view for so long is told again

enum accept_verdict {
    ACCEPT_TICKET,
    ACCEPT_MODEL,   // EAN-13
    ACCEPT_FOREIGN, // no ticket, or a ticket's text in the wrong symbology
    ACCEPT_DAMAGED  // looks like a ticket, its check character is another
};
enum accept_verdict accept_judge(enum code_symbology symbology, const char *text);

enum accept_news {
    ACCEPT_WAIT, // one more frame has to agree
    ACCEPT_NEW,  // counts from this frame on: say it
    ACCEPT_OLD   // was said already and has been in view since
};

// What is in view, the longest unseen forgotten first.
#define ACCEPT_SEEN_MAX 16
struct accept {
    struct accept_seen {
        enum accept_verdict verdict;
        char text[WEDGE_TEXT_MAX]; // empty: free
        bool said;
        int readings; // in a row that agree, until it was said
        int64_t last_us;
    } seen[ACCEPT_SEEN_MAX];
};

void accept_init(struct accept *accept);

// A code of the frame taken at time_us. Times never run back. Each code once a frame; a ticket that
// is there in bars and as a QR symbol agrees with itself.
enum accept_news accept_take(struct accept *accept, const struct code *code, int64_t time_us);

// How many readings in a row agreed on a code when accept_take said ACCEPT_NEW; 0: it never did.
int accept_readings(const struct accept *accept, const struct code *code);

#endif
