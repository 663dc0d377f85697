#include "serial_record.h"

#include "aim.h"
#include "strokes.h"

#include <string.h>

#define BYTES_MAX (WEDGE_TEXT_MAX - 1)

static const char no_text[] = "The scanner sent bytes that are no text. Set the same speed, 8 data "
                              "bits and no parity in it and in the settings.";
static const char no_end[] = "A code came without its end. Scan it again; set the scanner to send "
                             "Enter (CR) after each code.";
static const char endless[] = "The scanner sends without an end. Set it to send Enter (CR) after "
                              "each code, and check its speed.";

void serial_parser_init(struct serial_parser *p, const char *prefix) {
    *p = (struct serial_parser){.given_us = INT64_MIN};
    memcpy(p->prefix, prefix, strnlen(prefix, sizeof p->prefix - 1));
}

void serial_parser_forget(struct serial_parser *p) {
    p->record = (struct serial_record){0};
    p->told = false;
}

_Static_assert(sizeof no_text <= WEDGE_TEXT_MAX && sizeof no_end <= WEDGE_TEXT_MAX &&
                   sizeof endless <= WEDGE_TEXT_MAX,
               "sentences fit");

static void say(struct wedge_output *output, const char *words) {
    output->kind = WEDGE_FAULT;
    memcpy(output->text, words, strlen(words) + 1);
}

// Any byte a person could read.
static bool printable(const struct serial_trace *trace) {
    for (size_t i = 0; i < trace->count; i++) {
        if (trace->byte[i] >= ' ' && trace->byte[i] <= '~') {
            return true;
        }
    }
    return false;
}

static bool ascii(const struct serial_trace *trace) {
    for (size_t i = 0; i < trace->count; i++) {
        if (trace->byte[i] == '\0' || (unsigned char)trace->byte[i] > 0x7F) {
            return false;
        }
    }
    return true;
}

// What a whole record says.
static void judge(const struct serial_parser *p, struct serial_record *record) {
    struct wedge_output *output = &record->output;
    char words[WEDGE_TEXT_MAX];
    const char *content;
    *output = (struct wedge_output){.kind = WEDGE_NOTHING};
    if (!ascii(&record->trace)) {
        say(output, no_text);
        return;
    }
    record->trace.byte[record->trace.count] = '\0';
    content = strokes_content(record->trace.byte, p->prefix, output->aim);
    if (aim_fault(output->aim, content, words)) {
        say(output, words);
    } else if (content[0] != '\0') {
        output->kind = WEDGE_CODE;
        memcpy(output->text, content, strlen(content) + 1);
    }
}

// A scanner that goes on reading one code sends it hundreds of times a second.
static void give(struct serial_parser *p, int64_t now_us, serial_take *take, void *ctx) {
    const struct wedge_output *output = &p->record.output;
    bool same = p->given.kind == output->kind && strcmp(p->given.text, output->text) == 0 &&
                strcmp(p->given.aim, output->aim) == 0 && now_us - SERIAL_FOLD_US < p->given_us;
    if (output->kind == WEDGE_NOTHING) {
        return;
    }
    p->given = *output;
    p->given_us = now_us;
    if (!same) {
        take(ctx, &p->record);
    }
}

static void end(struct serial_parser *p, const char *how, int64_t now_us, serial_take *take,
                void *ctx) {
    struct serial_trace *trace = &p->record.trace;
    memcpy(trace->end, how, strlen(how) + 1);
    trace->end_us = now_us;
    if (!p->told && trace->count > 0) {
        judge(p, &p->record);
        give(p, now_us, take, ctx);
    }
    serial_parser_forget(p);
}

static void add(struct serial_parser *p, char byte, int64_t now_us, serial_take *take, void *ctx) {
    struct serial_trace *trace = &p->record.trace;
    p->last_us = now_us;
    if (trace->count < BYTES_MAX) {
        trace->time_us[trace->count] = now_us;
        trace->byte[trace->count++] = byte;
        return;
    }
    trace->over = true;
    if (!p->told) {
        p->told = true;
        say(&p->record.output, endless);
        give(p, now_us, take, ctx);
    }
}

void serial_parser_feed(struct serial_parser *p, const char *bytes, size_t size, int64_t now_us,
                        serial_take *take, void *ctx) {
    serial_parser_tick(p, now_us, take, ctx);
    for (size_t i = 0; i < size; i++) {
        if (bytes[i] == '\r') {
            // The LF may come later; it is an empty record then, which is none.
            end(p, i + 1 < size && bytes[i + 1] == '\n' ? "\r\n" : "\r", now_us, take, ctx);
        } else if (bytes[i] == '\n') {
            end(p, "\n", now_us, take, ctx);
        } else {
            add(p, bytes[i], now_us, take, ctx);
        }
    }
}

int64_t serial_parser_deadline(const struct serial_parser *p) {
    return p->record.trace.count > 0 ? p->last_us + SERIAL_IDLE_US : -1;
}

void serial_parser_tick(struct serial_parser *p, int64_t now_us, serial_take *take, void *ctx) {
    int64_t due = serial_parser_deadline(p);
    if (due < 0 || now_us < due) {
        return;
    }
    if (!p->told && printable(&p->record.trace)) { // else noise, as when a plug goes in
        p->record.trace.end_us = now_us;
        say(&p->record.output, ascii(&p->record.trace) ? no_end : no_text);
        give(p, now_us, take, ctx);
    }
    serial_parser_forget(p);
}
