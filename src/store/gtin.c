#include "gtin.h"
#include "ticket.h"

#include <string.h>

bool gtin_normalise(const char *text, char ret_gtin[GTIN_TEXT_MAX]) {
    if (!ticket_gtin_valid(text)) {
        return false;
    }
    size_t size = strlen(text);
    size_t zeros = GTIN_TEXT_MAX - 1 - size;
    memset(ret_gtin, '0', zeros);
    memcpy(ret_gtin + zeros, text, size + 1);
    return true;
}
