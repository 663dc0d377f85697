#include "fuzz.h"
#include "picture_still.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char *bytes = fuzz_string(data, size); // of its own size, so that a step too far is seen
    struct frame frame = {0};
    struct picture_fault fault = {.byte = size + 1};
    if (picture_pgm((const uint8_t *)bytes, size, &frame, &fault)) {
        HOLDS(frame.width >= 1 && frame.width <= FRAME_SIDE_MAX);
        HOLDS(frame.height >= 1 && frame.height <= FRAME_SIDE_MAX);
        frame.pixels[(size_t)frame.width * (size_t)frame.height - 1] = 1;
        HOLDS(fault.byte == size + 1);
    } else {
        HOLDS(frame.pixels == NULL);
        HOLDS(fault.byte <= size);
        HOLDS(strlen(fault.text) > 0);
    }
    free(frame.pixels);
    free(bytes);
    return 0;
}
