// The C parts of tests/bench/scan/run. Usage:
//   scan_bench draw SEED FOLDER PART PARTS STEP   writes the pictures of a set; a line each:
//                                                 file, group, symbology, height, text
//   scan_bench time < files                       a line each: file, our CPU ms, what counts of it,
//                                                 ZBar's CPU ms as zbarimg has it set, and with
//                                                 Code 128, QR and EAN-13 alone
//   scan_bench wrong SEED PART PARTS FRAMES       what counts and should not, a line each; then
//                                                 frames and how many tickets were rightly read

#include "accept.h"
#include "decode.h"
#include "picture.h"
#include "scan_set.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <zbar.h>

static void fail(const char *what) {
    fprintf(stderr, "scan_bench: %s\n", what);
    exit(1);
}

static double cpu_ms(void) {
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

// --- draw ----------------------------------------------------------------------------------------

static void write_pgm(const char *path, const struct frame *frame) {
    FILE *file = fopen(path, "wb");
    if (file == NULL) {
        fail(path);
    }
    fprintf(file, "P5\n%d %d\n255\n", frame->width, frame->height);
    fwrite(frame->pixels, 1, (size_t)frame->width * (size_t)frame->height, file);
    if (fclose(file) != 0) {
        fail(path);
    }
}

static int draw(uint64_t seed, const char *folder, int part, int parts, int step) {
    for (int i = part * step; i < SET_SIZE; i += parts * step) {
        int group;
        struct scene scene = set_scene(seed, i, &group);
        struct frame frame;
        char path[1024];
        snprintf(path, sizeof path, "%s/%04d.pgm", folder, i);
        if (!scene_draw(&scene, &frame, NULL)) {
            fail("cannot draw");
        }
        write_pgm(path, &frame);
        free(frame.pixels);
        printf("%s\t%s\t%s\t%d\t%s\n", path, set_group_name(group),
               scene.symbol == SCENE_QR ? "QR" : "Code 128", scene.height, scene.text);
    }
    return 0;
}

// --- time ----------------------------------------------------------------------------------------

static double time_zbar(zbar_image_scanner_t *scanner, const struct frame *frame) {
    zbar_image_t *image = zbar_image_create();
    double begun;
    zbar_image_set_format(image, zbar_fourcc('Y', '8', '0', '0'));
    zbar_image_set_size(image, (unsigned)frame->width, (unsigned)frame->height);
    zbar_image_set_data(image, frame->pixels,
                        (unsigned long)frame->width * (unsigned long)frame->height, NULL);
    begun = cpu_ms();
    zbar_scan_image(scanner, image);
    begun = cpu_ms() - begun;
    zbar_image_destroy(image);
    return begun;
}

static zbar_image_scanner_t *few_symbologies(void) {
    zbar_image_scanner_t *scanner = zbar_image_scanner_create();
    zbar_image_scanner_set_config(scanner, 0, ZBAR_CFG_ENABLE, 0);
    zbar_image_scanner_set_config(scanner, ZBAR_CODE128, ZBAR_CFG_ENABLE, 1);
    zbar_image_scanner_set_config(scanner, ZBAR_EAN13, ZBAR_CFG_ENABLE, 1);
    zbar_image_scanner_set_config(scanner, ZBAR_QRCODE, ZBAR_CFG_ENABLE, 1);
    return scanner;
}

static int time_all(void) {
    zbar_image_scanner_t *all = zbar_image_scanner_create();
    zbar_image_scanner_t *few = few_symbologies();
    struct decoder *decoder = decoder_init();
    char path[1024];
    while (fgets(path, sizeof path, stdin) != NULL) {
        char error[PICTURE_TEXT_MAX];
        struct code codes[FRAME_CODES_MAX];
        struct frame frame;
        struct accept accept;
        path[strcspn(path, "\n")] = '\0';
        struct picture *picture = picture_open(path, error);
        if (picture == NULL || picture_next(picture, &frame, error) != PICTURE_FRAME) {
            fail(error);
        }
        accept_init(&accept);
        double ours = cpu_ms();
        size_t count = decoder_read(decoder, &frame, DECODE_PATIENT, codes);
        ours = cpu_ms() - ours;
        printf("%s\t%.3f\t", path, ours);
        for (size_t i = 0; i < count; i++) {
            enum accept_verdict verdict = accept_judge(codes[i].symbology, codes[i].text);
            if (accept_take(&accept, &codes[i], 1) == ACCEPT_NEW &&
                (verdict == ACCEPT_TICKET || verdict == ACCEPT_MODEL)) {
                printf("%s ", codes[i].text);
            }
        }
        printf("\t%.3f\t%.3f\n", time_zbar(all, &frame), time_zbar(few, &frame));
        free(frame.pixels);
        picture_close(picture);
    }
    decoder_destroy(decoder);
    zbar_image_scanner_destroy(all);
    zbar_image_scanner_destroy(few);
    return 0;
}

// --- wrong ---------------------------------------------------------------------------------------

#define TAKES 24        // frames of one scene, 40 ms apart: a second before the camera
#define SMALL_WIDTH 480 // so that 100 000 are done in an hour
#define SMALL_HEIGHT 300

// The same scene a moment later: moved by a pixel or two, other noise, a little lighter or darker.
static void another_take(const struct frame *from, uint64_t *random, struct frame *to) {
    int dx = (int)(scene_random(random) % 5) - 2;
    int dy = (int)(scene_random(random) % 5) - 2;
    int light = 230 + (int)(scene_random(random) % 40);
    int noise = 1 + (int)(scene_random(random) % 12);
    uint64_t bits = 0;
    for (int y = 0; y < from->height; y++) {
        int row = y + dy < 0 ? 0 : y + dy >= from->height ? from->height - 1 : y + dy;
        for (int x = 0; x < from->width; x++) {
            int column = x + dx < 0 ? 0 : x + dx >= from->width ? from->width - 1 : x + dx;
            int grey = from->pixels[row * from->width + column] * light / 256;
            bits = x % 8 == 0 ? scene_random(random) : bits >> 8;
            grey += ((int)(bits & 0xFF) - 128) * noise / 64;
            to->pixels[y * from->width + x] = (uint8_t)(grey < 0 ? 0 : grey > 255 ? 255 : grey);
        }
    }
}

// Every other scene has nothing in it that may count; the rest are true tickets, spoilt, of which
// only the very text may.
static struct scene choose(uint64_t seed, int number, bool *ret_negative) {
    int group;
    struct scene scene;
    *ret_negative = number % 2 == 0;
    if (*ret_negative) {
        scene = set_negative(seed, number / 2);
    } else {
        // Each time around the set its scenes are made from other numbers.
        uint64_t round = (uint64_t)(number / 2 / SET_SIZE);
        scene = set_scene(seed + 1000 + round, (number / 2 * 37) % SET_SIZE, &group);
    }
    scene.width = SMALL_WIDTH;
    scene.height = SMALL_HEIGHT;
    return scene;
}

static int wrong(uint64_t seed, int part, int parts, long frames) {
    struct decoder *decoder = decoder_init();
    struct frame take = {.width = SMALL_WIDTH,
                         .height = SMALL_HEIGHT,
                         .pixels = malloc((size_t)SMALL_WIDTH * SMALL_HEIGHT)};
    long done = 0;
    long right = 0;
    for (int number = part; done < frames; number += parts) {
        bool negative;
        struct scene scene = choose(seed, number, &negative);
        struct frame frame;
        struct accept accept;
        uint64_t random = scene.seed;
        if (!scene_draw(&scene, &frame, NULL)) {
            fail("cannot draw");
        }
        accept_init(&accept);
        for (int i = 0; i < TAKES; i++, done++) {
            struct code codes[FRAME_CODES_MAX];
            another_take(&frame, &random, &take);
            size_t count = decoder_read(decoder, &take, i % 2 == 0 ? DECODE_PATIENT : 0, codes);
            for (size_t k = 0; k < count; k++) {
                enum accept_verdict verdict = accept_judge(codes[k].symbology, codes[k].text);
                bool counts = accept_take(&accept, &codes[k], i * 40000) == ACCEPT_NEW &&
                              (verdict == ACCEPT_TICKET || verdict == ACCEPT_MODEL);
                if (counts && !negative && strcmp(codes[k].text, scene.text) == 0) {
                    right++;
                } else if (counts) {
                    printf("wrong\t%d\t%s\tis\t%s\n", number, codes[k].text, scene.text);
                }
            }
        }
        free(frame.pixels);
    }
    printf("done\t%ld\t%ld\n", done, right);
    free(take.pixels);
    decoder_destroy(decoder);
    return 0;
}

int main(int argc, char **argv) {
    if (argc == 7 && strcmp(argv[1], "draw") == 0) {
        return draw(strtoull(argv[2], NULL, 10), argv[3], atoi(argv[4]), atoi(argv[5]),
                    atoi(argv[6]));
    }
    if (argc == 2 && strcmp(argv[1], "time") == 0) {
        return time_all();
    }
    if (argc == 6 && strcmp(argv[1], "wrong") == 0) {
        return wrong(strtoull(argv[2], NULL, 10), atoi(argv[3]), atoi(argv[4]), atol(argv[5]));
    }
    fail("see its beginning for how to use it");
    return 1;
}
