// What the bench is plugged into, and where its files are.

#include "bench_set.h"
#include "camera.h"
#include "serial.h"

#include <linux/input-event-codes.h>
#include <string.h>

static bool set_scanner(struct bench_settings *to, const char *value) {
    return bench_set_text(value, to->scanner[0], sizeof to->scanner[0]);
}

static bool set_scanner2(struct bench_settings *to, const char *value) {
    return bench_set_text(value, to->scanner[1], sizeof to->scanner[1]);
}

static bool set_scanner3(struct bench_settings *to, const char *value) {
    return bench_set_text(value, to->scanner[2], sizeof to->scanner[2]);
}

static bool set_scanner4(struct bench_settings *to, const char *value) {
    return bench_set_text(value, to->scanner[3], sizeof to->scanner[3]);
}

static bool set_serial(struct bench_settings *to, const char *value) {
    return bench_set_text(value, to->serial[0], sizeof to->serial[0]);
}

static bool set_serial2(struct bench_settings *to, const char *value) {
    return bench_set_text(value, to->serial[1], sizeof to->serial[1]);
}

static bool set_baud(struct bench_settings *to, const char *value) {
    return bench_set_number(value, 1200, 921600, &to->baud) && serial_baud_known(to->baud);
}

static bool set_scale(struct bench_settings *to, const char *value) {
    to->station.scale = value[0] != '\0';
    return bench_set_text(value, to->scale, sizeof to->scale);
}

static bool set_scale_baud(struct bench_settings *to, const char *value) {
    return bench_set_number(value, 1200, 921600, &to->scale_baud) &&
           serial_baud_known(to->scale_baud);
}

static bool set_scale_format(struct bench_settings *to, const char *value) {
    bool parity;
    if (!bench_set_choose(value, "8n1", "7e1", &parity)) {
        return false;
    }
    to->scale_format = parity ? SCALE_7E1 : SCALE_8N1;
    return true;
}

static bool set_scale_unit(struct bench_settings *to, const char *value) {
    static const char *const units[] = {
        [SCALE_GRAM] = "g", [SCALE_KILOGRAM] = "kg", [SCALE_OUNCE] = "oz", [SCALE_POUND] = "lb"};
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (strcmp(units[i], value) == 0) {
            to->scale_unit = (enum scale_unit)i;
            return true;
        }
    }
    return false;
}

static bool set_prefix(struct bench_settings *to, const char *value) {
    for (const char *c = value; *c != '\0'; c++) {
        if (*c < ' ' || *c > '~') {
            return false;
        }
    }
    return bench_set_text(value, to->wedge.prefix, sizeof to->wedge.prefix);
}

static bool set_suffix(struct bench_settings *to, const char *value) {
    return bench_set_choose(value, "enter", "tab", &to->wedge.suffix_tab);
}

static bool set_button(struct bench_settings *to, const char *value) {
    return bench_set_text(value, to->button, sizeof to->button);
}

static bool set_key(struct bench_settings *to, const char *value) {
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

static bool set_hold(struct bench_settings *to, const char *value) {
    return bench_set_number(value, 1000, 5000, &to->hold_ms);
}

static bool set_camera(struct bench_settings *to, const char *value) {
    to->station.camera = value[0] != '\0';
    return bench_set_text(value, to->camera, sizeof to->camera);
}

static bool set_size(struct bench_settings *to, const char *value) {
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

static bool set_pepper(struct bench_settings *to, const char *value) {
    return bench_set_text(value, to->pepper, sizeof to->pepper);
}

static bool set_backup(struct bench_settings *to, const char *value) {
    return bench_set_text(value, to->backup, sizeof to->backup);
}

static bool set_backup_hours(struct bench_settings *to, const char *value) {
    return bench_set_number(value, 1, 168, &to->backup_hours);
}

static bool set_backup_keep(struct bench_settings *to, const char *value) {
    return bench_set_number(value, 1, 1000, &to->backup_keep);
}

static bool set_labels_stock(struct bench_settings *to, const char *value) {
    to->labels_stock = ticket_stock_named(value);
    return to->labels_stock != NULL || value[0] == '\0';
}

// A name that CUPS allows, and none that lp takes for an option.
static bool set_labels_queue(struct bench_settings *to, const char *value) {
    return value[0] != '-' && strpbrk(value, " \t/#") == NULL &&
           bench_set_text(value, to->labels_queue, sizeof to->labels_queue);
}

static bool set_labels_print(struct bench_settings *to, const char *value) {
    return bench_set_choose(value, "no", "yes", &to->labels_print);
}

static bool set_sign_key(struct bench_settings *to, const char *value) {
    return bench_set_text(value, to->sign_key, sizeof to->sign_key);
}

static bool set_sign_witness(struct bench_settings *to, const char *value) {
    return bench_set_text(value, to->sign_witness, sizeof to->sign_witness);
}

static bool set_volume(struct bench_settings *to, const char *value) {
    return bench_set_number(value, 0, 100, &to->volume);
}

static const struct bench_key keys[] = {
    {"scanner", "device", set_scanner, "a path of at most 255 characters, or nothing"},
    {"scanner", "device2", set_scanner2, "a path of at most 255 characters, or nothing"},
    {"scanner", "device3", set_scanner3, "a path of at most 255 characters, or nothing"},
    {"scanner", "device4", set_scanner4, "a path of at most 255 characters, or nothing"},
    {"scanner", "prefix", set_prefix, "at most 7 characters of a US keyboard, or nothing"},
    {"scanner", "suffix", set_suffix, "enter or tab"},
    {"serial", "device", set_serial, "a path of at most 255 characters, or nothing"},
    {"serial", "device2", set_serial2, "a path of at most 255 characters, or nothing"},
    {"serial", "baud", set_baud, "1200, 2400, 4800 and so on to 921600"},
    {"scale", "device", set_scale, "a path of at most 255 characters, or nothing"},
    {"scale", "baud", set_scale_baud, "1200, 2400, 4800 and so on to 921600"},
    {"scale", "format", set_scale_format, "8n1 or 7e1"},
    {"scale", "unit", set_scale_unit, "g, kg, oz or lb"},
    {"button", "device", set_button, "a path of at most 255 characters, or nothing"},
    {"button", "key", set_key, "F13 to F24, Pause, or, with a device, any"},
    {"button", "hold_ms", set_hold, "milliseconds, 1000 to 5000"},
    {"camera", "device", set_camera, "a path of at most 255 characters, or nothing"},
    {"camera", "size", set_size, "width and height in pixels, 320x240 to 4096x4096"},
    {"pin", "pepper", set_pepper, "a path of at most 255 characters, or nothing"},
    {"backup", "folder", set_backup, "a path of at most 255 characters, or nothing"},
    {"backup", "every_h", set_backup_hours, "hours, 1 to 168"},
    {"backup", "keep", set_backup_keep, "how many copies, 1 to 1000"},
    {"labels", "stock", set_labels_stock, "a4, letter, 63.5x38.1, 62mm, 2.25x1.25, or nothing"},
    {"labels", "queue", set_labels_queue, "the name of a printer in CUPS, or nothing"},
    {"labels", "print", set_labels_print, "yes or no"},
    {"sign", "key", set_sign_key, "a path of at most 255 characters, or nothing"},
    {"sign", "witness", set_sign_witness, "a path of at most 255 characters, or nothing"},
    {"sound", "volume", set_volume, "0 (silent) to 100"},
};

const struct bench_key *bench_keys_devices(size_t *ret_count) {
    *ret_count = sizeof keys / sizeof keys[0];
    return keys;
}
