#include "y4m.h"

#include <stdlib.h>
#include <string.h>

#define INTERVAL_MAX_US 10000000

void y4m_init(struct y4m *y) {
    *y = (struct y4m){.state = Y4M_HEADER};
}

void y4m_release(struct y4m *y) {
    free(y->pixels);
    y->pixels = NULL;
}

uint8_t *y4m_take_pixels(struct y4m *y) {
    uint8_t *pixels = y->pixels;
    y->pixels = NULL;
    return pixels;
}

static bool wrong(struct y4m *y, const char *fault) {
    y->state = Y4M_WRONG;
    y->fault = fault;
    return false;
}

// A number of at most nine digits; 0 if there is none. *end goes past it.
static int number(const char *text, const char **end) {
    int n = 0;
    int digits = 0;
    while (*text >= '0' && *text <= '9' && digits < 9) {
        n = 10 * n + (*text++ - '0');
        digits++;
    }
    *end = text;
    return n;
}

// A whole word that is a side of a picture; 0: it is not.
static int side(const char *word) {
    const char *end;
    int n = number(word, &end);
    return *end == '\0' && n <= FRAME_SIDE_MAX ? n : 0;
}

// Frames a second as a fraction; 0:0 is unknown.
static bool take_rate(struct y4m *y, const char *word) {
    int frames = number(word, &word);
    int seconds = *word == ':' ? number(word + 1, &word) : 0;
    if (*word != '\0' || (frames == 0) != (seconds == 0)) {
        return wrong(y, "its frame rate is no fraction");
    }
    if (frames > 0) {
        int64_t us = (int64_t)seconds * 1000000 / frames;
        y->interval_us = us < INTERVAL_MAX_US ? us : INTERVAL_MAX_US;
    }
    return true;
}

// How many bytes of colour follow the grey ones.
static bool take_colour(struct y4m *y, const char *word) {
    size_t w = (size_t)y->width;
    size_t h = (size_t)y->height;
    struct {
        const char *name;
        size_t size;
    } known[] = {
        {"mono", 0},
        {"420", 2 * ((w + 1) / 2) * ((h + 1) / 2)},
        {"420jpeg", 2 * ((w + 1) / 2) * ((h + 1) / 2)},
        {"420mpeg2", 2 * ((w + 1) / 2) * ((h + 1) / 2)},
        {"420paldv", 2 * ((w + 1) / 2) * ((h + 1) / 2)},
        {"411", 2 * ((w + 3) / 4) * h},
        {"422", 2 * ((w + 1) / 2) * h},
        {"444", 2 * w * h},
        {"444alpha", 3 * w * h},
    };
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (strcmp(word, known[i].name) == 0) {
            y->colour_size = known[i].size;
            return true;
        }
    }
    return wrong(y, "it has a colour format other than mono, 420, 411, 422 or 444 of 8 bits");
}

static bool take_header(struct y4m *y) {
    const char *colour = "420"; // when not said
    char *rest = y->line;
    char *word = strsep(&rest, " ");
    if (strcmp(word, "YUV4MPEG2") != 0) {
        return wrong(y, "it is no Y4M video");
    }
    while ((word = strsep(&rest, " ")) != NULL) {
        if (word[0] == 'W') {
            y->width = side(word + 1);
        } else if (word[0] == 'H') {
            y->height = side(word + 1);
        } else if (word[0] == 'C') {
            colour = word + 1;
        } else if (word[0] == 'F' && !take_rate(y, word + 1)) {
            return false;
        }
    }
    if (y->width == 0 || y->height == 0) {
        return wrong(y, "its size is not 1 to 4096 pixels a side");
    }
    y->state = Y4M_FRAME_LINE;
    return take_colour(y, colour);
}

static bool take_frame_line(struct y4m *y) {
    if (strcmp(y->line, "FRAME") != 0 && strncmp(y->line, "FRAME ", 6) != 0) {
        return wrong(y, "a frame does not begin where it should");
    }
    y->pixels = malloc((size_t)y->width * (size_t)y->height);
    if (y->pixels == NULL) {
        return wrong(y, "out of memory");
    }
    y->state = Y4M_GREY;
    return true;
}

// One byte of a line. What cannot become the right word is refused at once, however long it goes
// on.
static bool take_byte(struct y4m *y, char byte) {
    const char *start = y->state == Y4M_HEADER ? "YUV4MPEG2" : "FRAME";
    if (byte != '\n') {
        if (y->used < strlen(start) && byte != start[y->used]) {
            return wrong(y, y->state == Y4M_HEADER ? "it is no Y4M video"
                                                   : "a frame does not begin where it should");
        }
        if (y->used == Y4M_LINE_MAX - 1 || byte == '\0') {
            return wrong(y, "a line of its header is too long or no text");
        }
        y->line[y->used++] = byte;
        return true;
    }
    y->line[y->used] = '\0';
    y->used = 0;
    return y->state == Y4M_HEADER ? take_header(y) : take_frame_line(y);
}

// Bytes of what is `whole` long, to be kept if `to` is not NULL. *at goes past them; true: it is
// whole.
static bool take_bytes(struct y4m *y, size_t whole, uint8_t *to, const uint8_t *bytes, size_t size,
                       size_t *at) {
    size_t left = whole - y->used;
    size_t now = size - *at < left ? size - *at : left;
    if (to != NULL) {
        memcpy(to + y->used, bytes + *at, now);
    }
    *at += now;
    y->used += now;
    if (y->used < whole) {
        return false;
    }
    y->used = 0;
    return true;
}

enum y4m_step y4m_feed(struct y4m *y, const uint8_t *bytes, size_t size, size_t *ret_used) {
    size_t grey = (size_t)y->width * (size_t)y->height;
    size_t at = 0;
    enum y4m_step step = Y4M_MORE;
    while (at < size && step == Y4M_MORE && y->state != Y4M_WRONG) {
        switch (y->state) {
        case Y4M_HEADER:
        case Y4M_FRAME_LINE:
            take_byte(y, (char)bytes[at++]);
            grey = (size_t)y->width * (size_t)y->height;
            break;
        case Y4M_GREY:
            if (take_bytes(y, grey, y->pixels, bytes, size, &at)) {
                y->state = y->colour_size == 0 ? Y4M_FRAME_LINE : Y4M_COLOUR;
                step = y->colour_size == 0 ? Y4M_FRAME : Y4M_MORE;
            }
            break;
        case Y4M_COLOUR:
            if (take_bytes(y, y->colour_size, NULL, bytes, size, &at)) {
                y->state = Y4M_FRAME_LINE;
                step = Y4M_FRAME;
            }
            break;
        case Y4M_WRONG:
            break;
        }
    }
    *ret_used = at;
    return y->state == Y4M_WRONG ? Y4M_FAULT : step;
}
