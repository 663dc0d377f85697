#include "witness_file.h"
#include "tongue.h"
#include "witness_disk.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define FILE_SIZE_MAX (8 << 20) // two signed days every day for fifty years
#define ORIGIN_BEGIN "kerfside/"

static enum witness_result fail(const char *path, const char *why, char *message, size_t size) {
    snprintf(message, size, _("Could not read the witness %s: %s."), path, why);
    return WITNESS_FAILED;
}

static enum witness_result damaged(const char *path, int line, const char *why, char *message,
                                   size_t size) {
    snprintf(message, size, _("The witness %s is damaged or not of this key: line %d: %s."), path,
             line, why);
    return WITNESS_DAMAGED;
}

static int lines(const char *bytes, size_t size) {
    int count = 0;
    for (size_t i = 0; i < size; i++) {
        count += bytes[i] == '\n' ? 1 : 0;
    }
    return count;
}

static bool add_mark(struct witness *witness, const struct checkpoint_note *note, int line) {
    if ((witness->count & (witness->count - 1)) == 0) { // full at every power of two
        size_t room = witness->count == 0 ? 1 : 2 * witness->count;
        struct witness_mark *mark = realloc(witness->mark, room * sizeof *mark);
        if (mark == NULL) {
            return false;
        }
        witness->mark = mark;
    }
    witness->mark[witness->count++] = (struct witness_mark){line, *note};
    return true;
}

// What is left may be the beginning of a note. After whole notes it may be anything that a disk
// leaves of one; a file with none must at least begin like a note to be taken for a witness.
static bool is_torn(const struct witness *witness, const char *bytes, size_t size) {
    size_t begin = strlen(ORIGIN_BEGIN);
    return witness->count > 0 || memcmp(bytes, ORIGIN_BEGIN, size < begin ? size : begin) == 0;
}

static enum witness_result take_notes(struct witness *witness, const char *bytes, size_t left,
                                      const uint8_t public[WITNESS_PUBLIC_SIZE], char *message,
                                      size_t size) {
    struct checkpoint_note note;
    size_t used;
    int bad;
    int line = 1;
    for (; left > 0; bytes += used, left -= used) {
        enum checkpoint_error error = checkpoint_parse(bytes, left, &note, &used, &bad);
        if (error == CHECKPOINT_CUT && is_torn(witness, bytes, left)) {
            witness->torn_line = line;
            return WITNESS_OK;
        }
        if (error != CHECKPOINT_OK) {
            return damaged(witness->path, line + bad - 1, _(checkpoint_error_words(error)), message,
                           size);
        }
        enum witness_signature signature = witness_key_verify(public, &note);
        if (signature != WITNESS_SIGNED) {
            return damaged(witness->path, line,
                           signature == WITNESS_FORGED
                               ? _("the signature does not fit what the note says")
                               : _("the note is signed by another key"),
                           message, size);
        }
        if (!add_mark(witness, &note, line)) {
            return fail(witness->path, _("no memory"), message, size);
        }
        witness->whole += used;
        line += lines(bytes, used);
    }
    return WITNESS_OK;
}

static int by_size(const void *a, const void *b) {
    const struct witness_mark *left = a;
    const struct witness_mark *right = b;
    if (left->note.checkpoint.size != right->note.checkpoint.size) {
        return left->note.checkpoint.size < right->note.checkpoint.size ? -1 : 1;
    }
    return left->line - right->line;
}

static enum witness_result take_file(struct witness *witness, int fd,
                                     const uint8_t public[WITNESS_PUBLIC_SIZE], char *message,
                                     size_t size) {
    struct stat stat;
    size_t got = 0;
    if (fstat(fd, &stat) != 0 || !S_ISREG(stat.st_mode) || stat.st_size > FILE_SIZE_MAX) {
        return fail(witness->path, _("it is no file, or too large"), message, size);
    }
    char *bytes = malloc((size_t)stat.st_size + 1);
    if (bytes == NULL) {
        return fail(witness->path, _("no memory"), message, size);
    }
    ssize_t more = 1;
    while (more > 0 && got < (size_t)stat.st_size) {
        more = read(fd, bytes + got, (size_t)stat.st_size - got);
        got += more > 0 ? (size_t)more : 0;
    }
    enum witness_result result = more < 0 ? fail(witness->path, strerror(errno), message, size)
                                          : take_notes(witness, bytes, got, public, message, size);
    free(bytes);
    if (result != WITNESS_FAILED && witness->count > 0) {
        qsort(witness->mark, witness->count, sizeof witness->mark[0], by_size);
    }
    return result;
}

enum witness_result witness_read(const char *path, const uint8_t public[WITNESS_PUBLIC_SIZE],
                                 struct witness *ret_witness, char *message, size_t size) {
    struct witness witness = {.fd = -1};
    int fd = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    if (fd < 0) {
        return fail(path, strerror(errno), message, size);
    }
    snprintf(witness.path, sizeof witness.path, "%s", path);
    enum witness_result result = take_file(&witness, fd, public, message, size);
    close(fd);
    if (result == WITNESS_FAILED) {
        free(witness.mark);
        return result;
    }
    *ret_witness = witness;
    return result;
}

enum witness_result witness_open(const char *path, const uint8_t public[WITNESS_PUBLIC_SIZE],
                                 struct witness *ret_witness, char *message, size_t size) {
    struct witness witness = {
        .fd = open(path, O_RDWR | O_APPEND | O_CREAT | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC, 0644)};
    enum witness_result result = WITNESS_FAILED;
    if (witness.fd < 0) {
        // Who made the link could have notes written anywhere.
        return fail(path,
                    errno == ELOOP ? _("it is a link; name the file itself") : strerror(errno),
                    message, size);
    }
    snprintf(witness.path, sizeof witness.path, "%s", path);
    if (flock(witness.fd, LOCK_EX | LOCK_NB) != 0) {
        fail(path, _("another program writes to it"), message, size);
    } else {
        result = take_file(&witness, witness.fd, public, message, size);
    }
    if (result != WITNESS_OK) {
        witness_release(&witness);
        return result;
    }
    *ret_witness = witness;
    return result;
}

bool witness_append(struct witness *witness, const struct checkpoint_note *note, char *message,
                    size_t size) {
    char text[CHECKPOINT_TEXT_MAX];
    size_t length = checkpoint_write(note, text);
    if ((witness->torn_line == 0 || ftruncate(witness->fd, (off_t)witness->whole) == 0) &&
        witness_disk_write(witness->fd, text, length) && fsync(witness->fd) == 0 &&
        witness_disk_sync_folder(witness->path)) {
        witness->whole += length;
        witness->torn_line = 0;
        return true;
    }
    snprintf(message, size, _("Could not write the witness %s: %s."), witness->path,
             strerror(errno));
    if (ftruncate(witness->fd, (off_t)witness->whole) != 0) {
        witness->torn_line = 1; // what was written of it stays, and is no note
    }
    return false;
}

const struct checkpoint_note *witness_note(const struct witness *witness, int64_t size) {
    for (size_t i = witness->count; i > 0; i--) {
        if (witness->mark[i - 1].note.checkpoint.size == size) {
            return &witness->mark[i - 1].note;
        }
    }
    return NULL;
}

void witness_release(struct witness *witness) {
    free(witness->mark);
    if (witness->fd >= 0) {
        close(witness->fd);
    }
    *witness = (struct witness){.fd = -1};
}
