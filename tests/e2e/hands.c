#include "hands.h"

#include "layouts.h"

#include <linux/input-event-codes.h>
#include <stdlib.h>

struct bench_settings settings;
struct bench bench;
struct catalogue catalogue;
struct shop shop;
struct station_ops ops;

int open_bench(void **state) {
    struct screen_options options = {
        .windowed = true, .width = 1280, .height = 720, .assets = KERFSIDE_SOURCE_DIR "/assets"};
    struct station_settings station = shop_settings();
    char message[256];
    (void)state;
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    settings = bench_settings_default();
    memset(&bench, 0, sizeof bench);
    bench.settings = &settings;
    bench.clock = bench_clock_simulated();
    shop_catalogue(&catalogue);
    shop_init(&shop, &catalogue);
    ops = shop_ops_for(&shop);
    bench_init(&bench);
    station_init(&bench.station, &station, &ops);
    if (!screen_open(&options, &bench.screen, message, sizeof message)) {
        return -1;
    }
    bench_draw(&bench);
    return 0;
}

int close_bench(void **state) {
    (void)state;
    screen_close(bench.screen);
    return 0;
}

void pass(int64_t ms) {
    bench_clock_pass(&bench.clock, ms * 1000);
    shop.now_ms += ms;
    bench_tick(&bench);
    bench_draw(&bench);
}

void key(uint16_t code) {
    bench_key(&bench, &bench.keys, code, true, bench_clock_us(&bench.clock));
    bench_key(&bench, &bench.keys, code, false, bench_clock_us(&bench.clock));
    bench_draw(&bench);
}

void press(void) {
    pass(500);
    bench_button(&bench, true, bench_clock_us(&bench.clock));
    pass(100);
    bench_button(&bench, false, bench_clock_us(&bench.clock));
    bench_draw(&bench);
}

// As a scanner types it, `enters` times Enter at its end.
void scan(enum ticket_kind kind, const char *body, int enters) {
    const char *text = shop_ticket(kind, body);
    pass(500);
    for (; *text != '\0'; text++) {
        uint16_t code;
        enum layout_level level;
        assert_true(layout_key(LAYOUT_US, *text, &code, &level));
        if (level == LEVEL_SHIFT) {
            bench_key(&bench, &bench.keys, KEY_LEFTSHIFT, true, bench_clock_us(&bench.clock));
        }
        key(code);
        if (level == LEVEL_SHIFT) {
            bench_key(&bench, &bench.keys, KEY_LEFTSHIFT, false, bench_clock_us(&bench.clock));
        }
        bench_clock_pass(&bench.clock, 4000);
    }
    for (; enters > 0; enters--) {
        key(KEY_ENTER);
        bench_clock_pass(&bench.clock, 4000);
    }
    bench_draw(&bench);
}

void touch(enum view_action_id action, int64_t argument, bool slips) {
    struct screen_input input = {
        .kind = SCREEN_TOUCH, .down = true, .action = action, .argument = argument};
    bench_touch(&bench, &input);
    pass(50);
    input.down = false;
    input.kind = slips ? SCREEN_SLIPPED : SCREEN_TOUCH;
    bench_touch(&bench, &input);
    bench_draw(&bench);
}
