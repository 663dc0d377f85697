#ifndef LAYOUTS_H
#define LAYOUTS_H

// What the keys of a keyboard write under the layouts scanners can be set to. Pure.
//
// Only ASCII characters are known; anything else a layout writes (letters with accents, dead
// keys) is 0. The tables are those of XKB's pc105 `us`, `gb`, `de`, `fr`, `es` and `it`, which a
// test compares key by key.

#include <stdbool.h>
#include <stdint.h>

enum layout { LAYOUT_US, LAYOUT_UK, LAYOUT_DE, LAYOUT_FR, LAYOUT_ES, LAYOUT_IT, LAYOUT_COUNT };

enum layout_level { LEVEL_PLAIN, LEVEL_SHIFT, LEVEL_ALTGR, LEVEL_COUNT };

// The character of a key (KEY_*) at a level, 0 for none. Keypad keys write the same everywhere.
char layout_char(enum layout layout, uint16_t code, enum layout_level level);

// The key and level that write `c`, keypad left out. False when none does.
bool layout_key(enum layout layout, char c, uint16_t *ret_code, enum layout_level *ret_level);

// "US English", "German" ...
const char *layout_name(enum layout layout);

#endif
