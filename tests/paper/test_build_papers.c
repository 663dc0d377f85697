// Assembly cards and the certificate as they are told to draw: whatever the names and numbers, on
// either paper, drafts too, nothing overlaps and all lies within the margins.

#include "card_sheet.h"
#include "certificate.h"
#include "job.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define FONTS KERFSIDE_SOURCE_DIR "/assets/fonts"
#define LONG "Þórgunnur Ævarsdóttir-Łukasiewicz 200 gram"

struct seen_page {
    struct job_seen seen;
    struct page_box sheet;
    int pages;
};
static struct seen_page at;

static void saw(void *of, const char *words, const struct page_box *box) {
    struct job_seen *seen = &((struct seen_page *)of)->seen;
    assert_true(seen->count < JOB_BOXES_MAX);
    seen->box[seen->count] = *box;
    snprintf(seen->words[seen->count], sizeof seen->words[0], "%.70s", words == NULL ? "" : words);
    seen->count++;
}

static bool overlap(const struct page_box *a, const struct page_box *b) {
    const double slack = 0.05;
    return a->x + a->width > b->x + slack && b->x + b->width > a->x + slack &&
           a->y + a->height > b->y + slack && b->y + b->height > a->y + slack;
}

static void check_page(void) {
    const double slack = 1; // half of a line, and of an overhang
    for (size_t i = 0; i < at.seen.count; i++) {
        const struct page_box *box = &at.seen.box[i];
        if (box->x < PAGE_MARGIN - slack || box->y < PAGE_MARGIN - slack ||
            box->x + box->width > at.sheet.width - PAGE_MARGIN + slack ||
            box->y + box->height > at.sheet.height - PAGE_MARGIN + slack) {
            fail_msg("page %d: \"%s\" at %.1f %.1f, %.1f x %.1f is not within the margins",
                     at.pages + 1, at.seen.words[i], box->x, box->y, box->width, box->height);
        }
        for (size_t k = i + 1; at.seen.words[i][0] != '\0' && k < at.seen.count; k++) {
            if (at.seen.words[k][0] != '\0' && overlap(box, &at.seen.box[k])) {
                fail_msg("page %d: \"%s\" overlaps \"%s\"", at.pages + 1, at.seen.words[i],
                         at.seen.words[k]);
            }
        }
    }
    at.pages++;
    at.seen.count = 0;
}

static void turned(void *of) {
    (void)of;
    check_page();
}

static const struct page_watch *watch(enum page_paper paper) {
    static const struct page_watch told = {.saw = saw, .of = &at, .turned = turned};
    at = (struct seen_page){.sheet = page_sheet(paper, true)};
    return &told;
}

static const struct assembly_tolerance usual = ASSEMBLY_TOLERANCE_DEFAULT;

// --- cards ---------------------------------------------------------------------------------------

static void fill_card(struct assembly_card *card, bool full) {
    *card = (struct assembly_card){.position = 200, .count = 200, .tolerance = usual};
    memset(card->build, 'W', sizeof card->build - 1);
    memset(card->club, 'W', sizeof card->club - 1);
    strcpy(card->head, "H-0001A");
    strcpy(card->shaft, "S-0001S");
    strcpy(card->head_model, LONG);
    strcpy(card->shaft_model, LONG);
    memset(card->flex, 'W', sizeof card->flex - 1);
    card->step_count = full ? CARD_STEPS_MAX : 1;
    for (size_t i = 0; i < card->step_count; i++) {
        memset(card->step[i].what, 'W', sizeof card->step[i].what - 1);
        for (size_t c = 0; c < sizeof card->step[i].how - 1; c++) {
            card->step[i].how[c] = c % 9 == 8 ? ' ' : 'w';
        }
        card->step[i].caution = i % 2 == 0;
    }
    card->planned = (struct assembly_values){{5461 * LENGTH_MM / 10, 320, 2600, 58500, 60000}};
    card->measured = card->planned;
    card->measured.value[ASSEMBLY_LOFT] = ASSEMBLY_UNKNOWN;
    assembly_check(&card->planned, &card->measured, 0, &usual, &card->check);
}

static void every_card_keeps_its_place(void **state) {
    (void)state;
    static struct card_page pages[3];
    char path[] = "/tmp/kerfside-card-XXXXXX";
    char message[200];
    close(mkstemp(path));
    for (size_t i = 0; i < 3; i++) {
        fill_card(&pages[i].card, i == 1);
        strcpy(pages[i].ready, i == 2 ? "" : "Wed 30 Sep, 23:59");
    }
    for (int paper = PAGE_A4; paper <= PAGE_LETTER; paper++) {
        for (int method = 0; method < LENGTH_METHOD_COUNT; method++) {
            const struct card_sheet sheet = {.pages = pages,
                                             .count = 3,
                                             .shop = method == 0 ? "" : LONG,
                                             .printed = "2026-03-31 12:00",
                                             .method = (enum length_method)method,
                                             .paper = (enum page_paper)paper,
                                             .fonts = FONTS};
            assert_true(
                card_sheet_write(&sheet, path, watch(sheet.paper), message, sizeof message));
            check_page();
            assert_int_equal(at.pages, 3);
        }
    }
    unlink(path);
}

// --- certificates --------------------------------------------------------------------------------

static void every_certificate_is_one_page(void **state) {
    (void)state;
    static struct certificate_club clubs[CERTIFICATE_CLUBS_MAX];
    static char built[400], methods[700];
    char path[] = "/tmp/kerfside-certificate-XXXXXX";
    char message[200];
    close(mkstemp(path));
    memset(built, 'W', sizeof built - 1);
    for (size_t i = 0; i < sizeof methods - 1; i++) {
        methods[i] = i % 7 == 6 ? ' ' : 'm';
    }
    for (size_t i = 0; i < CERTIFICATE_CLUBS_MAX; i++) {
        struct certificate_club *club = &clubs[i];
        memset(club->club, 'W', sizeof club->club - 1);
        strcpy(club->head, LONG);
        snprintf(club->shaft, sizeof club->shaft, "%s %s", LONG, "WWWWWWWWWWWWWWW");
        strcpy(club->cut_planned, "1120.8 mm or thereabouts, as it is");
        strcpy(club->cut_made, "44 63/64 in");
        club->planned = (struct assembly_values){{11 * LENGTH_INCH + 1, 320, 2600, 58500, 60000}};
        club->measured = club->planned;
        club->measured.value[i % ASSEMBLY_VALUE_COUNT] = ASSEMBLY_UNKNOWN;
        club->measured.value[(i + 1) % ASSEMBLY_VALUE_COUNT] += 1000000000;
        assembly_check(&club->planned, &club->measured, i % 2 == 0 ? ~0u : 0, &usual, &club->check);
    }
    for (int paper = PAGE_A4; paper <= PAGE_LETTER; paper++) {
        for (size_t count = 1; count <= CERTIFICATE_CLUBS_MAX; count++) {
            const struct certificate certificate = {.shop = count % 2 == 0 ? "" : LONG,
                                                    .build = "WWWWWWWWWWWWWWW",
                                                    .built = built,
                                                    .methods = methods,
                                                    .printed = "2026-03-31 12:00",
                                                    .draft = count % 3 == 0,
                                                    .clubs = clubs,
                                                    .count = count,
                                                    .tolerance = usual,
                                                    .paper = (enum page_paper)paper,
                                                    .fonts = FONTS};
            if (!certificate_write(&certificate, path, watch(certificate.paper), message,
                                   sizeof message)) {
                fail_msg("%s", message);
            }
            check_page();
            assert_int_equal(at.pages, 1);
        }
    }
    unlink(path);
}

static void what_cannot_be_written_is_said(void **state) {
    (void)state;
    static struct card_page page;
    char message[200] = "";
    fill_card(&page.card, false);
    const struct card_sheet sheet = {
        .pages = &page, .count = 1, .shop = "", .printed = "now", .fonts = FONTS};
    assert_false(card_sheet_write(&sheet, "/nowhere/at/all.pdf", NULL, message, sizeof message));
    assert_non_null(strstr(message, "/nowhere/at/all.pdf"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_card_keeps_its_place),
        cmocka_unit_test(every_certificate_is_one_page),
        cmocka_unit_test(what_cannot_be_written_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
