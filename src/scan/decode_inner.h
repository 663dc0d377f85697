#ifndef DECODE_INNER_H
#define DECODE_INNER_H

// Private to decode*.c: the decoder while it reads a frame.

#include "decode.h"
#include "decode_find.h"
#include "decode_lift.h"
#include "decode_prepare.h"
#include "decode_scan.h"

// The frame, and the same at a half and a quarter of its size.
#define DECODE_LEVELS 3
struct decode_level {
    int scale; // pixels of the frame to one of these
    int width;
    int height;
    const uint8_t *raw;
    uint8_t *made; // raw, if it is not the frame's own
    uint8_t *soft; // blurred a little
};

struct decoder {
    struct decode_scan scan;
    struct decode_find find;
    struct decode_straight straight;
    uint8_t lifted[DECODE_LIFT_MAX * DECODE_LIFT_MAX];
    size_t room; // pixels of a frame that the levels are made for
    struct decode_level level[DECODE_LEVELS];
    // Of the frame at hand.
    int64_t begun_us;
    int64_t budget_us;
    size_t count;
    struct code code[FRAME_CODES_MAX]; // best first
};

#define DECODE_SURE_ROWS 3 // rows across bars that agree, after which no other way is tried
#define DECODE_SURE_WAYS 2 // the same for ways of looking at a square

// Keeps a code, its corners moved into the frame. Seen before: the more witnesses count.
void decode_keep(struct decoder *decoder, const struct code *code);

// Whether `needed_us` are left of the budget.
bool decode_in_time(const struct decoder *decoder, int64_t needed_us);

// Reads what may be bars at a place of find.
void decode_bars(struct decoder *decoder, const struct decode_level *level,
                 const struct decode_place *place);

// What is at a place: all of it upright, and the symbol alone if its finder patterns say where.
struct decode_sight {
    size_t finders;
    double module; // pixels
    struct decode_lift whole;
    struct decode_lift symbol;
};
struct decode_sight decode_look(struct decoder *decoder, const struct decode_level *level,
                                const struct decode_place *place);
// Reads what may be a QR symbol there; the same around a tube.
void decode_square(struct decoder *decoder, const struct decode_level *level,
                   const struct decode_sight *sight);
void decode_bent(struct decoder *decoder, const struct decode_level *level,
                 const struct decode_sight *sight);

// Reads a QR symbol again, whose corners are known, so that more than one way of looking counts.
void decode_again(struct decoder *decoder, const struct decode_level *level,
                  const struct code *code);

#endif
