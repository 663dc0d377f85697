#ifndef SERIAL_RECORD_H
#define SERIAL_RECORD_H

// From the bytes of a serial scanner to codes. A record ends at CR, LF or both; one that goes on
// for too long, stops in the middle or is no text becomes a sentence, never a code. Memory is
// bounded whatever comes; a code that keeps coming is given once. Pure: takes bytes with times.

#include "wedge.h"

#define SERIAL_IDLE_US 100000 // so long without a byte: nothing more of this record will come
#define SERIAL_FOLD_US 300000 // the same again within this is the same scan

struct serial_trace {
    size_t count; // bytes before the end, at most WEDGE_TEXT_MAX - 1
    bool over;    // more came
    char byte[WEDGE_TEXT_MAX];
    int64_t time_us[WEDGE_TEXT_MAX]; // when it was read: bytes that come together have one time
    char end[3];                     // "\r", "\n", "\r\n"; "": none came
    int64_t end_us;
};

struct serial_record {
    struct wedge_output output; // WEDGE_CODE or WEDGE_FAULT
    struct serial_trace trace;
};

struct serial_parser {
    char prefix[8]; // as in struct wedge_settings
    struct serial_record record;
    int64_t last_us; // of the newest byte
    bool told;       // the record is too long, and that was said
    struct wedge_output given;
    int64_t given_us;
};

typedef void serial_take(void *ctx, const struct serial_record *record);

void serial_parser_init(struct serial_parser *parser, const char *prefix);
// The bytes of one read. Calls `take` for each record, in order.
void serial_parser_feed(struct serial_parser *parser, const char *bytes, size_t size,
                        int64_t now_us, serial_take *take, void *ctx);
void serial_parser_tick(struct serial_parser *parser, int64_t now_us, serial_take *take, void *ctx);
// When serial_parser_tick is due, or -1.
int64_t serial_parser_deadline(const struct serial_parser *parser);
// Bytes are missing here: what is half read is void.
void serial_parser_forget(struct serial_parser *parser);

#endif
