// Values that no general kind reads.

#include "bench_set.h"
#include "camera.h"
#include "serial.h"

#include <linux/input-event-codes.h>
#include <string.h>

bool bench_set_mark_step(struct bench_settings *to, const char *value) {
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

bool bench_set_idle(struct bench_settings *to, const char *value) {
    int minutes;
    if (!bench_set_number(value, 0, 480, &minutes)) {
        return false;
    }
    to->station.idle_sign_off_ms = (int64_t)minutes * 60 * 1000;
    return true;
}

// In thousandths.
static bool set_thousandths(const char *value, int64_t low, int64_t high, int64_t *ret) {
    int64_t thousandths;
    if (!mass_parse(value, &thousandths) || thousandths < low || thousandths > high) {
        return false;
    }
    *ret = thousandths;
    return true;
}

bool bench_set_distance(struct bench_settings *to, const char *value) {
    int64_t mm;
    if (!set_thousandths(value, 500, 3000, &mm)) {
        return false;
    }
    to->distance_mm = (int)mm;
    return true;
}

bool bench_set_diagonal(struct bench_settings *to, const char *value) {
    int64_t inches;
    if (!set_thousandths(value, 7000, 65000, &inches)) {
        return false;
    }
    to->diagonal_mm = (int)((inches * 254 + 5000) / 10000);
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

bool bench_set_ferrule(struct bench_settings *to, const char *value) {
    return set_grams(value, 20 * MASS_GRAM, &to->station.assembly.ferrule);
}

bool bench_set_epoxy(struct bench_settings *to, const char *value) {
    return set_grams(value, 20 * MASS_GRAM, &to->station.assembly.epoxy);
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

bool bench_set_swingweight_off(struct bench_settings *to, const char *value) {
    return set_off(to, ASSEMBLY_SWINGWEIGHT, value, 100, 20000);
}

bool bench_set_frequency_off(struct bench_settings *to, const char *value) {
    return set_off(to, ASSEMBLY_FREQUENCY, value, 100, 20000);
}

bool bench_set_loft_off(struct bench_settings *to, const char *value) {
    return set_off(to, ASSEMBLY_LOFT, value, 1, 5000);
}

bool bench_set_lie_off(struct bench_settings *to, const char *value) {
    return set_off(to, ASSEMBLY_LIE, value, 1, 5000);
}

// `length swingweight`; nothing: none.
bool bench_set_wanted(struct bench_settings *to, const char *value) {
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

bool bench_set_method(struct bench_settings *to, const char *value) {
    bool rules;
    if (!bench_set_choose(value, "ruler", "rules", &rules)) {
        return false;
    }
    to->station.length_method = rules ? LENGTH_METHOD_RULES : LENGTH_METHOD_RULER;
    return true;
}

bool bench_set_baud(struct bench_settings *to, const char *value) {
    return bench_set_number(value, 1200, 921600, &to->baud) && serial_baud_known(to->baud);
}

bool bench_set_scale_baud(struct bench_settings *to, const char *value) {
    return bench_set_number(value, 1200, 921600, &to->scale_baud) &&
           serial_baud_known(to->scale_baud);
}

bool bench_set_prefix(struct bench_settings *to, const char *value) {
    for (const char *c = value; *c != '\0'; c++) {
        if (*c < ' ' || *c > '~') {
            return false;
        }
    }
    return bench_set_text(value, to->wedge.prefix, sizeof to->wedge.prefix);
}

bool bench_set_key(struct bench_settings *to, const char *value) {
    int n = 0;
    if (strcmp(value, "any") == 0) {
        to->button_code = BENCH_BUTTON_ANY;
    } else if (strcmp(value, "Pause") == 0) {
        to->button_code = KEY_PAUSE;
    } else if (value[0] == 'F' && bench_set_number(value + 1, 13, 24, &n)) {
        to->button_code = (uint16_t)(KEY_F13 + n - 13);
    } else {
        return false;
    }
    return true;
}

bool bench_set_size(struct bench_settings *to, const char *value) {
    char width[8];
    const char *cross = strchr(value, 'x');
    size_t digits = cross == NULL ? 0 : (size_t)(cross - value);
    if (digits == 0 || digits >= sizeof width) {
        return false;
    }
    memcpy(width, value, digits);
    width[digits] = '\0';
    return bench_set_number(width, 320, FRAME_SIDE_MAX, &to->camera_width) &&
           bench_set_number(cross + 1, 240, FRAME_SIDE_MAX, &to->camera_height);
}

bool bench_set_stock(struct bench_settings *to, const char *value) {
    to->labels_stock = ticket_stock_named(value);
    return to->labels_stock != NULL || value[0] == '\0';
}

// A name that CUPS allows, and none that lp takes for an option.
bool bench_set_queue(struct bench_settings *to, const char *value) {
    return value[0] != '-' && strpbrk(value, " \t/#") == NULL &&
           bench_set_text(value, to->labels_queue, sizeof to->labels_queue);
}
