#include "bench_set.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>

bool bench_set_choose(const char *value, const char *no, const char *yes, bool *ret) {
    if (strcmp(value, no) != 0 && strcmp(value, yes) != 0) {
        return false;
    }
    *ret = strcmp(value, yes) == 0;
    return true;
}

bool bench_set_number(const char *value, int low, int high, int *ret) {
    char *end;
    long n = strtol(value, &end, 10);
    if (end == value || *end != '\0' || n < low || n > high) {
        return false;
    }
    *ret = (int)n;
    return true;
}

bool bench_set_text(const char *value, char *buffer, size_t size) {
    if (strlen(value) >= size) {
        return false;
    }
    memset(buffer, 0, size);
    memcpy(buffer, value, strlen(value));
    return true;
}

bool bench_set_readable(const char *value) {
    size_t left = strlen(value);
    while (left > 0) {
        size_t size = text_utf8_size(value, left);
        if (size == 0 || (unsigned char)*value < ' ' || *value == 0x7F) {
            return false;
        }
        value += size;
        left -= size;
    }
    return true;
}

bool bench_set_length(const char *value, length_nm low, length_nm high, length_nm *ret) {
    length_nm length;
    if (length_parse(value, LENGTH_UNIT_INCH, &length, NULL) != LENGTH_OK || length < low ||
        length > high) {
        return false;
    }
    *ret = length;
    return true;
}
