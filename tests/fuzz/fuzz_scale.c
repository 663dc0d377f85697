#include "fuzz.h"
#include "scale.h"

// The first byte: unit and format. Then pieces: size and time since the last (in 4 ms), and so many
// bytes.

struct told {
    size_t count;
    bool known;
};

static void look(const struct scale_reading *reading) {
    bool weight = reading->kind == SCALE_WEIGHT;
    HOLDS(reading->kind == SCALE_WEIGHT || reading->kind == SCALE_OVER ||
          reading->kind == SCALE_REFUSED);
    HOLDS((reading->mass != MASS_UNKNOWN) == weight);
    HOLDS(!weight || (reading->mass >= -1000000000 && reading->mass <= 1000000000));
    HOLDS(weight || !reading->stable);
    HOLDS((reading->why != NULL) == (reading->kind == SCALE_REFUSED));
    HOLDS(memchr(reading->line, '\0', sizeof reading->line) != NULL);
    for (const char *c = reading->line; *c != '\0'; c++) {
        HOLDS(*c >= ' ' && *c <= '~');
    }
}

static void take(void *ctx, const struct scale_reading *reading) {
    struct told *told = ctx;
    struct scale_reading alone;
    look(reading);
    told->count++;
    if (reading->kind == SCALE_WEIGHT) {
        told->known = true;
        // Some unit of the setting reads the same line alone to the same weight.
        bool same = false;
        for (enum scale_unit unit = SCALE_GRAM; unit <= SCALE_POUND; unit++) {
            scale_line(reading->line, strlen(reading->line), unit, &alone, NULL);
            same = same || alone.mass == reading->mass;
        }
        HOLDS(same);
    }
}

static void whole_line(const uint8_t *data, size_t size, enum scale_unit unit) {
    struct scale_reading reading;
    char *line = fuzz_string(data, size);
    bool said;
    scale_line(line, size, unit, &reading, &said);
    look(&reading);
    HOLDS(!said || reading.kind != SCALE_REFUSED);
    HOLDS(!reading.stable || said);
    free(line);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct scale_parser parser;
    struct told told = {0};
    enum scale_unit unit = size > 0 ? data[0] & 3 : 0;
    int64_t now = 0;
    size_t at = 1;
    scale_parser_init(&parser, unit, size > 0 && (data[0] & 4) != 0 ? SCALE_7E1 : SCALE_8N1, now);
    if (size > 1) {
        whole_line(data + 1, size - 1, unit);
    }
    while (at + 2 < size) {
        size_t piece = data[at] < size - at - 2 ? data[at] : size - at - 2;
        now += data[at + 1] * 4000;
        told.count = 0;
        scale_parser_tick(&parser, now, take, &told);
        HOLDS(scale_parser_deadline(&parser) == -1 || scale_parser_deadline(&parser) > now);
        scale_parser_feed(&parser, (const char *)data + at + 2, piece, now, take, &told);
        HOLDS(told.count <= piece + 1);
        HOLDS(parser.count <= SCALE_LINE_MAX);
        at += 2 + piece;
    }
    scale_parser_tick(&parser, now + SCALE_SILENT_US, take, &told);
    HOLDS(scale_parser_deadline(&parser) == -1);
    return 0;
}
