#ifndef ASSEMBLY_CARD_H
#define ASSEMBLY_CARD_H

// What is to be done with a cut shaft until it is a club, and what the club must come to: the card
// that goes with it to the glue bench. Pure; words are decided here, paper only puts them.

#include "assembly_check.h"

// What the shop builds with.
#define SHOP_TEXT_MAX 48
struct shop_assembly {
    char epoxy[SHOP_TEXT_MAX]; // empty: not said
    int cure_hours;            // until the club may be handled, 0: not said
    char ferrule[SHOP_TEXT_MAX];
};

#define CARD_TEXT_MAX 400
#define CARD_STEPS_MAX 10
struct card_step {
    char what[96];
    char how[CARD_TEXT_MAX];
    bool caution; // easily forgotten, costly when it is
};

struct assembly_card {
    char build[PARTS_BUILD_MAX];
    char club[PARTS_SHORT_MAX];
    int position;
    int count;
    char head[TICKET_TEXT_MAX];
    char head_model[PARTS_NAME_MAX];
    char shaft[TICKET_TEXT_MAX];
    char shaft_model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX];
    size_t step_count;
    struct card_step step[CARD_STEPS_MAX]; // in the order they are done
    struct assembly_values planned;
    struct assembly_values measured;
    struct assembly_tolerance tolerance;
    struct assembly_check check;
    int64_t ready_ms; // not handled before, Unix time; 0: not known
};

// What a card is made from. `cut_ms`: Unix time of the measure that made the club done, 0: not cut
// yet. Glued then, it is ready `cure_hours` later.
struct card_input {
    const struct club *club;
    const struct bench_rules *rules;
    const struct assembly *assembly;
    const struct assembly_tolerance *tolerance;
    const struct shop_assembly *shop;
    const struct final_values *values;
    int64_t cut_ms;
};
// False: there is no valid plan for the club; *ret_refusal says why then, in words.
bool assembly_card_make(const struct card_input *input, struct assembly_card *ret_card,
                        char ret_refusal[PLAN_LINE_TEXT_MAX]);

#endif
