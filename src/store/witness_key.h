#ifndef WITNESS_KEY_H
#define WITNESS_KEY_H

// The supervisor's key: Ed25519 (RFC 8032, by libsodium), kept in a file of its own, away from the
// database and its copies. The secret file is one line, `kerfside-secret-1 BASE64`, mode 0400;
// beside it lies FILE.pub, `kerfside-public-1 BASE64`, for everybody.
//
// Where a function fails, `message` (size bytes) says why and what to do.

#include "checkpoint.h"

#define WITNESS_SEED_SIZE 32
#define WITNESS_PUBLIC_SIZE 32
#define WITNESS_SECRET_SIZE 64
#define WITNESS_PUBLIC_TEXT_MAX 64

struct witness_key {
    uint8_t secret[WITNESS_SECRET_SIZE]; // to be wiped with witness_key_wipe
    uint8_t public[WITNESS_PUBLIC_SIZE];
};

// Makes a new key in `path` and `path`.pub, neither of which may exist; both are on the disk then,
// or none is there. *ret_public: the line of the public file, without its end.
bool witness_key_make(const char *path, char ret_public[WITNESS_PUBLIC_TEXT_MAX], char *message,
                      size_t size);

// Refuses a secret file that anybody but its owner may read, or anybody may write.
bool witness_key_read(const char *path, struct witness_key *ret_key, char *message, size_t size);
bool witness_key_read_public(const char *path, uint8_t ret_public[WITNESS_PUBLIC_SIZE],
                             char *message, size_t size);

void witness_key_from_seed(const uint8_t seed[WITNESS_SEED_SIZE], struct witness_key *ret_key);
void witness_key_wipe(struct witness_key *key);

void witness_key_sign_bytes(const struct witness_key *key, const void *bytes, size_t size,
                            uint8_t ret_signature[CHECKPOINT_SIGNATURE_SIZE]);
bool witness_key_verify_bytes(const uint8_t public[WITNESS_PUBLIC_SIZE], const void *bytes,
                              size_t size, const uint8_t signature[CHECKPOINT_SIGNATURE_SIZE]);

// A note of the checkpoint with this key's signature.
void witness_key_sign(const struct witness_key *key, const struct checkpoint *checkpoint,
                      struct checkpoint_note *ret_note);

// Whether one of the note's signatures is this key's and fits.
enum witness_signature {
    WITNESS_SIGNED,
    WITNESS_OTHER_KEY, // no signature names this key
    WITNESS_FORGED     // one does, and does not fit
};
enum witness_signature witness_key_verify(const uint8_t public[WITNESS_PUBLIC_SIZE],
                                          const struct checkpoint_note *note);

#endif
