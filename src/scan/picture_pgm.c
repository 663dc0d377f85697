#include "picture_still.h"

#include <stdlib.h>
#include <string.h>

// pgm(5): "P5", then width, height and greatest value in decimal, blanks and comments between
// them, one blank, then the rows.

#define NUMBER_MAX 99999999

struct reading {
    const uint8_t *bytes;
    size_t size;
    size_t at;
};

static bool blank(uint8_t byte) {
    return byte == ' ' || (byte >= '\t' && byte <= '\r');
}

static void skip_blanks(struct reading *r) {
    bool comment = false;
    while (r->at < r->size && (comment || blank(r->bytes[r->at]) || r->bytes[r->at] == '#')) {
        comment = r->bytes[r->at] == '#' || (comment && r->bytes[r->at] != '\n');
        r->at++;
    }
}

// A number behind at least one blank.
static bool take_number(struct reading *r, size_t *ret_number) {
    size_t start = r->at;
    size_t number = 0;
    size_t first;
    skip_blanks(r);
    first = r->at;
    while (r->at < r->size && r->bytes[r->at] >= '0' && r->bytes[r->at] <= '9' &&
           number <= NUMBER_MAX) {
        number = 10 * number + (r->bytes[r->at++] - '0');
    }
    *ret_number = number;
    return first > start && r->at > first && number <= NUMBER_MAX;
}

bool picture_pgm(const uint8_t *bytes, size_t size, struct frame *ret_frame,
                 struct picture_fault *ret_fault) {
    struct reading r = {bytes, size, 2};
    struct frame frame;
    size_t width;
    size_t height;
    size_t most;
    if (size < 2 || memcmp(bytes, "P5", 2) != 0) {
        return picture_wrong(ret_fault, 0, "it is no PGM picture");
    }
    if (!take_number(&r, &width) || !take_number(&r, &height) || !take_number(&r, &most) ||
        r.at == size || !blank(bytes[r.at])) {
        return picture_wrong(ret_fault, r.at, "its PGM header has no width, height or depth here");
    }
    if (most < 1 || most > 255) {
        return picture_wrong(ret_fault, r.at, "it has more than 8 bits a pixel, or none");
    }
    r.at++;
    if (!picture_room(width, height, r.at, &frame, ret_fault)) {
        return false;
    }
    if (size - r.at < width * height) {
        free(frame.pixels);
        return picture_wrong(ret_fault, size, "it ends before its last row");
    }
    for (size_t i = 0; i < width * height; i++) {
        size_t grey = bytes[r.at + i];
        frame.pixels[i] = (uint8_t)(grey >= most ? 255 : (grey * 255 + most / 2) / most);
    }
    *ret_frame = frame;
    return true;
}
