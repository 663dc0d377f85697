// A note that parses is written the same again, byte by byte, and says nothing a log cannot hold.

#include "checkpoint.h"
#include "fuzz.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct checkpoint_note note;
    char text[CHECKPOINT_TEXT_MAX];
    char brief[CHECKPOINT_SHORT_MAX];
    size_t used = 0;
    int line = 0;
    char *bytes = malloc(size == 0 ? 1 : size); // without a NUL after it
    HOLDS(bytes != NULL);
    if (size > 0) {
        memcpy(bytes, data, size);
    }
    enum checkpoint_error error = checkpoint_parse(bytes, size, &note, &used, &line);
    if (error == CHECKPOINT_OK) {
        HOLDS(used <= size && checkpoint_write(&note, text) == used);
        HOLDS(memcmp(text, bytes, used) == 0);
        HOLDS(note.checkpoint.size > 0 && checkpoint_is_day(note.checkpoint.day));
        checkpoint_short(&note.checkpoint, brief);
        HOLDS(strlen(brief) < sizeof brief - 1);
    } else {
        HOLDS(error < CHECKPOINT_ERROR_COUNT && line > 0);
        HOLDS(error != CHECKPOINT_CUT || size < CHECKPOINT_TEXT_MAX);
    }
    free(bytes);
    return 0;
}
