#include "change.h"
#include "fuzz.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char *text = fuzz_string(data, size);
    struct change change;
    char again[CHANGE_TEXT_MAX];
    if (change_read(text, &change)) {
        HOLDS(change.count <= CHANGE_CELLS_MAX);
        HOLDS(change.keys <= CHANGE_KEYS_MAX);
        HOLDS(change_write(&change, again, sizeof again));
        HOLDS(strcmp(text, again) == 0);
    }
    free(text);
    return 0;
}
