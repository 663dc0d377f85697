// Printed tickets read back by two independent decoders: as a printer's dots with noise, and around
// a tube.

#include "pile.h"
#include "raster.h"
#include "readers.h"
#include "ticket_code.h"
#include "ticket_wrap.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const double per_inch[] = {203, 300};
#define NOISE 12.0
#define FEW 8 // tickets of a page: of more, each by itself is read at the coarser of the two alone

static void same(const struct reading *got, const struct reading *wanted, const char *what) {
    for (size_t i = 0; i < got->count || i < wanted->count; i++) {
        const char *have = i < got->count ? got->code[i] : "nothing";
        const char *want = i < wanted->count ? wanted->code[i] : "nothing";
        if (strcmp(have, want) != 0) {
            fail_msg("%s: read %zu of %zu; %s where %s should be", what, got->count, wanted->count,
                     have, want);
        }
    }
}

static void read_picture(const struct raster *raster, enum reader reader,
                         struct reading *ret_reading) {
    char picture[256];
    snprintf(picture, sizeof picture, "%s/picture.pgm", job_folder());
    raster_write(raster, picture);
    reader_read(reader, picture, ret_reading);
}

// One ticket as a scanner sees it: both decoders read all its codes and nothing else. ZBar takes
// noise in white for edges, so it has a second look after a blur of 3 x 3 dots, as a camera has.
static void read_both(struct raster *raster, const struct reading *wanted, const char *what) {
    char words[400];
    struct reading got;
    struct reading again;
    read_picture(raster, READER_ZXING, &got);
    snprintf(words, sizeof words, "%s, %s", what, reader_name(READER_ZXING));
    same(&got, wanted, words);
    read_picture(raster, READER_ZBAR, &got);
    raster_blur(raster);
    read_picture(raster, READER_ZBAR, &again);
    reading_join(&got, &again);
    snprintf(words, sizeof words, "%s, %s", what, reader_name(READER_ZBAR));
    same(&got, wanted, words);
}

// QR is left out of a long shaft ticket alone.
static bool has_qr(const struct ticket_label *label) {
    return !label->wraps || strlen(label->ticket) < 10;
}

static void add_codes(struct reading *wanted, const struct ticket_label *label) {
    reading_add(wanted, "bars", label->ticket);
    if (has_qr(label)) {
        reading_add(wanted, "qr", label->ticket);
    }
}

static void check_ticket(const struct raster *page, const struct pile *pile, size_t i, double dots,
                         const char *name) {
    char words[300];
    struct raster ticket;
    struct reading wanted = {0};
    int at = (int)(i % (size_t)ticket_sheet_cells(pile->sheet.stock));
    struct page_box cell = ticket_stock_cell(pile->sheet.stock, at);
    raster_cut(page, cell.x * dots, cell.y * dots, cell.width * dots, cell.height * dots, &ticket);
    raster_noise(&ticket, NOISE, i + 1);
    add_codes(&wanted, &pile->label[i]);
    reading_sort(&wanted);
    snprintf(words, sizeof words, "%s at %g, ticket %s", name, dots * 72, pile->label[i].ticket);
    read_both(&ticket, &wanted, words);
    raster_release(&ticket);
}

// The page at once: neither decoder finds every code among so many, but every ticket by one of its
// codes, and no other.
static void check_whole_page(struct raster *page, const struct pile *pile, size_t first,
                             size_t last, const char *what) {
    struct reading wanted = {0};
    for (size_t i = first; i < last; i++) {
        reading_add(&wanted, "ticket", pile->label[i].ticket);
    }
    reading_sort(&wanted);
    raster_noise(page, NOISE / 2, first + 1);
    for (int reader = 0; reader < READER_COUNT; reader++) {
        char words[400];
        struct reading got;
        read_picture(page, (enum reader)reader, &got);
        reading_tickets(&got);
        snprintf(words, sizeof words, "%s, %s", what, reader_name((enum reader)reader));
        same(&got, &wanted, words);
    }
}

static void check_pages(struct pile *pile, const char *name) {
    size_t cells = (size_t)ticket_sheet_cells(pile->sheet.stock);
    if (!pile_write(pile, name)) {
        fail_msg("%s: %s", name, pile->message);
    }
    for (size_t first = 0; first < pile->sheet.count; first += cells) {
        size_t end = first + cells < pile->sheet.count ? first + cells : pile->sheet.count;
        for (size_t k = 0; k < COUNT(per_inch); k++) {
            char words[300];
            struct raster page;
            raster_page(&page, pile->path, (int)(first / cells) + 1, per_inch[k]);
            for (size_t i = first; i < end && (k == 0 || end - first <= FEW); i++) {
                check_ticket(&page, pile, i, per_inch[k] / 72, name);
            }
            snprintf(words, sizeof words, "%s at %g, tickets %zu to %zu", name, per_inch[k],
                     first + 1, end);
            check_whole_page(&page, pile, first, end, words);
            raster_release(&page);
        }
    }
}

static void check_build(const char *stock, int clubs, bool long_names) {
    char name[64];
    struct pile *pile = pile_make(stock);
    pile_build(pile, clubs, long_names);
    snprintf(name, sizeof name, "%s-%d%s.pdf", stock, clubs, long_names ? "-long" : "");
    check_pages(pile, name);
    free(pile);
}

static void one_club(void **state) {
    (void)state;
    for (int i = 0; i < TICKET_STOCK_COUNT; i++) {
        check_build(ticket_stocks[i].name, 1, false);
    }
}

static void longest_names(void **state) {
    (void)state;
    for (int i = 0; i < TICKET_STOCK_COUNT; i++) {
        check_build(ticket_stocks[i].name, 1, true);
    }
}

static void fourteen_clubs(void **state) {
    (void)state;
    check_build("a4", 14, false);
}

static void thirty_clubs(void **state) {
    (void)state;
    check_build("letter", 30, false);
}

static void people_and_commands(void **state) {
    struct pile *pile = pile_make("63.5x38.1");
    (void)state;
    pile_people(pile);
    check_pages(pile, "people.pdf");
    free(pile);
}

// --- around a tube -----------------------------------------------------------------------------

// Boxes of the codes are the only ones without words but the border, which comes first.
static double strip_centre(const struct job_seen *seen) {
    for (size_t i = 1; i < seen->count; i++) {
        if (seen->words[i][0] == '\0') {
            return seen->box[i].y + seen->box[i].height / 2;
        }
    }
    fail_msg("no code");
    return 0;
}

// Code 128 is what counts there: a QR code bends as bars do not, and around the thinnest shaft both
// decoders miss it at some sizes and turns. It must be right when it is read, and is read around a
// butt.
static void check_around(const struct reading *got, const char *ticket, bool qr, const char *what) {
    struct reading bars = {0};
    struct reading both = {0};
    reading_add(&bars, "bars", ticket);
    reading_add(&both, "bars", ticket);
    reading_add(&both, "qr", ticket);
    same(got, qr || got->count != 1 ? &both : &bars, what);
}

// At so many dots an inch as a camera sees them, the strip turned away by so many degrees.
static void check_tube(const char *stock, bool long_names, length_nm diameter, double turned,
                       double dots) {
    char words[200];
    struct pile *pile = pile_make(stock);
    struct raster flat;
    struct raster seen;
    struct reading got;
    struct reading again;
    pile_build(pile, 1, long_names);
    pile->label[0] = pile->label[2];
    pile->label[0].diameter = diameter;
    pile->sheet.count = 1;
    assert_true(pile_write(pile, "tube.pdf"));
    raster_page(&flat, pile->path, 1, dots);
    double radius = (double)diameter / LENGTH_INCH / 2 * dots;
    double centre = strip_centre(&pile->seen) / 72 * dots + turned / 57.29578 * radius;
    raster_around(&flat, radius, centre, &seen);
    raster_noise(&seen, NOISE, 7);
    bool qr = diameter == TICKET_WRAP_MOST && turned == 0 && has_qr(&pile->label[0]);
    snprintf(words, sizeof words, "%s around %.3f in, turned %g, at %g", stock,
             (double)diameter / LENGTH_INCH, turned, dots);
    read_picture(&seen, READER_ZXING, &got);
    check_around(&got, pile->label[0].ticket, qr, words);
    read_picture(&seen, READER_ZBAR, &got);
    raster_blur(&seen);
    read_picture(&seen, READER_ZBAR, &again);
    reading_join(&got, &again);
    check_around(&got, pile->label[0].ticket, qr, words);
    raster_release(&flat);
    raster_release(&seen);
    free(pile);
}

static void around_a_shaft(void **state) {
    static const double turned[] = {0, -10, 30};
    static const double dots[] = {300, 400, 600};
    (void)state;
    for (size_t i = 0; i < COUNT(turned); i++) {
        for (size_t k = 0; k < COUNT(dots); k++) {
            for (int names = 0; names < 2; names++) {
                check_tube("2.25x1.25", names == 1, TICKET_WRAP_LEAST, turned[i], dots[k]);
                check_tube("2.25x1.25", names == 1, TICKET_WRAP_MOST, turned[i], dots[k]);
                check_tube("62mm", names == 1, TICKET_WRAP_LEAST, turned[i], dots[k]);
            }
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_club),
        cmocka_unit_test(longest_names),
        cmocka_unit_test(fourteen_clubs),
        cmocka_unit_test(thirty_clubs),
        cmocka_unit_test(people_and_commands),
        cmocka_unit_test(around_a_shaft),
    };
    return cmocka_run_group_tests(tests, job_folder_make, job_folder_drop);
}
