#include "fuzz.h"
#include "y4m.h"

// The first byte says how large the pieces are in which the rest arrives.

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct y4m y;
    size_t piece = size > 0 ? (size_t)data[0] + 1 : 1;
    y4m_init(&y);
    for (size_t at = 1; at < size;) {
        size_t left = size - at < piece ? size - at : piece;
        size_t used;
        enum y4m_step step = y4m_feed(&y, data + at, left, &used);
        HOLDS(used <= left);
        HOLDS(y.width >= 0 && y.width <= FRAME_SIDE_MAX);
        HOLDS(y.height >= 0 && y.height <= FRAME_SIDE_MAX);
        HOLDS(y.interval_us >= 0);
        if (step == Y4M_FAULT) {
            HOLDS(y.fault != NULL);
            break;
        }
        HOLDS(step == Y4M_FRAME || used == left);
        if (step == Y4M_FRAME) {
            uint8_t *pixels = y4m_take_pixels(&y);
            HOLDS(pixels != NULL);
            free(pixels);
        }
        at += used;
    }
    y4m_release(&y);
    return 0;
}
