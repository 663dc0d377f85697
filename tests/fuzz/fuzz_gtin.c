#include "fuzz.h"
#include "gtin.h"
#include "ticket.h"

// One number however it is written, and nothing but a GTIN is taken for one.
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char *text = fuzz_string(data, size);
    char gtin[GTIN_TEXT_MAX];
    char again[GTIN_TEXT_MAX];
    if (gtin_normalise(text, gtin)) {
        HOLDS(strlen(gtin) == 14 && strspn(gtin, "0123456789") == 14);
        HOLDS(ticket_gtin_valid(gtin) && ticket_gtin_valid(text));
        HOLDS(gtin_normalise(gtin, again) && strcmp(gtin, again) == 0);
        HOLDS(strcmp(gtin + 14 - strlen(text), text) == 0);
        HOLDS(ticket_gtin_check(gtin, 13) == gtin[13]);
    } else {
        HOLDS(!ticket_gtin_valid(text));
    }
    free(text);
    return 0;
}
