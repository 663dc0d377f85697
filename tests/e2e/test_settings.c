#include "bench_screen.h"
#include "bench_settings.h"
#include "check.h"

#include <linux/input-event-codes.h>
#include <stdio.h>
#include <stdlib.h>

static char said[4096];

static bool reads(const char *text, struct bench_settings *settings) {
    FILE *file = fmemopen((void *)(uintptr_t)text, strlen(text), "r");
    FILE *complaints = fmemopen(said, sizeof said, "w");
    bool read;
    *settings = bench_settings_default();
    assert_true(file != NULL && complaints != NULL);
    read = bench_settings_read(file, "shop.ini", settings, complaints);
    fclose(file);
    fclose(complaints);
    return read;
}

static void test_every_key(void **state) {
    (void)state;
    struct bench_settings s;
    assert_true(
        reads("[bench]\nname = Saw 2\nmark_step = 0.5 mm\ntolerance = 1 mm\n"
              "tip_side = right\nunits = mm\ncare_every_club = yes\nlimit_46 = yes\n"
              "idle_sign_off = 0\n[assembly]\nferrule_g = 1.5\nepoxy_g = 0\n"
              "grip_balance = 100 mm\nferrule = Black 14 mm\nepoxy = Fell 24\ncure_hours = 24\n"
              "length_method = rules\nwanted = lie  loft\nlength_tolerance = 2 mm\n"
              "swingweight_tolerance = 0.5\nfrequency_tolerance = 1.5\nloft_tolerance = 0.5\n"
              "lie_tolerance = 0.25\n[rules]\nextension_max = 3/4\nthrough_allowance = 5 mm\n"
              "[shop]\nname = Brae Forge\n[scanner]\ndevice = /dev/input/by-id/scan\nprefix = ~]\n"
              "suffix = tab\n[button]\ndevice=/dev/input/by-id/knob\nkey = any\n"
              "hold_ms = 3000\n[camera]\ndevice = /dev/v4l/by-id\nsize = "
              "1920x1080\n[backup]\nfolder = /mnt/copies\nevery_h = 168\nkeep = 1\n"
              "[sound]\nvolume = 0 ; night shift\n",
              &s));
    assert_string_equal(s.station.bench, "Saw 2");
    assert_int_equal(s.station.rules.mark_step, 500000);
    assert_int_equal(s.station.rules.tolerance, 1000000);
    assert_true(s.station.tip_right && s.station.metric_first && s.station.care_every_club);
    assert_true(s.station.rules.limit_46);
    assert_int_equal(s.station.idle_sign_off_ms, 0);
    assert_int_equal(s.station.assembly.ferrule, 1500);
    assert_int_equal(s.station.assembly.epoxy, 0);
    assert_int_equal(s.station.assembly.grip_balance, 100 * LENGTH_MM);
    assert_string_equal(s.shop.ferrule, "Black 14 mm");
    assert_string_equal(s.shop.epoxy, "Fell 24");
    assert_int_equal(s.shop.cure_hours, 24);
    assert_int_equal(s.station.length_method, LENGTH_METHOD_RULES);
    assert_int_equal(s.station.finals.wanted, 1u << ASSEMBLY_LOFT | 1u << ASSEMBLY_LIE);
    static const int64_t off[ASSEMBLY_VALUE_COUNT] = {2 * LENGTH_MM, 5, 15, 500, 250};
    assert_memory_equal(s.station.finals.off, off, sizeof off);
    assert_int_equal(s.station.rules.extension_max, 3 * LENGTH_INCH / 4);
    assert_int_equal(s.station.rules.through_allowance, 5 * LENGTH_MM);
    assert_string_equal(s.shop_name, "Brae Forge");
    assert_string_equal(s.scanner[0], "/dev/input/by-id/scan");
    assert_string_equal(s.wedge.prefix, "~]");
    assert_true(s.wedge.suffix_tab);
    assert_string_equal(s.button, "/dev/input/by-id/knob");
    assert_int_equal(s.button_code, BENCH_BUTTON_ANY);
    assert_int_equal(s.hold_ms, 3000);
    assert_string_equal(s.camera, "/dev/v4l/by-id");
    assert_true(s.station.camera);
    assert_int_equal(s.camera_width, 1920);
    assert_int_equal(s.camera_height, 1080);
    assert_string_equal(s.backup, "/mnt/copies");
    assert_int_equal(s.backup_hours, 168);
    assert_int_equal(s.backup_keep, 1);
    assert_int_equal(s.volume, 0);
    assert_true(reads("[button]\nkey = F24\n[bench]\nidle_sign_off = 480\n", &s));
    assert_int_equal(s.button_code, KEY_F24);
    assert_int_equal(s.station.idle_sign_off_ms, 480 * 60000);
    assert_true(reads("[button]\nkey = Pause\n", &s));
    assert_int_equal(s.button_code, KEY_PAUSE);
}

static void test_more_scanners(void **state) {
    (void)state;
    struct bench_settings s;
    assert_true(reads("[scanner]\ndevice = a\ndevice2 = b\ndevice3 = c\ndevice4 = d\n"
                      "[serial]\ndevice = e\ndevice2 = f\nbaud = 115200\n",
                      &s));
    assert_string_equal(s.scanner[0], "a");
    assert_string_equal(s.scanner[1], "b");
    assert_string_equal(s.scanner[2], "c");
    assert_string_equal(s.scanner[3], "d");
    assert_string_equal(s.serial[0], "e");
    assert_string_equal(s.serial[1], "f");
    assert_int_equal(s.baud, 115200);
    static const char *const twice[] = {"[scanner]\ndevice = a\ndevice4 = a\n",
                                        "[serial]\ndevice = a\ndevice2 = a\n",
                                        "[scanner]\ndevice2 = a\n[serial]\ndevice = a\n",
                                        "[scanner]\ndevice = a\n[button]\ndevice = a\n"};
    for (size_t i = 0; i < COUNT(twice); i++) {
        assert_false(reads(twice[i], &s));
        assert_non_null(strstr(said, "a path of its own"));
    }
}

static void test_scale(void **state) {
    (void)state;
    static const struct {
        const char *name;
        enum scale_unit unit;
    } units[] = {
        {"g", SCALE_GRAM}, {"kg", SCALE_KILOGRAM}, {"oz", SCALE_OUNCE}, {"lb", SCALE_POUND}};
    struct bench_settings s;
    assert_true(
        reads("[scale]\ndevice = /dev/serial/by-id/scale\nbaud = 2400\nformat = 7e1\n", &s));
    assert_string_equal(s.scale, "/dev/serial/by-id/scale");
    assert_true(s.station.scale);
    assert_int_equal(s.scale_baud, 2400);
    assert_int_equal(s.scale_format, SCALE_7E1);
    assert_int_equal(s.baud, 9600); // of scanners
    for (size_t i = 0; i < COUNT(units); i++) {
        char text[32];
        snprintf(text, sizeof text, "[scale]\nunit = %s\n", units[i].name);
        assert_true(reads(text, &s));
        assert_int_equal(s.scale_unit, units[i].unit);
    }
    assert_false(reads("[scale]\ndevice = a\n[serial]\ndevice = a\n", &s));
    assert_non_null(strstr(said, "a path of its own"));
}

static void test_labels(void **state) {
    (void)state;
    struct bench_settings s;
    assert_true(reads("[labels]\nstock = 2.25x1.25\nprint = yes\nqueue = Bench_2\n", &s));
    assert_ptr_equal(s.labels_stock, ticket_stock_named("2.25x1.25"));
    assert_true(s.labels_print);
    assert_string_equal(s.labels_queue, "Bench_2");
    // All that there is stands in what is said about another.
    assert_false(reads("[labels]\nstock = a5\n", &s));
    for (int i = 0; i < TICKET_STOCK_COUNT; i++) {
        assert_non_null(strstr(said, ticket_stocks[i].name));
    }
}

static void test_signing(void **state) {
    (void)state;
    struct bench_settings s;
    assert_true(reads("[sign]\nkey = /media/stick/key\nwitness = /media/stick\n", &s));
    assert_string_equal(s.sign_key, "/media/stick/key");
    assert_string_equal(s.sign_witness, "/media/stick");
    assert_true(reads("[sign]\nkey = /media/stick/key\n", &s)); // one after the other, at the desk
    assert_string_equal(s.sign_witness, "");
}

// Every wrong value, named by file, line, key and what is allowed.
static void test_screen(void **state) {
    (void)state;
    struct bench_settings s;
    char far[256] = "";
    FILE *to = fmemopen(far, sizeof far, "w");
    assert_true(reads("[screen]\ndistance_m = 2.5\ndiagonal_in = 15.6\ntheme = contrast\n"
                      "mirrored = yes\n[button]\none_button = yes\n[sound]\nspoken = yes\n",
                      &s));
    assert_int_equal(s.distance_mm, 2500);
    assert_int_equal(s.diagonal_mm, 396);
    assert_int_equal(s.theme, SCREEN_THEME_CONTRAST);
    assert_true(s.mirrored && s.station.one_button && s.spoken);
    bench_screen_far(&s, 16, 9, to);
    fflush(to);
    assert_non_null(strstr(far, "15.6 in is read from 1.3 m"));
    rewind(to);
    s = bench_settings_default();
    far[0] = '\0';
    bench_screen_far(&s, 1920, 1080, to);
    fclose(to);
    assert_string_equal(far, "");
    assert_false(reads("[screen]\ndistance_m = 3.1\n", &s));
    assert_false(reads("[screen]\ndiagonal_in = 6.9\n", &s));
    assert_false(reads("[screen]\ndiagonal_in = wide\n", &s));
    assert_non_null(strstr(said, "must be inches, 7 to 65"));
}

static void test_wrong_values(void **state) {
    (void)state;
    static const struct {
        const char *section;
        const char *line;
        const char *allowed;
    } rows[] = {
        {"bench", "name =", "1 to 23 characters"},
        {"bench", "name = A bench whose name is too long", "1 to 23 characters"},
        {"bench", "mark_step = 1/10", "1/16, 1/32, 1/64, 0.5 mm or 1 mm"},
        {"bench", "tolerance = 0", "a length above 0, at most 1/4 in"},
        {"bench", "tolerance = 5/16", "a length above 0, at most 1/4 in"},
        {"bench", "tolerance = wide", "a length above 0, at most 1/4 in"},
        {"assembly", "cure_hours = 241", "hours, 0 (not known) to 240"},
        {"assembly", "length_method = tape", "ruler or rules"},
        {"assembly", "wanted = length weight", "some of length, swingweight, frequency, loft, lie"},
        {"assembly", "length_tolerance = 0", "a length above 0, at most 1 in"},
        {"assembly", "swingweight_tolerance = 0.05", "points, 0.1 to 20"},
        {"assembly", "frequency_tolerance = 20.1", "cycles a minute, 0.1 to 20"},
        {"assembly", "loft_tolerance = 0", "degrees above 0, at most 5"},
        {"assembly", "lie_tolerance = 5.1", "degrees above 0, at most 5"},
        {"rules", "extension_max = 3 1/16", "a length of 0 to 3 in"},
        {"rules", "through_allowance = -1/4", "a length of 0 to 1 in"},
        {"bench", "tip_side = up", "left or right"},
        {"bench", "units = feet", "inch or mm"},
        {"bench", "care_every_club = true", "yes or no"},
        {"bench", "limit_46 = 46", "yes or no"},
        {"bench", "name = Saw\x01", "1 to 23 characters"},
        {"bench", "name = Saw\xC3", "1 to 23 characters"},
        {"assembly", "ferrule_g = 20.001", "grams, 0 to 20"},
        {"assembly", "epoxy_g = -1", "grams, 0 to 20"},
        {"assembly", "grip_balance = 7/8", "a length of 1 to 12 in"},
        {"assembly", "grip_balance = 12.1", "a length of 1 to 12 in"},
        {"bench", "idle_sign_off = 481", "minutes, 0 (never) to 480"},
        {"bench", "idle_sign_off = -1", "minutes, 0 (never) to 480"},
        {"bench", "idle_sign_off = 5 min", "minutes, 0 (never) to 480"},
        {"scanner", "prefix = 12345678", "at most 7 characters of a US keyboard, or nothing"},
        {"scanner", "prefix = \xc2\xa7", "at most 7 characters of a US keyboard, or nothing"},
        {"scanner", "suffix = lf", "enter or tab"},
        {"serial", "baud = 9601", "1200, 2400, 4800 and so on to 921600"},
        {"serial", "baud = 300", "1200, 2400, 4800 and so on to 921600"},
        {"serial", "baud = 9600 8N1", "1200, 2400, 4800 and so on to 921600"},
        {"labels", "print = maybe", "yes or no"},
        {"labels", "queue = --help", "the name of a printer in CUPS, or nothing"},
        {"labels", "queue = Bench 2", "the name of a printer in CUPS, or nothing"},
        {"scale", "baud = 4801", "1200, 2400, 4800 and so on to 921600"},
        {"scale", "format = 8e1", "8n1 or 7e1"},
        {"scale", "unit = grams", "g, kg, oz or lb"},
        {"button", "key = Enter", "F13 to F24, Pause, or, with a device, any"},
        {"button", "key = F12", "F13 to F24, Pause, or, with a device, any"},
        {"button", "key = F25", "F13 to F24, Pause, or, with a device, any"},
        {"button", "hold_ms = 999", "milliseconds, 1000 to 5000"},
        {"button", "hold_ms = 5001", "milliseconds, 1000 to 5000"},
        {"camera", "size = 1920", "width and height in pixels, 320x240 to 4096x4096"},
        {"camera", "size = 1920x", "width and height in pixels, 320x240 to 4096x4096"},
        {"camera", "size = x480", "width and height in pixels, 320x240 to 4096x4096"},
        {"camera", "size = 1920x1080p", "width and height in pixels, 320x240 to 4096x4096"},
        {"camera", "size = 319x480", "width and height in pixels, 320x240 to 4096x4096"},
        {"camera", "size = 640x4097", "width and height in pixels, 320x240 to 4096x4096"},
        {"camera", "size = 000000000640x480", "width and height in pixels, 320x240 to 4096x4096"},
        {"backup", "every_h = 0", "hours, 1 to 168"},
        {"backup", "every_h = 169", "hours, 1 to 168"},
        {"backup", "keep = 0", "how many copies, 1 to 1000"},
        {"backup", "keep = all", "how many copies, 1 to 1000"},
        {"sound", "volume = 101", "0 (silent) to 100"},
        {"sound", "volume = loud", "0 (silent) to 100"},
        {"pin", "min_digits = 3", "digits, 4 to 12"},
        {"pin", "free_tries = 6", "tries, 1 to 5"},
        {"pin", "lock_after = 4", "tries, 5 to 20"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct bench_settings s;
        char text[256];
        char expected[256];
        snprintf(text, sizeof text, "; a comment\n\n[%s]\n%s\n", rows[i].section, rows[i].line);
        bool empty = rows[i].line[strlen(rows[i].line) - 1] == '=';
        snprintf(expected, sizeof expected, "shop.ini:4: %s%s: must be %s\n", rows[i].line,
                 empty ? " " : "", rows[i].allowed);
        assert_false(reads(text, &s));
        assert_string_equal(said, expected);
    }
}

static void test_wrong_lines(void **state) {
    (void)state;
    struct bench_settings s;
    assert_false(reads("[bench]\nnmae = Saw\n[lamp]\non = yes\n", &s));
    assert_string_equal(
        said,
        "shop.ini:2: [bench] nmae: there is no such setting; kiosk/settings.ini shows all of "
        "them\nshop.ini:4: [lamp] on: there is no such setting; kiosk/settings.ini shows all of "
        "them\n");
    assert_false(reads("[bench]\nname Saw\n", &s));
    assert_string_equal(
        said, "shop.ini:2: not understood: a line is [section], key = value or ; a comment\n");
    // Each of them, not the first alone.
    assert_false(reads("what\n[bench\n\n  # fine\n[bench] ; fine\nname\n", &s));
    assert_non_null(strstr(said, "shop.ini:1: not"));
    assert_non_null(strstr(said, "shop.ini:2: not"));
    assert_non_null(strstr(said, "shop.ini:6: not"));
    assert_null(strstr(said, "shop.ini:4"));
    assert_null(strstr(said, "shop.ini:5"));
    assert_false(reads("[button]\nkey = any\n", &s));
    assert_non_null(strstr(said, "needs the button's device"));
    // Every wrong line is named, not the first alone.
    assert_false(reads("[sound]\nvolume = 101\n[bench]\nunits = feet\nunits = mm\n", &s));
    assert_non_null(strstr(said, "shop.ini:2:"));
    assert_non_null(strstr(said, "shop.ini:4:"));
    assert_null(strstr(said, "shop.ini:5:"));
    assert_true(reads("", &s) || said[0] == '\0');
}

static void test_a_long_line(void **state) {
    (void)state;
    struct bench_settings s;
    char text[5000] = "[scanner]\ndevice = ";
    memset(text + strlen(text), 'a', 4000);
    strcat(text, "\nsuffix = lf\n");
    assert_false(reads(text, &s));
    assert_non_null(strstr(said, "shop.ini:2: too long: a line has at most 198 characters\n"));
    assert_non_null(strstr(said, "shop.ini:3: suffix = lf"));
    text[1000] = '\0';
    assert_false(reads(text, &s)); // and at the end of the file
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_key),   cmocka_unit_test(test_more_scanners),
        cmocka_unit_test(test_scale),       cmocka_unit_test(test_labels),
        cmocka_unit_test(test_signing),     cmocka_unit_test(test_wrong_values),
        cmocka_unit_test(test_wrong_lines), cmocka_unit_test(test_screen),
        cmocka_unit_test(test_a_long_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
