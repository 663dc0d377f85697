// What stands above and below the table: whose sheet it is, how to read it, and the cautions.

#include "day_text.h"
#include "text.h"
#include "tongue.h"
#include "worksheet_inner.h"

#include <stdio.h>
#include <string.h>

#define TITLE 16.0
#define LINE 8.0
#define SMALL 6.5
#define PITCH 1.3   // lines, in sizes
#define ASCENT 0.84 // of letters like d

static const char reading[] =
    N_("Tip first: the tip mark is measured from the tip end, and that much is waste. The "
       "butt mark is measured from the new tip end, and that length is kept. The blade goes "
       "on the waste side.");
static const char cautions[] =
    N_("Before the wheel turns: eye, face and hearing protection on; respirator and "
       "extraction for graphite and epoxy dust, no sparks into it; guards in place, wheel "
       "sound; shaft clamped; hands and sleeves clear. The saw maker's manual, the site's "
       "risk assessment and local codes come first. Kerfside controls no machine and is no "
       "safety device.");
static const char estimates[] =
    N_("Weight, swingweight and frequency are estimates: measure the assembled club.");

#define SOURCES_MAX 4096

// `Charts: Reed 60 R, iron: model revision 1, chart revision 2;` once each.
static void sources(const struct worksheet *of, char buffer[SOURCES_MAX]) {
    char one[400];
    struct text text = text_open(buffer, SOURCES_MAX);
    text_add(&text, _(estimates));
    text_add(&text, " ");
    for (size_t i = 0; i < of->count; i++) {
        const struct club *club = &of->clubs[i];
        if (club->shaft.ticket[0] == '\0' || club->chart.count == 0) {
            continue;
        }
        struct text source = text_open(one, sizeof one);
        // TRANSLATORS: %1 %2 a shaft's model and flex, %3 a kind of club.
        text_say(&source, _("%1 %2 for %3: chart revision %4, notes revision %5."),
                 club->shaft.model, club->shaft.flex, chart_kind_words(club->chart.kind),
                 text_number(club->chart.revision).digits,
                 text_number(club->model.revision).digits);
        if (strstr(buffer, one) == NULL) {
            text_add(&text, one);
            text_add(&text, " ");
        }
    }
}

static double paragraph_height(struct sheet *sheet, double width, double size, const char *words) {
    return (double)page_wrap(sheet->page, PAGE_REGULAR, size, width, words, NULL, NULL) * size *
           PITCH;
}

struct paragraph {
    struct sheet *sheet;
    double size;
    double y;
};

static void draw_line(void *of, size_t index, const char *words) {
    const struct paragraph *at = of;
    page_text(at->sheet->page, PAGE_REGULAR, at->size, PAGE_LEFT, PAGE_MARGIN,
              at->y + at->size * (1 + PITCH * (double)index), words);
}

// Returns where the next one begins.
static double paragraph_draw(struct sheet *sheet, double y, double size, const char *words) {
    double width = sheet->at.sheet.width - 2 * PAGE_MARGIN;
    struct paragraph at = {sheet, size, y};
    return y + size * PITCH *
                   (double)page_wrap(sheet->page, PAGE_REGULAR, size, width, words, draw_line, &at);
}

// --- header ------------------------------------------------------------------------------------

// `Worksheet, 8 clubs, due 2026-11-30 to 2026-12-04`
static void head_words(const struct worksheet *of, struct text *text) {
    const char *first = "";
    const char *last = "";
    char from[DAY_TEXT_MAX];
    char to[DAY_TEXT_MAX];
    for (size_t i = 0; i < of->count; i++) {
        const char *due = of->clubs[i].order.due;
        if (*due != '\0') {
            first = *first == '\0' || strcmp(due, first) < 0 ? due : first;
            last = strcmp(due, last) > 0 ? due : last;
        }
    }
    day_text_iso(first, from, sizeof from);
    day_text_iso(last, to, sizeof to);
    text_say(
        text,
        *first == '\0' ? tongue_plural("Worksheet, %1 club", "Worksheet, %1 clubs", of->count)
        : strcmp(first, last) == 0
            ? tongue_plural("Worksheet, %1 club, due %2", "Worksheet, %1 clubs, due %2", of->count)
            : tongue_plural("Worksheet, %1 club, due %2 to %3", "Worksheet, %1 clubs, due %2 to %3",
                            of->count),
        text_number((int64_t)of->count).digits, from, to);
}

double header_height(struct sheet *sheet, double width) {
    return TITLE + 2 * LINE + paragraph_height(sheet, width, LINE, _(reading)) + 5;
}

void header_draw(struct sheet *sheet, double y) {
    const struct worksheet *of = sheet->of;
    char words[PAGE_WORDS_MAX];
    double right = sheet->at.sheet.width - PAGE_MARGIN;
    struct text text = text_open(words, sizeof words);
    text_say(&text, _("Build %1"), of->set->build);
    page_text(sheet->page, PAGE_BOLD, TITLE, PAGE_LEFT, PAGE_MARGIN, y + ASCENT * TITLE, words);
    snprintf(words, sizeof words, _("Printed %.40s"), of->printed);
    page_text(sheet->page, PAGE_REGULAR, LINE, PAGE_RIGHT, right, y + ASCENT * TITLE, words);
    text = text_open(words, sizeof words);
    head_words(of, &text);
    text_add(&text, *of->bench != '\0' ? ", " : "");
    text_add(&text, of->bench);
    page_text(sheet->page, PAGE_REGULAR, LINE, PAGE_LEFT, PAGE_MARGIN, y + TITLE + LINE, words);
    paragraph_draw(sheet, y + TITLE + 1.6 * LINE, LINE, _(reading));
}

// --- footer ------------------------------------------------------------------------------------

double footer_height(struct sheet *sheet, double width) {
    char words[SOURCES_MAX];
    sources(sheet->of, words);
    return 6 + paragraph_height(sheet, width, SMALL, words) +
           paragraph_height(sheet, width, SMALL, _(cautions));
}

void footer_draw(struct sheet *sheet, double y) {
    char words[SOURCES_MAX];
    sources(sheet->of, words);
    page_line(sheet->page, PAGE_MARGIN, y + 2, sheet->at.sheet.width - PAGE_MARGIN, y + 2, 0.4,
              0.6);
    y = paragraph_draw(sheet, y + 4, SMALL, words);
    paragraph_draw(sheet, y, SMALL, _(cautions));
}
