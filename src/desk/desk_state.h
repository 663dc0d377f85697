#ifndef DESK_STATE_H
#define DESK_STATE_H

// Private to src/desk; complete only so that a desk can be copied by value.

#define DESK_DEPTH 8
#define DESK_PAGES 48
struct desk_page {
    struct desk_place place;
    // lists
    int page;
    struct desk_ref after[DESK_PAGES]; // where each page begins
    bool has_selected;
    struct desk_ref selected;
    char find[DESK_KEY_MAX];
};

struct desk_work {
    struct desk_draft draft;
    struct desk_remarks remarks;
    int field;
    bool selected;                // what is typed takes the place of what stands there
    bool tried;                   // to be saved: what is still empty is wrong from now on
    bool leaving;                 // left once with something unsaved
    bool keys;                    // on the screen
    bool weighed;                 // what stands in the active field lies on the scale
    char extra[CHANGE_VALUE_MAX]; // of the empty line below a chart's columns
};

struct desk_scale {
    mass_mg mass; // on it now, MASS_UNKNOWN: not known
    bool stable;
    mass_mg taken; // taken for a part that still lies there; MASS_UNKNOWN: none
};

struct desk {
    const struct desk_ops *ops;
    struct worker worker;
    struct worker supervisor; // badge empty: none
    size_t depth;             // pages open, from 1
    struct desk_page page[DESK_DEPTH];
    struct desk_work work; // of the form on top
    struct desk_scale scale;
    struct desk_place wanted; // opened once a supervisor is there
    char message[VIEW_TEXT_MAX];
    enum view_tone tone;
};

#endif
