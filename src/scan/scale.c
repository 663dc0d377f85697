// From bytes to lines, and what is stable from line to line.

#include "scale.h"

#include <string.h>

static const char bad_bit[] = "A byte came damaged (parity). Check the cable, and that scale and "
                              "settings have the same format.";
static const char endless[] = "A line without an end. Set the scale to end each line with CR or "
                              "LF, and check its speed.";
static const char half[] = "A line stopped in the middle. Check the cable.";

void scale_parser_init(struct scale_parser *p, enum scale_unit unit, enum scale_format format,
                       int64_t now_us) {
    *p = (struct scale_parser){.unit = unit, .format = format, .reading_us = -1};
    scale_parser_forget(p, now_us);
}

static void nothing_same(struct scale_parser *p) {
    p->same = MASS_UNKNOWN;
    p->same_count = 0;
}

static void begin_line(struct scale_parser *p) {
    p->count = 0;
    p->bad_bit = false;
}

void scale_parser_forget(struct scale_parser *p, int64_t now_us) {
    begin_line(p);
    nothing_same(p);
    p->passing = true;
    p->fresh = true;
    p->says = false;
    p->last_us = now_us;
}

static void give_refused(struct scale_parser *p, const char *why, scale_take *take, void *ctx) {
    struct scale_reading reading;
    scale_line(p->line, p->count, p->unit, &reading, NULL); // as it is to be shown
    reading.kind = SCALE_REFUSED;
    reading.mass = MASS_UNKNOWN;
    reading.stable = false;
    reading.load = SCALE_LOAD_UNSAID;
    reading.why = why;
    nothing_same(p);
    take(ctx, &reading);
}

static bool same_for_long(struct scale_parser *p, mass_mg mass, int64_t now_us) {
    if (p->same != mass) {
        p->same = mass;
        p->same_count = 0;
        p->same_us = now_us;
    }
    p->same_count += p->same_count < SCALE_SAME_MIN;
    return p->same_count == SCALE_SAME_MIN && now_us - p->same_us >= SCALE_SAME_US;
}

static void give_line(struct scale_parser *p, int64_t now_us, scale_take *take, void *ctx) {
    struct scale_reading reading;
    bool said;
    scale_line(p->line, p->count, p->unit, &reading, &said);
    if (reading.kind == SCALE_WEIGHT) {
        bool same = same_for_long(p, reading.mass, now_us);
        p->says = p->says || said;
        reading.stable = reading.stable || (same && !p->says);
    } else {
        nothing_same(p);
    }
    if (reading.kind != SCALE_REFUSED) {
        p->reading_us = now_us;
    }
    take(ctx, &reading);
}

static void end_line(struct scale_parser *p, int64_t now_us, scale_take *take, void *ctx) {
    if (!p->passing && p->bad_bit) {
        give_refused(p, bad_bit, take, ctx);
    } else if (!p->passing && p->count > 0) {
        give_line(p, now_us, take, ctx);
    }
    p->passing = false;
    begin_line(p);
}

static void add(struct scale_parser *p, char byte, scale_take *take, void *ctx) {
    if (p->passing) {
        return;
    }
    if (p->count == SCALE_LINE_MAX) {
        give_refused(p, endless, take, ctx);
        p->passing = true;
        begin_line(p);
        return;
    }
    p->line[p->count++] = byte;
}

// Even parity: the ones of all eight bits are an even number.
static char strip_parity(struct scale_parser *p, char byte) {
    unsigned bits = (unsigned char)byte;
    unsigned folded = bits ^ bits >> 4;
    folded ^= folded >> 2;
    folded ^= folded >> 1;
    p->bad_bit = p->bad_bit || (folded & 1) != 0;
    return (char)(bits & 0x7F);
}

void scale_parser_feed(struct scale_parser *p, const char *bytes, size_t size, int64_t now_us,
                       scale_take *take, void *ctx) {
    for (size_t i = 0; i < size; i++) {
        char byte = p->format == SCALE_7E1 ? strip_parity(p, bytes[i]) : bytes[i];
        if (byte == '\r' || byte == '\n') {
            end_line(p, now_us, take, ctx);
        } else {
            add(p, byte, take, ctx);
        }
    }
    if (size > 0) {
        p->fresh = false;
        p->last_us = now_us;
    }
}

static int64_t pause_due(const struct scale_parser *p) {
    return p->fresh || p->count > 0 ? p->last_us + SCALE_PAUSE_US : -1;
}

int64_t scale_parser_deadline(const struct scale_parser *p) {
    int64_t pause = pause_due(p);
    int64_t silent = p->reading_us >= 0 ? p->reading_us + SCALE_SILENT_US : -1;
    return pause < 0 || (silent >= 0 && silent < pause) ? silent : pause;
}

bool scale_parser_tick(struct scale_parser *p, int64_t now_us, scale_take *take, void *ctx) {
    int64_t pause = pause_due(p);
    if (pause >= 0 && now_us >= pause) {
        if (p->count > 0) {
            give_refused(p, half, take, ctx);
        }
        p->passing = !p->fresh;
        p->fresh = false;
        begin_line(p);
    }
    if (p->reading_us < 0 || now_us < p->reading_us + SCALE_SILENT_US) {
        return false;
    }
    p->reading_us = -1;
    p->says = false;
    nothing_same(p);
    return true;
}
