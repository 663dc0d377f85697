#ifndef FAKE_HASH_H
#define FAKE_HASH_H

// In place of libsodium's Argon2id: a quick hash, so that thousands of tries can be made, which
// counts how often it was looked at. Linked into a test it takes the library's place there.

#include <stdbool.h>

extern int fake_hash_looks;          // PINs compared with a hash
extern void (*fake_hash_hook)(void); // called before each of them; NULL: nothing
extern bool fake_hash_no_memory;     // all fail as without memory

#endif
