#ifndef STAND_H
#define STAND_H

// The desk with its office before a real store in a folder of its own, worked as somebody would:
// scans, keys, touches, a scale. Saving and printing can be made to fail.

#include "fixture.h"
#include "office.h"

// What becomes of the next entries; all after them are saved.
enum stand_save { SAVES, SAVE_FAILS, SAVE_UNKNOWN_THERE, SAVE_UNKNOWN_LOST };

struct stand {
    struct fixture fixture;
    struct station_settings settings;
    struct station_ops world;
    struct office office;
    struct desk_ops ops;
    struct desk desk;
    struct view view;
    int64_t wall_ms; // 2026-11-30 08:15 in UTC, which is this workshop's time
    enum stand_save save;
    int deeds;
    enum desk_deed deed; // the last
    char deed_of[DESK_KEY_MAX];
    bool printer_fails;
};

int stand_open(void **state);
int stand_close(void **state);

// Ada, a builder, or Bo, who has a supervisor's rights.
void stand_enter(struct stand *stand, bool supervisor);
void stand_form(struct stand *stand, enum desk_form form);
void stand_form_of(struct stand *stand, enum desk_form form, const char *a, const char *b,
                   const char *c);
void stand_list(struct stand *stand, enum desk_list list, const char *a, const char *b,
                const char *c);

void stand_scan(struct stand *stand, const char *text);
void stand_type(struct stand *stand, const char *text);
void stand_enter_key(struct stand *stand);
void stand_action(struct stand *stand, enum view_action_id id, int64_t argument);
void stand_key(struct stand *stand, const char *key); // what stands on the screen with it
// Types into a field of the form, whichever is active, and leaves it.
void stand_fill(struct stand *stand, const char *cell, const char *text);
bool stand_weigh(struct stand *stand, mass_mg mass, bool stable);

const struct view *stand_view(struct stand *stand);
void stand_at(struct stand *stand, const char *where);
// What stands in a field; and its unit.
const char *stand_cell(struct stand *stand, const char *cell);
const char *stand_unit(struct stand *stand, const char *label);
// These words stand on the screen: in the band, a note, a cell.
bool stand_sees(struct stand *stand, const char *words);
void stand_see(struct stand *stand, const char *words);
int64_t stand_number(struct stand *stand, const char *sql);

#endif
