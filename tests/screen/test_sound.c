// The three sounds as SDL's disk driver writes them down: their pitches, one after the other.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "screen_inner.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define RATE 22050
#define WINDOW 441 // 20 ms
#define NOTES_MAX 16

static const char recording[] = "test_sound.raw";

static struct screen *open_screen(const char *driver, int volume) {
    struct screen_options options = {
        .windowed = true, .assets = KERFSIDE_SOURCE_DIR "/assets", .volume = volume};
    struct screen *screen = NULL;
    char message[256] = "";
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    setenv("SDL_AUDIODRIVER", driver, 1);
    setenv("SDL_DISKAUDIOFILE", recording, 1);
    unlink(recording);
    if (!screen_open(&options, &screen, message, sizeof message)) {
        fail_msg("%s", message);
    }
    return screen;
}

static void play_to_the_end(struct screen *screen, enum screen_sound sound) {
    struct screen_input input;
    screen_play(screen, sound);
    for (int i = 0; i < 100 && screen->audio != 0; i++) {
        screen_wait(screen, 50, &input);
    }
    assert_int_equal(screen->audio, 0); // closed once it has played out
}

// Pitch by counting how often the wave crosses zero, upwards.
static int window_hertz(const int16_t *samples) {
    int crossings = 0;
    int first = 0;
    int last = 0;
    for (int i = 1; i < WINDOW; i++) {
        if (samples[i - 1] < 0 && samples[i] >= 0) {
            first = crossings == 0 ? i : first;
            last = i;
            crossings++;
        }
    }
    return crossings < 2 ? 0 : (crossings - 1) * RATE / (last - first);
}

// The notes of the recording: pitches that lasted for two windows or more.
static int record(enum screen_sound sound, int ret_hertz[NOTES_MAX]) {
    struct screen *screen = open_screen("disk", 80);
    int16_t samples[WINDOW];
    int before = 0;
    int count = 0;
    FILE *file;
    play_to_the_end(screen, sound);
    screen_close(screen);
    file = fopen(recording, "rb");
    assert_non_null(file);
    while (fread(samples, sizeof samples, 1, file) == 1 && count < NOTES_MAX) {
        int hertz = window_hertz(samples);
        bool steady = hertz > 0 && abs(hertz - before) < hertz / 50;
        if (steady && (count == 0 || abs(hertz - ret_hertz[count - 1]) > hertz / 20)) {
            ret_hertz[count++] = hertz;
        }
        before = hertz;
    }
    fclose(file);
    unlink(recording);
    // ISO 7731: the energy of a danger signal lies between 500 and 2500 Hz.
    for (int i = 0; i < count; i++) {
        assert_in_range(ret_hertz[i], 500, 2500);
    }
    return count;
}

static void accepted_steps_up(void **state) {
    int hertz[NOTES_MAX];
    (void)state;
    assert_int_equal(record(SCREEN_SOUND_ACCEPTED, hertz), 2);
    assert_true(hertz[1] > hertz[0]);
}

static void hold_goes_low_twice(void **state) {
    int hertz[NOTES_MAX];
    (void)state;
    assert_int_equal(record(SCREEN_SOUND_HOLD, hertz), 4);
    assert_true(hertz[1] < hertz[0] && hertz[2] > hertz[1] && hertz[3] < hertz[2]);
    assert_true(hertz[0] < 700);
}

static void logged_climbs_three(void **state) {
    int hertz[NOTES_MAX];
    (void)state;
    assert_int_equal(record(SCREEN_SOUND_LOGGED, hertz), 3);
    assert_true(hertz[1] > hertz[0] && hertz[2] > hertz[1]);
}

static void muted_opens_nothing(void **state) {
    struct screen *screen = open_screen("disk", 0);
    (void)state;
    screen_play(screen, SCREEN_SOUND_HOLD);
    assert_int_equal(screen->audio, 0);
    screen_close(screen);
    assert_int_not_equal(access(recording, F_OK), 0);
}

static void no_device_is_no_trouble(void **state) {
    struct screen *screen = open_screen("none of this name", 80);
    (void)state;
    screen_play(screen, SCREEN_SOUND_HOLD);
    screen_play(screen, SCREEN_SOUND_LOGGED);
    assert_int_equal(screen->audio, 0);
    screen_close(screen);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(accepted_steps_up),       cmocka_unit_test(hold_goes_low_twice),
        cmocka_unit_test(logged_climbs_three),     cmocka_unit_test(muted_opens_nothing),
        cmocka_unit_test(no_device_is_no_trouble),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
