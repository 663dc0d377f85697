// What the work goes by: the bench, the rules of the plan, assembly, the shop.

#include "bench_set.h"

#include <string.h>

static bool set_name(struct bench_settings *to, const char *value) {
    return bench_set_readable(value) && value[0] != '\0' &&
           bench_set_text(value, to->station.bench, sizeof to->station.bench);
}

static bool set_mark_step(struct bench_settings *to, const char *value) {
    static const struct {
        const char *word;
        length_nm step;
    } steps[] = {{"1/16", LENGTH_INCH / 16},
                 {"1/32", LENGTH_INCH / 32},
                 {"1/64", LENGTH_INCH / 64},
                 {"0.5 mm", LENGTH_MM / 2},
                 {"1 mm", LENGTH_MM}};
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
        if (strcmp(value, steps[i].word) == 0) {
            to->station.rules.mark_step = steps[i].step;
            return true;
        }
    }
    return false;
}

static bool set_tolerance(struct bench_settings *to, const char *value) {
    return bench_set_length(value, 1, LENGTH_INCH / 4, &to->station.rules.tolerance);
}

static bool set_tip_side(struct bench_settings *to, const char *value) {
    return bench_set_choose(value, "left", "right", &to->station.tip_right);
}

static bool set_units(struct bench_settings *to, const char *value) {
    return bench_set_choose(value, "inch", "mm", &to->station.metric_first);
}

static bool set_paper(struct bench_settings *to, const char *value) {
    bool letter;
    if (!bench_set_choose(value, "a4", "letter", &letter)) {
        return false;
    }
    to->paper = letter ? PAGE_LETTER : PAGE_A4;
    return true;
}

static bool set_care(struct bench_settings *to, const char *value) {
    return bench_set_choose(value, "no", "yes", &to->station.care_every_club);
}

static bool set_limit_46(struct bench_settings *to, const char *value) {
    return bench_set_choose(value, "no", "yes", &to->station.rules.limit_46);
}

static bool set_idle(struct bench_settings *to, const char *value) {
    int minutes;
    if (!bench_set_number(value, 0, 480, &minutes)) {
        return false;
    }
    to->station.idle_sign_off_ms = (int64_t)minutes * 60 * 1000;
    return true;
}

static bool set_grams(const char *value, mass_mg most, mass_mg *ret_mass) {
    mass_mg mass;
    if (!mass_parse(value, &mass) || mass > most) {
        return false;
    }
    *ret_mass = mass;
    return true;
}

static bool set_ferrule(struct bench_settings *to, const char *value) {
    return set_grams(value, 20 * MASS_GRAM, &to->station.assembly.ferrule);
}

static bool set_epoxy(struct bench_settings *to, const char *value) {
    return set_grams(value, 20 * MASS_GRAM, &to->station.assembly.epoxy);
}

static bool set_grip_balance(struct bench_settings *to, const char *value) {
    return bench_set_length(value, LENGTH_INCH, 12 * LENGTH_INCH,
                            &to->station.assembly.grip_balance);
}

static bool set_extension_max(struct bench_settings *to, const char *value) {
    return bench_set_length(value, 0, 3 * LENGTH_INCH, &to->station.rules.extension_max);
}

static bool set_through(struct bench_settings *to, const char *value) {
    return bench_set_length(value, 0, LENGTH_INCH, &to->station.rules.through_allowance);
}

// A value in units of so many thousandths, from one of them to `most` thousandths.
static bool set_off(struct bench_settings *to, enum assembly_value which, const char *value,
                    int64_t unit, int64_t most) {
    int64_t thousandths;
    if (!mass_parse(value, &thousandths) || thousandths % unit != 0 || thousandths < unit ||
        thousandths > most) {
        return false;
    }
    to->station.finals.off[which] = thousandths / unit;
    return true;
}

static bool set_length_off(struct bench_settings *to, const char *value) {
    return bench_set_length(value, 1, LENGTH_INCH, &to->station.finals.off[ASSEMBLY_LENGTH]);
}

static bool set_swingweight_off(struct bench_settings *to, const char *value) {
    return set_off(to, ASSEMBLY_SWINGWEIGHT, value, 100, 20000);
}

static bool set_frequency_off(struct bench_settings *to, const char *value) {
    return set_off(to, ASSEMBLY_FREQUENCY, value, 100, 20000);
}

static bool set_loft_off(struct bench_settings *to, const char *value) {
    return set_off(to, ASSEMBLY_LOFT, value, 1, 5000);
}

static bool set_lie_off(struct bench_settings *to, const char *value) {
    return set_off(to, ASSEMBLY_LIE, value, 1, 5000);
}

// `length swingweight`; nothing: none.
static bool set_wanted(struct bench_settings *to, const char *value) {
    unsigned wanted = 0;
    while (*value != '\0') {
        char name[16];
        enum assembly_value which;
        size_t size = strcspn(value, " ");
        if (size >= sizeof name) {
            return false;
        }
        memcpy(name, value, size);
        name[size] = '\0';
        if (size > 0 && !assembly_value_from_text(name, &which)) {
            return false;
        }
        wanted |= size > 0 ? 1u << which : 0;
        value += size + strspn(value + size, " ");
    }
    to->station.finals.wanted = wanted;
    return true;
}

static bool set_method(struct bench_settings *to, const char *value) {
    bool rules;
    if (!bench_set_choose(value, "ruler", "rules", &rules)) {
        return false;
    }
    to->station.length_method = rules ? LENGTH_METHOD_RULES : LENGTH_METHOD_RULER;
    return true;
}

static bool set_epoxy_name(struct bench_settings *to, const char *value) {
    return bench_set_readable(value) &&
           bench_set_text(value, to->shop.epoxy, sizeof to->shop.epoxy);
}

static bool set_ferrule_name(struct bench_settings *to, const char *value) {
    return bench_set_readable(value) &&
           bench_set_text(value, to->shop.ferrule, sizeof to->shop.ferrule);
}

static bool set_cure(struct bench_settings *to, const char *value) {
    return bench_set_number(value, 0, 240, &to->shop.cure_hours);
}

static bool set_shop_name(struct bench_settings *to, const char *value) {
    return bench_set_readable(value) && bench_set_text(value, to->shop_name, sizeof to->shop_name);
}

static const struct bench_key keys[] = {
    {"bench", "name", set_name, "1 to 23 characters"},
    {"bench", "mark_step", set_mark_step, "1/16, 1/32, 1/64, 0.5 mm or 1 mm"},
    {"bench", "tolerance", set_tolerance, "a length above 0, at most 1/4 in"},
    {"bench", "tip_side", set_tip_side, "left or right"},
    {"bench", "units", set_units, "inch or mm"},
    {"bench", "paper", set_paper, "a4 or letter"},
    {"bench", "care_every_club", set_care, "yes or no"},
    {"bench", "limit_46", set_limit_46, "yes or no"},
    {"bench", "idle_sign_off", set_idle, "minutes, 0 (never) to 480"},
    {"assembly", "ferrule_g", set_ferrule, "grams, 0 to 20"},
    {"assembly", "epoxy_g", set_epoxy, "grams, 0 to 20"},
    {"assembly", "grip_balance", set_grip_balance, "a length of 1 to 12 in"},
    {"assembly", "ferrule", set_ferrule_name, "at most 47 characters, or nothing"},
    {"assembly", "epoxy", set_epoxy_name, "at most 47 characters, or nothing"},
    {"assembly", "cure_hours", set_cure, "hours, 0 (not known) to 240"},
    {"assembly", "length_method", set_method, "ruler or rules"},
    {"assembly", "wanted", set_wanted, "some of length, swingweight, frequency, loft, lie"},
    {"assembly", "length_tolerance", set_length_off, "a length above 0, at most 1 in"},
    {"assembly", "swingweight_tolerance", set_swingweight_off, "points, 0.1 to 20"},
    {"assembly", "frequency_tolerance", set_frequency_off, "cycles a minute, 0.1 to 20"},
    {"assembly", "loft_tolerance", set_loft_off, "degrees above 0, at most 5"},
    {"assembly", "lie_tolerance", set_lie_off, "degrees above 0, at most 5"},
    {"rules", "extension_max", set_extension_max, "a length of 0 to 3 in"},
    {"rules", "through_allowance", set_through, "a length of 0 to 1 in"},
    {"shop", "name", set_shop_name, "at most 47 characters, or nothing"},
};

const struct bench_key *bench_keys_work(size_t *ret_count) {
    *ret_count = sizeof keys / sizeof keys[0];
    return keys;
}
