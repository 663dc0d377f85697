#ifndef BASE64_H
#define BASE64_H

// RFC 4648 section 4, with padding, one way to write each value. Pure functions.

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define BASE64_SIZE(bytes) (((bytes) + 2) / 3 * 4) // without a NUL

// Writes BASE64_SIZE(size) characters and a NUL.
void base64_write(const uint8_t *bytes, size_t size, char *text);

// Reads exactly BASE64_SIZE(size) characters at `text` as `size` bytes. False on any other
// character, wrong padding, or bits set that belong to no byte; `bytes` may then hold anything.
bool base64_read(const char *text, uint8_t *bytes, size_t size);

#endif
