#ifndef PIN_PEPPER_H
#define PIN_PEPPER_H

// The key that is mixed into PINs and lies outside the database. Private to src/store.

#include "connection.h"

#include <sodium.h>

#define PIN_PEPPER_ID_MAX 17 // 16 small hexadecimal digits that give nothing of the key away

struct pin_pepper {
    uint8_t key[crypto_generichash_KEYBYTES];
    char id[PIN_PEPPER_ID_MAX];
};

// Of the key file in use; empty: none is.
const char *pin_pepper_id(const struct store *store);

// What Argon2id is to hash: keyed BLAKE2b over "kerfside/pin/1" NUL badge NUL PIN, in hexadecimal.
// The badge is in it, so that nobody's hash is good for another badge. Only with a key.
#define PIN_PEPPER_MIXED_MAX 65
void pin_pepper_mix(const struct store *store, const char *badge, const char *pin,
                    char ret_mixed[PIN_PEPPER_MIXED_MAX]);

#endif
