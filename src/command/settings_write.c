#include "settings_write.h"
#include "bench_set.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define WIDTH 98
#define ROOMY_LINE 190 // of the 198 that a line may have

static const char begin[] =
    "; Settings of one bench. Every key is optional; each says what holds without it and why.\n"
    "; Use the file with `kerfside bench --settings FILE`, or name it in KERFSIDE_SETTINGS.\n"
    "; A wrong line does not stop the bench: it names the line and goes on with the settings of "
    "the\n"
    "; last good file. `kerfside settings --check FILE` names every wrong line.\n"
    "; The bench writes this file when a supervisor changes a setting there. Then comments with "
    "`;`\n"
    "; are written anew, and those with `#` are yours and stay. Changed there, a setting holds at "
    "once\n"
    "; unless it says otherwise; changed in this file, from the next start.\n";

// A comment of several lines, broken between words.
static void comment(FILE *to, const char *text) {
    while (*text != '\0') {
        size_t size = strlen(text);
        if (size > WIDTH) {
            size = WIDTH;
            while (size > 0 && text[size] != ' ') {
                size--;
            }
            size = size == 0 ? strcspn(text, " ") : size;
        }
        fprintf(to, "; %.*s\n", (int)size, text);
        text += size;
        text += strspn(text, " ");
    }
}

static void one(FILE *to, const struct bench_lines *lines, size_t index) {
    const struct bench_key *key = bench_settings_key(index);
    char text[1200];
    fputc('\n', to);
    comment(to, key->what);
    snprintf(text, sizeof text, "Allowed: %s.", key->allowed);
    comment(to, text);
    snprintf(text, sizeof text, "%s%s: %s", key->standard[0] == '\0' ? "Empty" : "Standard ",
             key->standard, key->why);
    comment(to, text);
    if (key->holds == HOLDS_NEXT_START) {
        comment(to, "Holds from the next start of the bench.");
    }
    if (lines->own[index] != NULL) {
        fputs(lines->own[index], to);
    }
    const char *value = lines->value[index];
    // Behind a blank a semicolon begins a comment.
    bool tight = value[0] == ';' || strlen(key->key) + strlen(value) > ROOMY_LINE;
    const char *between = value[0] == '\0' ? " =" : tight ? "=" : " = ";
    fprintf(to, "%s%s%s\n", key->key, between, value);
}

static bool is_first(size_t index) {
    for (size_t i = 0; i < index; i++) {
        if (strcmp(bench_settings_key(i)->section, bench_settings_key(index)->section) == 0) {
            return false;
        }
    }
    return true;
}

void settings_print(FILE *to, const struct bench_lines *lines) {
    size_t count = bench_settings_count();
    fputs(begin, to);
    for (size_t first = 0; first < count; first++) {
        const char *section = bench_settings_key(first)->section;
        if (!is_first(first)) {
            continue;
        }
        fprintf(to, "\n[%s]", section);
        for (size_t i = first; i < count; i++) {
            if (strcmp(bench_settings_key(i)->section, section) == 0) {
                one(to, lines, i);
            }
        }
    }
    if (lines->own[BENCH_KEYS_MAX] != NULL) {
        fprintf(to, "\n%s", lines->own[BENCH_KEYS_MAX]);
    }
}

// --- the file ------------------------------------------------------------------------------------

static bool say(char *message, size_t size, const char *path) {
    snprintf(message, size, _("The file %.90s could not be written: %s."), path, strerror(errno));
    return false;
}

static bool write_all(int fd, const char *text, size_t size) {
    while (size > 0) {
        ssize_t wrote = write(fd, text, size);
        if (wrote < 0 && errno != EINTR) {
            return false;
        }
        text += wrote > 0 ? wrote : 0;
        size -= wrote > 0 ? (size_t)wrote : 0;
    }
    return true;
}

static bool sync_folder(const char *path) {
    char folder[PATH_MAX];
    snprintf(folder, sizeof folder, "%s", path);
    char *slash = strrchr(folder, '/');
    if (slash != NULL) {
        slash[slash == folder ? 1 : 0] = '\0';
    }
    int fd = open(slash == NULL ? "." : folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    bool synced = fd >= 0 && fsync(fd) == 0;
    if (fd >= 0) {
        close(fd);
    }
    return synced;
}

static bool fill(int fd, const struct stat *like, const char *text, size_t size) {
    if (like != NULL) {
        struct stat now;
        bool same =
            fstat(fd, &now) == 0 && now.st_uid == like->st_uid && now.st_gid == like->st_gid;
        if ((!same && fchown(fd, like->st_uid, like->st_gid) != 0) ||
            fchmod(fd, like->st_mode & 07777) != 0) {
            return false;
        }
    }
    return write_all(fd, text, size) && fsync(fd) == 0;
}

bool settings_replace(const char *path, const char *text, size_t text_size, char *message,
                      size_t size) {
    char made[PATH_MAX];
    struct stat stat_now;
    bool there = stat(path, &stat_now) == 0;
    if (snprintf(made, sizeof made, "%s.new", path) >= (int)sizeof made) {
        errno = ENAMETOOLONG;
        return say(message, size, path);
    }
    if (there && access(path, W_OK) != 0) {
        return say(message, size, path);
    }
    unlink(made); // of a power cut
    int fd = open(made, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0660);
    if (fd < 0) {
        return say(message, size, made);
    }
    bool written = fill(fd, there ? &stat_now : NULL, text, text_size);
    written = close(fd) == 0 && written;
    if (!written || rename(made, path) != 0) {
        say(message, size, path);
        unlink(made);
        return false;
    }
    return sync_folder(path) || say(message, size, path);
}
