// Text that fits: broken into lines at blanks, then shrunk as one, never cut off.

#include "line_break.h"
#include "pen.h"

#include <stdio.h>
#include <string.h>

#define LINES_MAX 16
#define LINE_BYTES 256

struct lines {
    int count;
    bool fits; // no word is wider than the box, and not too many lines
    struct {
        const char *text; // in the text that was broken
        size_t bytes;
    } line[LINES_MAX];
};

static int text_width(TTF_Font *font, const char *text, size_t bytes) {
    char copy[LINE_BYTES];
    int width = 0;
    snprintf(copy, sizeof copy, "%.*s", (int)bytes, text);
    TTF_SizeUTF8(font, copy, &width, NULL);
    return width;
}

static int line_width(TTF_Font *font, const char *text) {
    return text_width(font, text, strlen(text));
}

// A measure is not broken apart: no line ends between a number and its fraction or unit.
static bool glued(const char *before, const char *word, size_t bytes) {
    if (!SDL_isdigit(before[-1]) || bytes == 0) {
        return false;
    }
    return SDL_isdigit(word[0]) ? memchr(word, '/', bytes) != NULL
                                : bytes <= 3 && SDL_isalpha(word[0]);
}

// Bytes up to the next place where a line may end.
static size_t unit_bytes(const char *at) {
    const char *end = at + line_unit(at);
    while (*end == ' ') {
        const char *next = end + strspn(end, " ");
        size_t bytes = line_unit(next);
        if (!glued(end, next, bytes)) {
            break;
        }
        end = next + bytes;
    }
    return (size_t)(end - at);
}

// Does the line that begins at `line` still fit when it reaches to `end`? The widths of its words
// add up to nearly, not exactly, its own.
static bool line_fits(TTF_Font *font, const char *line, const char *end, int sum, int width) {
    size_t bytes = (size_t)(end - line);
    if (sum > width || bytes >= LINE_BYTES) {
        return false;
    }
    return sum < width / 10 * 9 || text_width(font, line, bytes) <= width;
}

static struct lines break_lines(TTF_Font *font, const char *text, int width) {
    struct lines lines;
    const char *at = text + strspn(text, " ");
    int blank = line_width(font, " ");
    int used = 0;
    int space = 0; // before this unit
    lines.count = 0;
    lines.fits = true;
    while (*at != '\0') {
        size_t bytes = unit_bytes(at);
        int wide = text_width(font, at, bytes);
        if (wide > width || bytes >= LINE_BYTES) {
            lines.fits = false;
        }
        if (lines.count > 0 && line_fits(font, lines.line[lines.count - 1].text, at + bytes,
                                         used + space + wide, width)) {
            used += space + wide;
        } else if (lines.count == LINES_MAX) {
            lines.fits = false;
            break;
        } else {
            lines.line[lines.count++].text = at;
            used = wide;
        }
        at += bytes;
        lines.line[lines.count - 1].bytes = (size_t)(at - lines.line[lines.count - 1].text);
        space = *at == ' ' ? blank : 0;
        at += strspn(at, " ");
    }
    return lines;
}

static SDL_Texture *line_texture(struct screen *screen, TTF_Font *font, const struct style *style,
                                 int pixels, const char *line, SDL_Point *ret_size) {
    char key[LINE_BYTES + 40];
    SDL_Texture *texture;
    snprintf(key, sizeof key, "\x02%d %d %02x%02x%02x %s", style->face, pixels, style->colour.r,
             style->colour.g, style->colour.b, line);
    texture = images_find(screen, key, ret_size);
    if (texture == NULL) {
        texture = images_keep(screen, key, TTF_RenderUTF8_Blended(font, line, style->colour));
        if (texture != NULL) {
            SDL_QueryTexture(texture, NULL, NULL, &ret_size->x, &ret_size->y);
        }
    }
    return texture;
}

static void draw_line(struct screen *screen, TTF_Font *font, const struct style *style, int pixels,
                      SDL_Rect box, const char *text, size_t bytes) {
    char line[LINE_BYTES];
    SDL_Point size = {0, 0};
    SDL_Texture *texture = NULL;
    SDL_Rect to;
    snprintf(line, sizeof line, "%.*s", (int)bytes, text);
    if (screen->dry) {
        TTF_SizeUTF8(font, line, &size.x, &size.y);
    } else {
        texture = line_texture(screen, font, style, pixels, line, &size);
    }
    to = (SDL_Rect){box.x, box.y, size.x, size.y};
    to.x += style->align == ALIGN_CENTRE  ? (box.w - size.x) / 2
            : style->align == ALIGN_RIGHT ? box.w - size.x
                                          : 0;
    if (texture != NULL) {
        int bolder = fonts_bolder(style->face, pixels);
        SDL_Rect again = {to.x + bolder, to.y, to.w, to.h};
        SDL_RenderCopy(screen->renderer, texture, NULL, &to);
        if (bolder > 0) {
            SDL_RenderCopy(screen->renderer, texture, NULL, &again);
        }
    }
    if (screen->text_count < TEXTS_MAX) {
        // Letters reach from ascender to descender; the leading of a line may touch its neighbour.
        screen->text[screen->text_count++] =
            (struct drawn){{to.x, to.y + size.y / 8, size.x, size.y - size.y / 4},
                           style->colour,
                           fonts_caps(screen, style->face, pixels),
                           style->must};
    }
}

static void draw_lines(struct screen *screen, SDL_Rect box, const struct style *style, int pixels,
                       const struct lines *lines) {
    TTF_Font *font = fonts_get(screen, style->face, pixels);
    int step = TTF_FontLineSkip(font);
    int y = style->top ? box.y : box.y + (box.h - step * lines->count) / 2;
    for (int i = 0; i < lines->count; i++) {
        draw_line(screen, font, style, pixels, (SDL_Rect){box.x, y + i * step, box.w, step},
                  lines->line[i].text, lines->line[i].bytes);
    }
}

// The same number of lines, as even as can be.
static struct lines balance(TTF_Font *font, const char *text, int width, struct lines lines) {
    int bad = width / 2;
    while (lines.count > 1 && width - bad > 4) {
        int middle = (width + bad) / 2;
        struct lines narrow = break_lines(font, text, middle);
        if (narrow.fits && narrow.count == lines.count) {
            lines = narrow;
            width = middle;
        } else {
            bad = middle;
        }
    }
    return lines;
}

// 0: none beyond the style's own floor.
static int least_size(const struct screen *screen, const struct style *style) {
    return style->must ? screen->must : 0;
}

void pen_text(struct screen *screen, SDL_Rect box, const struct style *given, const char *text) {
    struct style in_face = *given;
    const struct style *style = &in_face;
    int least = least_size(screen, style);
    int floor = least > 0 ? least : px(screen, style->floor);
    if (text[0] == '\0') {
        return;
    }
    in_face.face = fonts_face(given->face, text);
    for (int pixels = SDL_max(px(screen, style->size), least);; pixels -= 1 + pixels / 24) {
        TTF_Font *font;
        struct lines lines;
        bool last = pixels <= floor;
        pixels = last ? floor : pixels;
        font = fonts_get(screen, style->face, pixels);
        if (font == NULL) {
            problem(screen, "no font", text);
            return;
        }
        lines = break_lines(font, text, box.w);
        if (lines.fits && (!style->one_line || last || lines.count == 1) &&
            lines.count * TTF_FontLineSkip(font) <= box.h + pixels / 5) {
            lines = style->align == ALIGN_CENTRE ? balance(font, text, box.w, lines) : lines;
            draw_lines(screen, box, style, pixels, &lines);
            return;
        }
        if (last) {
            problem(screen, "text does not fit", text);
            draw_lines(screen, box, style, pixels, &lines);
            return;
        }
    }
}

int pen_width(struct screen *screen, const struct style *style, const char *text) {
    TTF_Font *font = fonts_get(screen, fonts_face(style->face, text), px(screen, style->size));
    return font != NULL ? line_width(font, text) : 0;
}

static int height_at(struct screen *screen, const struct style *style, int pixels, const char *text,
                     int width) {
    TTF_Font *font = fonts_get(screen, fonts_face(style->face, text), pixels);
    struct lines lines;
    if (font == NULL) {
        return -1;
    }
    lines = break_lines(font, text, width);
    return lines.fits ? lines.count * TTF_FontLineSkip(font) : -1;
}

int pen_height(struct screen *screen, const struct style *style, const char *text, int width) {
    return height_at(screen, style, SDL_max(px(screen, style->size), least_size(screen, style)),
                     text, width);
}

int pen_room(struct screen *screen, const struct style *style, const char *text, int width,
             int least) {
    int size = least_size(screen, style);
    int height = size > 0 ? height_at(screen, style, size, text, width) : 0;
    return SDL_max(height, least);
}

int pen_digits_width(struct screen *screen, int height, const char *text) {
    enum face face = fonts_face(FACE_BOLD, text);
    TTF_Font *font = fonts_get(screen, face, fonts_size_for_caps(screen, face, height));
    return font != NULL ? line_width(font, text) : 0;
}

int pen_digits(struct screen *screen, int x, int y, int height, const struct style *style,
               const char *text) {
    enum face face = fonts_face(FACE_BOLD, text);
    int pixels = fonts_size_for_caps(screen, face, height);
    TTF_Font *font = fonts_get(screen, face, pixels);
    struct style bold = *style;
    size_t texts = screen->text_count;
    int width = 0;
    if (font == NULL) {
        return 0;
    }
    bold.face = face;
    width = line_width(font, text);
    draw_line(screen, font, &bold, pixels,
              (SDL_Rect){x, y - (TTF_FontAscent(font) - height), width, height}, text,
              strlen(text));
    if (screen->text_count > texts) {
        screen->text[texts].box = (SDL_Rect){x, y, width, height};
    }
    return width;
}
