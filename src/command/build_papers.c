#include "build_papers.h"
#include "assets.h"
#include "builds.h"
#include "card_sheet.h"
#include "certificate.h"
#include "day_text.h"
#include "tongue.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

// --- the clubs of a build ------------------------------------------------------------------------

struct one {
    struct club club;
    struct final_values values;
    struct entry measure; // that made it done; kind GENESIS: none
    char who[PARTS_NAME_MAX + TICKET_TEXT_MAX + 4];
};
struct gathered {
    const char *only; // club, NULL: all
    size_t count;
    struct one one[SET_CLUBS_MAX];
};

static bool keep(void *context, const struct club *club, const struct final_values *values) {
    struct gathered *gathered = context;
    bool wanted = gathered->only == NULL ? !club->order.cancelled
                                         : strcmp(gathered->only, club->order.club) == 0;
    if (wanted && gathered->count < SET_CLUBS_MAX) {
        gathered->one[gathered->count].club = *club;
        gathered->one[gathered->count].values = *values;
        gathered->count++;
    }
    return true;
}

// Who measured it, by name while the shop knows it.
static bool add_measure(struct store *store, struct one *one) {
    struct worker worker;
    if (one->club.progress.stage != STAGE_DONE || one->club.progress.measure_seq == 0) {
        return true;
    }
    if (store_entry(store, one->club.progress.measure_seq, &one->measure) != STORE_OK) {
        return false;
    }
    enum store_result result = store_worker(store, one->measure.worker, &worker);
    if (result == STORE_OK) {
        snprintf(one->who, sizeof one->who, "%s (%s)", worker.name, worker.badge);
    } else {
        snprintf(one->who, sizeof one->who, "%s", one->measure.worker);
    }
    return result == STORE_OK || result == STORE_NONE;
}

// NULL, and `message` says why, when there is nothing to make a paper of.
static struct gathered *gather(struct store *store, const char *build, const char *club,
                               char *message, size_t size) {
    struct gathered *gathered = calloc(1, sizeof *gathered);
    if (gathered == NULL) {
        snprintf(message, size, _("Memory is short: close other programs."));
        return NULL;
    }
    gathered->only = club;
    enum store_result result = store_build_clubs(store, build, keep, gathered);
    bool read = result == STORE_OK || result == STORE_NONE;
    for (size_t i = 0; read && i < gathered->count; i++) {
        read = add_measure(store, &gathered->one[i]);
    }
    if (!read) {
        snprintf(message, size, "%s", store_message(store));
    } else if (gathered->count == 0) {
        if (club == NULL) {
            snprintf(message, size, _("There is no build %s."), build);
        } else {
            snprintf(message, size, _("There is no club %s-%s."), build, club);
        }
    }
    if (!read || gathered->count == 0) {
        free(gathered);
        return NULL;
    }
    return gathered;
}

enum time_form { TIME_PRINTED, TIME_READY, TIME_DAY };

static void time_words(int64_t ms, enum time_form form, char *buffer, size_t size) {
    struct tm date;
    time_t seconds = (time_t)(ms / 1000);
    buffer[0] = '\0';
    if (localtime_r(&seconds, &date) == NULL) {
        return;
    }
    const struct day day = {date.tm_year + 1900, date.tm_mon + 1, date.tm_mday};
    char words[DAY_TEXT_MAX];
    char clock[8];
    strftime(clock, sizeof clock, "%H:%M", &date);
    struct text text = text_open(buffer, size);
    switch (form) {
    case TIME_PRINTED:
    case TIME_DAY:
        day_text(&day, words, sizeof words);
        break;
    case TIME_READY:
        day_text_short(&day, words, sizeof words);
        break;
    }
    // TRANSLATORS: %1 a day, %2 a time of it.
    text_say(&text, form == TIME_DAY ? "%1" : T_("day and time", "%1 %2"), words, clock);
}

// --- cards ---------------------------------------------------------------------------------------

// False: the one club that was asked for has no card.
static bool make_cards(const struct build_papers *papers, const struct gathered *gathered,
                       struct card_page *pages, size_t *ret_count, char *message, size_t size) {
    size_t count = 0;
    message[0] = '\0';
    for (size_t i = 0; i < gathered->count; i++) {
        const struct one *one = &gathered->one[i];
        struct card_page *page = &pages[count];
        const struct card_input input = {.club = &one->club,
                                         .rules = &papers->rules,
                                         .assembly = &papers->assembly,
                                         .tolerance = &papers->tolerance,
                                         .shop = &papers->shop,
                                         .values = &one->values,
                                         .cut_ms = one->measure.wall_ms};
        char why[PLAN_LINE_TEXT_MAX];
        snprintf(why, sizeof why, "%s", _("head or shaft is not chosen yet."));
        bool parts = one->club.head.ticket[0] != '\0' && one->club.shaft.ticket[0] != '\0';
        if (!parts || !assembly_card_make(&input, &page->card, why)) {
            snprintf(message, size, _("Club %s: %s"), one->club.order.club, why);
            continue;
        }
        if (page->card.ready_ms != 0) {
            time_words(page->card.ready_ms, TIME_READY, page->ready, sizeof page->ready);
        }
        count++;
    }
    *ret_count = count;
    return count > 0;
}

bool build_papers_card(struct store *store, const struct build_papers *papers, const char *build,
                       const char *club, const char *path, size_t *ret_pages, char *message,
                       size_t size) {
    struct gathered *gathered = gather(store, build, club, message, size);
    struct card_page *pages = gathered != NULL ? calloc(gathered->count, sizeof *pages) : NULL;
    char printed[32], fonts[1100];
    size_t count = 0;
    bool done = false;
    if (gathered != NULL && pages == NULL) {
        snprintf(message, size, _("Memory is short: close other programs."));
    } else if (gathered != NULL && make_cards(papers, gathered, pages, &count, message, size)) {
        time_words(papers->now_ms, TIME_PRINTED, printed, sizeof printed);
        snprintf(fonts, sizeof fonts, "%s/fonts", assets_folder());
        const struct card_sheet sheet = {.pages = pages,
                                         .count = count,
                                         .shop = papers->shop_name,
                                         .printed = printed,
                                         .method = papers->method,
                                         .paper = papers->paper,
                                         .fonts = fonts};
        done = card_sheet_write(&sheet, path, NULL, message, size);
    }
    free(pages);
    free(gathered);
    if (done) {
        *ret_pages = count;
    }
    return done;
}

// --- the certificate -----------------------------------------------------------------------------

static bool all_done(const struct build_papers *papers, const struct gathered *gathered,
                     char *missing, size_t size) {
    struct text text = text_open(missing, size);
    bool done = true;
    for (size_t i = 0; i < gathered->count; i++) {
        done = builds_club_done(&gathered->one[i].club, &gathered->one[i].values, &papers->rules,
                                &papers->assembly, &papers->tolerance, &text) &&
               done;
    }
    return done;
}

// `Built by Ida Brandt (W-00029), Tam Orr (W-0003K), 30 to 31 March 2026`
static void built_words(const struct gathered *gathered, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    int64_t first = 0, last = 0;
    char from[32], to[32];
    char people[300];
    struct text by = text_open(people, sizeof people);
    for (size_t i = 0; i < gathered->count; i++) {
        const struct one *one = &gathered->one[i];
        bool told = one->who[0] == '\0';
        for (size_t j = 0; j < i && !told; j++) {
            told = strcmp(gathered->one[j].who, one->who) == 0;
        }
        if (!told) {
            text_add(&by, by.used > 0 ? ", " : "");
            text_add(&by, one->who);
        }
        if (one->measure.wall_ms != 0) {
            first = first == 0 || one->measure.wall_ms < first ? one->measure.wall_ms : first;
            last = one->measure.wall_ms > last ? one->measure.wall_ms : last;
        }
    }
    time_words(first, TIME_DAY, from, sizeof from);
    time_words(last, TIME_DAY, to, sizeof to);
    bool days = strcmp(from, to) != 0;
    // TRANSLATORS: %1 people, %2 and %3 days.
    text_say(&text,
             first == 0     ? by.used > 0 ? _("Built by %1") : ""
             : by.used == 0 ? days ? _("Cut %2 to %3") : _("Cut %2")
             : days ? _("Built by %1, cut %2 to %3")
                            : _("Built by %1, cut %2"),
             people, from, to);
}

// `pattern` with the clubs whose length was taken so for %1; nothing when there are none.
static void add_clubs(const struct gathered *gathered, enum length_method method,
                      const char *pattern, struct text *text) {
    char clubs[200];
    struct text names = text_open(clubs, sizeof clubs);
    for (size_t i = 0; i < gathered->count; i++) {
        const struct one *one = &gathered->one[i];
        if (one->values.length != LENGTH_UNKNOWN && one->values.method == method) {
            text_add(&names, names.used > 0 ? ", " : "");
            text_add(&names, one->club.order.club);
        }
    }
    if (names.used > 0) {
        text_say(text, pattern, clubs);
        text_add(text, " ");
    }
}

static void methods_words(const struct gathered *gathered, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    // TRANSLATORS: %1 clubs, as `4, 5, 6`.
    add_clubs(gathered, LENGTH_METHOD_RULES,
              _("Length of %1: after the Equipment Rules, the sole against a plane at 60 degrees, "
                "to the end of the grip."),
              &text);
    add_clubs(gathered, LENGTH_METHOD_RULER,
              _("Length of %1: by the shop's ruler, along the shaft, ground to end of grip cap."),
              &text);
    add_clubs(gathered, LENGTH_METHOD_UNKNOWN, _("Length of %1: it was not said how."), &text);
    text_add(&text,
             _("Swingweight about 14 in from the butt; frequency clamped over the last 5 in. "
               "Planned frequencies, and planned swingweights that were not ordered, are "
               "estimates."));
}

static void certificate_row(const struct build_papers *papers, const struct one *one,
                            struct certificate_club *row) {
    const struct club *club = &one->club;
    snprintf(row->club, sizeof row->club, "%s", club->order.club);
    snprintf(row->head, sizeof row->head, "%s", club->head.model);
    snprintf(row->shaft, sizeof row->shaft, "%s %s", club->shaft.model, club->shaft.flex);
    if (one->measure.made != LENGTH_UNKNOWN && one->measure.wall_ms != 0) {
        assembly_text(ASSEMBLY_LENGTH, one->measure.planned, row->cut_planned);
        assembly_text(ASSEMBLY_LENGTH, one->measure.made, row->cut_made);
    }
    assembly_planned(club, &papers->rules, &papers->assembly, &row->planned);
    assembly_measured(&one->values, &row->measured);
    assembly_check(&row->planned, &row->measured, assembly_accepted(&one->values),
                   &papers->tolerance, &row->check);
}

bool build_papers_certificate(struct store *store, const struct build_papers *papers,
                              const char *build, bool draft, const char *path, char *message,
                              size_t size) {
    struct gathered *gathered = gather(store, build, NULL, message, size);
    struct certificate_club rows[CERTIFICATE_CLUBS_MAX];
    char missing[800], printed[32], built[600], methods[1600], fonts[1100];
    if (gathered == NULL) {
        return false;
    }
    bool done = all_done(papers, gathered, missing, sizeof missing);
    if (!done && !draft) {
        snprintf(message, size, _("Build %s is not done: %s. Measure it, or print a draft."),
                 gathered->one[0].club.order.build, missing);
        free(gathered);
        return false;
    }
    memset(rows, 0, sizeof rows);
    for (size_t i = 0; i < gathered->count; i++) {
        certificate_row(papers, &gathered->one[i], &rows[i]);
    }
    built_words(gathered, built, sizeof built);
    methods_words(gathered, methods, sizeof methods);
    time_words(papers->now_ms, TIME_PRINTED, printed, sizeof printed);
    snprintf(fonts, sizeof fonts, "%s/fonts", assets_folder());
    const struct certificate certificate = {.shop = papers->shop_name,
                                            .build = gathered->one[0].club.order.build,
                                            .built = built,
                                            .methods = methods,
                                            .printed = printed,
                                            .draft = !done,
                                            .clubs = rows,
                                            .count = gathered->count,
                                            .tolerance = papers->tolerance,
                                            .paper = papers->paper,
                                            .fonts = fonts};
    bool written = certificate_write(&certificate, path, NULL, message, size);
    free(gathered);
    return written;
}
