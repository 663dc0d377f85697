#include "command.h"
#include "options.h"
#include "picture.h"
#include "reader.h"
#include "tongue.h"

#include <semaphore.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

// A file has nobody waiting before it: every step there is, and time for the largest picture.
#define LIMIT_MS 60000
#define BUDGET_US INT64_MAX
// Between the frames of one file and of the next: what was seen in one is out of view by then.
#define APART_US (10 * ACCEPT_AWAY_US)

struct reading {
    struct reader *reader;
    sem_t woken;
    bool raw;
    struct accept accept; // over the frames of all files, as on the bench
    int64_t time_us;      // of the newest frame
    bool found;           // a code of this file counts
};

static void wake(void *ctx) {
    sem_post(ctx);
}

static const char *worth(enum accept_verdict verdict, enum accept_news news) {
    switch (verdict) {
    case ACCEPT_TICKET:
    case ACCEPT_MODEL:
        return news == ACCEPT_WAIT ? _("too few lines agree") : _("counts");
    case ACCEPT_DAMAGED:
        return _("another check character");
    case ACCEPT_FOREIGN:
        break;
    }
    return _("no ticket and no maker's code");
}

static void show(struct reading *r, const char *file, const struct code *code) {
    enum accept_verdict verdict = accept_judge(code->symbology, code->text);
    enum accept_news news = accept_take(&r->accept, code, r->time_us);
    bool counts = verdict == ACCEPT_TICKET || verdict == ACCEPT_MODEL;
    r->found = r->found || (counts && news == ACCEPT_NEW);
    if (r->raw) {
        printf("%s\t%s\t%s\t%s\n", file, code_symbology_text(code->symbology), code->text,
               worth(verdict, news));
    } else if (counts && news == ACCEPT_NEW) {
        printf("%s\t%s\t%s\n", file, code_symbology_text(code->symbology), code->text);
    }
}

// False when the decoder did not get through it.
static bool read_frame(struct reading *r, const char *file, const struct frame *frame) {
    uint64_t restarts = reader_counts(r->reader).restarts;
    struct reader_sight sight;
    reader_offer(r->reader, frame);
    while (!reader_sight(r->reader, &sight)) {
        struct timespec end;
        if (reader_counts(r->reader).restarts > restarts) {
            return false;
        }
        clock_gettime(CLOCK_REALTIME, &end);
        end.tv_nsec += 50000000;
        end.tv_sec += end.tv_nsec / 1000000000;
        end.tv_nsec %= 1000000000;
        sem_timedwait(&r->woken, &end);
    }
    for (size_t i = 0; i < sight.count; i++) {
        show(r, file, &sight.code[i]);
    }
    return true;
}

static bool complain(const char *name, const char *file, const char *error, const char *advice) {
    fprintf(stderr, "kerfside %s: %s: %s. %s\n", name, file, error, advice);
    return false;
}

// Whether a code of it counts, and all of it could be read.
static bool read_file(struct reading *r, const char *name, const char *file) {
    char error[PICTURE_TEXT_MAX];
    struct picture *picture = picture_open(file, error);
    int64_t start_us = r->time_us + APART_US;
    enum picture_result result;
    struct frame frame;
    bool through = true;
    r->found = false;
    if (picture == NULL) {
        return complain(name, file, error, _("Give a PNG, JPEG, PGM or Y4M file."));
    }
    while (through && (result = picture_next(picture, &frame, error)) == PICTURE_FRAME) {
        frame.time_us += start_us;
        r->time_us = frame.time_us;
        through = read_frame(r, file, &frame);
        free(frame.pixels);
    }
    picture_close(picture);
    if (!through) {
        return complain(name, file, _("the decoder did not get through it"),
                        _("Cut the picture to what is around the code."));
    }
    if (result == PICTURE_BAD) {
        return complain(name, file, error, _("Take or copy the picture again."));
    }
    if (!r->found) {
        fprintf(stderr, _("kerfside %s: %s: no code that counts. See --raw.\n"), name, file);
    }
    return r->found;
}

static bool start(struct reading *r, const char *name) {
    r->reader = reader_init(&(struct reader_options){
        .limit_ms = LIMIT_MS, .budget_us = BUDGET_US, .wake = wake, .ctx = &r->woken});
    if (r->reader == NULL || !reader_start(r->reader)) {
        fprintf(stderr, _("kerfside %s: cannot start the decoder. Close other programs.\n"), name);
        reader_destroy(r->reader);
        return false;
    }
    return true;
}

int command_read(int argc, char **argv) {
    struct reading r = {0};
    const struct option options[] = {{"--raw", NULL, &r.raw}};
    bool all = true;
    int count;
    if (!options_read_plain(argc, argv, options, 1, 1, argc, N_("a picture"), &count)) {
        return COMMAND_USAGE;
    }
    accept_init(&r.accept);
    sem_init(&r.woken, 0, 0);
    if (!start(&r, argv[0])) {
        sem_destroy(&r.woken);
        return COMMAND_REFUSED;
    }
    for (int i = 1; i <= count; i++) {
        all = read_file(&r, argv[0], argv[i]) && all;
    }
    reader_stop(r.reader);
    reader_join(r.reader);
    reader_destroy(r.reader);
    sem_destroy(&r.woken);
    return all ? COMMAND_DONE : COMMAND_REFUSED;
}
