#include "bench.h"
#include "paper_size.h"
#include "text.h"
#include "tongue.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define SECOND_US ((int64_t)1000000)
#define LONGEST_US (60 * SECOND_US) // a print server that does not answer
#define LOOK_US (SECOND_US / 4)     // for the end of one
#define WHY_MAX 100                 // leaves room for the name of a file

void bench_labels_init(struct bench *bench, const char *program) {
    bench->labels = (struct bench_labels){.program = program, .child = CHILD_NONE};
}

static const char *file_name(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash == NULL ? path : slash + 1;
}

// A file that was never written is of no use to anybody.
static bool kept(const char *path) {
    struct stat file;
    if (stat(path, &file) == 0 && file.st_size > 0) {
        return true;
    }
    unlink(path);
    return false;
}

// Of the line, as many whole sentences as fit.
static size_t sentences(const char *line) {
    size_t size = strcspn(line, "\n");
    size_t fit = 0;
    for (size_t i = 0; i < size && i < WHY_MAX; i++) {
        if (line[i] == '.' && (i + 1 == size || line[i + 1] == ' ')) {
            fit = i + 1;
        }
    }
    return fit > 0 ? fit : size < WHY_MAX ? size : WHY_MAX;
}

// The first thing that was said, without who said it: lp's word before our own.
static void failed(struct bench_labels *labels, const char *said) {
    struct text words = text_open(labels->words, sizeof labels->words);
    const char *colon = strstr(said, ": ");
    const char *why = colon == NULL || colon > said + strcspn(said, "\n.") ? said : colon + 2;
    labels->failed = true;
    char reason[WHY_MAX + 1];
    struct text sentence = text_open(reason, sizeof reason);
    text_add_bytes(&sentence, why, sentences(why));
    text_say(&words, kept(labels->path) ? _("Not printed: %1 The file: %2") : _("Not printed: %1"),
             reason, file_name(labels->path));
    fprintf(stderr, "kerfside bench: labels: %s\n", said[0] != '\0' ? said : labels->words);
}

static void printed(const struct bench *bench, struct bench_labels *labels) {
    struct text words = text_open(labels->words, sizeof labels->words);
    labels->failed = false;
    const char *pattern = tongue_plural("%1 label in %2, beside the database.",
                                        "%1 labels in %2, beside the database.", labels->count);
    if (bench->settings->labels_print) {
        unlink(labels->path); // the printer has it
        pattern = tongue_plural("%1 label sent to the printer.", "%1 labels sent to the printer.",
                                labels->count);
    }
    text_say(&words, pattern, text_number((int64_t)labels->count).digits, file_name(labels->path));
}

static const char *stock_name(const struct bench_settings *settings) {
    return settings->labels_stock != NULL ? settings->labels_stock->name
                                          : paper_size_name(paper_size(settings->paper));
}

static bool make_file(struct bench *bench, char path[VIEW_TEXT_MAX], char message[VIEW_TEXT_MAX]) {
    int fd = bench_new_file(bench, "labels", bench_clock_wall_ms(&bench->clock), "pdf", path,
                            VIEW_TEXT_MAX);
    if (fd < 0) {
        snprintf(message, VIEW_TEXT_MAX,
                 _("Not printed: no file can be made beside the database: %s."), strerror(errno));
        return false;
    }
    close(fd);
    return true;
}

// Those that wait, all in one file.
static bool begin(struct bench *bench, char message[VIEW_TEXT_MAX]) {
    struct bench_labels *labels = &bench->labels;
    const struct bench_settings *settings = bench->settings;
    const char *arguments[BENCH_LABELS_MAX + 12] = {
        "kerfside",           "tickets", "--db",      store_path(bench->store), "--on",
        stock_name(settings), "--pdf",   labels->path};
    size_t count = 8;
    if (settings->labels_print) {
        arguments[count++] = "--print";
    }
    if (settings->labels_print && settings->labels_queue[0] != '\0') {
        arguments[count++] = "--queue";
        arguments[count++] = settings->labels_queue;
    }
    for (size_t i = 0; i < labels->waiting_count; i++) {
        arguments[count++] = labels->waiting[i];
    }
    labels->count = labels->waiting_count;
    labels->waiting_count = 0;
    if (!make_file(bench, labels->path, message)) {
        return false;
    }
    if (!child_start(&labels->child, labels->program, arguments)) {
        kept(labels->path);
        snprintf(message, VIEW_TEXT_MAX, "%s", _("Not printed: the program could not be started."));
        return false;
    }
    labels->until_us = bench_clock_us(&bench->clock) + LONGEST_US;
    return true;
}

bool bench_print_labels(struct bench *bench, const char *const *tickets, size_t count,
                        char message[VIEW_TEXT_MAX]) {
    struct bench_labels *labels = &bench->labels;
    struct ticket ticket;
    struct text words;
    if (count > BENCH_LABELS_MAX - labels->waiting_count) {
        snprintf(
            message, VIEW_TEXT_MAX, "%s",
            _("Not printed: too many labels wait for the printer. Try again when it has printed."));
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        if (ticket_parse(tickets[i], &ticket) != TICKET_OK) {
            snprintf(message, VIEW_TEXT_MAX, _("Not printed: %.40s is no ticket."), tickets[i]);
            return false;
        }
        memcpy(labels->waiting[labels->waiting_count + i], ticket.text, TICKET_TEXT_MAX);
    }
    labels->waiting_count += count;
    if (labels->child.pid == 0 && count > 0 && !begin(bench, message)) {
        return false;
    }
    words = text_open(message, VIEW_TEXT_MAX);
    text_say(&words,
             bench->settings->labels_print
                 ? tongue_plural("%1 label on the way to the printer.",
                                 "%1 labels on the way to the printer.", count)
                 : tongue_plural("%1 label being made.", "%1 labels being made.", count),
             text_number((int64_t)count).digits);
    return true;
}

bool bench_labels_tick(struct bench *bench) {
    struct bench_labels *labels = &bench->labels;
    char said[CHILD_TEXT_MAX];
    bool good;
    if (child_ended(&labels->child, &good, said)) {
        if (good) {
            printed(bench, labels);
        } else {
            failed(labels, said);
        }
    } else if (labels->child.pid != 0 && bench_clock_us(&bench->clock) >= labels->until_us) {
        child_stop(&labels->child);
        failed(labels, _("the printer does not answer."));
    } else {
        return false;
    }
    if (labels->waiting_count > 0 && !begin(bench, labels->words)) {
        labels->failed = true;
        fprintf(stderr, "kerfside bench: labels: %s\n", labels->words);
    }
    return true;
}

int64_t bench_labels_patience(const struct bench *bench) {
    return bench->labels.child.pid != 0 ? LOOK_US : -1;
}

void bench_labels_stop(struct bench *bench) {
    struct bench_labels *labels = &bench->labels;
    if (labels->child.pid != 0) {
        child_stop(&labels->child);
        kept(labels->path);
    }
    labels->waiting_count = 0;
}
