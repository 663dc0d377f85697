#include "import_row.h"

#include "tongue.h"

#include <stdlib.h>
#include <string.h>

// R11: the bore height a head row means, from the dry fit or as given.
static void dry_fit(struct import_head *head, struct import_say *say) {
    length_nm found;
    bool overall = head->dry_fit_overall != LENGTH_UNKNOWN;
    bool raw = head->dry_fit_raw != LENGTH_UNKNOWN;
    char words[LENGTH_TEXT_MAX];
    if (!overall && !raw) {
        return;
    }
    if (overall != raw) {
        import_complain(say, head->at, overall ? "dry_fit_raw" : "dry_fit_overall",
                        _("is empty or wrong; a dry fit needs both lengths"));
        return;
    }
    if (!plan_dry_fit(head->dry_fit_overall, head->dry_fit_raw, &found)) {
        length_text_fraction(head->dry_fit_overall - head->dry_fit_raw, words);
        import_complain(say, head->at, "dry_fit_overall",
                        _("overall less raw gives a bore height of %s in, which is not between 0 "
                          "and 2 in; measure again"),
                        words);
        return;
    }
    if (head->bore_height == LENGTH_UNKNOWN) {
        head->bore_height = found;
    } else if (llabs(head->bore_height - found) > LENGTH_INCH / 32) {
        length_text_fraction(found, words);
        import_complain(say, head->at, "bore_height",
                        _("differs by more than 1/32 in from the %s in of the dry fit; measure "
                          "again and correct one of them"),
                        words);
    }
}

bool import_row_balance(struct import_say *say, struct import_at at, length_nm balance,
                        length_nm raw_length) {
    char words[LENGTH_TEXT_MAX];
    if (balance == LENGTH_UNKNOWN || raw_length == LENGTH_UNKNOWN || balance < raw_length) {
        return true;
    }
    length_text_fraction(raw_length, words);
    import_complain(
        say, at, "balance",
        _("the balance point, measured from the tip end, cannot lie outside the shaft of "
          "%s in; measure again"),
        words);
    return false;
}

static void wall(struct import_say *say, struct import_at at, const char *column, length_nm wall,
                 length_nm diameter) {
    char words[LENGTH_TEXT_MAX];
    if (wall != LENGTH_UNKNOWN && diameter != LENGTH_UNKNOWN && 2 * wall > diameter) {
        length_text_exact(diameter, words);
        import_complain(say, at, column,
                        _("the wall of a tube of %s in is not thicker than half of that; measure "
                          "again"),
                        words);
    }
}

static void shaft_model(const struct import_shaft_model *row, struct import_say *say) {
    const struct shaft_model *model = &row->model;
    import_row_balance(say, row->at, model->balance, model->raw_length);
    wall(say, row->at, "tip_wall", model->tip_wall, model->tip_diameter);
    wall(say, row->at, "butt_wall", model->butt_wall, model->butt_diameter);
}

static void shaft(const struct import_shaft *row, struct import_say *say) {
    bool frequency = row->shaft.raw_frequency != FREQUENCY_UNKNOWN;
    bool mass = row->shaft.frequency_mass != MASS_UNKNOWN;
    import_row_balance(say, row->at, row->shaft.balance, row->shaft.raw_length);
    if (frequency != mass) {
        import_complain(
            say, row->at, frequency ? "frequency_mass_g" : "frequency_cpm",
            _("is empty or wrong; a frequency says nothing without the mass that was on "
              "the tip"));
    }
}

// No part is kept for a line that is cancelled.
static void club(struct import_club *row, struct import_say *say) {
    if (row->cancelled == IMPORT_YES) {
        memset(row->head, 0, sizeof row->head);
        memset(row->shaft, 0, sizeof row->shaft);
    }
    bool model = row->order.wished_model[0] != '\0';
    bool flex = row->order.wished_flex[0] != '\0';
    if (model != flex) {
        import_complain(
            say, row->at, model ? "flex" : "shaft_model",
            _("is empty or wrong; a shaft to be chosen from stock needs model and flex"));
    } else if (model && row->shaft[0] != '\0') {
        import_complain(say, row->at, "shaft_model",
                        _("a shaft is named already; leave shaft empty to have one chosen from "
                          "stock, or this and flex"));
    }
}

// The model of a head or of a shaft, not of both.
static void one_model(struct import_say *say, struct import_at at, const char *what,
                      const char *head_model, const char *shaft_model, const char *flex) {
    bool head = head_model[0] != '\0';
    bool shaft = shaft_model[0] != '\0';
    if (head && shaft) {
        import_complain(say, at, "head_model",
                        _("a %s names one model; leave this or shaft_model "
                          "empty"),
                        _(what));
    } else if (!head && !shaft) {
        import_complain(say, at, "head_model",
                        _("is empty or wrong, and so is shaft_model; name the model of one"));
    } else if (head && flex[0] != '\0') {
        import_complain(say, at, "flex", _("is not for heads; leave it empty"));
    }
}

static void gtin(const struct import_gtin *row, struct import_say *say) {
    one_model(say, row->at, "GTIN", row->head_model, row->shaft_model, row->flex);
}

static void stock_level(const struct import_stock_level *row, struct import_say *say) {
    one_model(say, row->at, N_("stock level"), row->head_model, row->shaft_model, row->flex);
    if (row->shaft_model[0] != '\0' && row->flex[0] == '\0') {
        import_complain(say, row->at, "flex", _("is empty or wrong; shafts are counted by flex"));
    }
    if (row->wanted < row->least) {
        import_complain(say, row->at, "wanted", _("is less than the least that should lie there"));
    }
}

void import_row_finish(enum import_kind kind, union import_row *row, struct import_say *say) {
    switch (kind) {
    case IMPORT_SHAFT_MODELS:
        shaft_model(&row->SHAFT_MODELS, say);
        break;
    case IMPORT_HEADS:
        dry_fit(&row->HEADS, say);
        break;
    case IMPORT_SHAFTS:
        shaft(&row->SHAFTS, say);
        break;
    case IMPORT_BUILDS:
        club(&row->BUILDS, say);
        break;
    case IMPORT_GTINS:
        gtin(&row->GTINS, say);
        break;
    case IMPORT_STOCK_LEVELS:
        stock_level(&row->STOCK_LEVELS, say);
        break;
    case IMPORT_ORDERS:
    case IMPORT_CHARTS:
    case IMPORT_PROFILES:
    case IMPORT_HEAD_MODELS:
    case IMPORT_WORKERS:
    case IMPORT_KIND_COUNT:
        break;
    }
}
