// The worksheet as PDF: read back by poppler's tools, and by what the page was told to draw.

#include "job.h"

#include "text.h"

#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

// --- what is on the page -----------------------------------------------------------------------

#define PAGE_TEXT_MAX 200000

static void output_of(const char *program, const char *path, const char *after, char *buffer,
                      size_t size) {
    char command[512];
    snprintf(command, sizeof command, "%s '%s' %s", program, path, after);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    size_t got = fread(buffer, 1, size - 1, pipe);
    buffer[got] = '\0';
    assert_true(got < size - 1);
    assert_int_equal(pclose(pipe), 0);
}

// As one line: where words wrap is no matter.
static void read_page(const struct job *job, char text[PAGE_TEXT_MAX]) {
    output_of("pdftotext -raw", job->path, "-", text, PAGE_TEXT_MAX);
    for (char *at = text; *at != '\0'; at++) {
        *at = *at == '\n' ? ' ' : *at;
    }
}

static bool overlap(const struct page_box *a, const struct page_box *b) {
    const double slack = 0.05;
    return a->x + a->width > b->x + slack && b->x + b->width > a->x + slack &&
           a->y + a->height > b->y + slack && b->y + b->height > a->y + slack;
}

static void nothing_overlaps(const struct job_seen *seen, const char *name) {
    for (size_t i = 0; i < seen->count; i++) {
        for (size_t k = i + 1; k < seen->count; k++) {
            if (seen->words[i][0] != '\0' && seen->words[k][0] != '\0' &&
                overlap(&seen->box[i], &seen->box[k])) {
                fail_msg("%s: \"%s\" overlaps \"%s\"", name, seen->words[i], seen->words[k]);
            }
        }
    }
}

static void all_within_margins(const struct job_seen *seen, double width, double height,
                               const char *name) {
    const double slack = 1; // half of a line, and of an overhang
    for (size_t i = 0; i < seen->count; i++) {
        const struct page_box *box = &seen->box[i];
        if (box->x < PAGE_MARGIN - slack || box->x + box->width > width - PAGE_MARGIN + slack ||
            box->y < PAGE_MARGIN - slack || box->y + box->height > height - PAGE_MARGIN + slack) {
            fail_msg("%s: \"%s\" at %.1f %.1f, %.1f x %.1f is not within the margins", name,
                     seen->words[i], box->x, box->y, box->width, box->height);
        }
    }
}

// ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1: letter is 8.5 x 11 in. In points, either way up.
static void right_paper(const struct job *job, double *ret_width, double *ret_height) {
    char info[4096];
    output_of("pdfinfo", job->path, "", info, sizeof info);
    assert_non_null(strstr(info, "\nPages:           1\n"));
    const char *size = strstr(info, "Page size:");
    assert_non_null(size);
    assert_int_equal(sscanf(size, "Page size: %lf x %lf", ret_width, ret_height), 2);
    double shorter = job->worksheet.paper == PAGE_A4 ? 595.276 : 612;
    double longer = job->worksheet.paper == PAGE_A4 ? 841.890 : 792;
    assert_true(fabs(fmin(*ret_width, *ret_height) - shorter) < 0.01);
    assert_true(fabs(fmax(*ret_width, *ret_height) - longer) < 0.01);
}

static void has(const char *text, const char *words, const char *name) {
    if (strstr(text, words) == NULL) {
        fail_msg("%s: no \"%s\" in\n%s", name, words, text);
    }
}

// Every mark in both notations, every part, every length of a valid plan is on the paper.
static void numbers_are_there(const struct job *job, const char *name) {
    static char text[PAGE_TEXT_MAX];
    char words[64];
    read_page(job, text);
    for (size_t i = 0; i < job->worksheet.count; i++) {
        const struct club *club = &job->clubs[i];
        struct plan_input input;
        struct plan plan;
        has(text, club->head.ticket, name);
        has(text, club->shaft.ticket, name);
        length_text_fraction(club->order.playing_length, words);
        has(text, words, name);
        if (!club_plan(club, &job->rules, &input, &plan) || club->shaft.ticket[0] == '\0') {
            has(text, "NO PLAN, do not cut: note ", name);
            continue;
        }
        const length_nm marks[] = {plan.tip_mark, plan.butt_mark};
        for (size_t k = 0; k < COUNT(marks); k++) {
            length_text_inch(marks[k], 3, words);
            strcat(words, " in");
            has(text, words, name);
            length_text_mm(marks[k], 1, words);
            strcat(words, " mm");
            has(text, words, name);
        }
        struct text grams = text_open(words, sizeof words);
        text_add_mass(&grams, club->head.weight);
        has(text, words, name);
    }
    has(text, "Kerfside controls no machine and is no safety device.", name);
    has(text, "are estimates: measure the assembled club.", name);
    has(text, "chart revision 7", name);
}

static void check_sheet(int count, enum job_kind kind, enum page_paper paper) {
    char name[96];
    double width;
    double height;
    struct job *job = job_make(count, kind);
    job->worksheet.paper = paper;
    snprintf(name, sizeof name, "%s-%d-%s.pdf", job_kind_text(kind), count,
             paper == PAGE_A4 ? "a4" : "letter");
    if (!job_write(job, name)) {
        fail_msg("%s: %s", name, job->message);
    }
    right_paper(job, &width, &height);
    nothing_overlaps(&job->seen, name);
    all_within_margins(&job->seen, width, height, name);
    numbers_are_there(job, name);
    free(job);
}

static void one_page_whatever_the_build(void **state) {
    static const int counts[] = {1, 2, 8, 14, 30};
    (void)state;
    for (size_t i = 0; i < COUNT(counts); i++) {
        for (int kind = 0; kind < JOB_KIND_COUNT; kind++) {
            check_sheet(counts[i], (enum job_kind)kind, PAGE_A4);
            check_sheet(counts[i], (enum job_kind)kind, PAGE_LETTER);
        }
    }
}

// A bench that marks whole millimetres: no fraction of an inch is made up. 1/2 in is 12.7 mm.
static void millimetre_marks(void **state) {
    static char text[PAGE_TEXT_MAX];
    struct job *job = job_make(14, JOB_PLAIN);
    double width;
    double height;
    (void)state;
    job->rules.mark_step = LENGTH_MM;
    assert_true(job_write(job, "millimetres.pdf"));
    right_paper(job, &width, &height);
    nothing_overlaps(&job->seen, "millimetres");
    read_page(job, text);
    has(text, "13.0", "millimetres");
    has(text, "0.512 in", "millimetres");
    free(job);
}

// Everything that stands out or is refused is said in words; the marks of a refused club are not
// there to be read.
static void words_for_what_is_wrong(void **state) {
    static char text[PAGE_TEXT_MAX];
    struct job *job = job_make(6, JOB_PLAIN);
    (void)state;
    job->clubs[2].order.playing_length += LENGTH_INCH;
    job->clubs[4].head.bore_height = LENGTH_UNKNOWN;
    job->clubs[5].shaft.weight = MASS_UNKNOWN;
    assert_true(job_write(job, "words.pdf"));
    read_page(job, text);
    has(text, "NO PLAN, do not cut: note 1", "words");
    has(text, "1 The bore height of this head is not known. Dry-fit and measure it. 2 ", "words");
    has(text, "No estimate of weight and swingweight: shaft weight not known.", "words");
    has(text, "Club 3: length 1.00 in above the line of the others", "words");
    assert_null(strstr(text, "41.875 in")); // 43 - 1 - 1/8, club 5's butt mark were it planned
    free(job);
}

// More notes than any page holds: the refusals are kept, the rest is counted and told where to
// read.
static void notes_that_find_no_room(void **state) {
    static char text[PAGE_TEXT_MAX];
    struct job *job = job_make(30, JOB_LONG_NAMES);
    (void)state;
    for (int i = 0; i < 30; i++) {
        job->clubs[i].order.playing_length = IN(48, 1, 4) + LENGTH_64TH * i;
        job->clubs[i].shaft.raw_length = IN(60, 0, 1);
        snprintf(job->clubs[i].head.engraved, sizeof job->clubs[i].head.engraved, "%d", 900 + i);
    }
    job->clubs[29].shaft.raw_length = IN(30, 0, 1);
    assert_true(job_write(job, "no-room.pdf"));
    nothing_overlaps(&job->seen, "no-room");
    read_page(job, text);
    has(text, "1 The shaft is too short by ", "no-room");
    has(text, "find no room here. Read them before cutting:", "no-room");
    free(job);
}

static size_t files_in_folder(void) {
    char text[8192];
    size_t count = 0;
    output_of("ls -A", job_folder(), "", text, sizeof text);
    for (const char *at = text; *at != '\0'; at++) {
        count += *at == '\n';
    }
    return count;
}

static void errors_say_why_and_leave_nothing(void **state) {
    struct job *job = job_make(8, JOB_PLAIN);
    size_t before = files_in_folder();
    (void)state;
    assert_false(job_write(job, "/dev/full"));
    assert_string_equal(job->message, "Cannot write /dev/full: No space left on device.");
    assert_false(job_write(job, "no/such/folder.pdf"));
    has(job->message, "no/such/folder.pdf: No such file or directory.", "message");
    assert_false(job_write(job, "/tmp"));
    assert_string_equal(job->message, "Cannot write /tmp: Is a directory.");
    job->worksheet.fonts = "/nowhere";
    assert_false(job_write(job, "no-fonts.pdf"));
    has(job->message, "/nowhere/B612-Regular.otf", "message");
    assert_int_equal(files_in_folder(), before);
    free(job);
}

// A file of that name is replaced as a whole; when that fails it stays as it was. A disk that is
// full in the midst of it is a limit on the file's size here.
static void replaces_whole_or_not_at_all(void **state) {
    struct job *job = job_make(8, JOB_PLAIN);
    struct stat written;
    struct stat after;
    struct rlimit limit;
    struct rlimit small;
    size_t before;
    (void)state;
    assert_true(job_write(job, "again.pdf"));
    assert_int_equal(stat(job->path, &written), 0);
    assert_int_equal(written.st_mode & 0777, 0644);
    assert_true(job_write(job, "again.pdf"));
    assert_int_equal(stat(job->path, &after), 0);
    assert_int_not_equal(after.st_ino, written.st_ino);
    before = files_in_folder();
    signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
    small = limit;
    small.rlim_cur = 9000;
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    assert_false(job_write(job, "again.pdf"));
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
    has(job->message, "File too large", "message");
    assert_int_equal(stat(job->path, &written), 0);
    assert_int_equal(after.st_ino, written.st_ino);
    assert_int_equal(files_in_folder(), before);
    free(job);
}

// No text of an order can stop the page: what is no UTF-8 shows as `?`.
static void odd_bytes(void **state) {
    static char text[PAGE_TEXT_MAX];
    struct job *job = job_make(2, JOB_PLAIN);
    (void)state;
    snprintf(job->clubs[0].shaft.rack, sizeof job->clubs[0].shaft.rack, "R\xC3\xBC\xFFk\x01%%s");
    assert_true(job_write(job, "bytes.pdf"));
    read_page(job, text);
    has(text, "rack R\xC3\xBC?k?%s", "bytes");
    free(job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_page_whatever_the_build),
        cmocka_unit_test(millimetre_marks),
        cmocka_unit_test(words_for_what_is_wrong),
        cmocka_unit_test(notes_that_find_no_room),
        cmocka_unit_test(errors_say_why_and_leave_nothing),
        cmocka_unit_test(replaces_whole_or_not_at_all),
        cmocka_unit_test(odd_bytes),
    };
    return cmocka_run_group_tests(tests, job_folder_make, job_folder_drop);
}
