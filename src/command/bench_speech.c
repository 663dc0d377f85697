#include "bench.h"
#include "language.h"
#include "tongues.h"

#include <stdio.h>
#include <string.h>

#define LONGEST_US ((int64_t)60 * 1000000) // SPEECH_MAX bytes take half of that
#define LOOK_US ((int64_t)500 * 1000)
#define ENDS_US ((int64_t)5 * 1000) // what was killed is gone by then

void bench_hush(struct bench *bench) {
    child_stop(&bench->speech.child);
}

static void start(struct bench *bench) {
    struct bench_speech *speech = &bench->speech;
    const char *const arguments[] = {"espeak-ng", "-v", tongues_code(), "--stdin", NULL};
    speech->due = false;
    speech->until_us = bench_clock_us(&bench->clock) + LONGEST_US;
    if (!child_say(&speech->child, arguments, speech->said)) {
        speech->missing = true;
        fputs("kerfside bench: [sound] spoken: there is no espeak-ng to read prompts out. "
              "Install it: apt-get install espeak-ng\n",
              stderr);
    }
}

static bool readable(struct bench_speech *speech) {
    const struct language *language = language_named(tongues_code());
    if (!speech->missing && language->unspoken) {
        speech->missing = true;
        fprintf(stderr,
                "kerfside bench: [sound] spoken: espeak-ng cannot read this language (%s), so "
                "nothing is read out.\n",
                language->code);
    }
    return !speech->missing;
}

void bench_speak(struct bench *bench) {
    struct bench_speech *speech = &bench->speech;
    char words[SPEECH_MAX];
    if (!bench->settings->spoken || bench->blank || !readable(speech)) {
        return;
    }
    speech_of(&bench->view, words);
    if (strcmp(words, speech->said) == 0) {
        return;
    }
    child_kill(&speech->child);
    memcpy(speech->said, words, sizeof words);
    speech->due = words[0] != '\0';
    bench_speech_tick(bench);
}

void bench_speech_tick(struct bench *bench) {
    struct bench_speech *speech = &bench->speech;
    char said[CHILD_TEXT_MAX];
    bool good;
    if (speech->child.pid != 0 && !child_ended(&speech->child, &good, said)) {
        if (bench_clock_us(&bench->clock) >= speech->until_us) {
            child_kill(&speech->child);
        }
    } else if (speech->due && !speech->missing) {
        start(bench);
    }
}

int64_t bench_speech_patience(const struct bench *bench) {
    const struct bench_speech *speech = &bench->speech;
    return speech->child.pid == 0 ? -1 : speech->due ? ENDS_US : LOOK_US;
}
