#include "kit_print.h"
#include "columns.h"
#include "csv.h"
#include "json.h"
#include "text.h"
#include "tongue.h"

static const char *by_text(enum match_by by) {
    return by == MATCH_BY_SWINGWEIGHT ? N_("swingweight") : N_("frequency");
}

// Decimals that tell apart what a match tells apart.
static int decimals(enum match_by by) {
    return by == MATCH_BY_SWINGWEIGHT ? 3 : 2;
}

// --- text --------------------------------------------------------------------------------------

static void put_row(const struct kit *kit, const struct kit_club *club, FILE *to) {
    char raw[LENGTH_TEXT_MAX];
    char grams[LENGTH_TEXT_MAX];
    char value[KIT_TEXT_MAX];
    char aim[KIT_TEXT_MAX];
    fputs("  ", to);
    columns_put(to, club->club, -15);
    fprintf(to, " %-15s ", club->head);
    if (club->shaft[0] == '\0') {
        fputs(_("no shaft\n"), to);
        return;
    }
    length_text_fraction(club->raw_length, raw);
    mass_text(club->shaft_weight, grams);
    kit_value_text(kit->by, club->value, value);
    kit_value_text(kit->by, club->aim, aim);
    fprintf(to, "%-15s ", club->shaft);
    columns_put(to, club->rack, -10);
    fprintf(to, _(" %9s in %8s g %10s  for %s\n"), raw, grams, value, aim);
}

void kit_print_text(const struct kit *kit, const double *before, FILE *to) {
    char spread[KIT_TEXT_MAX];
    fprintf(to, _("Build %s: shafts for %zu of %zu clubs, of %zu in stock, by %s\n\n"), kit->build,
            kit->chosen, kit->count, kit->stock, _(by_text(kit->by)));
    for (size_t i = 0; i < kit->count; i++) {
        put_row(kit, &kit->club[i], to);
    }
    if (kit->chosen > 0) {
        kit_spread_text(kit->by, kit->spread, spread);
        fprintf(to, _("\nSpread %s (estimate): no other choice is better.\n"), spread);
    }
    if (before != NULL) {
        kit_spread_text(kit->by, *before, spread);
        fprintf(to, _("Taken as they come in the stock, the shafts would spread %s.\n"), spread);
    }
    for (size_t i = 0; i < kit->count; i++) {
        if (kit->club[i].words[0] != '\0') {
            fprintf(to, _("Club %s: %s"), kit->club[i].club, kit->club[i].words);
            fputc('\n', to);
        }
    }
}

// --- CSV ---------------------------------------------------------------------------------------

static void put_cell(FILE *to, const char *text, const char *after) {
    char cell[2 * MATCH_TEXT_MAX + 4];
    size_t size = csv_cell(text, cell, sizeof cell);
    fwrite(cell, 1, size, to);
    fputs(after, to);
}

static void put_decimal(FILE *to, double value, int places) {
    char words[32];
    struct text text = text_open(words, sizeof words);
    text_add_decimal(&text, value, places);
    put_cell(to, words, ",");
}

static void put_shaft(const struct kit *kit, const struct kit_club *club, FILE *to) {
    char words[LENGTH_TEXT_MAX];
    if (club->shaft[0] == '\0') {
        fputs(",,,,,,", to);
        return;
    }
    put_cell(to, club->shaft, ",");
    put_cell(to, club->rack, ",");
    length_text_exact(club->raw_length, words);
    put_cell(to, words, ",");
    mass_text(club->shaft_weight, words);
    put_cell(to, words, ",");
    put_decimal(to, club->value, decimals(kit->by));
    put_decimal(to, club->aim, decimals(kit->by));
}

void kit_print_csv(const struct kit *kit, FILE *to) {
    fputs("build,club,head,shaft,rack,raw_length,shaft_weight_g,value,aim,unit,text\r\n", to);
    for (size_t i = 0; i < kit->count; i++) {
        const struct kit_club *club = &kit->club[i];
        put_cell(to, kit->build, ",");
        put_cell(to, club->club, ",");
        put_cell(to, club->head, ",");
        put_shaft(kit, club, to);
        put_cell(to, kit->by == MATCH_BY_SWINGWEIGHT ? "in oz" : "cpm", ",");
        put_cell(to, club->words, "\r\n");
    }
}

// --- JSON --------------------------------------------------------------------------------------

static void put_club(const struct kit *kit, const struct kit_club *club, FILE *to) {
    fputs("{\"club\":", to);
    json_string(to, club->club);
    json_text(to, "head", club->head);
    if (club->shaft[0] == '\0') {
        json_null(to, "shaft");
    } else {
        json_text(to, "shaft", club->shaft);
        json_text(to, "rack", club->rack);
        json_length(to, "raw_length", club->raw_length);
        json_decimal(to, "shaft_weight_g", (double)club->shaft_weight / MASS_GRAM, 3);
        json_decimal(to, "value", club->value, decimals(kit->by));
        json_decimal(to, "aim", club->aim, decimals(kit->by));
    }
    json_text(to, "text", club->words);
    fputc('}', to);
}

void kit_print_json(const struct kit *kit, const double *before, FILE *to) {
    fputs("{\"build\":", to);
    json_string(to, kit->build);
    json_text(to, "by", by_text(kit->by));
    json_text(to, "unit", kit->by == MATCH_BY_SWINGWEIGHT ? "in oz" : "cpm");
    fprintf(to, ",\"stock\":%zu,\"chosen\":%zu", kit->stock, kit->chosen);
    json_decimal(to, "spread", kit->spread, 2);
    json_text(to, "spread_unit", kit->by == MATCH_BY_SWINGWEIGHT ? "points" : "cpm");
    fprintf(to, ",\"aimed\":%s,\"clubs\":[", kit->aimed ? "true" : "false");
    for (size_t i = 0; i < kit->count; i++) {
        fputs(i > 0 ? "," : "", to);
        put_club(kit, &kit->club[i], to);
    }
    fputc(']', to);
    if (before != NULL) {
        json_decimal(to, "spread_before", *before, 2);
    } else {
        json_null(to, "spread_before");
    }
    fputs("}\n", to);
}
