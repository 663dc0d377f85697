#include "set.h"
#include "text.h"
#include "tongue.h"

#include <math.h>

#define PLANNED_MIN 3 // planned values that make a line

static const char *const words[SET_VALUE_COUNT] = {
    [SET_LENGTH] = N_("length"),
    [SET_WEIGHT] = N_("weight"),
    [SET_SWINGWEIGHT] = N_("swingweight"),
    [SET_FREQUENCY] = N_("frequency"),
};
static const char *const units[SET_VALUE_COUNT] = {
    [SET_LENGTH] = NT_("unit", "in"),
    [SET_WEIGHT] = NT_("unit", "g"),
    [SET_SWINGWEIGHT] = NT_("unit", "in oz"),
    [SET_FREQUENCY] = NT_("unit", "cpm"),
};
// Half of the trade's 1/2 in a club; half of its 7 to 10 g a head; one point of swingweight; half
// of the 4 cpm and more that a club is shorter and stiffer than the one before.
static const double odd_beyond[SET_VALUE_COUNT] = {
    [SET_LENGTH] = 0.25,
    [SET_WEIGHT] = 4,
    [SET_SWINGWEIGHT] = BALANCE_POINT,
    [SET_FREQUENCY] = 2,
};

const char *set_value_words(enum set_value value) {
    return _(words[value]);
}

const char *set_value_unit(enum set_value value) {
    return _(units[value]);
}

double set_odd_beyond(enum set_value value) {
    return odd_beyond[value];
}

// --- one club ----------------------------------------------------------------------------------

static struct set_point point_of(const struct estimate_value *value) {
    return (struct set_point){.gap = value->gap, .planned = value->value};
}

static void plan_points(const struct club *club, const struct plan *plan,
                        const struct assembly *assembly, struct set_club *ret_club) {
    struct estimate estimate;
    estimate_make(club, plan, assembly, &estimate);
    ret_club->point[SET_LENGTH].planned = (double)club->order.playing_length / LENGTH_INCH;
    ret_club->point[SET_WEIGHT] = point_of(&estimate.weight);
    ret_club->point[SET_SWINGWEIGHT] = point_of(&estimate.swingweight);
    ret_club->point[SET_FREQUENCY] = point_of(&estimate.frequency);
}

static void make_club(const struct club *club, const struct set_measured *measured,
                      const struct bench_rules *rules, const struct assembly *assembly,
                      struct set_club *ret_club) {
    struct plan_input input;
    struct plan plan;
    *ret_club = (struct set_club){.club_id = club->id, .stage = club->progress.stage};
    struct text text = text_open(ret_club->club, sizeof ret_club->club);
    text_add(&text, club->order.club);
    text = text_open(ret_club->head, sizeof ret_club->head);
    text_add(&text, club->head.ticket);
    text = text_open(ret_club->shaft, sizeof ret_club->shaft);
    text_add(&text, club->shaft.ticket);
    text = text_open(ret_club->swingweight, sizeof ret_club->swingweight);
    text_add(&text, club->order.swingweight);
    bool valid = club_plan(club, rules, &input, &plan);
    ret_club->planned = valid && club->head.ticket[0] != '\0' && club->shaft.ticket[0] != '\0';
    ret_club->refusal = plan.refusal.code;
    for (int value = 0; value < SET_VALUE_COUNT; value++) {
        ret_club->point[value].gap = ret_club->planned ? ESTIMATE_GAP_NONE : ESTIMATE_GAP_PLAN;
    }
    if (ret_club->planned) {
        plan_points(club, &plan, assembly, ret_club);
    }
    for (int value = 0; measured != NULL && value < SET_VALUE_COUNT; value++) {
        ret_club->point[value].measured_known = measured->known[value];
        ret_club->point[value].measured_out = measured->known[value] && measured->out[value];
        ret_club->point[value].measured = measured->known[value] ? measured->value[value] : 0;
    }
}

// --- the line ----------------------------------------------------------------------------------

struct fit {
    size_t count;
    double at_first;
    double slope;
    double squares; // sum of squared distances from it
};

static bool counts(const struct set *set, enum set_value value, size_t i, int without) {
    return (int)i != without && set->club[i].point[value].gap == ESTIMATE_GAP_NONE;
}

// Two passes, so that what is far from zero and nearly level keeps its digits.
static struct fit fit_line(const struct set *set, enum set_value value, int without) {
    struct fit fit = {0};
    double mean_x = 0, mean_y = 0, across = 0, along = 0;
    for (size_t i = 0; i < set->count; i++) {
        if (counts(set, value, i, without)) {
            fit.count++;
            mean_x += ((double)i - mean_x) / (double)fit.count;
            mean_y += (set->club[i].point[value].planned - mean_y) / (double)fit.count;
        }
    }
    for (size_t i = 0; i < set->count; i++) {
        if (counts(set, value, i, without)) {
            double x = (double)i - mean_x;
            across += x * x;
            along += x * (set->club[i].point[value].planned - mean_y);
        }
    }
    fit.slope = across > 0 ? along / across : 0;
    fit.at_first = mean_y - fit.slope * mean_x;
    for (size_t i = 0; i < set->count; i++) {
        if (counts(set, value, i, without)) {
            double off = set->club[i].point[value].planned - fit.at_first - fit.slope * (double)i;
            fit.squares += off * off;
        }
    }
    return fit;
}

static double off_line(const struct set *set, enum set_value value, const struct fit *fit,
                       size_t i) {
    return set->club[i].point[value].planned - fit->at_first - fit->slope * (double)i;
}

// The club without which the others come closest to a line, and *ret_rest that line; -1: none.
static int find_odd(const struct set *set, enum set_value value, struct fit *ret_rest) {
    struct fit best = {.squares = INFINITY};
    int odd = -1;
    for (size_t i = 0; i < set->count; i++) {
        struct fit rest = fit_line(set, value, (int)i);
        if (counts(set, value, i, -1) && rest.squares < best.squares) {
            best = rest;
            odd = (int)i;
        }
    }
    if (odd < 0 || !(fabs(off_line(set, value, &best, (size_t)odd)) > odd_beyond[value])) {
        return -1;
    }
    // Where the others make no line either, say woods and irons in one build, nobody stands out.
    for (size_t i = 0; i < set->count; i++) {
        if (counts(set, value, i, odd) &&
            fabs(off_line(set, value, &best, i)) > odd_beyond[value]) {
            return -1;
        }
    }
    *ret_rest = best;
    return odd;
}

static void make_line(struct set *set, enum set_value value) {
    struct fit fit = fit_line(set, value, -1);
    // Any two of three lie on a line: nobody stands out among three.
    int odd = fit.count > PLANNED_MIN ? find_odd(set, value, &fit) : -1;
    struct set_line *line = &set->line[value];
    *line = (struct set_line){.known = fit.count >= PLANNED_MIN, .odd = odd};
    if (line->known) {
        line->at_first = fit.at_first;
        line->slope = fit.slope;
    }
    for (size_t i = 0; line->known && i < set->count; i++) {
        if (counts(set, value, i, -1)) {
            set->club[i].point[value].off = off_line(set, value, &fit, i);
        }
    }
}

void set_make(const struct club *clubs, const struct set_measured *measured, size_t count,
              const struct bench_rules *rules, const struct assembly *assembly,
              struct set *ret_set) {
    *ret_set = (struct set){.count = count < SET_CLUBS_MAX ? count : SET_CLUBS_MAX};
    if (count > 0) {
        struct text text = text_open(ret_set->build, sizeof ret_set->build);
        text_add(&text, clubs[0].order.build);
    }
    for (size_t i = 0; i < ret_set->count; i++) {
        make_club(&clubs[i], measured != NULL ? &measured[i] : NULL, rules, assembly,
                  &ret_set->club[i]);
    }
    for (int value = 0; value < SET_VALUE_COUNT; value++) {
        make_line(ret_set, (enum set_value)value);
    }
}

// --- in words ----------------------------------------------------------------------------------

// TRANSLATORS: %1 a club of a set, as 7; the line is the straight one that its other clubs lie on.
static const char *const odd_texts[SET_VALUE_COUNT][2] = {
    [SET_LENGTH] = {N_("Club %1: length %2 in above the line of the others"),
                    N_("Club %1: length %2 in below the line of the others")},
    [SET_WEIGHT] = {N_("Club %1: weight about %2 g above the line of the others"),
                    N_("Club %1: weight about %2 g below the line of the others")},
    [SET_SWINGWEIGHT] = {N_("Club %1: swingweight about %2 points above the line of the others"),
                         N_("Club %1: swingweight about %2 points below the line of the others")},
    [SET_FREQUENCY] = {N_("Club %1: frequency about %2 cpm above the line of the others"),
                       N_("Club %1: frequency about %2 cpm below the line of the others")},
};

bool set_odd_text(const struct set *set, enum set_value value, char *buffer, size_t size) {
    int odd = set->line[value].odd;
    if (odd < 0) {
        return false;
    }
    struct text text = text_open(buffer, size);
    double off = set->club[odd].point[value].off;
    char figure[LENGTH_TEXT_MAX];
    struct text number = text_open(figure, sizeof figure);
    bool points = value == SET_SWINGWEIGHT; // builders think in points
    text_add_decimal(&number, fabs(points ? off / BALANCE_POINT : off),
                     value == SET_LENGTH ? 2 : 1);
    text_say(&text, _(odd_texts[value][off > 0 ? 0 : 1]), set->club[odd].club, figure);
    return true;
}
