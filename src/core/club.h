#ifndef CLUB_H
#define CLUB_H

// A club to be built, with everything its plan needs: what the store loads in one go.

#include "entry.h"
#include "parts.h"

struct club {
    int64_t id;
    struct order order;
    struct head head;   // ticket empty: no head reserved
    struct shaft shaft; // ticket empty: no shaft reserved
    struct shaft_model model;
    struct chart chart;
    struct profile profile; // of the shaft's model and flex
    struct progress progress;
    length_nm
        shown_mark; // at TIP_SHOWN and BUTT_SHOWN the mark that was on the screen last; 0: none
};

// Plans `club` under `rules`; after the tip cut only the butt is still open (plan.h).
// Fills *ret_input too (it points into club and rules), for the texts of the lines.
bool club_plan(const struct club *club, const struct bench_rules *rules,
               struct plan_input *ret_input, struct plan *ret_plan);

// What a ticket on a head or a shaft stands for.
enum part_life { PART_RAW, PART_CUT, PART_SCRAP, PART_LIFE_COUNT };
struct part {
    enum ticket_kind kind; // TICKET_HEAD or TICKET_SHAFT
    char ticket[TICKET_TEXT_MAX];
    char model[PARTS_NAME_MAX];
    char rack[PARTS_RACK_MAX]; // shafts
    enum part_life life;       // shafts; a head is always PART_RAW
    int64_t club_id;           // the club it is reserved for, 0 none
    char build[PARTS_BUILD_MAX];
    char club[PARTS_SHORT_MAX];
};

enum role { ROLE_BUILDER, ROLE_SUPERVISOR, ROLE_COUNT };
struct worker {
    char badge[TICKET_TEXT_MAX];
    char name[PARTS_NAME_MAX];
    enum role role;
};
const char *role_text(enum role role);
const char *role_words(enum role role); // for a person
bool role_from_text(const char *text, enum role *ret);

#endif
