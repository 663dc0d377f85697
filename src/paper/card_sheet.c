#include "card_sheet.h"
#include "page_fit.h"
#include "text.h"
#include "tongue.h"

#include <stdio.h>

#define TITLE 26.0
#define TEXT 11.0
#define SMALL 8.0
#define PITCH 1.35 // lines, in sizes
#define BOX 12.0
#define BELOW 230.0 // what stands below the steps
#define LABEL 110.0 // room for the name of a step

struct sheet_at {
    struct page *page;
    struct page_box box;
    double y;
    const struct card_sheet *of;
};

static double width(const struct sheet_at *at) {
    return at->box.width - 2 * PAGE_MARGIN;
}

static void words_at(struct sheet_at *at, enum page_font font, double size, const char *words) {
    page_fit(at->page, font, size, PAGE_LEFT, PAGE_MARGIN, at->y + PAGE_CAP(size), width(at),
             words);
    at->y += PITCH * size;
}

static void head(struct sheet_at *at, const struct assembly_card *card) {
    char words[256];
    double right = at->box.width - PAGE_MARGIN;
    snprintf(words, sizeof words, "%s%s%s", _("Assembly card"), at->of->shop[0] != '\0' ? ", " : "",
             at->of->shop);
    page_fit(at->page, PAGE_BOLD, SMALL, PAGE_LEFT, PAGE_MARGIN, at->y + PAGE_CAP(SMALL),
             0.6 * width(at), words);
    snprintf(words, sizeof words, _("Printed %.40s"), at->of->printed);
    page_text(at->page, PAGE_REGULAR, SMALL, PAGE_RIGHT, right, at->y + PAGE_CAP(SMALL), words);
    at->y += 2 * SMALL;
    snprintf(words, sizeof words, _("Build %s, club %s"), card->build, card->club);
    words_at(at, PAGE_BOLD, TITLE, words);
    snprintf(words, sizeof words, _("%d of %d"), card->position, card->count);
    words_at(at, PAGE_REGULAR, TEXT, words);
    snprintf(words, sizeof words, _("Head %s, %s"), card->head, card->head_model);
    words_at(at, PAGE_REGULAR, TEXT, words);
    snprintf(words, sizeof words, _("Shaft %s, %s %s"), card->shaft, card->shaft_model, card->flex);
    words_at(at, PAGE_REGULAR, TEXT, words);
    at->y += TEXT;
}

struct step_at {
    struct sheet_at *at;
    enum page_font font;
    double size;
};

static void step_line(void *of, size_t index, const char *words) {
    const struct step_at *step = of;
    page_text(step->at->page, step->font, step->size, PAGE_LEFT, PAGE_MARGIN + BOX + 8 + LABEL,
              step->at->y + PAGE_CAP(step->size) + (double)index * PITCH * step->size, words);
}

// Draws the steps, or only tells how high they are in this size.
static double steps_at(struct sheet_at *at, const struct assembly_card *card, double size,
                       bool draw) {
    double from = at->y;
    for (size_t i = 0; i < card->step_count; i++) {
        const struct card_step *step = &card->step[i];
        struct step_at to = {at, step->caution ? PAGE_BOLD : PAGE_REGULAR, size};
        if (draw) {
            page_frame(at->page, &(struct page_box){PAGE_MARGIN, at->y - 2, BOX, BOX}, 0.8);
            page_fit(at->page, PAGE_BOLD, size, PAGE_LEFT, PAGE_MARGIN + BOX + 8,
                     at->y + PAGE_CAP(size), LABEL - 8, step->what);
        }
        size_t lines = page_wrap(at->page, to.font, size, width(at) - BOX - 8 - LABEL, step->how,
                                 draw ? step_line : NULL, &to);
        at->y += (double)(lines > 0 ? lines : 1) * PITCH * size + 6;
    }
    double height = at->y - from;
    at->y = draw ? at->y : from;
    return height;
}

static void steps(struct sheet_at *at, const struct assembly_card *card) {
    double room = at->box.height - PAGE_MARGIN - BELOW - at->y;
    double size = TEXT;
    while (size > SMALL / 2 && steps_at(at, card, size, false) > room) {
        size *= 0.9;
    }
    steps_at(at, card, size, true);
}

static void ready(struct sheet_at *at, const struct card_page *page) {
    char words[256];
    if (page->ready[0] != '\0') {
        snprintf(words, sizeof words, _("Glued when it was cut: not handled before %.60s"),
                 page->ready);
        words_at(at, PAGE_BOLD, TEXT, words);
    }
    at->y += TEXT;
}

static const char *state_words(const struct assembly_check *check, int i) {
    switch (check->state[i]) {
    case ASSEMBLY_IN:
        return T_("verdict", "in");
    case ASSEMBLY_OUT:
        return check->accepted[i] ? _("out, accepted") : T_("verdict", "out");
    case ASSEMBLY_TAKEN:
        return _("measured");
    case ASSEMBLY_MISSING:
        break;
    }
    return check->wanted[i] ? _("to be measured") : "";
}

static void target(struct sheet_at *at, const struct assembly_card *card, int i) {
    static const char *const names[ASSEMBLY_VALUE_COUNT] = {N_("Length"), N_("Swingweight"),
                                                            N_("Frequency"), N_("Loft"), N_("Lie")};
    enum assembly_value value = (enum assembly_value)i;
    double each = width(at) / 5;
    double base = at->y + PAGE_CAP(TEXT);
    char planned[ASSEMBLY_TEXT_MAX], off[ASSEMBLY_TEXT_MAX], cell[ASSEMBLY_TEXT_MAX + 8];
    page_text(at->page, PAGE_BOLD, TEXT, PAGE_LEFT, PAGE_MARGIN, base, _(names[i]));
    assembly_text(value, card->planned.value[i], planned);
    page_fit(at->page, PAGE_REGULAR, TEXT, PAGE_LEFT, PAGE_MARGIN + each, base, each - 6, planned);
    if (card->planned.value[i] != ASSEMBLY_UNKNOWN) {
        assembly_tolerance_text(value, card->tolerance.off[i], off);
        snprintf(cell, sizeof cell, "± %s", off);
        page_fit(at->page, PAGE_REGULAR, TEXT, PAGE_LEFT, PAGE_MARGIN + 2 * each, base, each - 6,
                 cell);
    }
    if (card->measured.value[i] != ASSEMBLY_UNKNOWN) {
        assembly_text(value, card->measured.value[i], planned);
        page_fit(at->page, PAGE_BOLD, TEXT, PAGE_LEFT, PAGE_MARGIN + 3 * each, base, each - 6,
                 planned);
    } else {
        page_line(at->page, PAGE_MARGIN + 3 * each, base + 2, PAGE_MARGIN + 4 * each - 12, base + 2,
                  0.6, 0.4);
    }
    page_fit(at->page, PAGE_REGULAR, SMALL, PAGE_LEFT, PAGE_MARGIN + 4 * each, base, each,
             state_words(&card->check, i));
    at->y += 2 * TEXT;
}

static void targets(struct sheet_at *at, const struct assembly_card *card) {
    const char *const heads[] = {"", _("Planned"), _("Tolerance"), _("Measured"), ""};
    double each = width(at) / 5;
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        page_text(at->page, PAGE_REGULAR, SMALL, PAGE_LEFT, PAGE_MARGIN + each * (double)i,
                  at->y + PAGE_CAP(SMALL), heads[i]);
    }
    at->y += 2 * SMALL;
    page_line(at->page, PAGE_MARGIN, at->y - 4, at->box.width - PAGE_MARGIN, at->y - 4, 0.6, 0);
    at->y += 5;
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        target(at, card, i);
    }
    words_at(at, PAGE_REGULAR, SMALL,
             at->of->method == LENGTH_METHOD_RULES
                 ? _("Length after the Equipment Rules: sole against a plane at 60 degrees, to the "
                     "end of the grip.")
                 : _("Length by the shop's ruler: along the shaft, ground to end of grip cap."));
}

static void cautions(struct sheet_at *at) {
    const char *words =
        _("Epoxy and abrasive dust: gloves, eye protection, a respirator, extraction. The epoxy "
          "maker's sheet and the site's rules come first.");
    at->y = at->box.height - PAGE_MARGIN - 2 * SMALL;
    page_line(at->page, PAGE_MARGIN, at->y - SMALL, at->box.width - PAGE_MARGIN, at->y - SMALL, 0.4,
              0.6);
    words_at(at, PAGE_REGULAR, SMALL, words);
}

bool card_sheet_write(const struct card_sheet *sheet, const char *path,
                      const struct page_watch *watch, char *message, size_t size) {
    struct sheet_at at = {.box = page_sheet(sheet->paper, true), .of = sheet};
    if (!page_open(path, sheet->fonts, &at.page, message, size)) {
        return false;
    }
    page_begin(at.page, &at.box, _("Assembly card"), watch);
    for (size_t i = 0; i < sheet->count; i++) {
        const struct card_page *page = &sheet->pages[i];
        if (i > 0) {
            page_next(at.page);
        }
        at.y = PAGE_MARGIN;
        head(&at, &page->card);
        steps(&at, &page->card);
        ready(&at, page);
        targets(&at, &page->card);
        cautions(&at);
    }
    bool done = page_save(at.page, message, size);
    page_close(at.page);
    return done;
}
