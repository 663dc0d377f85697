// Tickets as PDF: paper, pages, words, errors.

#include "pile.h"
#include "ticket_wrap.h"

#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <unistd.h>

#define MM (72 / 25.4)

// --- how wide on a tube ------------------------------------------------------------------------

// By hand: 50 degrees are 0.872665 rad, both ways that times the radius: 0.335 x 0.872665 =
// 0.29234 in = 7.425 mm; 0.370: 0.32289 in; 0.600: 0.52360 in = 13.299 mm. At the end of that arc
// the foreshortening is cos 50 degrees = 0.6428.
static void height_around_a_tube(void **state) {
    (void)state;
    const struct {
        double diameter;
        double height;
        double round;
    } rows[] = {{0.335, 0.29234, 1.05243}, {0.370, 0.32289, 1.16239}, {0.600, 0.52360, 1.88496}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        length_nm diameter = (length_nm)lround(rows[i].diameter * LENGTH_INCH);
        double height = (double)ticket_wrap_height(diameter) / LENGTH_INCH;
        assert_true(fabs(height - rows[i].height) < 0.00001);
        assert_true(fabs(cos(height / rows[i].diameter) - 0.6428) < 0.0001);
        assert_true(fabs((double)ticket_wrap_round(diameter) / LENGTH_INCH - rows[i].round) <
                    0.00001);
    }
    assert_int_equal(ticket_wrap_height(LENGTH_UNKNOWN), ticket_wrap_height(TICKET_WRAP_LEAST));
    assert_int_equal(ticket_wrap_height(LENGTH_INCH / 5), ticket_wrap_height(TICKET_WRAP_LEAST));
    assert_int_equal(ticket_wrap_height(LENGTH_INCH), ticket_wrap_height(TICKET_WRAP_MOST));
}

// --- paper -------------------------------------------------------------------------------------

static void cells_lie_on_their_page(void **state) {
    (void)state;
    for (int i = 0; i < TICKET_STOCK_COUNT; i++) {
        const struct ticket_stock *stock = &ticket_stocks[i];
        struct page_box first = ticket_stock_cell(stock, 0);
        struct page_box last = ticket_stock_cell(stock, stock->columns * stock->rows - 1);
        assert_true(first.x > -0.001 && first.y > -0.001);
        assert_true(fabs(first.x - (stock->width - last.x - last.width)) < 0.001); // in the middle
        assert_true(fabs(first.y - (stock->height - last.y - last.height)) < 0.001);
        if (stock->columns > 1) {
            struct page_box beside = ticket_stock_cell(stock, 1);
            struct page_box below = ticket_stock_cell(stock, stock->columns);
            assert_true(fabs(beside.x - first.x - first.width - stock->between) < 0.001);
            assert_true(fabs(below.y - first.y - first.height) < 0.001);
            assert_true(first.x >= 5 * MM); // what printers leave white
            assert_true(first.y >= 5 * MM);
        }
    }
    // 3 x 63.5 + 2 x 2.5 = 195.5 mm of 210: 7.25 mm left over; 7 x 38.1 = 266.7 of 297: 15.15 mm.
    struct page_box cell = ticket_stock_cell(ticket_stock_named("63.5x38.1"), 0);
    assert_true(fabs(cell.x - 7.25 * MM) < 0.001 && fabs(cell.y - 15.15 * MM) < 0.001);
    assert_null(ticket_stock_named("A4"));
    // printers sold as 203 dpi have 8 dots a millimetre
    assert_true(fabs(ticket_stock_named("2.25x1.25")->dot - MM / 8) < 0.00001);
    assert_true(fabs(ticket_stock_named("62mm")->dot - 72.0 / 300) < 0.00001);
}

static void page_info(const struct pile *pile, const char *key, double *ret_a, double *ret_b) {
    char command[400];
    char line[200];
    bool found = false;
    snprintf(command, sizeof command, "pdfinfo '%s'", pile->path);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    while (fgets(line, sizeof line, pipe) != NULL) {
        if (strncmp(line, key, strlen(key)) == 0) {
            const char *at = line + strlen(key);
            found = ret_b != NULL ? sscanf(at, "%lf x %lf", ret_a, ret_b) == 2
                                  : sscanf(at, "%lf", ret_a) == 1;
        }
    }
    assert_int_equal(pclose(pipe), 0);
    if (!found) {
        fail_msg("no %s", key);
    }
}

// A build of n clubs has 1 + 2n tickets: 61 on 21 cells are 3 pages, and from cell 4 on 64: 4.
static void pages_and_start(void **state) {
    static const struct {
        const char *stock;
        int clubs, from;
        double pages, width, height;
    } rows[] = {
        {"a4", 1, 1, 1, 595.28, 841.89},     {"a4", 14, 1, 2, 595.28, 841.89},
        {"letter", 30, 1, 3, 612, 792},      {"letter", 30, 3, 3, 612, 792},
        {"letter", 30, 4, 4, 612, 792},      {"63.5x38.1", 1, 21, 2, 595.28, 841.89},
        {"62mm", 14, 1, 29, 175.75, 102.05}, {"2.25x1.25", 1, 1, 3, 162, 90},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        double pages, width, height;
        struct pile *pile = pile_make(rows[i].stock);
        pile_build(pile, rows[i].clubs, false);
        pile->sheet.from = rows[i].from;
        assert_true(pile_write(pile, "pages.pdf"));
        page_info(pile, "Pages:", &pages, NULL);
        page_info(pile, "Page size:", &width, &height);
        assert_true(pages == rows[i].pages);
        assert_int_equal(ticket_sheet_pages(&pile->sheet), (int)rows[i].pages);
        assert_true(fabs(width - rows[i].width) < 0.01 && fabs(height - rows[i].height) < 0.01);
        // the first border is that of the cell to start at
        struct page_box cell = ticket_stock_cell(pile->sheet.stock, rows[i].from - 1);
        assert_true(fabs(pile->seen.box[0].x - cell.x - pile->sheet.stock->margin) < 0.5);
        assert_true(fabs(pile->seen.box[0].y - cell.y - pile->sheet.stock->margin) < 0.5);
        free(pile);
    }
}

// --- words -------------------------------------------------------------------------------------

static void lines_are(const struct ticket_label *label, const char *const *lines) {
    for (int i = 0; i < TICKET_LABEL_LINES; i++) {
        assert_string_equal(label->words[i], lines[i]);
    }
}

static void what_stands_on_them(void **state) {
    struct sample sample = sample_make();
    struct ticket ticket;
    (void)state;
    struct head head = sample.head;
    snprintf(head.model, sizeof head.model, "Crag 3");
    snprintf(head.engraved, sizeof head.engraved, "3");
    head.weight = 210500;
    struct ticket_label label = ticket_label_head(&head, "2041", "3");
    lines_are(&label,
              (const char *[]){"Crag 3", "Head, engraved 3", "Measured 210.5 g", "Club 2041-3"});
    head.weight = MASS_UNKNOWN;
    head.engraved[0] = '\0';
    label = ticket_label_head(&head, "", "");
    lines_are(&label, (const char *[]){"Crag 3", "Head", "", ""});
    struct shaft shaft = {.raw_length = IN(46, 1, 8), .weight = 58400};
    snprintf(shaft.model, sizeof shaft.model, "Reed 58");
    snprintf(shaft.flex, sizeof shaft.flex, "R");
    snprintf(shaft.rack, sizeof shaft.rack, "A1");
    label = ticket_label_shaft(&shaft, LENGTH_UNKNOWN);
    lines_are(&label,
              (const char *[]){"Reed 58, flex R", "Shaft, raw 46 1/8 in, 58.4 g", "Rack A1", ""});
    assert_true(label.wraps);
    assert_true(ticket_make(TICKET_BUILD, "2041", &ticket));
    label = ticket_label_build(&ticket, "2041", 2, "1, 3", "2026-12-01");
    assert_string_equal(label.ticket, "B-20416");
    lines_are(&label, (const char *[]){"Build 2041", "2 clubs: 1, 3", "Due 2026-12-01", ""});
    label = ticket_label_worker("W-0001B", "Ada Quill", "supervisor");
    lines_are(&label, (const char *[]){"Ada Quill", "Badge, supervisor", "", ""});
}

// Those that the station's scanning.c answers to, and nothing that confirms.
static void commands_never_confirm(void **state) {
    static const char *const bodies[] = {"OUT", "BACK", "FIT", "WRONG", "YZAQWM", "REVIEW"};
    struct ticket_label label;
    struct ticket ticket;
    int count = 0;
    (void)state;
    for (; ticket_label_command(count, &label); count++) {
        assert_true(count < (int)COUNT(bodies));
        assert_true(ticket_make(TICKET_COMMAND, bodies[count], &ticket));
        assert_string_equal(label.ticket, ticket.text);
    }
    assert_int_equal(count, COUNT(bodies));
    assert_false(ticket_label_command(-1, &label));
}

// --- errors ------------------------------------------------------------------------------------

static size_t files_in_folder(void) {
    char command[256];
    size_t count = 0;
    snprintf(command, sizeof command, "ls -A '%s'", job_folder());
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    for (int c = fgetc(pipe); c != EOF; c = fgetc(pipe)) {
        count += c == '\n';
    }
    assert_int_equal(pclose(pipe), 0);
    return count;
}

// A disk that is full is a limit on the file's size here.
static void errors_say_why_and_leave_nothing(void **state) {
    struct pile *pile = pile_make("a4");
    struct rlimit limit;
    (void)state;
    pile_build(pile, 14, false);
    size_t before = files_in_folder();
    pile->sheet.fonts = "/nowhere";
    assert_false(pile_write(pile, "no-fonts.pdf"));
    assert_non_null(strstr(pile->message, "/nowhere/B612-Regular.otf"));
    pile->sheet.fonts = KERFSIDE_SOURCE_DIR "/assets/fonts";
    assert_false(pile_write(pile, "no/such/folder.pdf"));
    assert_non_null(strstr(pile->message, "no/such/folder.pdf: No such file or directory."));
    signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
    struct rlimit small = {9000, limit.rlim_max};
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    assert_false(pile_write(pile, "full.pdf"));
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
    assert_non_null(strstr(pile->message, "full.pdf: File too large."));
    pile->label[3].ticket[0] = '\0';
    assert_false(pile_write(pile, "no-ticket.pdf"));
    assert_non_null(strstr(pile->message, "Cannot make the codes of ticket"));
    assert_int_equal(files_in_folder(), before);
    free(pile);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(height_around_a_tube),
        cmocka_unit_test(cells_lie_on_their_page),
        cmocka_unit_test(pages_and_start),
        cmocka_unit_test(what_stands_on_them),
        cmocka_unit_test(commands_never_confirm),
        cmocka_unit_test(errors_say_why_and_leave_nothing),
    };
    return cmocka_run_group_tests(tests, job_folder_make, job_folder_drop);
}
