#ifndef PIN_HASH_H
#define PIN_HASH_H

// PINs as Argon2id hashes, made with the key file in use if there is one. Private to src/store.

#include "pin_pepper.h"

// A hash as it is kept; `pepper` is empty when no key file was in it. hash[0] '\0': none.
struct pin_hash {
    char text[crypto_pwhash_STRBYTES];
    char pepper[PIN_PEPPER_ID_MAX];
};

// False: no memory, and *ret_hash is void.
bool pin_hash_make(const struct store *store, const char *badge, const char *pin,
                   struct pin_hash *ret_hash);

// PIN_RIGHT, PIN_WRONG, or PIN_FAILED without the memory. No hash takes as long as one, and is
// PIN_WRONG.
enum pin_result pin_hash_look(const struct store *store, const char *badge, const char *pin,
                              const struct pin_hash *hash);

// Whether it can be looked at: no key file was used, or this one.
bool pin_hash_readable(const struct store *store, const struct pin_hash *hash);

// Whether one made now would be another kind of hash.
bool pin_hash_old(const struct store *store, const struct pin_hash *hash);

#endif
