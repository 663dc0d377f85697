#include "bench.h"
#include "tongues.h"

#include <stdio.h>
#include <string.h>

void bench_hush(struct bench *bench) {
    child_stop(&bench->speech.child);
}

static void start(struct bench_speech *speech) {
    const char *const arguments[] = {"espeak-ng", "-v", tongues_code(), "--stdin", NULL};
    if (!child_say(&speech->child, arguments, speech->said)) {
        speech->missing = true;
        fputs("kerfside bench: [sound] spoken: there is no espeak-ng to read prompts out. "
              "Install it: apt-get install espeak-ng\n",
              stderr);
    }
}

void bench_speak(struct bench *bench) {
    struct bench_speech *speech = &bench->speech;
    char words[SPEECH_MAX];
    if (!bench->settings->spoken || speech->missing || bench->blank) {
        return;
    }
    speech_of(&bench->view, words);
    if (strcmp(words, speech->said) == 0) {
        return;
    }
    bench_hush(bench);
    memcpy(speech->said, words, sizeof words);
    if (words[0] != '\0') {
        start(speech);
    }
}
