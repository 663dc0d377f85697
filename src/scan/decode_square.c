#include "decode_inner.h"

#include "decode_finder.h"
#include "decode_lift.h"

#include <math.h>
#include <string.h>

#define QUIET 6       // modules around a symbol, more than its quiet zone
#define SMALLEST 21   // modules a side of the smallest symbol
#define WAYS_ALWAYS 2 // of looking at a place, whatever the budget
#define MARGIN 12     // pixels around a square, for its quiet zone and what the cells miss

// What the ways of looking at one place agree on.
struct tally {
    size_t count;
    struct code code[FRAME_CODES_MAX]; // quality: how many ways gave it
};

static bool agreed(const struct tally *tally) {
    for (size_t i = 0; i < tally->count; i++) {
        if (tally->code[i].quality >= DECODE_SURE_WAYS) {
            return true;
        }
    }
    return false;
}

static void count_in(struct tally *tally, const struct code *code) {
    size_t at = 0;
    while (at < tally->count && strcmp(tally->code[at].text, code->text) != 0) {
        at++;
    }
    if (at < tally->count) {
        tally->code[at].quality++;
    } else if (at < FRAME_CODES_MAX) {
        tally->code[at] = *code;
        tally->code[at].quality = 1;
        tally->count++;
    }
}

// True when this way gave anything.
static bool try_lift(struct decoder *d, const struct decode_level *level,
                     const struct decode_lift *lift, struct tally *tally) {
    struct decode_found found;
    decode_lift(level->soft, level->width, level->height, lift, d->lifted);
    decode_scan_run(&d->scan, DECODE_SCAN_SQUARES, d->lifted, lift->side, lift->side, &found);
    for (size_t i = 0; i < found.count; i++) {
        for (int k = 0; k < 4; k++) {
            struct code_point *corner = &found.code[i].corner[k];
            double x;
            double y;
            decode_lift_point(lift, corner->x, corner->y, &x, &y);
            *corner =
                (struct code_point){(int)lrint(level->scale * x), (int)lrint(level->scale * y)};
        }
        count_in(tally, &found.code[i]);
    }
    return found.count > 0;
}

struct decode_sight decode_look(struct decoder *d, const struct decode_level *level,
                                const struct decode_place *place) {
    int longer = place->width > place->height ? place->width : place->height;
    struct decode_finder finders[DECODE_FINDERS_MAX];
    struct decode_symbol symbol;
    struct decode_sight sight = {0};
    struct decode_lift lift = {.x = place->left + place->width / 2.0,
                               .y = place->top + place->height / 2.0,
                               .half = longer / 2.0 + MARGIN,
                               .crisp = 4,
                               .reach = 4};
    double scale;
    lift.angle = decode_grain(level->soft, level->width, place->left, place->top, place->width,
                              place->height);
    lift.side = 4 * lift.half < DECODE_LIFT_MAX ? (int)(4 * lift.half) : DECODE_LIFT_MAX;
    scale = lift.side / (2 * lift.half);
    decode_lift(level->soft, level->width, level->height, &lift, d->lifted);
    sight.finders = decode_finders(d->lifted, lift.side, finders);
    sight.whole = sight.symbol = lift;
    if (sight.finders == 0) {
        return sight;
    }
    sight.module = finders[0].module / scale;
    if (decode_symbol_of(finders, sight.finders, &symbol)) {
        sight.module = symbol.module / scale;
        decode_lift_point(&lift, symbol.x, symbol.y, &sight.symbol.x, &sight.symbol.y);
        sight.symbol.angle += symbol.angle;
        sight.symbol.half = (symbol.size / 2 + QUIET) * sight.module;
    }
    return sight;
}

// As many pixels to a module, as crisp.
static void size_lift(struct decode_lift *lift, double module, double pixels, double crisp,
                      int reach) {
    double side = 2 * lift->half / module * pixels;
    lift->side = side < DECODE_LIFT_MAX ? (int)side : DECODE_LIFT_MAX;
    lift->crisp = crisp;
    lift->reach = reach;
}

static void keep_all(struct decoder *d, const struct tally *tally) {
    for (size_t i = 0; i < tally->count; i++) {
        decode_keep(d, &tally->code[i]);
    }
}

// Until two ways agree.
static void try_ways(struct decoder *d, const struct decode_level *level,
                     const struct decode_sight *sight, size_t most, struct tally *tally) {
    static const struct {
        double pixels;
        double crisp;
        int reach;
        bool symbol;
    } ways[] = {{5, 4, 3, true},  {4, 0, 0, false}, {5, 8, 4, true},
                {6, 4, 4, false}, {4, 8, 3, false}, {7, 3, 5, true}};
    for (size_t i = 0; i < sizeof ways / sizeof ways[0] && i < most && !agreed(tally); i++) {
        if (i >= WAYS_ALWAYS && !decode_in_time(d, 0)) {
            break;
        }
        struct decode_lift lift = ways[i].symbol ? sight->symbol : sight->whole;
        size_lift(&lift, sight->module, ways[i].pixels, ways[i].crisp, ways[i].reach);
        try_lift(d, level, &lift, tally);
    }
    keep_all(d, tally);
}

void decode_square(struct decoder *d, const struct decode_level *level,
                   const struct decode_sight *sight) {
    struct tally tally = {0};
    try_ways(d, level, sight, sight->finders >= 2 ? SIZE_MAX : sight->finders, &tally);
}

void decode_again(struct decoder *d, const struct decode_level *level, const struct code *code) {
    const struct code_point *c = code->corner;
    double side = hypot(c[2].x - c[0].x, c[2].y - c[0].y) / sqrt(2) / level->scale;
    struct decode_sight sight = {.module = side / SMALLEST};
    struct tally tally = {0};
    sight.whole =
        (struct decode_lift){.x = (c[0].x + c[1].x + c[2].x + c[3].x) / 4.0 / level->scale,
                             .y = (c[0].y + c[1].y + c[2].y + c[3].y) / 4.0 / level->scale,
                             .half = side * (0.5 + (double)QUIET / SMALLEST),
                             .angle = atan2(c[3].y - c[0].y, c[3].x - c[0].x)};
    sight.symbol = sight.whole;
    count_in(&tally, code);
    try_ways(d, level, &sight, SIZE_MAX, &tally);
}

// Around a tube: along its rows or its columns, from the side or from above.
void decode_bent(struct decoder *d, const struct decode_level *level,
                 const struct decode_sight *sight) {
    static const struct {
        double lean;
        double bend;
    } ways[] = {{-0.1, 0.06}, {0.1, 0.06}, {0, 0.06}, {0, 0.15}};
    struct decode_lift lift = sight->symbol;
    struct tally tally = {0};
    for (size_t i = 0; i < 2 * sizeof ways / sizeof ways[0] && !agreed(&tally); i++) {
        if (!decode_in_time(d, 0)) {
            break;
        }
        double lean = ways[i / 2].lean;
        double bend = ways[i / 2].bend;
        lift.lean_x = i % 2 == 0 ? 0 : lean;
        lift.bend_x = i % 2 == 0 ? 0 : bend;
        lift.lean_y = i % 2 == 0 ? lean : 0;
        lift.bend_y = i % 2 == 0 ? bend : 0;
        size_lift(&lift, sight->module, 5, 4, 3);
        if (try_lift(d, level, &lift, &tally)) {
            size_lift(&lift, sight->module, 7, 3, 5);
            try_lift(d, level, &lift, &tally);
        }
    }
    keep_all(d, &tally);
}
