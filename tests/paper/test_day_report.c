// The day report as it is told to draw: whatever the names, notes and numbers, on either paper,
// nothing overlaps and all lies within the margins, page by page.

#include "day_report.h"
#include "job.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define CUTS 400
#define DECISIONS 60
#define PEOPLE 60
#define FONTS KERFSIDE_SOURCE_DIR "/assets/fonts"

struct paper_day {
    struct workday sum;
    struct day_report_cut cuts[CUTS];
    struct day_report_decision decisions[DECISIONS];
    struct day_report_person people[PEOPLE];
    struct day_report_seal seal;
    struct day_report report;
    struct job_seen seen; // on this page
    struct page_box sheet;
    int pages;
};

static struct paper_day day;

static void saw(void *of, const char *words, const struct page_box *box) {
    struct job_seen *seen = &((struct paper_day *)of)->seen;
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

static void check_box(const struct paper_day *at, size_t i) {
    const struct page_box *box = &at->seen.box[i];
    const double slack = 1; // half of a line, and of an overhang
    if (box->x < PAGE_MARGIN - slack ||
        box->x + box->width > at->sheet.width - PAGE_MARGIN + slack ||
        box->y < PAGE_MARGIN - slack ||
        box->y + box->height > at->sheet.height - PAGE_MARGIN + slack) {
        fail_msg("page %d: \"%s\" at %.1f %.1f, %.1f x %.1f is not within the margins",
                 at->pages + 1, at->seen.words[i], box->x, box->y, box->width, box->height);
    }
    for (size_t k = i + 1; at->seen.words[i][0] != '\0' && k < at->seen.count; k++) {
        if (at->seen.words[k][0] != '\0' && overlap(box, &at->seen.box[k])) {
            fail_msg("page %d: \"%s\" overlaps \"%s\"", at->pages + 1, at->seen.words[i],
                     at->seen.words[k]);
        }
    }
}

static void turned(void *of) {
    struct paper_day *at = of;
    for (size_t i = 0; i < at->seen.count; i++) {
        check_box(at, i);
    }
    assert_true(at->seen.count > 2);
    at->pages++;
    at->seen.count = 0;
}

static void write_it(const char *name, enum page_paper paper) {
    char path[300];
    char message[400] = "";
    size_t pages = 0;
    struct page_watch watch = {.saw = saw, .of = &day, .turned = turned};
    day.report.paper = paper;
    day.sheet = page_sheet(paper, true);
    day.pages = 0;
    day.seen.count = 0;
    snprintf(path, sizeof path, "%s/%s-%s.pdf", job_folder(), name,
             paper == PAGE_A4 ? "a4" : "letter");
    if (!day_report_write(&day.report, path, &watch, &pages, message, sizeof message)) {
        fail_msg("%s: %s", path, message);
    }
    turned(&day); // the last page
    assert_int_equal(pages, day.pages);
}

static void on_both(const char *name) {
    write_it(name, PAGE_A4);
    write_it(name, PAGE_LETTER);
}

#define FILL(array) (memset(array, 'W', sizeof(array) - 1), (array)[sizeof(array) - 1] = '\0')

static void begin(void) {
    memset(&day, 0, sizeof day);
    snprintf(day.seal.words, sizeof day.seal.words, "Not signed yet.");
    day.report = (struct day_report){.title = "Wednesday 30 September 2026",
                                     .bench = "Bench 1",
                                     .printed = "2026-09-30 17:02",
                                     .sum = &day.sum,
                                     .tolerance = LENGTH_INCH / 16,
                                     .cuts = day.cuts,
                                     .decisions = day.decisions,
                                     .people = day.people,
                                     .seal = &day.seal,
                                     .fonts = FONTS};
}

static void a_point(double off) {
    struct entry entry = entry_init(ENTRY_MEASURE);
    struct workday_later later = {.decided = ""};
    entry.planned = 40 * LENGTH_INCH;
    entry.made = entry.planned + (length_nm)(off * 25400);
    entry.verdict = VERDICT_IN;
    workday_add(&day.sum, &entry, NULL, &later);
}

static void an_empty_day(void **state) {
    (void)state;
    begin();
    on_both("empty");
    assert_int_equal(day.pages, 1);
}

// Points that are all alike, few, wild.
static void charts_of_any_points(void **state) {
    static const double sets[][4] = {
        {0, 0, 0, 0}, {1, 0, 0, 0}, {-90000, 90000, -90000, 90000}, {0.001, 0.002, 0.001, 0}};
    (void)state;
    for (size_t i = 0; i < COUNT(sets); i++) {
        for (size_t count = 1; count <= 4; count++) {
            begin();
            for (size_t k = 0; k < count; k++) {
                a_point(sets[i][k]);
            }
            on_both("points");
        }
    }
}

static void fill_decisions(void) {
    for (size_t i = 0; i < DECISIONS; i++) {
        struct day_report_decision *decision = &day.decisions[i];
        FILL(decision->time);
        FILL(decision->who);
        FILL(decision->club);
        FILL(decision->shaft);
        FILL(decision->cause);
        decision->about = i % 2 == 0 ? ENTRY_TIP_CUT : ENTRY_MEASURE;
        decision->kind = i % 5 == 4 ? ENTRY_NOTE : ENTRY_DECIDE;
        decision->planned = 42 * LENGTH_INCH + 63 * LENGTH_64TH;
        decision->made = decision->planned - LENGTH_64TH;
        for (size_t k = 0; i % 3 > 0 && k + 8 < sizeof decision->why; k += 8) {
            memcpy(decision->why + k, i % 3 == 1 ? "Größen, " : "WWWWWWWW", 8);
        }
    }
    day.report.decision_count = DECISIONS;
}

static void fill_cuts(void) {
    for (size_t i = 0; i < CUTS; i++) {
        struct day_report_cut *cut = &day.cuts[i];
        FILL(cut->time);
        FILL(cut->worker);
        FILL(cut->club);
        FILL(cut->shaft);
        cut->kind = ENTRY_MEASURE;
        cut->planned = 142 * LENGTH_INCH + 63 * LENGTH_64TH;
        cut->made = 42 * LENGTH_INCH + 61 * LENGTH_64TH;
        cut->open = true;
    }
    day.report.cut_count = CUTS;
}

static void fill_causes(void) {
    for (size_t i = 0; i < CUT_STATS_CAUSES; i++) {
        FILL(day.sum.cut.cause[i].word);
        FILL(day.sum.scrap[i].word);
        day.sum.cut.cause[i].count = i == 0 ? 1234567 : 1;
        day.sum.scrap[i].count = 999;
    }
    day.sum.cut.cause_count = CUT_STATS_CAUSES;
    day.sum.scrap_count = CUT_STATS_CAUSES;
    for (int i = 0; i < 24; i++) {
        day.sum.cut.by_hour[i] = 12345 + i;
    }
}

static void fill_seal(void) {
    day.seal.is_signed = true;
    FILL(day.seal.words);
    memset(day.seal.checkpoint.bench, '%', sizeof day.seal.checkpoint.bench - 1); // %25 each
    FILL(day.seal.checkpoint.incarnation);
    day.seal.checkpoint.size = 999999999999999999;
    memset(day.seal.checkpoint.head, 0xFB, sizeof day.seal.checkpoint.head);
    snprintf(day.seal.checkpoint.day, sizeof day.seal.checkpoint.day, "2026-09-30");
    memset(day.seal.code, 'w', 600); // one signature makes 420 bytes at most
}

static void the_longest_of_all(void **state) {
    static char bench[320];
    (void)state;
    begin();
    FILL(bench);
    day.report.bench = bench;
    for (size_t i = 0; i < 100; i++) {
        a_point(i % 2 == 0 ? -62.5 : 1000);
    }
    day.sum.done = day.sum.cuts = day.sum.out = day.sum.open = 123456789012;
    day.sum.cut.measured = 123456789012;
    for (size_t i = 0; i < PEOPLE; i++) {
        FILL(day.people[i].badge);
        FILL(day.people[i].name);
        day.people[i].cuts = 123456;
    }
    day.report.person_count = PEOPLE;
    fill_causes();
    fill_cuts();
    fill_decisions();
    fill_seal();
    on_both("longest");
    assert_true(day.pages > 8);
    day.report.metric = true;
    on_both("longest-mm");
}

// What follows a heading stays with it, however many rows stand before.
static void parts_stay_together(void **state) {
    (void)state;
    for (size_t rows = 1; rows < 120; rows += 3) {
        begin();
        fill_cuts();
        fill_decisions();
        fill_seal();
        day.report.decision_count = 1;
        day.report.cut_count = rows;
        write_it("together", rows % 2 == 0 ? PAGE_A4 : PAGE_LETTER);
    }
}

static void says_what_it_cannot(void **state) {
    char message[400] = "";
    size_t pages = 77;
    (void)state;
    begin();
    fill_seal();
    assert_false(
        day_report_write(&day.report, "/none/r.pdf", NULL, &pages, message, sizeof message));
    assert_non_null(strstr(message, "/none/r.pdf"));
    memset(day.seal.code, 'w', 700); // no code holds as much
    assert_false(
        day_report_write(&day.report, "/none/r.pdf", NULL, &pages, message, sizeof message));
    assert_non_null(strstr(message, "code of the checkpoint"));
    assert_int_equal(pages, 77);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_empty_day),        cmocka_unit_test(charts_of_any_points),
        cmocka_unit_test(the_longest_of_all),  cmocka_unit_test(parts_stay_together),
        cmocka_unit_test(says_what_it_cannot),
    };
    return cmocka_run_group_tests(tests, job_folder_make, job_folder_drop);
}
