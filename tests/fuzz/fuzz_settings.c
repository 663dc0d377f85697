#include "bench_settings.h"
#include "fuzz.h"
#include "serial.h"
#include "settings_write.h"

static bool terminated(const char *text, size_t size) {
    return memchr(text, '\0', size) != NULL;
}

// What the bench takes for granted of settings that were read.
static void expect_sane(const struct bench_settings *s) {
    HOLDS(s->station.bench[0] != '\0' && terminated(s->station.bench, sizeof s->station.bench));
    HOLDS(s->station.rules.mark_step >= LENGTH_INCH / 64 &&
          s->station.rules.mark_step <= LENGTH_INCH / 16);
    HOLDS(s->station.rules.tolerance > 0 && s->station.rules.tolerance <= LENGTH_INCH / 4);
    HOLDS(s->station.idle_sign_off_ms >= 0);
    HOLDS(terminated(s->wedge.prefix, sizeof s->wedge.prefix));
    for (size_t i = 0; i < BENCH_SCANNERS_MAX; i++) {
        HOLDS(terminated(s->scanner[i], sizeof s->scanner[i]));
    }
    for (size_t i = 0; i < BENCH_SERIALS_MAX; i++) {
        HOLDS(terminated(s->serial[i], sizeof s->serial[i]));
    }
    HOLDS(serial_baud_known(s->baud));
    HOLDS(terminated(s->labels_queue, sizeof s->labels_queue));
    HOLDS(terminated(s->scale, sizeof s->scale));
    HOLDS(serial_baud_known(s->scale_baud));
    HOLDS(s->scale_format == SCALE_8N1 || s->scale_format == SCALE_7E1);
    HOLDS(s->scale_unit <= SCALE_POUND);
    HOLDS(terminated(s->button, sizeof s->button));
    HOLDS(s->button_code != 0);
    HOLDS(s->button_code != BENCH_BUTTON_ANY || s->button[0] != '\0');
    HOLDS(s->hold_ms >= 1000 && s->hold_ms <= 5000);
    HOLDS(s->volume >= 0 && s->volume <= 100);
}

// Written anew, as when a setting is changed at the bench, it says the same.
static void expect_same_again(const struct bench_lines *lines) {
    static struct bench_lines again;
    struct bench_settings settings = bench_settings_default();
    char *text = NULL;
    size_t size = 0;
    FILE *to = open_memstream(&text, &size);
    HOLDS(to != NULL);
    settings_print(to, lines);
    fclose(to);
    FILE *file = fmemopen(text, size, "r");
    HOLDS(file != NULL);
    bench_lines_init(&again);
    HOLDS(bench_settings_read_lines(file, "again.ini", &settings, &again, stderr));
    HOLDS(bench_lines_same(lines, &again));
    fclose(file);
    bench_lines_release(&again);
    free(text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    static struct bench_lines lines;
    struct bench_settings settings = bench_settings_default();
    char *text = fuzz_string(data, size);
    char *said = NULL;
    size_t said_size = 0;
    FILE *file = fmemopen(text, size + 1, "r"); // with the NUL: no buffer of no size
    FILE *complaints = open_memstream(&said, &said_size);
    HOLDS(file != NULL && complaints != NULL);
    bench_lines_init(&lines);
    bool read = bench_settings_read_lines(file, "settings.ini", &settings, &lines, complaints);
    fclose(file);
    fclose(complaints);
    HOLDS(read == (said_size == 0));
    if (read) {
        expect_sane(&settings);
        expect_same_again(&lines);
    }
    bench_lines_release(&lines);
    free(said);
    free(text);
    return 0;
}
