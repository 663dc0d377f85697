#ifndef Y4M_H
#define Y4M_H

// YUV4MPEG2, the raw video that many tools read and write (mjpegtools, yuv4mpeg(5)), cut anywhere:
// bytes in, grey frames out. 8 bits a sample; what colour there is is passed over.

#include "frame.h"

#define Y4M_LINE_MAX 256

enum y4m_step {
    Y4M_MORE,  // all bytes were taken
    Y4M_FRAME, // frame holds a picture; y4m_take_pixels
    Y4M_FAULT  // fault says what is wrong; nothing more is taken
};

enum y4m_state { Y4M_HEADER, Y4M_FRAME_LINE, Y4M_GREY, Y4M_COLOUR, Y4M_WRONG };

struct y4m {
    enum y4m_state state;
    int width; // 0 until the header was read
    int height;
    int64_t interval_us; // from frame to frame, 0: the header does not say
    size_t colour_size;  // bytes after the grey ones
    uint8_t *pixels;
    size_t used; // of the line, or of the grey or colour bytes
    char line[Y4M_LINE_MAX];
    const char *fault; // half a sentence
};

void y4m_init(struct y4m *y4m);
void y4m_release(struct y4m *y4m);

// Takes bytes up to the end of a frame; *ret_used says how many.
enum y4m_step y4m_feed(struct y4m *y4m, const uint8_t *bytes, size_t size, size_t *ret_used);

// After Y4M_FRAME: the pixels, which the caller frees.
uint8_t *y4m_take_pixels(struct y4m *y4m);

#endif
