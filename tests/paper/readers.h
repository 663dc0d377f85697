#ifndef READERS_H
#define READERS_H

// Two independent decoders: Debian's zbar-tools and zxing-cpp-tools.

#include "ticket.h"

#include <stddef.h>

enum reader { READER_ZBAR, READER_ZXING, READER_COUNT };
const char *reader_name(enum reader reader);

#define READ_MAX 200
struct reading {
    size_t count;
    // "bars H-0001A", "qr H-0001A", in order of bytes.
    char code[READ_MAX][TICKET_TEXT_MAX + 16];
};

// Every Code 128 and QR code on a picture. A reader that fails or crashes fails the test.
void reader_read(enum reader reader, const char *picture, struct reading *ret_reading);
void reading_add(struct reading *reading, const char *kind, const char *text);
void reading_sort(struct reading *reading);
// Adds what is not there yet.
void reading_join(struct reading *reading, const struct reading *more);
// "ticket H-0001A" once, by whatever codes it was read.
void reading_tickets(struct reading *reading);

#endif
