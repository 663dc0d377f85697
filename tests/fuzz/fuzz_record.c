#include "fuzz.h"
#include "record.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char *text = fuzz_string(data, size);
    struct record record;
    char again[ENTRY_PLAN_MAX];
    if (record_read(text, &record)) {
        HOLDS(record.reason_count <= PLAN_REASONS_MAX);
        HOLDS(record.warning_count <= PLAN_WARNINGS_MAX);
        HOLDS(record_write(&record, again, sizeof again));
        HOLDS(strcmp(text, again) == 0);
    }
    free(text);
    return 0;
}
