#include "page.h"
#include "line_break.h"
#include "page_file.h"
#include "page_fonts.h"
#include "text.h"
#include "tongue.h"

#include <cairo-pdf.h>
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct page {
    struct page_file file;
    struct page_fonts fonts;
    cairo_surface_t *surface;
    cairo_t *cairo;
    const struct page_watch *watch;
    struct page_box sheet;
};

static const char *stamp; // of every page, NULL: none
static const char *stamp_named;

void page_stamp(const char *words, const char *named) {
    stamp = words;
    stamp_named = named;
}

static bool named(const char *path) {
    const char *slash = strrchr(path, '/');
    return stamp == NULL || strcasestr(slash != NULL ? slash + 1 : path, stamp_named) != NULL;
}

struct page_box page_sheet(enum page_paper paper, bool upright) {
    double shorter = paper == PAGE_A4 ? 210 * 72 / 25.4 : 8.5 * 72;
    double longer = paper == PAGE_A4 ? 297 * 72 / 25.4 : 11 * 72;
    return (struct page_box){0, 0, upright ? shorter : longer, upright ? longer : shorter};
}

static cairo_status_t take_bytes(void *of, const unsigned char *bytes, unsigned size) {
    struct page *page = of;
    return page_file_write(&page->file, bytes, size) ? CAIRO_STATUS_SUCCESS
                                                     : CAIRO_STATUS_WRITE_ERROR;
}

// Text has the same proportions at any size, so that what was measured is what is drawn.
static void set_up(cairo_t *cairo) {
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_set_font_options(cairo, options);
    cairo_font_options_destroy(options);
}

bool page_open(const char *path, const char *fonts, struct page **ret_page, char *message,
               size_t size) {
    if (!named(path)) {
        snprintf(message, size,
                 _("%.400s would pass for real: name a file with \"%s\" in its name."), path,
                 stamp_named);
        return false;
    }
    struct page *page = calloc(1, sizeof *page);
    if (page == NULL) {
        snprintf(message, size, _("No memory for a page."));
        return false;
    }
    if (!page_fonts_init(&page->fonts, fonts, message, size)) {
        free(page);
        return false;
    }
    if (!page_file_open(&page->file, path)) {
        snprintf(message, size, _("Cannot write %.400s: %s."), path, strerror(errno));
        page_fonts_release(&page->fonts);
        free(page);
        return false;
    }
    struct page_box sheet = page_sheet(PAGE_A4, true);
    page->surface =
        cairo_pdf_surface_create_for_stream(take_bytes, page, sheet.width, sheet.height);
    page->cairo = cairo_create(page->surface);
    set_up(page->cairo);
    *ret_page = page;
    return true;
}

// From corner to corner, as large as the sheet lets it be.
static void draw_stamp(struct page *page) {
    cairo_text_extents_t ink;
    double diagonal = hypot(page->sheet.width, page->sheet.height);
    if (stamp == NULL) {
        return;
    }
    cairo_save(page->cairo);
    cairo_set_font_face(page->cairo, page->fonts.face[PAGE_BOLD]);
    cairo_set_font_size(page->cairo, 100);
    cairo_text_extents(page->cairo, stamp, &ink);
    cairo_translate(page->cairo, page->sheet.width / 2, page->sheet.height / 2);
    cairo_rotate(page->cairo, -atan2(page->sheet.height, page->sheet.width));
    cairo_scale(page->cairo, 0.7 * diagonal / ink.width, 0.7 * diagonal / ink.width);
    cairo_move_to(page->cairo, -ink.width / 2 - ink.x_bearing, -ink.height / 2 - ink.y_bearing);
    cairo_set_source_rgb(page->cairo, 0.82, 0.82, 0.82);
    cairo_show_text(page->cairo, stamp);
    cairo_restore(page->cairo);
}

void page_begin(struct page *page, const struct page_box *sheet, const char *title,
                const struct page_watch *watch) {
    cairo_pdf_surface_set_size(page->surface, sheet->width, sheet->height);
    char whole[PAGE_WORDS_MAX];
    snprintf(whole, sizeof whole, "%s%s%s", stamp != NULL ? stamp : "", stamp != NULL ? ": " : "",
             title);
    cairo_pdf_surface_set_metadata(page->surface, CAIRO_PDF_METADATA_TITLE, whole);
    page->watch = watch;
    page->sheet = *sheet;
    draw_stamp(page);
}

void page_next(struct page *page) {
    cairo_show_page(page->cairo);
    draw_stamp(page);
    if (page->watch != NULL && page->watch->turned != NULL) {
        page->watch->turned(page->watch->of);
    }
}

bool page_save(struct page *page, char *message, size_t size) {
    cairo_show_page(page->cairo);
    cairo_surface_finish(page->surface);
    cairo_status_t status = cairo_status(page->cairo);
    if (status == CAIRO_STATUS_SUCCESS) {
        status = cairo_surface_status(page->surface);
    }
    if (page->file.error == 0 && status != CAIRO_STATUS_SUCCESS) {
        snprintf(message, size, _("Cannot write %.400s: %s."), page->file.path,
                 cairo_status_to_string(status));
        page_file_drop(&page->file);
        return false;
    }
    if (!page_file_keep(&page->file)) {
        snprintf(message, size, _("Cannot write %.400s: %s."), page->file.path,
                 strerror(page->file.error));
        return false;
    }
    return true;
}

void page_close(struct page *page) {
    if (page == NULL) {
        return;
    }
    page_file_drop(&page->file);
    page->file.error = EBADF; // the surface may still want to write
    cairo_destroy(page->cairo);
    cairo_surface_destroy(page->surface);
    page_fonts_release(&page->fonts);
    free(page);
}

// --- text --------------------------------------------------------------------------------------

// cairo refuses to draw anything more after a text that is no UTF-8.
static void clean(const char *words, char buffer[PAGE_WORDS_MAX]) {
    size_t left = strlen(words);
    struct text text = text_open(buffer, PAGE_WORDS_MAX);
    while (left > 0) {
        size_t size = text_utf8_size(words, left);
        if (size == 0 || (size == 1 && ((unsigned char)*words < 0x20 || *words == 0x7F))) {
            text_add(&text, "?");
            size = 1;
        } else {
            text_add_bytes(&text, words, size);
        }
        words += size;
        left -= size;
    }
}

static cairo_text_extents_t extents(struct page *page, enum page_font font, double size,
                                    const char *words) {
    cairo_text_extents_t found;
    cairo_set_font_face(page->cairo, page_fonts_face(&page->fonts, font, words));
    cairo_set_font_size(page->cairo, size);
    cairo_text_extents(page->cairo, words, &found);
    return found;
}

double page_width(struct page *page, enum page_font font, double size, const char *words) {
    char cleaned[PAGE_WORDS_MAX];
    clean(words, cleaned);
    return extents(page, font, size, cleaned).x_advance;
}

static void tell(const struct page *page, const char *words, const struct page_box *box) {
    if (page->watch != NULL) {
        page->watch->saw(page->watch->of, words, box);
    }
}

void page_text(struct page *page, enum page_font font, double size, enum page_align align, double x,
               double baseline, const char *words) {
    char cleaned[PAGE_WORDS_MAX];
    clean(words, cleaned);
    cairo_text_extents_t found = extents(page, font, size, cleaned);
    x -= align == PAGE_LEFT ? 0 : align == PAGE_CENTRE ? found.x_advance / 2 : found.x_advance;
    cairo_set_source_rgb(page->cairo, 0, 0, 0);
    cairo_move_to(page->cairo, x, baseline);
    cairo_show_text(page->cairo, cleaned);
    tell(page, cleaned,
         &(struct page_box){x + found.x_bearing, baseline + found.y_bearing, found.width,
                            found.height});
}

struct wrapping {
    void (*line)(void *of, size_t index, const char *words);
    void *of;
    size_t count;
};

static void give_line(struct wrapping *wrapping, const char *words, size_t size) {
    char line[PAGE_WORDS_MAX];
    snprintf(line, sizeof line, "%.*s", (int)size, words);
    if (wrapping->line != NULL) {
        wrapping->line(wrapping->of, wrapping->count, line);
    }
    wrapping->count++;
}

static bool fits(struct page *page, enum page_font font, double size, double width,
                 const char *words, size_t bytes) {
    char line[PAGE_WORDS_MAX];
    if (bytes >= sizeof line) {
        return false;
    }
    snprintf(line, sizeof line, "%.*s", (int)bytes, words);
    return page_width(page, font, size, line) <= width;
}

static size_t next_character(const char *words) {
    size_t size = text_utf8_size(words, strlen(words));
    return size > 0 ? size : 1;
}

// Bytes of the longest start of `words` that fits and ends before a blank; or, when not even the
// first word fits, that fits at all; one character at least.
static size_t line_size(struct page *page, enum page_font font, double size, double width,
                        const char *words) {
    size_t kept = 0;
    for (size_t end = line_unit(words); fits(page, font, size, width, words, end);) {
        kept = end;
        if (words[end] == '\0') {
            return kept;
        }
        end += strspn(words + end, " ");
        end += line_unit(words + end);
    }
    if (kept > 0) {
        return kept;
    }
    kept = next_character(words);
    while (words[kept] != '\0') {
        size_t more = kept + next_character(words + kept);
        if (!fits(page, font, size, width, words, more)) {
            break;
        }
        kept = more;
    }
    return kept;
}

size_t page_wrap(struct page *page, enum page_font font, double size, double width,
                 const char *words, void (*line)(void *of, size_t index, const char *words),
                 void *of) {
    struct wrapping wrapping = {line, of, 0};
    while (*words != '\0') {
        size_t bytes = line_size(page, font, size, width, words);
        give_line(&wrapping, words, bytes);
        words += bytes;
        words += strspn(words, " ");
    }
    return wrapping.count;
}

// --- shapes ------------------------------------------------------------------------------------

void page_line(struct page *page, double x1, double y1, double x2, double y2, double width,
               double grey) {
    cairo_set_source_rgb(page->cairo, grey, grey, grey);
    cairo_set_line_width(page->cairo, width);
    cairo_move_to(page->cairo, x1, y1);
    cairo_line_to(page->cairo, x2, y2);
    cairo_stroke(page->cairo);
    tell(page, NULL, &(struct page_box){fmin(x1, x2), fmin(y1, y2), fabs(x2 - x1), fabs(y2 - y1)});
}

void page_fill(struct page *page, const struct page_box *box, double grey) {
    cairo_set_source_rgb(page->cairo, grey, grey, grey);
    cairo_rectangle(page->cairo, box->x, box->y, box->width, box->height);
    cairo_fill(page->cairo);
    tell(page, NULL, box);
}

void page_fill_all(struct page *page, const struct page_box *boxes, size_t count) {
    struct page_box all = boxes[0];
    cairo_set_source_rgb(page->cairo, 0, 0, 0);
    for (size_t i = 0; i < count; i++) {
        double right = fmax(all.x + all.width, boxes[i].x + boxes[i].width);
        double bottom = fmax(all.y + all.height, boxes[i].y + boxes[i].height);
        cairo_rectangle(page->cairo, boxes[i].x, boxes[i].y, boxes[i].width, boxes[i].height);
        all.x = fmin(all.x, boxes[i].x);
        all.y = fmin(all.y, boxes[i].y);
        all.width = right - all.x;
        all.height = bottom - all.y;
    }
    cairo_fill(page->cairo);
    tell(page, NULL, &all);
}

void page_frame(struct page *page, const struct page_box *box, double width) {
    cairo_set_source_rgb(page->cairo, 0, 0, 0);
    cairo_set_line_width(page->cairo, width);
    cairo_rectangle(page->cairo, box->x, box->y, box->width, box->height);
    cairo_stroke(page->cairo);
    tell(page, NULL, box);
}

void page_dot(struct page *page, double x, double y, double radius, bool filled) {
    cairo_set_source_rgb(page->cairo, 0, 0, 0);
    cairo_new_sub_path(page->cairo);
    cairo_arc(page->cairo, x, y, radius, 0, 2 * 3.14159265358979);
    if (filled) {
        cairo_fill(page->cairo);
    } else {
        cairo_set_line_width(page->cairo, radius / 3);
        cairo_stroke(page->cairo);
    }
    tell(page, NULL, &(struct page_box){x - radius, y - radius, 2 * radius, 2 * radius});
}
