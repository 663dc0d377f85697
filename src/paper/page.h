#ifndef PAGE_H
#define PAGE_H

// Pages of paper in PDF, black on white, in the bundled B612; no font of the system is needed.
//
// All sizes are points (1/72 in), from the upper left corner of the page. Nothing is drawn before
// page_begin; text can be measured from page_open on. A failure is kept: page_save tells it, and
// leaves nothing half-written behind. One thread.

#include <stdbool.h>
#include <stddef.h>

enum page_paper { PAGE_A4, PAGE_LETTER };
enum page_font { PAGE_REGULAR, PAGE_BOLD, PAGE_FONT_COUNT };
enum page_align { PAGE_LEFT, PAGE_CENTRE, PAGE_RIGHT };

#define PAGE_MARGIN 34.0 // 12 mm, what every office printer leaves
#define PAGE_WORDS_MAX 512

struct page; // opaque

struct page_box {
    double x;
    double y;
    double width;
    double height;
};

// For tests: told of every text, with the box of its ink, of every other box, and of pages that end
// before the last (NULL: not told).
struct page_watch {
    void (*saw)(void *of, const char *words, const struct page_box *box);
    void *of;
    void (*turned)(void *of);
};

// Width and height of the paper on its side (landscape) or upright.
struct page_box page_sheet(enum page_paper paper, bool upright);

// From now on every page of this program has these words across it, pale and beneath everything
// else, and before its title, and a file is refused whose name has not `named` in it. Both must
// outlive the pages; NULL: none any more.
void page_stamp(const char *words, const char *named);

// Writes to a file beside `path` until page_save. `fonts` is the folder of the font files. False:
// `message` says why and what to do, and there is nothing to close.
bool page_open(const char *path, const char *fonts, struct page **ret_page, char *message,
               size_t size);
// `watch` may be NULL.
void page_begin(struct page *page, const struct page_box *sheet, const char *title,
                const struct page_watch *watch);
// Ends the page; the next is as large.
void page_next(struct page *page);
// Ends the page and puts the file in its place, replacing one of that name.
bool page_save(struct page *page, char *message, size_t size);
// Takes NULL; without page_save nothing stays on the disk.
void page_close(struct page *page);

// Words longer than PAGE_WORDS_MAX bytes are cut there; what is no UTF-8 shows as `?`.
double page_width(struct page *page, enum page_font font, double size, const char *words);
void page_text(struct page *page, enum page_font font, double size, enum page_align align, double x,
               double baseline, const char *words);
// Height of a capital or a digit, for the fonts above.
#define PAGE_CAP(size) (0.72 * (size))
// How far letters like g hang below the line.
#define PAGE_DESCENT(size) (0.22 * (size))

// Grey 0 is black.
void page_line(struct page *page, double x1, double y1, double x2, double y2, double width,
               double grey);
void page_fill(struct page *page, const struct page_box *box, double grey);
// All of them as one shape: boxes that touch show no seam.
void page_fill_all(struct page *page, const struct page_box *boxes, size_t count);
void page_frame(struct page *page, const struct page_box *box, double width);
void page_dot(struct page *page, double x, double y, double radius, bool filled);

// Breaks words into lines of at most `width`; calls `line` for each, which may be NULL. A word that
// is too long for a line is broken anywhere. Returns how many lines there are.
size_t page_wrap(struct page *page, enum page_font font, double size, double width,
                 const char *words, void (*line)(void *of, size_t index, const char *words),
                 void *of);

#endif
