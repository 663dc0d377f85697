// One ticket: where everything stands on it, and its codes measured on the printer's dots.

#include "pile.h"
#include "raster.h"
#include "ticket_code.h"
#include "ticket_wrap.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define MM (72 / 25.4)

struct placed {
    struct page_box box; // of its dark parts
    struct ticket_code code;
    double module;
};

// The border is seen first, then words, and each code as one shape.
static size_t find_codes(const struct pile *pile, struct placed placed[2]) {
    size_t count = 0;
    for (size_t i = 1; i < pile->seen.count; i++) {
        if (pile->seen.words[i][0] != '\0') {
            continue;
        }
        assert_true(count < 2);
        struct placed *at = &placed[count++];
        at->box = pile->seen.box[i];
        bool square = fabs(at->box.width - at->box.height) < 0.01;
        const char *text = pile->label[0].ticket;
        assert_true(square ? ticket_code_qr(text, &at->code) : ticket_code_bars(text, &at->code));
        at->module = (at->box.width + (square ? 0 : 0.1 * pile->sheet.stock->dot)) / at->code.width;
    }
    return count;
}

static bool overlap(const struct page_box *a, const struct page_box *b) {
    const double slack = 0.05;
    return a->x + a->width > b->x + slack && b->x + b->width > a->x + slack &&
           a->y + a->height > b->y + slack && b->y + b->height > a->y + slack;
}

static bool within(const struct page_box *a, const struct page_box *b) {
    const double slack = 0.05;
    return a->x > b->x - slack && a->y > b->y - slack &&
           a->x + a->width < b->x + b->width + slack && a->y + a->height < b->y + b->height + slack;
}

static struct page_box with_quiet(const struct placed *placed) {
    bool bars = placed->code.rows == 1;
    double x = (bars ? TICKET_CODE_QUIET_BARS : TICKET_CODE_QUIET_QR) * placed->module;
    double y = bars ? 0 : x;
    return (struct page_box){placed->box.x - x, placed->box.y - y, placed->box.width + 2 * x,
                             placed->box.height + 2 * y};
}

static void words_keep_apart(const struct pile *pile, const struct placed *placed, size_t codes,
                             const char *what) {
    const struct job_seen *seen = &pile->seen;
    for (size_t i = 1; i < seen->count; i++) {
        if (!within(&seen->box[i], &seen->box[0])) {
            fail_msg("%s: \"%s\" leaves the ticket", what, seen->words[i]);
        }
        for (size_t k = 1; k < i; k++) {
            if (overlap(&seen->box[i], &seen->box[k])) {
                fail_msg("%s: \"%s\" overlaps \"%s\"", what, seen->words[i], seen->words[k]);
            }
        }
        for (size_t k = 0; k < codes; k++) {
            struct page_box quiet = with_quiet(&placed[k]);
            if (seen->words[i][0] != '\0' && overlap(&seen->box[i], &quiet)) {
                fail_msg("%s: \"%s\" is in a quiet zone", what, seen->words[i]);
            }
        }
    }
    for (size_t k = 0; k < codes; k++) {
        struct page_box quiet = with_quiet(&placed[k]);
        if (!within(&quiet, &seen->box[0])) {
            fail_msg("%s: a quiet zone leaves the ticket", what);
        }
    }
}

// Every dot of the code and its quiet zone is what the modules say, at the printer's resolution.
static void dots_are_modules(const struct pile *pile, const struct raster *raster,
                             const struct placed *placed, const char *what) {
    double dot = pile->sheet.stock->dot;
    int module = (int)lround(placed->module / dot);
    int left = (int)lround(placed->box.x / dot);
    bool bars = placed->code.rows == 1;
    int quiet = bars ? TICKET_CODE_QUIET_BARS : TICKET_CODE_QUIET_QR;
    int top = (int)lround(placed->box.y / dot) + (bars ? 1 : 0); // rows are not on dots
    int rows = bars ? 1 : placed->code.rows;
    int height = bars ? (int)(placed->box.height / dot) - 2 : module;
    if (fabs(placed->module / dot - module) > 0.001 || fabs(placed->box.x / dot - left) > 0.1) {
        fail_msg("%s: module %.3f dots, from dot %.3f", what, placed->module / dot,
                 placed->box.x / dot);
    }
    for (int y = bars ? 0 : -quiet; y < rows + (bars ? 0 : quiet); y++) {
        for (int x = -quiet; x < placed->code.width + quiet; x++) {
            bool inside = y >= 0 && y < rows && x >= 0 && x < placed->code.width;
            bool dark = inside && placed->code.dark[y][x];
            for (int d = 0; d < module * height; d++) {
                int at_x = left + x * module + d % module;
                int at_y = top + y * module + d / module;
                if (raster_dark(raster, at_x, at_y) != dark) {
                    fail_msg("%s: module %d, %d is wrong at dot %d, %d", what, x, y, at_x, at_y);
                }
            }
        }
    }
}

static const struct page_box *number_box(const struct pile *pile) {
    for (size_t i = 1; i < pile->seen.count; i++) {
        if (strcmp(pile->seen.words[i], pile->label[0].ticket) == 0) {
            return &pile->seen.box[i];
        }
    }
    fail_msg("no number");
    return NULL;
}

// The number alone is enough when the code is gone: capitals of 4 mm and more, on a thin shaft and
// of the longest numbers 2.5 mm and more. Sizes of modules: at least 0.25 mm, QR on a flat ticket
// 0.5 mm (our own rules; common practice calls 2 to 3 printer's dots the least).
static void sizes(const struct pile *pile, const struct placed *placed, size_t codes,
                  const char *what) {
    const struct ticket_label *label = &pile->label[0];
    bool longest = strlen(label->ticket) == TICKET_TEXT_MAX - 1;
    double least = longest || label->wraps ? 2.5 : 4;
    if (number_box(pile)->height < least * MM) {
        fail_msg("%s: number of %.2f mm", what, number_box(pile)->height / MM);
    }
    assert_int_equal(codes, label->wraps && longest ? 1 : 2);
    for (size_t i = 0; i < codes; i++) {
        bool bars = placed[i].code.rows == 1;
        double module = bars || label->wraps ? 0.2499 : 0.4999;
        if (placed[i].module < module * MM) {
            fail_msg("%s: module of %.3f mm", what, placed[i].module / MM);
        }
        double most = (double)ticket_wrap_height(label->diameter) / LENGTH_MM * MM;
        if (label->wraps && placed[i].box.height > most + 0.001) {
            fail_msg("%s: %.2f mm around the tube", what, placed[i].box.height / MM);
        }
        // 5 mm and 15 % of the width: the usual least for reading by hand (from memory)
        double width = placed[i].code.width * placed[i].module;
        if (bars && (placed[i].box.height < 5 * MM ||
                     (!label->wraps && placed[i].box.height < 0.14 * width))) {
            fail_msg("%s: bars %.2f mm high", what, placed[i].box.height / MM);
        }
    }
}

// Nothing lies under the label's own end.
static void fits_around(const struct pile *pile, const char *what) {
    double top = pile->seen.box[1].y;
    double bottom = top;
    for (size_t i = 1; i < pile->seen.count; i++) {
        top = fmin(top, pile->seen.box[i].y);
        bottom = fmax(bottom, pile->seen.box[i].y + pile->seen.box[i].height);
    }
    length_nm round = ticket_wrap_round(pile->label[0].diameter);
    if (pile->label[0].wraps && bottom - top > (double)round / LENGTH_MM * MM) {
        fail_msg("%s: %.1f mm around a thin tube", what, (bottom - top) / MM);
    }
}

static void check_ticket(struct pile *pile, const struct ticket_label *label) {
    char what[96];
    struct placed placed[2];
    pile->label[0] = *label;
    pile->sheet.count = 1;
    snprintf(what, sizeof what, "%s on %s", label->ticket, pile->sheet.stock->name);
    if (!pile_write(pile, "one.pdf")) {
        fail_msg("%s: %s", what, pile->message);
    }
    size_t codes = find_codes(pile, placed);
    words_keep_apart(pile, placed, codes, what);
    sizes(pile, placed, codes, what);
    fits_around(pile, what);
    struct raster raster;
    raster_page(&raster, pile->path, 1, 72 / pile->sheet.stock->dot);
    for (size_t i = 0; i < codes; i++) {
        dots_are_modules(pile, &raster, &placed[i], what);
    }
    raster_release(&raster);
}

static void every_ticket_on_every_stock(void **state) {
    (void)state;
    for (int i = 0; i < TICKET_STOCK_COUNT; i++) {
        struct pile *all = pile_make(ticket_stocks[i].name);
        struct pile *one = pile_make(ticket_stocks[i].name);
        pile_build(all, 1, false);
        pile_build(all, 30, true);
        all->sheet.count = 6;
        pile_people(all);
        // a short number, so that there is QR, amid the longest words
        memcpy(all->label[5].ticket, all->label[2].ticket, sizeof all->label[5].ticket);
        for (size_t k = 0; k < all->sheet.count; k++) {
            check_ticket(one, &all->label[k]);
            if (all->label[k].wraps) {
                all->label[k].diameter = TICKET_WRAP_MOST;
                check_ticket(one, &all->label[k]);
                // a letter with a tail
                memcpy(all->label[k].ticket, "S-0010Q", sizeof "S-0010Q");
                check_ticket(one, &all->label[k]);
            }
        }
        free(all);
        free(one);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_ticket_on_every_stock),
    };
    return cmocka_run_group_tests(tests, job_folder_make, job_folder_drop);
}
