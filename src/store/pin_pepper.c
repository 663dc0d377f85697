// The key file of the PINs: 64 hexadecimal digits and a newline, so that it can be copied by hand.

#include "pin_pepper.h"

#include "tongue.h"

#include <errno.h>
#include <fcntl.h>
#include <libgen.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define TEXT_SIZE (2 * crypto_generichash_KEYBYTES + 1) // with its newline

const char *pin_pepper_id(const struct store *store) {
    return store->pepper == NULL ? "" : store->pepper->id;
}

bool store_has_pepper(const struct store *store) {
    return store->pepper != NULL;
}

void pin_pepper_mix(const struct store *store, const char *badge, const char *pin,
                    char ret_mixed[PIN_PEPPER_MIXED_MAX]) {
    static const char purpose[] = "kerfside/pin/1"; // with its NUL
    uint8_t mixed[crypto_generichash_BYTES];
    crypto_generichash_state state;
    crypto_generichash_init(&state, store->pepper->key, sizeof store->pepper->key, sizeof mixed);
    crypto_generichash_update(&state, (const uint8_t *)purpose, sizeof purpose);
    crypto_generichash_update(&state, (const uint8_t *)badge, strlen(badge) + 1);
    crypto_generichash_update(&state, (const uint8_t *)pin, strlen(pin));
    crypto_generichash_final(&state, mixed, sizeof mixed);
    sodium_bin2hex(ret_mixed, PIN_PEPPER_MIXED_MAX, mixed, sizeof mixed);
    sodium_memzero(mixed, sizeof mixed);
    sodium_memzero(&state, sizeof state);
}

static void name(struct pin_pepper *pepper) {
    static const char purpose[] = "kerfside/pepper/1";
    uint8_t print[crypto_generichash_BYTES];
    crypto_generichash(print, sizeof print, (const uint8_t *)purpose, sizeof purpose, pepper->key,
                       sizeof pepper->key);
    sodium_bin2hex(pepper->id, sizeof pepper->id, print, (sizeof pepper->id - 1) / 2);
}

// --- reading -----------------------------------------------------------------------------------

// One read takes all of it: a regular file of this size.
static bool read_text(int fd, char text[TEXT_SIZE + 1], size_t *ret_size) {
    ssize_t size = read(fd, text, TEXT_SIZE + 1);
    if (size < 0) {
        return false;
    }
    *ret_size = (size_t)size;
    return true;
}

static bool parse(const char *text, size_t size, struct pin_pepper *pepper) {
    size_t read = 0;
    if (size == TEXT_SIZE && text[size - 1] == '\n') {
        size--;
    }
    return size == TEXT_SIZE - 1 &&
           sodium_hex2bin(pepper->key, sizeof pepper->key, text, size, NULL, &read, NULL) == 0 &&
           read == sizeof pepper->key;
}

static enum store_result take(struct store *store, const char *path, int fd,
                              struct pin_pepper *pepper) {
    struct stat stat;
    char text[TEXT_SIZE + 1];
    size_t size = 0;
    if (fstat(fd, &stat) != 0 || !S_ISREG(stat.st_mode)) {
        return connection_say(store, STORE_REFUSED, _("The key file of the PINs, %s, is no file."),
                              path);
    }
    if ((stat.st_mode & (S_IWGRP | S_IXGRP | S_IRWXO)) != 0) {
        return connection_say(store, STORE_REFUSED,
                              _("Others can get at the key file of the PINs, %s. Make it the "
                                "bench's alone: chmod 400."),
                              path);
    }
    bool good = read_text(fd, text, &size);
    if (!good) {
        connection_say(store, STORE_REFUSED, _("Cannot read the key file of the PINs, %s: %s."),
                       path, strerror(errno));
    } else if (!parse(text, size, pepper)) {
        good = false;
        connection_say(
            store, STORE_REFUSED,
            _("%s is no key file of PINs: one is made with `kerfside pin --new-pepper`."), path);
    }
    sodium_memzero(text, sizeof text);
    return good ? STORE_OK : STORE_REFUSED;
}

enum store_result store_set_pepper(struct store *store, const char *path) {
    enum store_result result;
    struct pin_pepper *pepper = sodium_malloc(sizeof *pepper);
    if (pepper == NULL) {
        return connection_say(store, STORE_FAILED, _("No memory for the key of the PINs."));
    }
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    if (fd < 0) {
        result =
            connection_say(store, STORE_REFUSED, _("Cannot open the key file of the PINs, %s: %s."),
                           path, strerror(errno));
    } else {
        result = take(store, path, fd, pepper);
        close(fd);
    }
    if (result != STORE_OK) {
        sodium_free(pepper);
        return result;
    }
    name(pepper);
    sodium_free(store->pepper);
    store->pepper = pepper;
    return STORE_OK;
}

// --- making ------------------------------------------------------------------------------------

// The name of a new file is on disk once its folder is.
static bool sync_folder(const char *path) {
    char copy[PATH_MAX];
    if (snprintf(copy, sizeof copy, "%s", path) >= (int)sizeof copy) {
        errno = ENAMETOOLONG;
        return false;
    }
    int fd = open(dirname(copy), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    bool synced = fd >= 0 && fsync(fd) == 0;
    if (fd >= 0) {
        close(fd);
    }
    return synced;
}

static bool write_text(int fd, const char *text) {
    ssize_t size = write(fd, text, TEXT_SIZE);
    if (size >= 0 && size < (ssize_t)TEXT_SIZE) {
        errno = ENOSPC;
    }
    return size == (ssize_t)TEXT_SIZE && fsync(fd) == 0;
}

enum store_result store_new_pepper(const char *path, char *message, size_t size) {
    uint8_t key[crypto_generichash_KEYBYTES];
    char text[TEXT_SIZE + 1];
    if (sodium_init() < 0) {
        snprintf(message, size, _("No random numbers here: nothing was made."));
        return STORE_FAILED;
    }
    int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0400);
    if (fd < 0) {
        snprintf(message, size, _("Cannot make %s: %s. Name a new file."), path, strerror(errno));
        return STORE_REFUSED;
    }
    randombytes_buf(key, sizeof key);
    sodium_bin2hex(text, sizeof text, key, sizeof key);
    text[TEXT_SIZE - 1] = '\n';
    bool written = fchmod(fd, 0400) == 0 && write_text(fd, text);
    sodium_memzero(key, sizeof key);
    sodium_memzero(text, sizeof text);
    if (close(fd) != 0 || !written || !sync_folder(path)) {
        snprintf(message, size, _("Cannot write %s: %s."), path, strerror(errno));
        unlink(path);
        return STORE_FAILED;
    }
    return STORE_OK;
}
