#include "readers.h"
#include "check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

const char *reader_name(enum reader reader) {
    return reader == READER_ZBAR ? "zbarimg" : "ZXingReader";
}

void reading_add(struct reading *reading, const char *kind, const char *text) {
    assert_true(reading->count < READ_MAX);
    snprintf(reading->code[reading->count++], sizeof reading->code[0], "%s %.20s", kind, text);
}

static int by_bytes(const void *a, const void *b) {
    return strcmp(a, b);
}

void reading_sort(struct reading *reading) {
    qsort(reading->code, reading->count, sizeof reading->code[0], by_bytes);
}

static bool holds(const struct reading *reading, const char *code) {
    for (size_t i = 0; i < reading->count; i++) {
        if (strcmp(reading->code[i], code) == 0) {
            return true;
        }
    }
    return false;
}

void reading_join(struct reading *reading, const struct reading *more) {
    for (size_t i = 0; i < more->count; i++) {
        if (!holds(reading, more->code[i])) {
            assert_true(reading->count < READ_MAX);
            memcpy(reading->code[reading->count++], more->code[i], sizeof more->code[i]);
        }
    }
    reading_sort(reading);
}

void reading_tickets(struct reading *reading) {
    struct reading whole = *reading;
    reading->count = 0;
    for (size_t i = 0; i < whole.count; i++) {
        struct reading one = {0};
        reading_add(&one, "ticket", strchr(whole.code[i], ' ') + 1);
        reading_join(reading, &one);
    }
}

static void take_zbar(struct reading *reading, const char *line) {
    char kind[32];
    char text[64];
    if (sscanf(line, "%31[^:]:%63[^\n]", kind, text) == 2) {
        reading_add(reading, strcmp(kind, "QR-Code") == 0 ? "qr" : "bars", text);
    }
}

// `Text: "H-0001A"` and then `Format: Code128`; QR must be of level Q.
static void take_zxing(struct reading *reading, const char *line, char text[64]) {
    char format[32];
    char level;
    if (sscanf(line, "EC Level: %c", &level) == 1) {
        assert_int_equal(level, 'Q');
    }
    if (sscanf(line, "Text: \"%63[^\"]", text) != 1 &&
        sscanf(line, "Format: %31[^\n]", format) == 1 && strcmp(format, "None") != 0) {
        reading_add(reading, strcmp(format, "QRCode") == 0 ? "qr" : "bars", text);
    }
}

void reader_read(enum reader reader, const char *picture, struct reading *ret_reading) {
    char command[512];
    char line[512];
    char text[64] = "";
    // zxing 1.4 aborts on good input unless it may not shrink the picture
    snprintf(command, sizeof command,
             reader == READER_ZBAR
                 ? "zbarimg --nodbus -q -Sdisable -Scode128.enable -Sqrcode.enable '%s' 2>&1"
                 : "ZXingReader -noscale -format Code128,QRCode '%s' 2>&1",
             picture);
    memset(ret_reading, 0, sizeof *ret_reading);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    while (fgets(line, sizeof line, pipe) != NULL) {
        if (reader == READER_ZBAR) {
            take_zbar(ret_reading, line);
        } else {
            take_zxing(ret_reading, line, text);
        }
    }
    int status = pclose(pipe);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) != 127);
    reading_sort(ret_reading);
}
