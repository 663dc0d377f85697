#include "witness_key.h"
#include "base64.h"
#include "tongue.h"
#include "witness_disk.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <sodium.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define SECRET_BEGIN "kerfside-secret-1 "
#define PUBLIC_BEGIN "kerfside-public-1 "
#define LINE_SIZE 63 // begin, base64 of 32 bytes, newline
#define ED25519 1    // the algorithm's number in c2sp.org/signed-note

_Static_assert(WITNESS_SEED_SIZE == crypto_sign_SEEDBYTES, "seed");
_Static_assert(WITNESS_PUBLIC_SIZE == crypto_sign_PUBLICKEYBYTES, "public key");
_Static_assert(WITNESS_SECRET_SIZE == crypto_sign_SECRETKEYBYTES, "secret key");
_Static_assert(CHECKPOINT_SIGNATURE_SIZE == crypto_sign_BYTES, "signature");
_Static_assert(sizeof SECRET_BEGIN - 1 + BASE64_SIZE(32) + 1 == LINE_SIZE, "line");
_Static_assert(sizeof SECRET_BEGIN == sizeof PUBLIC_BEGIN, "both lines are as long");

void witness_key_from_seed(const uint8_t seed[WITNESS_SEED_SIZE], struct witness_key *ret_key) {
    crypto_sign_seed_keypair(ret_key->public, ret_key->secret, seed);
}

void witness_key_wipe(struct witness_key *key) {
    sodium_memzero(key, sizeof *key);
}

void witness_key_sign_bytes(const struct witness_key *key, const void *bytes, size_t size,
                            uint8_t ret_signature[CHECKPOINT_SIGNATURE_SIZE]) {
    crypto_sign_detached(ret_signature, NULL, bytes, size, key->secret);
}

bool witness_key_verify_bytes(const uint8_t public[WITNESS_PUBLIC_SIZE], const void *bytes,
                              size_t size, const uint8_t signature[CHECKPOINT_SIGNATURE_SIZE]) {
    return crypto_sign_verify_detached(signature, bytes, size, public) == 0;
}

// c2sp.org/signed-note: the first bytes of SHA-256 over name, newline, algorithm and public key.
static void key_id(const uint8_t public[WITNESS_PUBLIC_SIZE], const struct checkpoint *checkpoint,
                   uint8_t ret_id[CHECKPOINT_KEY_ID_SIZE]) {
    static const uint8_t between[] = {'\n', ED25519};
    char origin[CHECKPOINT_ORIGIN_MAX];
    uint8_t hash[crypto_hash_sha256_BYTES];
    crypto_hash_sha256_state state;
    checkpoint_origin(checkpoint, origin);
    crypto_hash_sha256_init(&state);
    crypto_hash_sha256_update(&state, (const uint8_t *)origin, strlen(origin));
    crypto_hash_sha256_update(&state, between, sizeof between);
    crypto_hash_sha256_update(&state, public, WITNESS_PUBLIC_SIZE);
    crypto_hash_sha256_final(&state, hash);
    memcpy(ret_id, hash, CHECKPOINT_KEY_ID_SIZE);
}

void witness_key_sign(const struct witness_key *key, const struct checkpoint *checkpoint,
                      struct checkpoint_note *ret_note) {
    struct checkpoint_note note = {.checkpoint = *checkpoint, .signature_count = 1};
    char body[CHECKPOINT_BODY_MAX];
    size_t size = checkpoint_body(checkpoint, body);
    key_id(key->public, checkpoint, note.signature[0].key_id);
    witness_key_sign_bytes(key, body, size, note.signature[0].bytes);
    *ret_note = note;
}

enum witness_signature witness_key_verify(const uint8_t public[WITNESS_PUBLIC_SIZE],
                                          const struct checkpoint_note *note) {
    enum witness_signature found = WITNESS_OTHER_KEY;
    uint8_t id[CHECKPOINT_KEY_ID_SIZE];
    char body[CHECKPOINT_BODY_MAX];
    size_t size = checkpoint_body(&note->checkpoint, body);
    key_id(public, &note->checkpoint, id);
    for (size_t i = 0; i < note->signature_count && found != WITNESS_SIGNED; i++) {
        const struct checkpoint_signature *signature = &note->signature[i];
        if (memcmp(signature->key_id, id, sizeof id) == 0) {
            found = witness_key_verify_bytes(public, body, size, signature->bytes) ? WITNESS_SIGNED
                                                                                   : WITNESS_FORGED;
        }
    }
    return found;
}

// --- files -------------------------------------------------------------------------------------

static bool fail(char *message, size_t size, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

static bool fail(char *message, size_t size, const char *format, ...) {
    va_list args;
    va_start(args, format);
    vsnprintf(message, size, format, args);
    va_end(args);
    return false;
}

// A new file with one line of 32 bytes, on the disk.
static bool write_line(const char *path, mode_t mode, const char *begin, const uint8_t bytes[32],
                       char *message, size_t size) {
    char line[LINE_SIZE + 1];
    int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode);
    if (fd < 0) {
        return errno == EEXIST
                   ? fail(message, size,
                          _("Could not make %s: it exists already, and a key is never overwritten. "
                            "Name another file."),
                          path)
                   : fail(message, size, _("Could not make %s: %s."), path, strerror(errno));
    }
    memcpy(line, begin, strlen(begin));
    base64_write(bytes, 32, line + strlen(begin));
    line[LINE_SIZE - 1] = '\n';
    bool written =
        fchmod(fd, mode) == 0 && witness_disk_write(fd, line, LINE_SIZE) && fsync(fd) == 0;
    int reason = errno;
    sodium_memzero(line, sizeof line);
    if (close(fd) != 0 && written) {
        reason = errno;
        written = false;
    }
    if (!written) {
        unlink(path);
        return fail(message, size, _("Could not write %s: %s."), path, strerror(reason));
    }
    return true;
}

// Reads the one line of 32 bytes. `mask`: rights that nobody may have.
static bool read_line(const char *path, mode_t mask, const char *begin, uint8_t ret_bytes[32],
                      char *message, size_t size) {
    char line[LINE_SIZE + 1] = "";
    struct stat stat;
    bool secret = mask != 0;
    int fd = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    if (fd < 0) {
        return errno == ENOENT && secret
                   ? fail(message, size,
                          _("Could not open the key %s: there is none. Make one with `kerfside key "
                            "FILE`, or name another with --key."),
                          path)
                   : fail(message, size, _("Could not open the key %s: %s."), path,
                          strerror(errno));
    }
    bool known = fstat(fd, &stat) == 0 && S_ISREG(stat.st_mode);
    ssize_t got = known ? read(fd, line, sizeof line) : -1;
    close(fd);
    bool right = false;
    if (got < 0) {
        fail(message, size, _("Could not read the key %s: it is no file that can be read."), path);
    } else if (secret && strncmp(line, PUBLIC_BEGIN, strlen(PUBLIC_BEGIN)) == 0) {
        fail(message, size,
             _("Could not use the key %s: it is the public half. Name the secret file."), path);
    } else if (!secret && strncmp(line, SECRET_BEGIN, strlen(SECRET_BEGIN)) == 0) {
        fail(message, size,
             _("Could not use the key %s: it is the secret half, which should not be here. Name "
               "the file that ends in .pub."),
             path);
    } else if ((stat.st_mode & mask) != 0) {
        fail(message, size,
             _("The key %s has the rights %04o: others can read it, or it can be written. Take "
               "them away with `chmod 0400`, and make a new key if somebody may have read it."),
             path, (unsigned)(stat.st_mode & 07777));
    } else if (got != LINE_SIZE) {
        fail(message, size,
             _("The key %s has the wrong length: one line of %d bytes belongs there."), path,
             LINE_SIZE);
    } else {
        right = strncmp(line, begin, strlen(begin)) == 0 && line[LINE_SIZE - 1] == '\n' &&
                base64_read(line + strlen(begin), ret_bytes, 32);
        if (!right) {
            fail(message, size,
                 _("Could not use the key %s: it is damaged, or no key of this program."), path);
        }
    }
    sodium_memzero(line, sizeof line);
    return right;
}

bool witness_key_make(const char *path, char ret_public[WITNESS_PUBLIC_TEXT_MAX], char *message,
                      size_t size) {
    struct witness_key key;
    uint8_t seed[WITNESS_SEED_SIZE];
    char public_path[PATH_MAX];
    if (sodium_init() < 0 ||
        snprintf(public_path, sizeof public_path, "%s.pub", path) >= PATH_MAX) {
        return fail(message, size,
                    _("Could not make %s: the name is too long, or there is no memory."), path);
    }
    randombytes_buf(seed, sizeof seed);
    witness_key_from_seed(seed, &key);
    bool made = write_line(path, 0400, SECRET_BEGIN, seed, message, size);
    if (made && !write_line(public_path, 0444, PUBLIC_BEGIN, key.public, message, size)) {
        unlink(path);
        made = false;
    }
    if (made && !witness_disk_sync_folder(path)) {
        fail(message, size, _("Could not write the folder of %s: %s."), path, strerror(errno));
        unlink(path);
        unlink(public_path);
        made = false;
    }
    if (made) {
        memcpy(ret_public, PUBLIC_BEGIN, strlen(PUBLIC_BEGIN));
        base64_write(key.public, sizeof key.public, ret_public + strlen(PUBLIC_BEGIN));
    }
    sodium_memzero(seed, sizeof seed);
    witness_key_wipe(&key);
    return made;
}

bool witness_key_read(const char *path, struct witness_key *ret_key, char *message, size_t size) {
    uint8_t seed[WITNESS_SEED_SIZE];
    bool right = sodium_init() >= 0 && read_line(path, 0377, SECRET_BEGIN, seed, message, size);
    if (right) {
        witness_key_from_seed(seed, ret_key);
    }
    sodium_memzero(seed, sizeof seed);
    return right;
}

bool witness_key_read_public(const char *path, uint8_t ret_public[WITNESS_PUBLIC_SIZE],
                             char *message, size_t size) {
    uint8_t public[WITNESS_PUBLIC_SIZE];
    bool right = read_line(path, 0, PUBLIC_BEGIN, public, message, size);
    if (right) {
        memcpy(ret_public, public, sizeof public);
    }
    return right;
}
