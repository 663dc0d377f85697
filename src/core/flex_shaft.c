#include "flex_shaft.h"

#include <math.h>

#define STIFFNESS_LEAST 1.0 // N m2
#define STIFFNESS_MOST 500.0

static double metres(length_nm length) {
    return (double)length * 1e-9;
}

// False when diameters are not known, or the tip is said to be parallel all the way to the butt, or
// an offcut lacks more than its parallel tip. Walls may stay 0.
static bool tube_of(const struct shaft *shaft, const struct shaft_model *model,
                    struct flex_tube *ret_tube) {
    length_nm cut = shaft_tip_cut(shaft);
    length_nm parallel = model->tip_section > 0 ? model->tip_section : 0;
    if (shaft->raw_length <= 0 || model->tip_diameter <= 0 || model->butt_diameter <= 0 ||
        parallel - cut >= shaft->raw_length || (cut > 0 && cut > parallel)) {
        return false;
    }
    *ret_tube = (struct flex_tube){
        .length = metres(shaft->raw_length),
        .parallel = metres(parallel - cut),
        .tip_diameter = metres(model->tip_diameter),
        .butt_diameter = metres(model->butt_diameter),
        .tip_wall = model->tip_wall > 0 ? metres(model->tip_wall) : 0,
        .butt_wall = model->butt_wall > 0 ? metres(model->butt_wall) : 0,
    };
    return true;
}

static bool steel_tube(const struct shaft_model *model, const struct flex_tube *tube) {
    return model->material == MATERIAL_STEEL && tube->tip_wall > 0 && tube->butt_wall > 0;
}

length_nm flex_shaft_balance(const struct shaft *shaft, const struct shaft_model *model) {
    struct flex_tube tube;
    if (shaft->balance > 0) {
        return shaft->balance;
    }
    if (model->balance > 0 && model->raw_length > 0 && shaft->raw_length > 0 &&
        shaft_tip_cut(shaft) == 0) {
        return (length_nm)round((double)model->balance * (double)shaft->raw_length /
                                (double)model->raw_length);
    }
    if (tube_of(shaft, model, &tube) && steel_tube(model, &tube)) {
        return (length_nm)round(flex_tube_balance(&tube) * 1e9);
    }
    return LENGTH_UNKNOWN;
}

static double from_points(const struct flex_shaft *shaft, double from_tip) {
    size_t next = 0;
    while (next < shaft->count && shaft->point[next].at < from_tip) {
        next++;
    }
    if (next == 0) {
        return shaft->point[0].stiffness;
    }
    if (next == shaft->count) {
        return shaft->point[next - 1].stiffness;
    }
    const struct flex_section_point *low = &shaft->point[next - 1];
    const struct flex_section_point *high = &shaft->point[next];
    double share = (from_tip - low->at) / (high->at - low->at);
    return low->stiffness + (high->stiffness - low->stiffness) * share;
}

struct flex_section flex_shaft_section(const struct flex_shaft *shaft, double from_tip) {
    double mass = shaft->density.tip + shaft->density.slope * from_tip;
    double stiffness = 0;
    switch (shaft->shape) {
    case FLEX_SHAPE_POINTS:
        stiffness = from_points(shaft, from_tip);
        break;
    case FLEX_SHAPE_TUBE:
        stiffness = FLEX_STEEL_MODULUS * flex_tube_second_moment(&shaft->tube, from_tip);
        break;
    case FLEX_SHAPE_EVEN_WALL:
        stiffness = mass * pow(flex_tube_diameter(&shaft->tube, from_tip), 2);
        break;
    }
    return (struct flex_section){.stiffness = shaft->scale * stiffness, .mass = mass};
}

static bool take_stiffness(const struct shaft *shaft, const struct shaft_model *model,
                           const struct profile *profile, bool measured, struct flex_shaft *raw) {
    bool tube = tube_of(shaft, model, &raw->tube);
    raw->scale = 1;
    if (profile->count > 0) {
        raw->shape = FLEX_SHAPE_POINTS;
        raw->count = profile->count;
        for (size_t i = 0; i < profile->count; i++) {
            raw->point[i] = (struct flex_section_point){
                .at = metres(profile->point[i].from_tip - shaft_tip_cut(shaft)),
                .stiffness = (double)profile->point[i].stiffness / 1000,
            };
        }
        return true;
    }
    raw->shape = steel_tube(model, &raw->tube) ? FLEX_SHAPE_TUBE : FLEX_SHAPE_EVEN_WALL;
    return tube && (raw->shape == FLEX_SHAPE_TUBE || measured);
}

// Frequency squared goes with stiffness.
static bool scale_to(struct flex_shaft *raw, const struct shaft *shaft) {
    struct flex_tip weight = {.mass = (double)shaft->frequency_mass * 1e-6};
    double computed = 0;
    double measured = (double)shaft->raw_frequency / 10;
    if (!flex_shaft_frequency(raw, 0, raw->length, &weight, &computed)) {
        return false;
    }
    raw->scale = measured / computed * (measured / computed);
    return true;
}

// Points, ends and the end of the parallel tip: between those nothing has an extreme worth naming.
static bool plausible(const struct flex_shaft *raw) {
    if (raw->shape == FLEX_SHAPE_TUBE && (2 * raw->tube.tip_wall > raw->tube.tip_diameter ||
                                          2 * raw->tube.butt_wall > raw->tube.butt_diameter)) {
        return false;
    }
    for (size_t i = 0; i <= 32; i++) {
        double from_tip = metres(raw->length) * (double)i / 32;
        double stiffness = flex_shaft_section(raw, from_tip).stiffness;
        if (!(stiffness >= STIFFNESS_LEAST && stiffness <= STIFFNESS_MOST)) {
            return false;
        }
    }
    return true;
}

enum flex_known flex_shaft_make(const struct shaft *shaft, const struct shaft_model *model,
                                const struct profile *profile, struct flex_shaft *ret_shaft) {
    struct flex_shaft raw = {.length = shaft->raw_length};
    bool measured = shaft->raw_frequency > 0 && shaft->frequency_mass > 0;
    if (shaft->raw_length <= 0 || shaft->weight <= 0 ||
        !take_stiffness(shaft, model, profile, measured, &raw)) {
        return FLEX_NOT_KNOWN;
    }
    if (!balance_spread(shaft->weight, shaft->raw_length, flex_shaft_balance(shaft, model),
                        &raw.density) ||
        (measured && !scale_to(&raw, shaft)) || !plausible(&raw)) {
        return FLEX_IMPLAUSIBLE;
    }
    *ret_shaft = raw;
    return FLEX_KNOWN;
}

struct cut {
    const struct flex_shaft *shaft;
    double clamp; // from the uncut tip
};

static struct flex_section cut_section(const void *of, double from_clamp) {
    const struct cut *cut = of;
    return flex_shaft_section(cut->shaft, cut->clamp - from_clamp);
}

static void add_break(struct flex_beam *beam, double from_clamp) {
    if (from_clamp > 0 && from_clamp < beam->length && beam->break_count < FLEX_BREAKS_MAX) {
        beam->breaks[beam->break_count] = from_clamp;
        beam->break_count++;
    }
}

bool flex_shaft_frequency(const struct flex_shaft *shaft, length_nm tip_trim, length_nm finished,
                          const struct flex_tip *tip, double *ret_cpm) {
    if (tip_trim < 0 || finished <= FLEX_CLAMP || tip_trim > shaft->length - finished) {
        return false;
    }
    struct cut cut = {.shaft = shaft, .clamp = metres(tip_trim + finished - FLEX_CLAMP)};
    struct flex_beam beam = {
        .length = metres(finished - FLEX_CLAMP),
        .section = cut_section,
        .of = &cut,
        .tip = *tip,
    };
    if (shaft->shape == FLEX_SHAPE_POINTS) {
        for (size_t i = shaft->count; i > 0; i--) {
            add_break(&beam, cut.clamp - shaft->point[i - 1].at);
        }
    } else {
        add_break(&beam, cut.clamp - shaft->tube.parallel);
    }
    return flex_frequency(&beam, FLEX_ELEMENTS, ret_cpm);
}
