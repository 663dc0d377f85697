#ifndef BENCH_SPEECH_H
#define BENCH_SPEECH_H

// Prompts read out by espeak-ng, a program beside the bench, where it is installed. The bench never
// waits for it; what comes next cuts off what is still being said.

#include "child.h"
#include "speech.h"

struct bench;

struct bench_speech {
    struct child child;
    char said[SPEECH_MAX];
    bool missing; // espeak-ng; said once
};

// Says what the view says, if that is not what was said last and it is wanted.
void bench_speak(struct bench *bench);
void bench_hush(struct bench *bench);

#endif
