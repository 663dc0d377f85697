#include "bench_settings.h"
#include "camera.h"
#include "serial.h"
#include "text.h"

#include <ini.h>
#include <linux/input-event-codes.h>
#include <stdlib.h>
#include <string.h>

struct reader {
    FILE *file;
    const char *name;
    FILE *complaints;
    struct bench_settings *settings;
    int line;
    int wrong;
};

struct bench_settings bench_settings_default(void) {
    return (struct bench_settings){
        .station = {.bench = "Bench 1",
                    .rules = BENCH_RULES_DEFAULT,
                    .assembly = ASSEMBLY_DEFAULT,
                    .idle_sign_off_ms = (int64_t)30 * 60 * 1000},
        .wedge = WEDGE_SETTINGS_DEFAULT,
        .camera_width = CAMERA_WIDTH,
        .camera_height = CAMERA_HEIGHT,
        .baud = 9600,
        .scale_baud = 9600,
        .button_code = KEY_F13,
        .hold_ms = 2000,
        .volume = 60,
        .backup_hours = 24,
        .backup_keep = 14,
    };
}

static bool choose(const char *value, const char *no, const char *yes, bool *ret) {
    if (strcmp(value, no) != 0 && strcmp(value, yes) != 0) {
        return false;
    }
    *ret = strcmp(value, yes) == 0;
    return true;
}

static bool number(const char *value, int low, int high, int *ret) {
    char *end;
    long n = strtol(value, &end, 10);
    if (end == value || *end != '\0' || n < low || n > high) {
        return false;
    }
    *ret = (int)n;
    return true;
}

static bool text(const char *value, char *buffer, size_t size) {
    if (strlen(value) >= size) {
        return false;
    }
    memset(buffer, 0, size);
    memcpy(buffer, value, strlen(value));
    return true;
}

// Characters a person can read, whole ones.
static bool readable(const char *value) {
    size_t left = strlen(value);
    while (left > 0) {
        size_t size = text_utf8_size(value, left);
        if (size == 0 || (unsigned char)*value < ' ' || *value == 0x7F) {
            return false;
        }
        value += size;
        left -= size;
    }
    return true;
}

static bool set_name(struct bench_settings *to, const char *value) {
    return readable(value) && value[0] != '\0' &&
           text(value, to->station.bench, sizeof to->station.bench);
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
    length_nm length;
    if (length_parse(value, LENGTH_UNIT_INCH, &length, NULL) != LENGTH_OK || length <= 0 ||
        length > LENGTH_INCH / 4) {
        return false;
    }
    to->station.rules.tolerance = length;
    return true;
}

static bool set_tip_side(struct bench_settings *to, const char *value) {
    return choose(value, "left", "right", &to->station.tip_right);
}

static bool set_units(struct bench_settings *to, const char *value) {
    return choose(value, "inch", "mm", &to->station.metric_first);
}

static bool set_paper(struct bench_settings *to, const char *value) {
    bool letter;
    if (!choose(value, "a4", "letter", &letter)) {
        return false;
    }
    to->paper = letter ? PAGE_LETTER : PAGE_A4;
    return true;
}

static bool set_care(struct bench_settings *to, const char *value) {
    return choose(value, "no", "yes", &to->station.care_every_club);
}

static bool set_limit_46(struct bench_settings *to, const char *value) {
    return choose(value, "no", "yes", &to->station.rules.limit_46);
}

static bool set_idle(struct bench_settings *to, const char *value) {
    int minutes;
    if (!number(value, 0, 480, &minutes)) {
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
    length_nm length;
    if (length_parse(value, LENGTH_UNIT_INCH, &length, NULL) != LENGTH_OK || length < LENGTH_INCH ||
        length > 12 * LENGTH_INCH) {
        return false;
    }
    to->station.assembly.grip_balance = length;
    return true;
}

static bool set_scanner(struct bench_settings *to, const char *value) {
    return text(value, to->scanner[0], sizeof to->scanner[0]);
}

static bool set_scanner2(struct bench_settings *to, const char *value) {
    return text(value, to->scanner[1], sizeof to->scanner[1]);
}

static bool set_scanner3(struct bench_settings *to, const char *value) {
    return text(value, to->scanner[2], sizeof to->scanner[2]);
}

static bool set_scanner4(struct bench_settings *to, const char *value) {
    return text(value, to->scanner[3], sizeof to->scanner[3]);
}

static bool set_serial(struct bench_settings *to, const char *value) {
    return text(value, to->serial[0], sizeof to->serial[0]);
}

static bool set_serial2(struct bench_settings *to, const char *value) {
    return text(value, to->serial[1], sizeof to->serial[1]);
}

static bool set_baud(struct bench_settings *to, const char *value) {
    return number(value, 1200, 921600, &to->baud) && serial_baud_known(to->baud);
}

static bool set_scale(struct bench_settings *to, const char *value) {
    to->station.scale = value[0] != '\0';
    return text(value, to->scale, sizeof to->scale);
}

static bool set_scale_baud(struct bench_settings *to, const char *value) {
    return number(value, 1200, 921600, &to->scale_baud) && serial_baud_known(to->scale_baud);
}

static bool set_scale_format(struct bench_settings *to, const char *value) {
    bool parity;
    if (!choose(value, "8n1", "7e1", &parity)) {
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
    return text(value, to->wedge.prefix, sizeof to->wedge.prefix);
}

static bool set_suffix(struct bench_settings *to, const char *value) {
    return choose(value, "enter", "tab", &to->wedge.suffix_tab);
}

static bool set_button(struct bench_settings *to, const char *value) {
    return text(value, to->button, sizeof to->button);
}

static bool set_key(struct bench_settings *to, const char *value) {
    int n = 0;
    if (strcmp(value, "any") == 0) {
        to->button_code = BENCH_BUTTON_ANY;
    } else if (strcmp(value, "Pause") == 0) {
        to->button_code = KEY_PAUSE;
    } else if (value[0] == 'F' && number(value + 1, 13, 24, &n)) {
        to->button_code = (uint16_t)(KEY_F13 + n - 13);
    } else {
        return false;
    }
    return true;
}

static bool set_hold(struct bench_settings *to, const char *value) {
    return number(value, 1000, 5000, &to->hold_ms);
}

static bool set_camera(struct bench_settings *to, const char *value) {
    to->station.camera = value[0] != '\0';
    return text(value, to->camera, sizeof to->camera);
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
    return number(width, 320, FRAME_SIDE_MAX, &to->camera_width) &&
           number(cross + 1, 240, FRAME_SIDE_MAX, &to->camera_height);
}

static bool set_pepper(struct bench_settings *to, const char *value) {
    return text(value, to->pepper, sizeof to->pepper);
}

static bool set_backup(struct bench_settings *to, const char *value) {
    return text(value, to->backup, sizeof to->backup);
}

static bool set_backup_hours(struct bench_settings *to, const char *value) {
    return number(value, 1, 168, &to->backup_hours);
}

static bool set_backup_keep(struct bench_settings *to, const char *value) {
    return number(value, 1, 1000, &to->backup_keep);
}

static bool set_labels_stock(struct bench_settings *to, const char *value) {
    to->labels_stock = ticket_stock_named(value);
    return to->labels_stock != NULL || value[0] == '\0';
}

// A name that CUPS allows, and none that lp takes for an option.
static bool set_labels_queue(struct bench_settings *to, const char *value) {
    return value[0] != '-' && strpbrk(value, " \t/#") == NULL &&
           text(value, to->labels_queue, sizeof to->labels_queue);
}

static bool set_labels_print(struct bench_settings *to, const char *value) {
    return choose(value, "no", "yes", &to->labels_print);
}

static bool set_sign_key(struct bench_settings *to, const char *value) {
    return text(value, to->sign_key, sizeof to->sign_key);
}

static bool set_sign_witness(struct bench_settings *to, const char *value) {
    return text(value, to->sign_witness, sizeof to->sign_witness);
}

static bool set_volume(struct bench_settings *to, const char *value) {
    return number(value, 0, 100, &to->volume);
}

static const struct {
    const char *section;
    const char *key;
    bool (*set)(struct bench_settings *to, const char *value);
    const char *allowed;
} keys[] = {
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
#define KEYS (sizeof keys / sizeof keys[0])

static void complain(struct reader *reader, const char *what, const char *allowed) {
    fprintf(reader->complaints, "%s:%d: %s: %s\n", reader->name, reader->line, what, allowed);
    reader->wrong++;
}

static int take(void *user, const char *section, const char *key, const char *value) {
    struct reader *reader = user;
    char what[2 * INI_MAX_LINE + 16];
    for (size_t i = 0; i < KEYS; i++) {
        if (strcmp(keys[i].section, section) == 0 && strcmp(keys[i].key, key) == 0) {
            if (!keys[i].set(reader->settings, value)) {
                char allowed[80];
                snprintf(what, sizeof what, "%s = %s", key, value);
                snprintf(allowed, sizeof allowed, "must be %s", keys[i].allowed);
                complain(reader, what, allowed);
            }
            return 1;
        }
    }
    snprintf(what, sizeof what, "[%s] %s", section, key);
    complain(reader, what, "there is no such setting; kiosk/settings.ini shows all of them");
    return 1;
}

// One call a line, however long: so the line's number is known, which inih does not tell its
// handlers.
static char *next_line(char *buffer, int size, void *stream) {
    struct reader *reader = stream;
    int c = '\n';
    if (fgets(buffer, size, reader->file) == NULL) {
        return NULL;
    }
    reader->line++;
    if (strchr(buffer, '\n') == NULL) {
        c = fgetc(reader->file);
    }
    if (c != '\n' && c != EOF) {
        complain(reader, "too long", "a line has at most 198 characters");
        while (c != '\n' && c != EOF) {
            c = fgetc(reader->file);
        }
    }
    return buffer;
}

// Two readers of one device would take its keys from each other.
static bool named_twice(const struct bench_settings *s) {
    const char *paths[BENCH_SCANNERS_MAX + BENCH_SERIALS_MAX + 2];
    size_t count = 0;
    for (size_t i = 0; i < BENCH_SCANNERS_MAX; i++) {
        paths[count++] = s->scanner[i];
    }
    for (size_t i = 0; i < BENCH_SERIALS_MAX; i++) {
        paths[count++] = s->serial[i];
    }
    paths[count++] = s->button;
    paths[count++] = s->scale;
    for (size_t i = 0; i < count; i++) {
        for (size_t j = 0; j < i; j++) {
            if (paths[i][0] != '\0' && strcmp(paths[i], paths[j]) == 0) {
                return true;
            }
        }
    }
    return false;
}

bool bench_settings_read(FILE *file, const char *name, struct bench_settings *settings,
                         FILE *complaints) {
    struct reader reader = {
        .file = file, .name = name, .complaints = complaints, .settings = settings};
    int line = ini_parse_stream(next_line, &reader, take, &reader);
    if (line != 0) {
        reader.line = line;
        complain(&reader, "not understood", "a line is [section], key = value or ; a comment");
    }
    if (settings->button_code == BENCH_BUTTON_ANY && settings->button[0] == '\0') {
        complain(&reader, "key = any", "needs the button's device");
    }
    if (named_twice(settings)) {
        complain(&reader, "device",
                 "each scanner, the button and the scale must have a path of its own");
    }
    if ((settings->sign_key[0] == '\0') != (settings->sign_witness[0] == '\0')) {
        complain(&reader, "[sign]", "key and witness belong together");
    }
    return reader.wrong == 0;
}
