#ifndef BENCH_SPEECH_H
#define BENCH_SPEECH_H

// Prompts read out by espeak-ng, a program beside the bench, where it is installed. The bench never
// waits for it, not even for its end; what comes next cuts off what is still being said, and one
// that hangs is ended after a minute.

#include "child.h"
#include "speech.h"

struct bench;

struct bench_speech {
    struct child child;
    int64_t until_us; // then it is ended
    char said[SPEECH_MAX];
    bool due;     // `said` is to be read out when the one before has ended
    bool missing; // espeak-ng, or its words of this language; said once
};

// Says what the view says, if that is not what was said last and it is wanted.
void bench_speak(struct bench *bench);
// Hears of its end, and begins what is due.
void bench_speech_tick(struct bench *bench);
// How long nothing is due, in microseconds; -1 for ever.
int64_t bench_speech_patience(const struct bench *bench);
// Waits until it has ended.
void bench_hush(struct bench *bench);

#endif
