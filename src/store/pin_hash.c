#include "pin_hash.h"

#include <errno.h>
#include <string.h>

// RFC 9106 section 4, second recommendation: t = 3, 64 MiB (with one lane, as libsodium has it).
// 256 MiB would stop the screen for half a second at each try (495 ms against 90 ms, measured) and
// fail on a small machine, for a factor of five against whoever has the file; the key file gives
// 2^256.
#define OPS 3
#define MEMORY ((size_t)64 << 20)

static void mix(const struct store *store, const char *badge, const char *pin, bool pepper,
                char ret_mixed[PIN_PEPPER_MIXED_MAX]) {
    if (pepper) {
        pin_pepper_mix(store, badge, pin, ret_mixed);
    } else {
        size_t size = strnlen(pin, PIN_PEPPER_MIXED_MAX - 1); // longer than any PIN
        memcpy(ret_mixed, pin, size);
        ret_mixed[size] = '\0';
    }
}

bool pin_hash_make(const struct store *store, const char *badge, const char *pin,
                   struct pin_hash *ret_hash) {
    char mixed[PIN_PEPPER_MIXED_MAX];
    memset(ret_hash, 0, sizeof *ret_hash);
    memcpy(ret_hash->pepper, pin_pepper_id(store), strlen(pin_pepper_id(store)));
    mix(store, badge, pin, store->pepper != NULL, mixed);
    bool made = crypto_pwhash_str(ret_hash->text, mixed, strlen(mixed), OPS, MEMORY) == 0;
    sodium_memzero(mixed, sizeof mixed);
    return made;
}

enum pin_result pin_hash_look(const struct store *store, const char *badge, const char *pin,
                              const struct pin_hash *hash) {
    char mixed[PIN_PEPPER_MIXED_MAX];
    struct pin_hash spare;
    if (hash->text[0] == '\0') {
        return pin_hash_make(store, badge, pin, &spare) ? PIN_WRONG : PIN_FAILED;
    }
    mix(store, badge, pin, hash->pepper[0] != '\0', mixed);
    errno = 0;
    bool right = crypto_pwhash_str_verify(hash->text, mixed, strlen(mixed)) == 0;
    int error = errno;
    sodium_memzero(mixed, sizeof mixed);
    if (right) {
        return PIN_RIGHT;
    }
    return error == ENOMEM ? PIN_FAILED : PIN_WRONG;
}

bool pin_hash_readable(const struct store *store, const struct pin_hash *hash) {
    return hash->pepper[0] == '\0' || strcmp(hash->pepper, pin_pepper_id(store)) == 0;
}

bool pin_hash_old(const struct store *store, const struct pin_hash *hash) {
    return strcmp(hash->pepper, pin_pepper_id(store)) != 0 ||
           crypto_pwhash_str_needs_rehash(hash->text, OPS, MEMORY) != 0;
}
