// One frame to codes: made-up labels whose text and place are known, and frames with none.

#include "accept.h"
#include "check.h"
#include "decode.h"
#include "decode_scan.h"
#include "scan_set.h"

#include <malloc.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

static struct decoder *decoder;

static int set_up(void **state) {
    (void)state;
    decoder = decoder_init();
    return decoder == NULL;
}

static int tear_down(void **state) {
    (void)state;
    decoder_destroy(decoder);
    return 0;
}

static struct scene label(enum scene_symbol symbol, const char *text) {
    struct scene scene = SCENE_DEFAULT;
    scene.seed = 11;
    scene.width = 640;
    scene.height = 480;
    scene.symbol = symbol;
    scene.noise = 3;
    scene.blur = 0.5;
    scene.module = symbol == SCENE_QR ? 4 : 2.5;
    snprintf(scene.text, sizeof scene.text, "%s", text);
    return scene;
}

static double side(struct code_point a, struct code_point b, struct code_point p) {
    return (double)(b.x - a.x) * (p.y - a.y) - (double)(b.y - a.y) * (p.x - a.x);
}

// Whether p is in the convex shape of four corners.
static bool within(const struct code_point *corner, struct code_point p) {
    int positive = 0;
    int negative = 0;
    for (int i = 0; i < 4; i++) {
        double s = side(corner[i], corner[(i + 1) % 4], p);
        positive += s > 0;
        negative += s < 0;
    }
    return positive == 0 || negative == 0;
}

static struct code_point middle(const struct code_point *corner) {
    struct code_point sum = {0, 0};
    for (int i = 0; i < 4; i++) {
        sum.x += corner[i].x;
        sum.y += corner[i].y;
    }
    return (struct code_point){sum.x / 4, sum.y / 4};
}

static double area(const struct code_point *corner) {
    double sum = 0;
    for (int i = 0; i < 4; i++) {
        struct code_point a = corner[i];
        struct code_point b = corner[(i + 1) % 4];
        sum += (double)a.x * b.y - (double)a.y * b.x;
    }
    return fabs(sum) / 2;
}

// The outline must be where the symbol is: inside the frame, middle on middle, of about its size;
// rows of bars that noise kept from being read may be left out.
static void expect_place(const struct scene *scene, const struct code *code,
                         const struct code_point *truth) {
    double share = area(code->corner) / area(truth);
    for (int i = 0; i < 4; i++) {
        assert_in_range(code->corner[i].x, 0, scene->width - 1);
        assert_in_range(code->corner[i].y, 0, scene->height - 1);
    }
    if (!within(truth, middle(code->corner)) || share < 0.35 || share > 1.6) {
        fail_msg("angle %.0f: %.2f of the symbol's area, corners %d,%d %d,%d %d,%d %d,%d for "
                 "%d,%d %d,%d %d,%d %d,%d",
                 scene->angle, share, code->corner[0].x, code->corner[0].y, code->corner[1].x,
                 code->corner[1].y, code->corner[2].x, code->corner[2].y, code->corner[3].x,
                 code->corner[3].y, truth[0].x, truth[0].y, truth[1].x, truth[1].y, truth[2].x,
                 truth[2].y, truth[3].x, truth[3].y);
    }
}

// That exactly this scene's ticket is read, and well enough to count at once.
static void expect_read(const struct scene *scene, int64_t budget_us) {
    struct code codes[FRAME_CODES_MAX];
    struct code_point truth[4];
    struct frame frame;
    struct accept accept;
    size_t count;
    accept_init(&accept);
    assert_true(scene_draw(scene, &frame, truth));
    count = decoder_read(decoder, &frame, budget_us, codes);
    free(frame.pixels);
    if (count != 1 || strcmp(codes[0].text, scene->text) != 0) {
        fail_msg("%s at %.0f degrees: %zu codes, %s", scene->text, scene->angle, count,
                 count > 0 ? codes[0].text : "-");
    }
    assert_int_equal(codes[0].symbology, scene->symbol == SCENE_QR      ? CODE_QR
                                         : scene->symbol == SCENE_EAN13 ? CODE_EAN13
                                                                        : CODE_128);
    if (accept_take(&accept, &codes[0], 1) != ACCEPT_NEW) {
        fail_msg("%s, module %.1f, noise %.0f, blur %.1f, tilt %.0f, shade %.1f: quality %d",
                 scene->text, scene->module, scene->noise, scene->blur, scene->tilt, scene->shade,
                 codes[0].quality);
    }
    expect_place(scene, &codes[0], truth);
}

static void every_angle(void **state) {
    (void)state;
    for (int angle = 0; angle < 360; angle += 15) {
        struct scene bars = label(SCENE_CODE128, "S-0001S");
        struct scene square = label(SCENE_QR, "H-0001A");
        bars.angle = square.angle = angle + 2;
        expect_read(&bars, 0); // by the cheap steps alone
        expect_read(&square, 0);
    }
}

static void every_symbology_and_length(void **state) {
    static const struct {
        enum scene_symbol symbol;
        const char *text;
    } rows[] = {
        {SCENE_CODE128, "H-0001A"},     {SCENE_CODE128, "B-0001H"},
        {SCENE_CODE128, "K-TESTL"},     {SCENE_CODE128, "H-0123456789ABG"},
        {SCENE_QR, "S-0001S"},          {SCENE_QR, "H-0123456789ABG"},
        {SCENE_EAN13, "2123456789010"}, {SCENE_EAN13, "0012345678905"},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct scene scene = label(rows[i].symbol, rows[i].text);
        scene.angle = 20;
        expect_read(&scene, 0);
    }
}

// What a real bench does to a picture, to an extent that must do no harm.
static void spoilt_a_little(void **state) {
    (void)state;
    for (int symbol = SCENE_CODE128; symbol <= SCENE_QR; symbol++) {
        struct scene scene = label((enum scene_symbol)symbol, "S-0001S");
        scene.angle = 30;
        scene.noise = 20;
        expect_read(&scene, DECODE_PATIENT);
        scene.noise = 3;
        scene.blur = 1.2;
        expect_read(&scene, DECODE_PATIENT);
        scene.blur = 0.5;
        scene.ink = 110;
        scene.paper = 145;
        expect_read(&scene, DECODE_PATIENT);
        scene.ink = 30;
        scene.paper = 220;
        scene.tilt = 35;
        scene.turn = 20;
        expect_read(&scene, DECODE_PATIENT);
        scene.tilt = scene.turn = 0;
        scene.shade = 0.7;
        expect_read(&scene, DECODE_PATIENT);
        scene.shade = 0;
        scene.module *= 3;
        scene.width = 1400;
        scene.height = 1100;
        expect_read(&scene, DECODE_PATIENT);
    }
    struct scene dusty = label(SCENE_CODE128, "S-0001S");
    dusty.dust = 25;
    expect_read(&dusty, DECODE_PATIENT);
    dusty.dust = 0;
    dusty.tube = 24;
    expect_read(&dusty, DECODE_PATIENT);
}

// Two labels in one frame, bars and a QR symbol.
static void all_codes_of_a_frame(void **state) {
    struct scene left = label(SCENE_CODE128, "H-0001A");
    struct scene right = label(SCENE_QR, "S-0001S");
    struct code codes[FRAME_CODES_MAX];
    struct frame frame;
    struct frame other;
    (void)state;
    left.width = right.width = 1280;
    left.x = 0.25;
    right.x = 0.75;
    assert_true(scene_draw(&left, &frame, NULL));
    assert_true(scene_draw(&right, &other, NULL));
    for (int y = 0; y < 480; y++) {
        memcpy(frame.pixels + y * 1280 + 640, other.pixels + y * 1280 + 640, 640);
    }
    assert_int_equal(decoder_read(decoder, &frame, 0, codes), 2);
    assert_true(codes[0].quality >= codes[1].quality);
    assert_string_equal(codes[0].text, "H-0001A");
    assert_string_equal(codes[1].text, "S-0001S");
    free(frame.pixels);
    free(other.pixels);
}

static void the_same_frame_gives_the_same_codes(void **state) {
    struct scene scene = label(SCENE_CODE128, "H-0001A");
    struct code first[FRAME_CODES_MAX];
    struct code again[FRAME_CODES_MAX];
    struct frame frame;
    struct frame other;
    (void)state;
    memset(first, 0, sizeof first);
    memset(again, 0, sizeof again);
    scene.dust = 60;
    scene.angle = 33;
    assert_true(scene_draw(&scene, &frame, NULL));
    scene.symbol = SCENE_QR;
    assert_true(scene_draw(&scene, &other, NULL));
    size_t count = decoder_read(decoder, &frame, DECODE_PATIENT, first);
    for (int i = 0; i < 5; i++) {
        decoder_read(decoder, &other, DECODE_PATIENT, again);
        memset(again, 0, sizeof again);
        assert_int_equal(decoder_read(decoder, &frame, DECODE_PATIENT, again), count);
        for (size_t k = 0; k < count; k++) {
            assert_string_equal(again[k].text, first[k].text);
            assert_int_equal(again[k].quality, first[k].quality);
            assert_memory_equal(again[k].corner, first[k].corner, sizeof first[k].corner);
        }
    }
    free(frame.pixels);
    free(other.pixels);
}

static int64_t cpu_us(void) {
    struct timespec now;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static int64_t hasty_us(const struct frame *frame) {
    struct code codes[FRAME_CODES_MAX];
    int64_t least = INT64_MAX;
    for (int i = 0; i < 4; i++) {
        int64_t begun = cpu_us();
        assert_int_equal(decoder_read(decoder, frame, 0, codes), 0);
        begun = cpu_us() - begun;
        least = begun < least ? begun : least;
    }
    return least;
}

// With nothing to find, a spent budget leaves the dear steps out.
static void a_budget_is_kept(void **state) {
    struct scene scene = label(SCENE_NOTHING, "");
    struct code codes[FRAME_CODES_MAX];
    struct frame frame;
    (void)state;
    scene.width = 1920;
    scene.height = 1080;
    assert_true(scene_draw(&scene, &frame, NULL));
    decoder_read(decoder, &frame, DECODE_PATIENT, codes); // finds its memory
    int64_t hasty = hasty_us(&frame);
    int64_t begun = cpu_us();
    assert_int_equal(decoder_read(decoder, &frame, DECODE_PATIENT, codes), 0);
    assert_true(cpu_us() - begun > 3 * hasty);
    free(frame.pixels);
}

// The worst frame for it, full of what may be codes and is none, costs no more than four of them.
static void a_budget_is_kept_on_the_worst_frame(void **state) {
    struct scene scene = label(SCENE_QR, "S-0001S");
    struct frame tile;
    struct frame frame = {.width = 1920, .height = 1080, .pixels = malloc(1920 * 1080)};
    int64_t few = 0;
    (void)state;
    scene.width = scene.height = 216;
    scene.torn = 0.35;
    assert_non_null(frame.pixels);
    assert_true(scene_draw(&scene, &tile, NULL));
    memset(frame.pixels, 90, 1920 * 1080);
    for (int tiles = 2; tiles <= 40; tiles += 38) { // two places each
        for (int i = 0; i < tiles; i++) {
            for (int y = 0; y < 216; y++) {
                memcpy(frame.pixels + (i / 8 * 216 + y) * 1920 + i % 8 * 240, tile.pixels + y * 216,
                       216);
            }
        }
        if (tiles == 2) {
            few = hasty_us(&frame);
        }
    }
    assert_true(hasty_us(&frame) * 5 < 8 * few);
    free(frame.pixels);
    free(tile.pixels);
}

#define NEGATIVES 60

// No code, others' codes, wrong check characters, torn tickets: each sort six times. The rarer the
// misread, the more frames it takes: `tests/bench/scan/run --frames 100000`.
static void nothing_in_negatives_counts(void **state) {
    int seen = 0;
    (void)state;
    for (int i = 0; i < NEGATIVES; i++) {
        struct scene scene = set_negative(17, i);
        struct code codes[FRAME_CODES_MAX];
        struct frame frame;
        scene.width = 480;
        scene.height = 300;
        assert_true(scene_draw(&scene, &frame, NULL));
        size_t count = decoder_read(decoder, &frame, i % 3 == 0 ? DECODE_PATIENT : 0, codes);
        free(frame.pixels);
        seen += count > 0;
        for (size_t k = 0; k < count; k++) {
            enum accept_verdict verdict = accept_judge(codes[k].symbology, codes[k].text);
            if (verdict == ACCEPT_TICKET || verdict == ACCEPT_MODEL) {
                fail_msg("negative %d, %s: %s", i, scene.text, codes[k].text);
            }
        }
    }
    assert_in_range(seen, NEGATIVES / 10, NEGATIVES); // they were not all too bad to be read
}

// ZBar 0.23.92 keeps 176 bytes for each QR symbol it sees until its scanner is made anew: 420 kB
// over these frames. (A sanitizer's own allocator is not counted here.)
static void memory_stays(void **state) {
    struct scene scene = label(SCENE_QR, "H-0001A");
    struct decode_scan scan;
    struct decode_found found;
    struct frame frame;
    size_t before = 0;
    size_t after;
    (void)state;
    scene.width = scene.height = 100;
    scene.module = 3;
    scene.y = 0.65;
    assert_true(scene_draw(&scene, &frame, NULL));
    assert_true(decode_scan_init(&scan));
    for (int i = 0; i < 2600; i++) {
        decode_scan_run(&scan, DECODE_SCAN_SQUARES, frame.pixels, frame.width, frame.height,
                        &found);
        assert_int_equal(found.count, 1);
        if (i == 200) {
            before = mallinfo2().uordblks;
        }
    }
    after = mallinfo2().uordblks;
    assert_true(after < before + 250000);
    decode_scan_release(&scan);
    free(frame.pixels);
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
        TEST(every_angle),
        TEST(every_symbology_and_length),
        TEST(spoilt_a_little),
        TEST(all_codes_of_a_frame),
        TEST(the_same_frame_gives_the_same_codes),
        TEST(a_budget_is_kept),
        TEST(a_budget_is_kept_on_the_worst_frame),
        TEST(nothing_in_negatives_counts),
        TEST(memory_stays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
