// A build as a whole: its clubs one after the other, the set they make, and the worksheet.

#include "assets.h"
#include "builds.h"
#include "columns.h"
#include "database.h"
#include "planning.h"
#include "text.h"
#include "tongue.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

struct build_clubs {
    size_t count; // of all; the first SET_CLUBS_MAX are kept
    struct club club[SET_CLUBS_MAX];
};

static bool keep_club(void *context, const struct club *club, const struct final_values *values) {
    struct build_clubs *clubs = context;
    (void)values;
    if (clubs->count < SET_CLUBS_MAX) {
        clubs->club[clubs->count] = *club;
    }
    clubs->count++;
    return true;
}

static bool print_club(void *context, const struct club *club, const struct final_values *values) {
    (void)values;
    planning_club(context, club);
    return true;
}

static enum store_result said(const struct planning *planning, enum store_result result) {
    if (result != STORE_OK && result != STORE_NONE) {
        database_complain("plan", planning->store);
    }
    return result;
}

// --- the set as text ---------------------------------------------------------------------------

#define VALUE_WIDTH 19
#define CLUB_WIDTH (-15)

static void add_value(struct text *text, enum set_value value, double amount) {
    char scale[BALANCE_SCALE_TEXT_MAX];
    if (value == SET_SWINGWEIGHT && balance_scale_text(amount, scale)) {
        text_add_figure(text, scale);
    } else {
        text_add_decimal(text, amount, value == SET_LENGTH ? 3 : 1);
    }
}

static void put_point(const struct set_point *point, enum set_value value) {
    char words[48];
    struct text text = text_open(words, sizeof words);
    if (point->gap == ESTIMATE_GAP_NONE) {
        add_value(&text, value, point->planned);
    } else {
        text_add(&text, _("not known"));
    }
    if (point->measured_known) {
        text_add(&text, " (");
        add_value(&text, value, point->measured);
        text_add(&text, ")");
    }
    columns_put(stdout, words, VALUE_WIDTH);
}

static void put_line_of(const struct set_line *line, enum set_value value) {
    char words[48];
    struct text text = text_open(words, sizeof words);
    if (line->known) {
        double points = value == SET_SWINGWEIGHT ? BALANCE_POINT : 1;
        text_add(&text, line->slope > 0 ? "+" : "");
        text_add_decimal(&text, line->slope / points, value == SET_LENGTH ? 3 : 1);
    } else {
        text_add(&text, _("no line"));
    }
    columns_put(stdout, words, VALUE_WIDTH);
}

static void put_set(const struct set *set) {
    static const char *const heads[SET_VALUE_COUNT] = {N_("length in"), N_("weight g"),
                                                       N_("swingweight"), N_("frequency cpm")};
    char words[SET_TEXT_MAX];
    bool odd = false;
    printf(_("\n\nSet %s, planned (measured); weight, swingweight and frequency are estimates\n"),
           set->build);
    fputs("  ", stdout);
    columns_put(stdout, T_("list", "club"), CLUB_WIDTH);
    for (int value = 0; value < SET_VALUE_COUNT; value++) {
        columns_put(stdout, _(heads[value]), VALUE_WIDTH);
    }
    for (size_t i = 0; i < set->count; i++) {
        fputs("\n  ", stdout);
        columns_put(stdout, set->club[i].club, CLUB_WIDTH);
        for (int value = 0; value < SET_VALUE_COUNT; value++) {
            put_point(&set->club[i].point[value], (enum set_value)value);
        }
    }
    fputs("\n  ", stdout);
    columns_put(stdout, _("line, per club"), CLUB_WIDTH);
    for (int value = 0; value < SET_VALUE_COUNT; value++) {
        put_line_of(&set->line[value], (enum set_value)value);
    }
    fputs("\n", stdout);
    for (int value = 0; value < SET_VALUE_COUNT; value++) {
        if (set_odd_text(set, (enum set_value)value, words, sizeof words)) {
            printf("  %s\n", words);
            odd = true;
        }
    }
    fputs(odd ? "" : _("  No club stands out.\n"), stdout);
}

enum store_result planning_build(struct planning *planning, const char *build) {
    struct set set;
    enum store_result result =
        said(planning, store_build_clubs(planning->store, build, print_club, planning));
    if (result != STORE_OK || planning->form != PLANNING_RECEIPT) {
        return result;
    }
    result = said(planning, builds_set(planning->store, build, &planning->rules,
                                       &planning->assembly, NULL, &set));
    if (result == STORE_OK) {
        put_set(&set);
    }
    return result;
}

// --- the worksheet -----------------------------------------------------------------------------

static void now_in_words(char buffer[32]) {
    struct tm date;
    time_t now = time(NULL);
    buffer[0] = '\0';
    if (localtime_r(&now, &date) != NULL) {
        strftime(buffer, 32, "%Y-%m-%d %H:%M", &date);
    }
}

static enum store_result write_sheet(struct planning *planning, const struct build_clubs *clubs,
                                     const struct set *set, const struct planning_sheet *sheet) {
    char printed[32];
    char fonts[1100];
    char message[1200];
    if (clubs->count > SET_CLUBS_MAX) {
        fprintf(stderr,
                _("kerfside plan: a worksheet holds %d clubs, build %s has %zu. Print them "
                  "with `kerfside plan %s`.\n"),
                SET_CLUBS_MAX, set->build, clubs->count, set->build);
        return STORE_REFUSED;
    }
    now_in_words(printed);
    snprintf(fonts, sizeof fonts, "%.1000s/fonts", assets_folder());
    struct worksheet worksheet = {.clubs = clubs->club,
                                  .count = clubs->count,
                                  .set = set,
                                  .rules = &planning->rules,
                                  .assembly = &planning->assembly,
                                  .bench = sheet->bench,
                                  .printed = printed,
                                  .paper = sheet->paper,
                                  .fonts = fonts};
    if (!worksheet_write(&worksheet, sheet->path, NULL, message, sizeof message)) {
        fprintf(stderr, "kerfside plan: %s\n", message);
        return STORE_REFUSED;
    }
    return STORE_OK;
}

enum store_result planning_pdf(struct planning *planning, const char *build,
                               const struct planning_sheet *sheet, size_t *ret_clubs) {
    struct set set;
    struct build_clubs *clubs = calloc(1, sizeof *clubs);
    if (clubs == NULL) {
        fputs(_("kerfside plan: no memory for the build.\n"), stderr);
        return STORE_REFUSED;
    }
    enum store_result result =
        said(planning, store_build_clubs(planning->store, build, keep_club, clubs));
    if (result == STORE_OK) {
        result = said(planning, builds_set(planning->store, build, &planning->rules,
                                           &planning->assembly, NULL, &set));
    }
    if (result == STORE_OK) {
        result = write_sheet(planning, clubs, &set, sheet);
    }
    if (result == STORE_OK) {
        *ret_clubs = clubs->count;
    }
    free(clubs);
    return result;
}
