// What the cut club is estimated to come out at, with what would reach the wished swingweight.

#include "columns.h"
#include "estimate_text.h"
#include "plan_print.h"
#include "text.h"
#include "tongue.h"

#include <math.h>
#include <string.h>

static void put_value(FILE *to, const char *words, const struct estimate_value *value, int decimals,
                      const char *unit) {
    char figure[64];
    struct text text = text_open(figure, sizeof figure);
    if (value->gap == ESTIMATE_GAP_NONE) {
        text_add_decimal(&text, value->value, decimals);
        text_add(&text, " ");
        text_add(&text, unit);
        plan_print_figure(to, words, figure);
    } else {
        fprintf(to, _("  %s not known: %s\n"), words, estimate_gap_text(value->gap));
    }
}

static void put_swingweight(const struct plan_print *print, FILE *to) {
    const struct estimate_value *value = &print->estimate.swingweight;
    const char *wished = print->club.order.swingweight;
    char scale[BALANCE_SCALE_TEXT_MAX];
    char moment[32];
    char figures[BALANCE_SCALE_TEXT_MAX];
    struct text shown = text_open(figures, sizeof figures);
    char words[96];
    struct text figure = text_open(moment, sizeof moment);
    struct text text = text_open(words, sizeof words);
    if (value->gap != ESTIMATE_GAP_NONE || !balance_scale_text(value->value, scale)) {
        put_value(to, _("Swingweight"), value, 1, "in oz");
        return;
    }
    text_add_decimal(&figure, value->value, 2);
    text_say(&text,
             *wished != '\0' ? _("Swingweight, %1 in oz; wished %2") : _("Swingweight, %1 in oz"),
             moment, wished);
    text_add_figure(&shown, scale);
    plan_print_figure(to, words, figures);
}

// --- what would reach the wish -----------------------------------------------------------------

#define CHANGE_MAX 80

static void say_change(char words[CHANGE_MAX], double change, int decimals, const char *more,
                       const char *less) {
    char figure[32];
    struct text amount = text_open(figure, sizeof figure);
    struct text text = text_open(words, CHANGE_MAX);
    text_add_decimal(&amount, fabs(change), decimals);
    text_say(&text, change > 0 ? more : less, figure);
}

static void put_reach(const struct plan_print *print, const struct balance_club *parts, FILE *to) {
    double wished;
    double grams;
    double inches;
    char at_head[CHANGE_MAX];
    char at_length[CHANGE_MAX];
    char words[200];
    struct text text = text_open(words, sizeof words);
    if (balance_scale_parse(print->club.order.swingweight, &wished) != BALANCE_SCALE_OK) {
        return;
    }
    bool head = balance_head_change(parts, wished, &grams);
    bool length = balance_length_change(parts, wished, &inches);
    if ((!head && !length) || (head && fabs(grams) < 0.05)) {
        return;
    }
    if (head) {
        say_change(at_head, grams, 1, _("%1 g more at the head"), _("%1 g less at the head"));
    }
    if (length) {
        say_change(at_length, inches, 2, _("%1 in longer"), _("%1 in shorter"));
    }
    // TRANSLATORS: %2 and %3 what to change, as `2.6 g less at the head` and `0.32 in shorter`.
    text_say(&text, head && length ? _("To reach %1: %2, or %3") : _("To reach %1: %2"),
             print->club.order.swingweight, head ? at_head : at_length, at_length);
    fprintf(to, "  %s\n", words);
}

// --- the moments -------------------------------------------------------------------------------

// `line`: figures with decimal points.
static void put_figures(FILE *to, const char *words, int columns, const char *line) {
    char shown[120];
    struct text text = text_open(shown, sizeof shown);
    text_add_figure(&text, line);
    fputs("    ", to);
    columns_put(to, words, columns);
    fputs(shown, to);
}

static void put_moment(FILE *to, const char *part, double grams, double inches) {
    double arm = inches - 14;
    char line[120];
    snprintf(line, sizeof line, _("%8.2f g  at%8.3f in%10.3f in  %8.3f oz%10.2f in oz\n"), grams,
             inches, arm, grams / 28.349523125, grams / 28.349523125 * arm);
    put_figures(to, part, -18, line);
}

// The cut shaft's own weight and balance point, from the butt end of the club.
static void put_shaft(const struct balance_club *parts, FILE *to) {
    struct balance_club bare = *parts;
    bare.head = 0;
    bare.grip = 0;
    bare.ferrule = 0;
    bare.epoxy = 0;
    struct balance_sum sum = balance_add(&bare);
    put_moment(to, _("Shaft, cut"), sum.mass * 1000, sum.moment / sum.mass / 0.0254);
}

static void put_moments(const struct balance_club *parts, FILE *to) {
    double end = (double)(parts->grip_cap + parts->finished) / LENGTH_INCH;
    double beyond = (double)parts->cg_beyond / LENGTH_INCH;
    struct balance_sum sum = balance_add(parts);
    fputs(_("  Moments about 14 in from the butt: weight, place, place less 14, weight in oz\n"),
          to);
    put_moment(to, _("Head"), (double)parts->head / MASS_GRAM, end + beyond);
    put_moment(to, _("Ferrule and epoxy"), (double)(parts->ferrule + parts->epoxy) / MASS_GRAM,
               end);
    put_shaft(parts, to);
    put_moment(to, _("Grip"), (double)parts->grip / MASS_GRAM,
               (double)parts->grip_balance / LENGTH_INCH);
    char line[40];
    snprintf(line, sizeof line, "%18.2f in oz\n", balance_swingweight(&sum));
    put_figures(to, _("Sum; D0 is 213.5 in oz, a point 1.75 in oz"), -58, line);
}

// What the corrections of this plan buy; the summary that goes before is in the figures above.
static void put_choices(const struct plan_print *print, FILE *to) {
    struct estimate_lines lines;
    estimate_say(&print->club, &print->input, &print->plan, &print->assembly, &lines);
    for (size_t i = 0; i < lines.count; i++) {
        if (strncmp(lines.line[i], "Without", strlen("Without")) == 0) {
            char words[ESTIMATE_TEXT_MAX];
            struct text text = text_open(words, sizeof words);
            estimate_reword(&text, lines.line[i]);
            fprintf(to, "  %s\n", words);
        }
    }
}

void plan_print_estimates(const struct plan_print *print, bool moments, FILE *to) {
    const struct estimate *estimate = &print->estimate;
    struct balance_club parts;
    bool assumed;
    fprintf(to, "\n%s\n", _("Estimates"));
    put_swingweight(print, to);
    bool balanced = estimate_balance(&print->club, &print->plan, &print->assembly, &parts,
                                     &assumed) == ESTIMATE_GAP_NONE;
    if (balanced) {
        put_reach(print, &parts, to);
    }
    put_value(to, _("Weight of the club"), &estimate->weight, 1, "g");
    put_value(to, _("Moment of inertia about the butt"), &estimate->inertia, 1, "kg cm2");
    put_value(to, _("Frequency"), &estimate->frequency, 1, "cpm");
    put_choices(print, to);
    if (balanced && assumed) {
        fputs(_("  The shaft's balance point is not known: taken as even.\n"), to);
    }
    if (estimate->reach_assumed && (balanced || estimate->frequency.gap == ESTIMATE_GAP_NONE)) {
        fputs(_("  The head's centre of gravity is not known: taken at the ground line.\n"), to);
    }
    if (balanced && moments) {
        put_moments(&parts, to);
    }
}
