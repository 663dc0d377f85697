#include "decode_inner.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

#define SIDE_LEAST 16   // pixels; in less there is no code
#define PLACES_ALWAYS 4 // of each kind
#define BENT_MOST 2     // the best places for a QR symbol, around a tube
#define WHOLE_NS 20     // a pixel

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

static void free_levels(struct decoder *decoder) {
    for (int i = 0; i < DECODE_LEVELS; i++) {
        free(decoder->level[i].made);
        free(decoder->level[i].soft);
        decoder->level[i] = (struct decode_level){0};
    }
    decoder->room = 0;
}

void decoder_destroy(struct decoder *decoder) {
    if (decoder != NULL) {
        decode_scan_release(&decoder->scan);
        decode_find_release(&decoder->find);
        free_levels(decoder);
        free(decoder);
    }
}

static bool make_room(struct decoder *d, size_t count) {
    if (count <= d->room) {
        return true;
    }
    free_levels(d);
    for (int i = 0; i < DECODE_LEVELS; i++) {
        struct decode_level *level = &d->level[i];
        size_t size = count >> (2 * i);
        level->soft = malloc(size);
        level->made = i > 0 ? malloc(size) : NULL;
        if (level->soft == NULL || (i > 0 && level->made == NULL)) {
            free_levels(d);
            return false;
        }
    }
    d->room = count;
    return true;
}

static bool sure(const struct code *code) {
    return code->quality >= (code->symbology == CODE_QR ? DECODE_SURE_WAYS : DECODE_SURE_ROWS);
}

bool decode_in_time(const struct decoder *d, int64_t needed_us) {
    return now_us() - d->begun_us < d->budget_us - needed_us;
}

// Whether another step may begin: nothing is sure yet, and there is time.
static bool go_on(const struct decoder *d, int64_t needed_us) {
    for (size_t i = 0; i < d->count; i++) {
        if (sure(&d->code[i])) {
            return false;
        }
    }
    return decode_in_time(d, needed_us);
}

static int inside(int at, int count) {
    return at < 0 ? 0 : at > count - 1 ? count - 1 : at;
}

void decode_keep(struct decoder *d, const struct code *code) {
    struct code kept = *code;
    size_t at = 0;
    while (at < d->count && (d->code[at].symbology != code->symbology ||
                             strcmp(d->code[at].text, code->text) != 0)) {
        at++;
    }
    if (at == FRAME_CODES_MAX) {
        at--; // the least sure makes room
    }
    if (at < d->count && d->code[at].quality >= code->quality) {
        return;
    }
    for (int i = 0; i < 4; i++) {
        kept.corner[i].x = inside(kept.corner[i].x, d->level[0].width);
        kept.corner[i].y = inside(kept.corner[i].y, d->level[0].height);
    }
    if (at == d->count) {
        d->count++;
    }
    for (; at > 0 && d->code[at - 1].quality < kept.quality; at--) {
        d->code[at] = d->code[at - 1];
    }
    d->code[at] = kept;
}

// The best few places are read whatever the budget, so that it never hides what is plain to see.
static void read_places(struct decoder *d, const struct decode_level *level) {
    struct decode_sight sight[DECODE_PLACES_MAX];
    const struct decode_place *place = d->find.place;
    size_t bars = 0;
    size_t squares = 0;
    if (!decode_find_run(&d->find, level->soft, level->width, level->height)) {
        return;
    }
    for (; bars < d->find.count && place[bars].bars; bars++) {
        if (bars < PLACES_ALWAYS || decode_in_time(d, 0)) {
            decode_bars(d, level, &place[bars]);
        }
    }
    for (; bars + squares < d->find.count && (squares < PLACES_ALWAYS || decode_in_time(d, 0));
         squares++) {
        sight[squares] = decode_look(d, level, &place[bars + squares]);
        decode_square(d, level, &sight[squares]);
    }
    for (size_t i = 0, tried = 0; i < squares && tried < BENT_MOST && go_on(d, 0); i++) {
        if (sight[i].finders >= 2) {
            decode_bent(d, level, &sight[i]);
            tried++;
        }
    }
}

// What ZBar takes for a whole picture, more or less.
static int64_t whole_us(const struct decode_level *level) {
    return (int64_t)level->width * level->height * WHOLE_NS / 1000;
}

static void read_whole(struct decoder *d, const struct decode_level *level, const uint8_t *pixels) {
    struct decode_found found;
    decode_scan_run(&d->scan, DECODE_SCAN_ALL, pixels, level->width, level->height, &found);
    for (size_t i = 0; i < found.count; i++) {
        for (int k = 0; k < 4; k++) {
            found.code[i].corner[k].x *= level->scale;
            found.code[i].corner[k].y *= level->scale;
        }
        decode_keep(d, &found.code[i]);
        if (found.code[i].symbology == CODE_QR) {
            decode_again(d, level, &found.code[i]);
        }
    }
}

// Each half the size of the one before; an odd last row or column is left out.
static void make_level(struct decode_level *level, const struct decode_level *before) {
    level->scale = 2 * before->scale;
    level->width = before->width / 2;
    level->height = before->height / 2;
    decode_halve(before->raw, before->width, before->height, level->made);
    level->raw = level->made;
    decode_blur(level->raw, level->width, level->height, level->soft);
}

static void read_all(struct decoder *d) {
    struct decode_level *level = d->level;
    int made = 1;
    decode_blur(level->raw, level->width, level->height, level->soft);
    read_places(d, level);
    while (made < DECODE_LEVELS && go_on(d, 0)) {
        make_level(&level[made], &level[made - 1]);
        read_places(d, &level[made]);
        made++;
    }
    if (made > 1 && go_on(d, whole_us(&level[1]))) {
        read_whole(d, &level[1], level[1].raw);
    }
    if (go_on(d, whole_us(level))) {
        read_whole(d, level, level->raw);
    }
}

size_t decoder_read(struct decoder *d, const struct frame *frame, int64_t budget_us,
                    struct code *ret_codes) {
    d->begun_us = now_us();
    d->budget_us = budget_us;
    d->count = 0;
    if (frame->width < SIDE_LEAST || frame->height < SIDE_LEAST ||
        !make_room(d, (size_t)frame->width * (size_t)frame->height)) {
        return 0;
    }
    d->level[0].scale = 1;
    d->level[0].width = frame->width;
    d->level[0].height = frame->height;
    d->level[0].raw = frame->pixels;
    read_all(d);
    memcpy(ret_codes, d->code, d->count * sizeof ret_codes[0]);
    return d->count;
}
