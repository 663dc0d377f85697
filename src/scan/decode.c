#include "decode.h"

#include "decode_find.h"
#include "decode_prepare.h"
#include "decode_scan.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define SURE 3          // witnesses after which no other way is tried
#define MARGIN 20       // pixels around a square, for its quiet zone and what the cells miss
#define ENLARGE_MAX 400 // pixels a side; larger squares do not need it

// The frame, or half of it.
struct level {
    int scale;
    int width;
    int height;
    const uint8_t *raw;
    uint8_t *soft; // blurred a little
};

struct decoder {
    struct decode_scan scan;
    struct decode_find find;
    struct decode_straight straight;
    size_t room; // pixels each buffer holds
    uint8_t *soft;
    uint8_t *half;
    uint8_t *half_soft;
    uint8_t *part;
    int64_t begun_us;
    int64_t budget_us;
    // Of the frame at hand.
    int width;
    int height;
    size_t count;
    struct code code[FRAME_CODES_MAX];
};

static int64_t now_us(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

struct decoder *decoder_init(void) {
    struct decoder *decoder = calloc(1, sizeof *decoder);
    if (decoder == NULL) {
        return NULL;
    }
    decode_find_init(&decoder->find);
    if (!decode_scan_init(&decoder->scan)) {
        free(decoder);
        return NULL;
    }
    return decoder;
}

static void free_buffers(struct decoder *decoder) {
    free(decoder->soft);
    free(decoder->half);
    free(decoder->half_soft);
    free(decoder->part);
}

void decoder_destroy(struct decoder *decoder) {
    if (decoder != NULL) {
        decode_scan_release(&decoder->scan);
        decode_find_release(&decoder->find);
        free_buffers(decoder);
        free(decoder);
    }
}

static bool make_room(struct decoder *decoder, size_t count) {
    if (count <= decoder->room) {
        return true;
    }
    free_buffers(decoder);
    decoder->soft = malloc(count);
    decoder->half = malloc(count / 4 + 1);
    decoder->half_soft = malloc(count / 4 + 1);
    decoder->part = malloc(count + 4 * ENLARGE_MAX * ENLARGE_MAX);
    decoder->room = decoder->soft != NULL && decoder->half != NULL && decoder->half_soft != NULL &&
                            decoder->part != NULL
                        ? count
                        : 0;
    return decoder->room > 0;
}

static int inside(double at, int count) {
    return at < 0 ? 0 : at > count - 1 ? count - 1 : (int)lrint(at);
}

// Keeps a code with its corners in the frame. Seen before: the more witnesses count.
static void keep(struct decoder *d, const struct code *code) {
    struct code kept = *code;
    size_t at = 0;
    while (at < d->count && (d->code[at].symbology != code->symbology ||
                             strcmp(d->code[at].text, code->text) != 0)) {
        at++;
    }
    if (at == FRAME_CODES_MAX || (at < d->count && d->code[at].quality >= code->quality)) {
        return;
    }
    for (int i = 0; i < 4; i++) {
        kept.corner[i].x = inside(kept.corner[i].x, d->width);
        kept.corner[i].y = inside(kept.corner[i].y, d->height);
    }
    if (at == d->count) {
        d->count++;
    }
    for (; at > 0 && d->code[at - 1].quality < kept.quality; at--) {
        d->code[at] = d->code[at - 1];
    }
    d->code[at] = kept;
}

static struct code_point lay(const struct decode_place *place, double line, double bar, int scale) {
    return (struct code_point){
        .x = (int)lrint(scale * (place->x + line * place->line_x + bar * place->bar_x)),
        .y = (int)lrint(scale * (place->y + line * place->line_y + bar * place->bar_y))};
}

// ZBar tells where the lines it read end: those of the rows it went to the right on the right, the
// others on the left.
static void lay_bars(const struct decoder *d, const struct decode_place *place, int scale,
                     struct code *code) {
    double from = d->straight.from + d->straight.step * code->corner[0].x;
    double to = d->straight.from + d->straight.step * code->corner[1].x;
    if (to - from < (place->line_to - place->line_from) / 4) {
        from = place->line_from;
        to = place->line_to;
    }
    code->corner[0] = lay(place, from, place->bar_from, scale);
    code->corner[1] = lay(place, to, place->bar_from, scale);
    code->corner[2] = lay(place, to, place->bar_to, scale);
    code->corner[3] = lay(place, from, place->bar_to, scale);
}

// True when a code is sure.
static bool try_bars(struct decoder *d, const struct level *level, const struct decode_place *place,
                     const struct decode_bands *bands) {
    struct decode_found found;
    bool sure = false;
    decode_straighten(level->soft, level->width, level->height, place, bands, &d->straight);
    decode_scan_run(&d->scan, DECODE_SCAN_BARS, d->straight.pixels, d->straight.width,
                    d->straight.rows, &found);
    for (size_t i = 0; i < found.count; i++) {
        sure = sure || found.code[i].quality >= SURE;
        lay_bars(d, place, level->scale, &found.code[i]);
        keep(d, &found.code[i]);
    }
    return sure;
}

static void read_bars(struct decoder *d, const struct level *level,
                      const struct decode_place *place) {
    double tall = place->bar_to - place->bar_from;
    int height = tall < 16 ? 2 : tall < 64 ? (int)(tall / 8) : 8;
    const struct decode_bands ways[] = {
        {.height = height, .bands = 1},
        {.height = height, .bands = 1, .crisp = 2, .reach = 2},
        {.height = height, .bands = 1, .crisp = 4, .reach = 3},
        {.height = 2, .bands = 1},
        {.height = height > 4 ? height / 2 : 2, .bands = 3},
        {.height = height > 4 ? height / 2 : 2, .bands = 5},
    };
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        if (try_bars(d, level, place, &ways[i])) {
            return;
        }
    }
}

static void read_squares(struct decoder *d, const struct level *level,
                         const struct decode_place *place) {
    struct decode_box box;
    struct decode_found found[3];
    int ways = 2;
    box.left = place->left > MARGIN ? place->left - MARGIN : 0;
    box.top = place->top > MARGIN ? place->top - MARGIN : 0;
    box.width = place->left + place->width + MARGIN - box.left;
    box.height = place->top + place->height + MARGIN - box.top;
    box.width = box.width > level->width - box.left ? level->width - box.left : box.width;
    box.height = box.height > level->height - box.top ? level->height - box.top : box.height;
    decode_cut(level->soft, level->width, &box, d->part);
    decode_scan_run(&d->scan, DECODE_SCAN_SQUARES, d->part, box.width, box.height, &found[0]);
    decode_cut(level->raw, level->width, &box, d->part);
    decode_scan_run(&d->scan, DECODE_SCAN_SQUARES, d->part, box.width, box.height, &found[1]);
    if (box.width <= ENLARGE_MAX && box.height <= ENLARGE_MAX) {
        decode_enlarge(level->soft, level->width, &box, d->part);
        decode_scan_run(&d->scan, DECODE_SCAN_SQUARES, d->part, 2 * box.width, 2 * box.height,
                        &found[2]);
        ways = 3;
    }
    for (int way = 0; way < ways; way++) {
        for (size_t i = 0; i < found[way].count; i++) {
            struct code *code = &found[way].code[i];
            code->quality = 1;
            for (int other = 0; other < ways; other++) {
                for (size_t k = 0; other != way && k < found[other].count; k++) {
                    code->quality += strcmp(found[other].code[k].text, code->text) == 0;
                }
            }
            for (int k = 0; k < 4; k++) {
                int enlarged = way == 2 ? 2 : 1;
                code->corner[k].x = level->scale * (box.left + code->corner[k].x / enlarged);
                code->corner[k].y = level->scale * (box.top + code->corner[k].y / enlarged);
            }
            keep(d, code);
        }
    }
}

static void read_places(struct decoder *d, const struct level *level) {
    if (!decode_find_run(&d->find, level->soft, level->width, level->height)) {
        return;
    }
    for (size_t i = 0; i < d->find.count; i++) {
        if (d->find.place[i].bars) {
            read_bars(d, level, &d->find.place[i]);
        } else {
            read_squares(d, level, &d->find.place[i]);
        }
    }
}

static void read_whole(struct decoder *d, const struct level *level, const uint8_t *pixels) {
    struct decode_found found;
    decode_scan_run(&d->scan, DECODE_SCAN_ALL, pixels, level->width, level->height, &found);
    for (size_t i = 0; i < found.count; i++) {
        for (int k = 0; k < 4; k++) {
            found.code[i].corner[k].x *= level->scale;
            found.code[i].corner[k].y *= level->scale;
        }
        keep(d, &found.code[i]);
    }
}

// Whether another step may begin: nothing was found, and there is time.
static bool go_on(const struct decoder *d) {
    return d->count == 0 && now_us() - d->begun_us < d->budget_us;
}

size_t decoder_read(struct decoder *d, const struct frame *frame, int64_t budget_us,
                    struct code *ret_codes) {
    size_t count = (size_t)frame->width * (size_t)frame->height;
    struct level full = {
        .scale = 1, .width = frame->width, .height = frame->height, .raw = frame->pixels};
    struct level half = {.scale = 2, .width = frame->width / 2, .height = frame->height / 2};
    d->begun_us = now_us();
    d->budget_us = budget_us;
    d->width = frame->width;
    d->height = frame->height;
    d->count = 0;
    if (frame->width < 3 || frame->height < 3 || !make_room(d, count)) {
        return 0;
    }
    full.soft = d->soft;
    decode_blur(full.raw, full.width, full.height, full.soft);
    read_places(d, &full);
    if (half.width >= 3 && half.height >= 3) {
        half.raw = d->half;
        half.soft = d->half_soft;
        if (go_on(d)) {
            decode_halve(full.raw, full.width, full.height, d->half);
            decode_blur(half.raw, half.width, half.height, half.soft);
            read_places(d, &half);
        }
        if (go_on(d)) {
            read_whole(d, &half, half.raw);
        }
    }
    if (go_on(d)) {
        read_whole(d, &full, full.soft);
    }
    if (go_on(d)) {
        read_whole(d, &full, full.raw);
    }
    memcpy(ret_codes, d->code, d->count * sizeof ret_codes[0]);
    return d->count;
}
