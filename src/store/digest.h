#ifndef DIGEST_H
#define DIGEST_H

// SHA-256 of one run of bytes after another. libcrypto's uses the processor's own instructions for
// it and is some four times as fast as libsodium's. Private to src/store.

#include <stddef.h>
#include <stdint.h>

#define DIGEST_SIZE 32

struct digest; // one thread's

// NULL: libcrypto gives none (no memory); digest_run then takes libsodium's.
struct digest *digest_open(void);
void digest_close(struct digest *digest);

// The same bytes have the same hash, whoever takes it.
void digest_run(struct digest *digest, const uint8_t *bytes, size_t size,
                uint8_t ret_hash[DIGEST_SIZE]);

#endif
