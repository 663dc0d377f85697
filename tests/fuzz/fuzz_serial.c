#include "fuzz.h"
#include "serial_record.h"

// The first byte: prefix. Then pieces: size and time since the last (in 4 ms), and so many bytes.

struct told {
    int count;
    int64_t now_us;
};

static void take(void *ctx, const struct serial_record *record) {
    struct told *told = ctx;
    const struct wedge_output *output = &record->output;
    told->count++;
    HOLDS(output->kind == WEDGE_CODE || output->kind == WEDGE_FAULT);
    HOLDS(output->text[0] != '\0' && memchr(output->text, '\0', sizeof output->text) != NULL);
    HOLDS(memchr(output->aim, '\0', sizeof output->aim) != NULL);
    for (const char *c = output->text; *c != '\0'; c++) {
        HOLDS(*c >= ' ' && *c <= '~');
    }
    HOLDS(record->trace.count > 0 && record->trace.count < WEDGE_TEXT_MAX);
    HOLDS(output->kind == WEDGE_FAULT || !record->trace.over);
    HOLDS(output->kind == WEDGE_FAULT || record->trace.end[0] != '\0');
    for (size_t i = 1; i < record->trace.count; i++) {
        HOLDS(record->trace.time_us[i] >= record->trace.time_us[i - 1]);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    static const char *const prefixes[] = {"", "~", "]C", "AAAAAAA"};
    struct serial_parser parser;
    struct told told = {0};
    size_t at = 1;
    serial_parser_init(&parser, prefixes[size > 0 ? data[0] & 3 : 0]);
    while (at + 2 < size) {
        size_t piece = data[at] < size - at - 2 ? data[at] : size - at - 2;
        told.now_us += data[at + 1] * 4000;
        told.count = 0;
        serial_parser_feed(&parser, (const char *)data + at + 2, piece, told.now_us, take, &told);
        HOLDS(told.count <= (int)piece + 1);
        HOLDS(parser.record.trace.count < WEDGE_TEXT_MAX);
        at += 2 + piece;
    }
    serial_parser_tick(&parser, told.now_us + SERIAL_IDLE_US, take, &told);
    HOLDS(serial_parser_deadline(&parser) == -1);
    return 0;
}
