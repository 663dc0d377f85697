#ifndef READER_H
#define READER_H

// Frames in, codes out. The decoding is done by a child process, so that whatever a picture does to
// the decoder, the bench goes on: a child that takes too long over a frame, or dies of it, is
// replaced and that frame is passed over. A thread of its own looks after the child.
//
// Only the newest frame waits; reader_offer never blocks for long. wake is called from the thread,
// everything else is for one other thread.

#include "accept.h"

struct reader; // opaque

enum reader_kind {
    READER_CODE,       // code counts: a ticket, or a maker's code (verdict says). Once, until it
                       // was out of view for ACCEPT_AWAY_US
    READER_UNREADABLE, // code was read, and is neither; likewise once. Never a part
    READER_GONE,       // the decoder could not be run several times over; it is tried again
    READER_BACK
};
struct reader_event {
    enum reader_kind kind;
    enum accept_verdict verdict;
    struct code code;
    int readings;    // that agreed on it, 1 when its frame was enough
    int64_t time_us; // of its frame
    int64_t took_us; // from then until it was read
};

// All that was seen in one frame, whether it counts or not, to be outlined.
struct reader_sight {
    int64_t time_us; // of its frame
    int width;       // of its frame
    int height;
    size_t count;
    struct code code[FRAME_CODES_MAX];
};

struct reader_counts {
    uint64_t frames;   // offered
    uint64_t dropped;  // of these, replaced by a newer one before they were read
    uint64_t read;     // of these, read
    uint64_t restarts; // children that died or were killed
};

struct reader_options {
    const char *program;     // run as `program decoder`; NULL: this very program. Copied
    int limit_ms;            // a frame that takes longer ends the child
    int64_t budget_us;       // decoder_read's
    void (*wake)(void *ctx); // there is something for reader_next or reader_sight
    void *ctx;
};
#define READER_LIMIT_MS 2000
#define READER_BUDGET_US 80000

// NULL on no memory or no descriptors.
struct reader *reader_init(const struct reader_options *options);
bool reader_start(struct reader *reader);
void reader_stop(struct reader *reader); // asks the thread to end
void reader_join(struct reader *reader);
void reader_destroy(struct reader *reader); // takes NULL; after reader_join, or never started

// Copies the frame; in the place of one that still waits.
void reader_offer(struct reader *reader, const struct frame *frame);

// The next event in order; false when there is none. When more than READER_EVENTS_MAX wait, codes
// are dropped, the oldest first.
#define READER_EVENTS_MAX 32
bool reader_next(struct reader *reader, struct reader_event *ret_event);
// What was seen in the newest frame that was read; false when it was taken already.
bool reader_sight(struct reader *reader, struct reader_sight *ret_sight);
struct reader_counts reader_counts(struct reader *reader);

// The child: what `program decoder` does, on the descriptors the reader gives it. Exit status.
int reader_serve(void);

#endif
