#ifndef READER_WIRE_H
#define READER_WIRE_H

// What passes between the reader and its child, the decoder. Frames lie in shared memory of two
// places, one being read while the other is filled; the child sees them read-only.

#include "frame.h"

#define READER_WIRE_MEMORY 3 // the child's descriptors
#define READER_WIRE_SOCKET 4 // of SOCK_SEQPACKET

#define READER_WIRE_PLACE ((size_t)FRAME_SIDE_MAX * FRAME_SIDE_MAX) // bytes; there are two
#define READER_WIRE_BYTES (2 * READER_WIRE_PLACE)

struct reader_request {
    uint64_t serial;
    int64_t budget_us;
    int32_t place;
    int32_t width;
    int32_t height;
};

struct reader_reply {
    uint64_t serial;
    uint64_t count;
    struct code code[FRAME_CODES_MAX];
};

// Whether a reply may come from a sound child reading a frame of that size: what is in it is then
// as frame.h promises. The child is not trusted with more.
bool reader_reply_valid(const struct reader_reply *reply, const struct reader_request *request);

#endif
