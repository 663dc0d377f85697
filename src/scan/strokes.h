#ifndef STROKES_H
#define STROKES_H

// Key strokes kept as they came, so that they can be read under more than one layout. Pure.

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define STROKES_TEXT_MAX 128 // WEDGE_TEXT_MAX

struct stroke {
    uint16_t code; // KEY_*
    uint8_t mods;  // STROKE_*
};
#define STROKE_SHIFT 1u
#define STROKE_CTRL 2u
#define STROKE_ALT 4u
#define STROKE_ALTGR 8u

// At most STROKES_TEXT_MAX - 1 of them; `over` when more came.
struct strokes {
    size_t count;
    bool over;
    struct stroke stroke[STROKES_TEXT_MAX - 1];
};

void strokes_add(struct strokes *strokes, struct stroke stroke);

// The character of a stroke on a US keyboard, 0 for none. With Ctrl the control character:
// scanners send GS as Ctrl+].
char stroke_char(struct stroke stroke);

// What the strokes write on a US keyboard. Text that did not fit ends in `...`, so that its
// beginning is never taken for the whole. buffer holds STROKES_TEXT_MAX.
void strokes_text(const struct strokes *strokes, char *buffer);

// True when the strokes are no ticket, length or GTIN as a US keyboard writes them, and are a
// valid ticket, `prefix` and AIM identifier left out, under another layout or with Shift the wrong
// way round. buffer (STROKES_TEXT_MAX) then names what the scanner is set to and says what to do.
bool strokes_foreign(const struct strokes *strokes, const char *prefix, char *buffer);

// The layouts under which the strokes are a ticket, US English left out: `German or Italian`.
// False when there is none.
bool strokes_layouts(const struct strokes *strokes, const char *prefix, char *buffer);

// Behind `prefix` and the AIM identifier (AIM Symbology Identifier: `]`, a code letter, a modifier,
// as in `]C0`), which goes to ret_aim (4 bytes, may be NULL).
const char *strokes_content(const char *text, const char *prefix, char *ret_aim);

#endif
