// Three sounds that differ in the way their pitch moves: accepted steps up once, hold goes low and
// back twice, logged climbs a chord. All between 500 and 2500 Hz, where a danger signal belongs
// (ISO 7731) and hearing protection passes most. Never the only channel: the screen says it all.

#include "screen_inner.h"

#include <math.h>

#define RATE 22050
#define PAUSE_MS 450 // between two sounds that are compared

struct note {
    float hertz;
    int milliseconds;
};

struct tune {
    struct note note[4];
    int count;
};

static const struct tune tunes[] = {
    [SCREEN_SOUND_ACCEPTED] = {{{880.0f, 70}, {1320.0f, 110}}, 2},
    [SCREEN_SOUND_HOLD] = {{{660.0f, 170}, {520.0f, 170}, {660.0f, 170}, {520.0f, 260}}, 4},
    [SCREEN_SOUND_LOGGED] = {{{660.0f, 100}, {880.0f, 100}, {1320.0f, 220}}, 3},
};

static void queue_note(SDL_AudioDeviceID audio, struct note note, float loudness) {
    static Sint16 samples[RATE / 2];
    int count = note.milliseconds * RATE / 1000;
    const int ramp = RATE / 200; // 5 ms, so that no note clicks
    for (int i = 0; i < count; i++) {
        int edge = i < count - i ? i : count - i;
        float gain = edge < ramp ? (float)edge / (float)ramp : 1.0f;
        float phase = 6.2831853f * note.hertz * (float)i / (float)RATE;
        samples[i] = (Sint16)(loudness * gain * 28000.0f * sinf(phase));
    }
    SDL_QueueAudio(audio, samples, (Uint32)count * sizeof samples[0]);
}

static bool audio_open(struct screen *screen) {
    SDL_AudioSpec wish = {.freq = RATE, .format = AUDIO_S16SYS, .channels = 1, .samples = 512};
    if (screen->audio != 0) {
        SDL_ClearQueuedAudio(screen->audio);
        return true;
    }
    if (screen->audio_failed) {
        return false;
    }
    if (SDL_InitSubSystem(SDL_INIT_AUDIO) == 0) {
        screen->audio = SDL_OpenAudioDevice(NULL, 0, &wish, NULL, 0);
    }
    screen->audio_failed = screen->audio == 0;
    return !screen->audio_failed;
}

static void queue_tune(struct screen *screen, enum screen_sound sound) {
    for (int i = 0; i < tunes[sound].count; i++) {
        queue_note(screen->audio, tunes[sound].note[i], (float)screen->volume / 100.0f);
    }
    screen->audio_played = true;
}

void screen_set_volume(struct screen *screen, int volume) {
    screen->volume = volume;
}

void screen_play(struct screen *screen, enum screen_sound sound) {
    if (screen->volume <= 0 || !audio_open(screen)) {
        return;
    }
    queue_tune(screen, sound);
    SDL_PauseAudioDevice(screen->audio, 0);
}

// Somebody listens for them: a device that was missing may be there now.
void screen_play_all(struct screen *screen) {
    screen->audio_failed = false;
    if (screen->volume <= 0 || !audio_open(screen)) {
        return;
    }
    for (int i = 0; i <= SCREEN_SOUND_LOGGED; i++) {
        queue_tune(screen, (enum screen_sound)i);
        queue_note(screen->audio, (struct note){0.0f, PAUSE_MS}, 0.0f);
    }
    SDL_PauseAudioDevice(screen->audio, 0);
}

void sound_close(struct screen *screen) {
    if (screen->audio != 0) {
        SDL_CloseAudioDevice(screen->audio);
        SDL_QuitSubSystem(SDL_INIT_AUDIO);
        screen->audio = 0;
    }
}

bool sound_settle(struct screen *screen) {
    if (screen->audio != 0 && SDL_GetQueuedAudioSize(screen->audio) == 0) {
        sound_close(screen);
    }
    return screen->audio != 0;
}
