#include "strokes.h"

#include "layouts.h"
#include "length.h"
#include "text.h"
#include "ticket.h"

#include <string.h>

void strokes_add(struct strokes *strokes, struct stroke stroke) {
    if (strokes->count == STROKES_TEXT_MAX - 1) {
        strokes->over = true;
        return;
    }
    strokes->stroke[strokes->count++] = stroke;
}

// `flipped`: Shift the wrong way round, as scanners do that make up for a Caps Lock.
static char char_under(struct stroke stroke, enum layout layout, bool flipped) {
    bool shift = ((stroke.mods & STROKE_SHIFT) != 0) != flipped;
    enum layout_level level = shift ? LEVEL_SHIFT : LEVEL_PLAIN;
    if ((stroke.mods & STROKE_ALTGR) != 0 && layout != LAYOUT_US) {
        level = LEVEL_ALTGR;
    }
    return layout_char(layout, stroke.code, level);
}

char stroke_char(struct stroke stroke) {
    char c = char_under(stroke, LAYOUT_US, false);
    if ((stroke.mods & (STROKE_ALT | STROKE_CTRL)) == STROKE_ALT) {
        return '\0';
    }
    if ((stroke.mods & STROKE_CTRL) == 0) {
        return c;
    }
    // ASCII: Ctrl takes off all but the five low bits of the characters from `@` on.
    return c >= '@' ? (char)(c & 0x1F) : '\0';
}

// Keys that write something else than ASCII there give `?`.
static void under(const struct strokes *strokes, enum layout layout, bool flipped, char *buffer) {
    for (size_t i = 0; i < strokes->count; i++) {
        char c = char_under(strokes->stroke[i], layout, flipped);
        buffer[i] = c != '\0' ? c : '?';
    }
    buffer[strokes->count] = '\0';
}

void strokes_text(const struct strokes *strokes, char *buffer) {
    size_t used = 0;
    for (size_t i = 0; i < strokes->count; i++) {
        char c = stroke_char(strokes->stroke[i]);
        if (c != '\0') {
            buffer[used++] = c;
        }
    }
    if (strokes->over) {
        used = used < STROKES_TEXT_MAX - 4 ? used : STROKES_TEXT_MAX - 4;
        memcpy(buffer + used, "...", 3);
        used += 3;
    }
    buffer[used] = '\0';
}

static bool alphanumeric(char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

const char *strokes_content(const char *text, const char *prefix, char *ret_aim) {
    size_t size = strlen(prefix);
    if (strncmp(text, prefix, size) == 0) {
        text += size;
    }
    if (ret_aim != NULL) {
        memset(ret_aim, 0, 4);
    }
    if (text[0] == ']' && alphanumeric(text[1]) && alphanumeric(text[2])) {
        if (ret_aim != NULL) {
            memcpy(ret_aim, text, 3);
        }
        text += 3;
    }
    return text;
}

static bool sound(const char *text) {
    struct ticket ticket;
    length_nm length;
    return ticket_parse(text, &ticket) == TICKET_OK || ticket_gtin_valid(text) ||
           length_parse(text, LENGTH_UNIT_INCH, &length, NULL) == LENGTH_OK;
}

static bool ticket_under(const struct strokes *strokes, const char *prefix, enum layout layout,
                         bool flipped) {
    char text[STROKES_TEXT_MAX];
    struct ticket ticket;
    under(strokes, layout, flipped, text);
    return ticket_parse(strokes_content(text, prefix, NULL), &ticket) == TICKET_OK;
}

// `German, Spanish or Italian`
static void name_all(struct text *out, const enum layout *layouts, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (i > 0) {
            text_add(out, i + 1 == count ? " or " : ", ");
        }
        text_add(out, layout_name(layouts[i]));
    }
}

bool strokes_layouts(const struct strokes *strokes, const char *prefix, char *buffer) {
    enum layout found[LAYOUT_COUNT];
    size_t count = 0;
    struct text out;
    for (int i = 0; i < LAYOUT_COUNT; i++) {
        if (i != LAYOUT_US && ticket_under(strokes, prefix, (enum layout)i, false)) {
            found[count++] = (enum layout)i;
        }
    }
    if (count > 0) {
        out = text_open(buffer, STROKES_TEXT_MAX);
        name_all(&out, found, count);
    }
    return count > 0;
}

bool strokes_foreign(const struct strokes *strokes, const char *prefix, char *buffer) {
    char text[STROKES_TEXT_MAX];
    char names[STROKES_TEXT_MAX];
    struct text out;
    strokes_text(strokes, text);
    if (strokes->over || sound(strokes_content(text, prefix, NULL))) {
        return false;
    }
    if (strokes_layouts(strokes, prefix, names)) {
        out = text_open(buffer, STROKES_TEXT_MAX);
        text_add(&out, "The scanner or keyboard is set to ");
        text_add(&out, names);
        text_add(&out, ". Set it to US English.");
        return true;
    }
    if (ticket_under(strokes, prefix, LAYOUT_US, true)) {
        out = text_open(buffer, STROKES_TEXT_MAX);
        text_add(&out, "The scanner turns Shift round, as if Caps Lock were on. Turn its Caps Lock "
                       "setting off.");
        return true;
    }
    return false;
}
