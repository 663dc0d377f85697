#ifndef LISTS_H
#define LISTS_H

// What the shop has, for people who look for it: heads, shafts, models, charts. Each list goes by
// ticket or name, a page at a time, from behind `after` (empty: from the first); with `find` it has
// only what contains that in ticket, model or flex, whatever the case of A to Z. Each returns how
// many lines there are, or -1 and store_message says why. And what was changed of it.

#include "store.h"

struct part_line {
    char ticket[TICKET_TEXT_MAX];
    char model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX]; // shafts
    mass_mg weight;
    length_nm length; // bore height of a head; of a shaft what is left, raw if it is raw
    char rack[PARTS_RACK_MAX];
    enum part_life life;
    char build[PARTS_BUILD_MAX]; // it is reserved for, empty: free
    char club[PARTS_SHORT_MAX];
};
int store_heads(struct store *store, const char *find, const char *after, struct part_line *lines,
                int max);
int store_shafts(struct store *store, const char *find, const char *after, struct part_line *lines,
                 int max);

struct model_line {
    char name[PARTS_NAME_MAX];
    char kind[16];                // of a head: its kind; of a shaft: its material
    char detail[PARTS_SHORT_MAX]; // engraved; kind of tip
    mass_mg weight;               // the maker's
    length_nm diameter;           // hosel bore; tip
    int64_t revision;
};
int store_head_models(struct store *store, const char *find, const char *after,
                      struct model_line *lines, int max);
int store_shaft_models(struct store *store, const char *find, const char *after,
                       struct model_line *lines, int max);

struct chart_line {
    char model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX];
    char kind[PARTS_SHORT_MAX];
    int64_t revision;
    int columns; // of that revision; 0: the maker has none any more
};
// `after` may be NULL.
int store_charts(struct store *store, const char *find, const struct chart_line *after,
                 struct chart_line *lines, int max);
// One revision as it was, 0: the newest. STORE_NONE: there is none of that number.
enum store_result store_chart_revision(struct store *store, const char *model, const char *flex,
                                       const char *kind, int64_t revision, struct chart *ret_chart);
// Flexes that charts, profiles or shafts of the model name, sorted.
int store_flexes(struct store *store, const char *model, char flexes[][PARTS_SHORT_MAX], int max);

// Clubs that are neither done nor cancelled and have both parts, whose plans a change of a model or
// its chart may touch: with a shaft of the model (of one flex, or empty: of any); in a build with a
// head of the model, since its bore height may be the build's reference. By due date. The first
// `max`; returns how many, or -1.
int store_open_of_shaft(struct store *store, const char *model, const char *flex, int64_t *ids,
                        int max);
int store_open_of_head(struct store *store, const char *model, int64_t *ids, int max);

// A change as the log has it.
#define CHANGED_WORDS_MAX 256
#define CHANGED_THING_MAX (CHANGE_KEYS_MAX * CHANGE_VALUE_MAX)
struct changed_line {
    int64_t seq;
    int64_t wall_ms;
    char worker[TICKET_TEXT_MAX];
    char sheet[CHANGE_NAME_MAX];
    char thing[CHANGED_THING_MAX]; // its key cells, joined by tabs
    bool made;                     // it was not there before
    bool taken;                    // it is not there any more
    int64_t revision;              // that it made; 0: none is kept of it, or it is not known
    char words[CHANGED_WORDS_MAX]; // change_words
    char note[ENTRY_NOTE_MAX];     // why
    int64_t takes_back;            // the entry it took back, 0: none
    int64_t taken_back;            // the entry that took it back, 0: none
};
// Newest first, entries before `before` (0: from the newest). `sheet` NULL: of all sheets. `thing`
// NULL: of everything on it; else of whatever has these first key cells, joined by tabs: `2041` of
// the builds has all its clubs.
int store_changes(struct store *store, const char *sheet, const char *thing, int64_t before,
                  struct changed_line *lines, int max);

#endif
