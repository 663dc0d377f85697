#include "fake_hash.h"

#include <errno.h>
#include <sodium.h>
#include <stdio.h>
#include <string.h>

int fake_hash_looks;
void (*fake_hash_hook)(void);
bool fake_hash_no_memory;

int crypto_pwhash_str(char out[crypto_pwhash_STRBYTES], const char *const passwd,
                      unsigned long long size, unsigned long long ops, size_t memory) {
    unsigned char hash[16];
    char text[33];
    (void)ops;
    (void)memory;
    if (fake_hash_no_memory) {
        errno = ENOMEM;
        return -1;
    }
    crypto_generichash(hash, sizeof hash, (const unsigned char *)passwd, size, NULL, 0);
    sodium_bin2hex(text, sizeof text, hash, sizeof hash);
    memset(out, 0, crypto_pwhash_STRBYTES);
    snprintf(out, crypto_pwhash_STRBYTES, "$argon2id$fake$%s", text);
    return 0;
}

int crypto_pwhash_str_verify(const char str[crypto_pwhash_STRBYTES], const char *const passwd,
                             unsigned long long size) {
    char made[crypto_pwhash_STRBYTES];
    if (fake_hash_hook != NULL) {
        fake_hash_hook();
    }
    if (crypto_pwhash_str(made, passwd, size, 0, 0) != 0) {
        return -1;
    }
    fake_hash_looks++;
    errno = EINVAL;
    return strcmp(made, str) == 0 ? 0 : -1;
}

int crypto_pwhash_str_needs_rehash(const char str[crypto_pwhash_STRBYTES], unsigned long long ops,
                                   size_t memory) {
    (void)str;
    (void)ops;
    (void)memory;
    return 0;
}
