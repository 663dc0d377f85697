#include "certificate.h"
#include "page_fit.h"
#include "text.h"
#include "tongue.h"

#include <math.h>
#include <stdio.h>

#define TITLE 22.0
#define TEXT 9.0
#define SMALL 7.5
#define PITCH 1.35
#define ROW 27.0 // at most
#define GAP 8.0

enum column {
    COLUMN_CLUB,
    COLUMN_PARTS,
    COLUMN_CUT,
    COLUMN_LENGTH,
    COLUMN_SWINGWEIGHT,
    COLUMN_FREQUENCY,
    COLUMN_LOFT,
    COLUMN_LIE,
    COLUMN_COUNT
};
static const char *const heads[COLUMN_COUNT] = {
    N_("Club"),        N_("Head and shaft"), N_("Shaft cut"), N_("Length"),
    N_("Swingweight"), N_("Frequency"),      N_("Loft"),      N_("Lie")};
static const double shares[COLUMN_COUNT] = {0.09, 0.23, 0.12, 0.13, 0.12, 0.13, 0.09, 0.09};

struct sheet_at {
    struct page *page;
    struct page_box box;
    double y;
    const struct certificate *of;
};

static double width(const struct sheet_at *at) {
    return at->box.width - 2 * PAGE_MARGIN;
}

static double left(const struct sheet_at *at, int column) {
    double x = PAGE_MARGIN;
    for (int i = 0; i < column; i++) {
        x += shares[i] * width(at);
    }
    return x;
}

static void cell(struct sheet_at *at, int column, enum page_font font, double size, double y,
                 const char *words) {
    page_fit(at->page, font, size, PAGE_LEFT, left(at, column), y, shares[column] * width(at) - 5,
             words);
}

// A bar across the page, above the table and at its foot: whichever part is copied says so.
static void stamp(struct sheet_at *at, double y) {
    if (at->of->draft) {
        page_fill(at->page, &(struct page_box){PAGE_MARGIN, y, width(at), 2 * TEXT}, 0.85);
        page_fit(at->page, PAGE_BOLD, TEXT, PAGE_CENTRE, at->box.width / 2, y + 1.35 * TEXT,
                 width(at), _("DRAFT: this build is not done"));
    }
}

static void head(struct sheet_at *at) {
    const struct certificate *of = at->of;
    char words[256];
    page_fit(at->page, PAGE_BOLD, TEXT, PAGE_LEFT, PAGE_MARGIN, at->y + PAGE_CAP(TEXT), width(at),
             of->shop[0] != '\0' ? of->shop : _("Certificate"));
    at->y += 2 * TEXT;
    snprintf(words, sizeof words,
             of->draft ? _("DRAFT: Certificate of build %.40s") : _("Certificate of build %.40s"),
             of->build);
    page_fit(at->page, PAGE_BOLD, TITLE, PAGE_LEFT, PAGE_MARGIN, at->y + PAGE_CAP(TITLE), width(at),
             words);
    at->y += PITCH * TITLE;
    page_fit(at->page, PAGE_REGULAR, TEXT, PAGE_LEFT, PAGE_MARGIN, at->y + PAGE_CAP(TEXT),
             width(at), of->built);
    at->y += 2 * TEXT;
    stamp(at, at->y);
    at->y += of->draft ? 3 * TEXT : 0;
    for (int i = 0; i < COLUMN_COUNT; i++) {
        cell(at, i, PAGE_BOLD, SMALL, at->y + PAGE_CAP(SMALL), _(heads[i]));
    }
    at->y += 1.5 * SMALL;
    page_fit(at->page, PAGE_REGULAR, SMALL, PAGE_LEFT, PAGE_MARGIN, at->y + PAGE_CAP(SMALL),
             width(at), _("Above: planned. Below, bold: made or measured."));
    at->y += 1.6 * SMALL;
    page_line(at->page, PAGE_MARGIN, at->y, at->box.width - PAGE_MARGIN, at->y, 0.8, 0);
}

static void value(struct sheet_at *at, int column, const struct certificate_club *club, int i,
                  double size, double row) {
    char words[ASSEMBLY_TEXT_MAX];
    double upper = at->y + 0.45 * row;
    if (club->planned.value[i] != ASSEMBLY_UNKNOWN) {
        assembly_text((enum assembly_value)i, club->planned.value[i], words);
        cell(at, column, PAGE_REGULAR, size, upper, words);
    }
    if (club->measured.value[i] != ASSEMBLY_UNKNOWN) {
        char told[2 * ASSEMBLY_TEXT_MAX];
        struct text text = text_open(told, sizeof told);
        assembly_text((enum assembly_value)i, club->measured.value[i], words);
        text_say(&text,
                 club->check.accepted[i]                ? _("%1 (accepted)")
                 : club->check.state[i] == ASSEMBLY_OUT ? _("%1 (out)")
                                                        : "%1",
                 words);
        cell(at, column, PAGE_BOLD, size, upper + 0.42 * row, told);
    } else if (club->check.wanted[i]) {
        cell(at, column, PAGE_BOLD, size, upper + 0.42 * row, _("missing"));
    }
}

static void row(struct sheet_at *at, const struct certificate_club *club, double height) {
    double size = fmin(TEXT, 0.36 * height);
    double upper = at->y + 0.45 * height;
    double lower = upper + 0.42 * height;
    cell(at, COLUMN_CLUB, PAGE_BOLD, size * 1.1, upper, club->club);
    cell(at, COLUMN_PARTS, PAGE_REGULAR, size, upper, club->head);
    cell(at, COLUMN_PARTS, PAGE_REGULAR, size, lower, club->shaft);
    cell(at, COLUMN_CUT, PAGE_REGULAR, size, upper, club->cut_planned);
    cell(at, COLUMN_CUT, PAGE_BOLD, size, lower, club->cut_made);
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        value(at, COLUMN_LENGTH + i, club, i, size, height);
    }
    at->y += height;
    page_line(at->page, PAGE_MARGIN, at->y, at->box.width - PAGE_MARGIN, at->y, 0.3, 0.6);
}

struct foot_at {
    struct sheet_at *at;
};

static void foot_line(void *of, size_t index, const char *words) {
    const struct foot_at *foot = of;
    page_text(foot->at->page, PAGE_REGULAR, SMALL, PAGE_LEFT, PAGE_MARGIN,
              foot->at->y + PAGE_CAP(SMALL) + (double)index * PITCH * SMALL, words);
}

static void paragraph(struct sheet_at *at, const char *words) {
    struct foot_at foot = {at};
    size_t lines = page_wrap(at->page, PAGE_REGULAR, SMALL, width(at), words, foot_line, &foot);
    at->y += (double)lines * PITCH * SMALL;
}

static void foot_words(const struct certificate *of, char *words, size_t size) {
    char all[400];
    struct text text = text_open(all, sizeof all);
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        char off[ASSEMBLY_TEXT_MAX];
        assembly_tolerance_text((enum assembly_value)i, of->tolerance.off[i], off);
        text_add(&text, i > 0 ? ", " : "");
        text_say(&text, "%1 ± %2", assembly_value_words((enum assembly_value)i), off);
    }
    text = text_open(words, size);
    text_say(&text, _("Tolerances: %1. Printed %2."), all, of->printed);
}

static double foot_height(struct sheet_at *at, const char *words) {
    size_t lines =
        page_wrap(at->page, PAGE_REGULAR, SMALL, width(at), at->of->methods, NULL, NULL) +
        page_wrap(at->page, PAGE_REGULAR, SMALL, width(at), words, NULL, NULL);
    return GAP + (double)lines * PITCH * SMALL + (at->of->draft ? 2 * TEXT + GAP : 0);
}

bool certificate_write(const struct certificate *certificate, const char *path,
                       const struct page_watch *watch, char *message, size_t size) {
    struct sheet_at at = {
        .box = page_sheet(certificate->paper, true), .y = PAGE_MARGIN, .of = certificate};
    if (!page_open(path, certificate->fonts, &at.page, message, size)) {
        return false;
    }
    page_begin(at.page, &at.box, _("Certificate"), watch);
    head(&at);
    char words[512];
    foot_words(certificate, words, sizeof words);
    double room = at.box.height - PAGE_MARGIN - foot_height(&at, words) - at.y;
    double height = fmin(ROW, room / (double)certificate->count);
    for (size_t i = 0; i < certificate->count; i++) {
        row(&at, &certificate->clubs[i], height);
    }
    at.y += GAP;
    paragraph(&at, certificate->methods);
    paragraph(&at, words);
    stamp(&at, at.box.height - PAGE_MARGIN - 2 * TEXT);
    bool done = page_save(at.page, message, size);
    page_close(at.page);
    return done;
}
