// A day as the review shows, files and signs it.

#include "bench.h"
#include "day_papers.h"
#include "days.h"
#include "ledger.h"
#include "paper_size.h"
#include "qr.h"
#include "signing.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

_Static_assert(VIEW_NOTE_MAX == CHECKPOINT_TEXT_MAX, "a note has room in the view");
_Static_assert(VIEW_CODE_MAX == QR_SIDE_MAX, "a code has room in the view");

static bool complain(const char *message) {
    fprintf(stderr, "kerfside bench: %s\n", message);
    return false;
}

// --- what it came to -----------------------------------------------------------------------------

static bool fill_signature(struct store *store, int64_t from_ms, struct station_day *day) {
    struct day_signature signature;
    char name[CHECKPOINT_DAY_MAX];
    enum store_result result = store_signature(store, NULL, NULL, &signature);
    day->uncovered = day->entries - (result == STORE_OK ? signature.checkpoint.size : 0);
    if (result == STORE_OK) {
        days_text(from_ms, name);
        result = store_signature(store, name, name, &signature);
    }
    if (result == STORE_OK) {
        day->is_signed = true;
        day->signed_ms = signature.wall_ms;
        memcpy(day->who, signature.worker, sizeof day->who);
        _Static_assert(sizeof day->brief >= CHECKPOINT_SHORT_MAX, "the short form has room");
        checkpoint_short(&signature.checkpoint, day->brief);
    }
    return result == STORE_OK || result == STORE_NONE;
}

enum station_lookup bench_day(void *ctx, int64_t from_ms, int64_t to_ms,
                              struct station_day *ret_day) {
    const struct bench *bench = ctx;
    struct station_day day = {.open = 0};
    struct log_filter all = {0};
    struct log_line newest;
    struct day_count count;
    if (store_day(bench->store, from_ms, to_ms, &count) != STORE_OK ||
        store_log(bench->store, &all, 0, &newest, 1) != 1) {
        complain(store_message(bench->store));
        return STATION_LOOKUP_FAILED;
    }
    day.today = (struct view_today){.clubs = count.clubs_done,
                                    .cuts = count.cuts,
                                    .out = count.out_of_tolerance,
                                    .holds = count.holds};
    day.open = count.open_decisions;
    day.entries = newest.seq;
    if (!fill_signature(bench->store, from_ms, &day)) {
        complain(store_message(bench->store));
        return STATION_LOOKUP_FAILED;
    }
    *ret_day = day;
    return STATION_FOUND;
}

// --- its papers ---------------------------------------------------------------------------------

// With the signed note if key and witness are at hand, else without.
static bool write_report(const struct bench *bench, struct day_papers *papers, const char *path) {
    const struct bench_settings *settings = bench->settings;
    char witness[1000];
    char public[BENCH_PATH_MAX + 8];
    char message[SIGNING_TEXT_MAX];
    size_t pages;
    snprintf(public, sizeof public, "%s.pub", settings->sign_key);
    if (settings->sign_key[0] != '\0' && settings->sign_witness[0] != '\0' &&
        signing_witness(bench->store, settings->sign_witness, witness, sizeof witness, message,
                        sizeof message)) {
        papers->witness = witness;
        papers->public = public;
        bool written =
            day_papers_report(bench->store, papers, path, &pages, message, sizeof message);
        papers->witness = NULL;
        papers->public = NULL;
        if (written) {
            return true;
        }
        complain(message);
    }
    return day_papers_report(bench->store, papers, path, &pages, message, sizeof message) ||
           complain(message);
}

bool bench_day_report(void *ctx, int64_t from_ms, int64_t to_ms, char *ret_path, size_t size) {
    const struct bench *bench = ctx;
    const struct bench_settings *settings = bench->settings;
    char path[VIEW_TEXT_MAX];
    struct day_papers papers = {.from_ms = from_ms,
                                .to_ms = to_ms,
                                .tolerance = settings->station.rules.tolerance,
                                .metric = settings->station.metric_first,
                                .now_ms = bench_clock_wall_ms(&bench->clock),
                                .paper = paper_size(settings->paper)};
    int fd = bench_new_file(bench, "report", from_ms, "pdf", path, sizeof path);
    if (fd < 0) {
        return complain(_("cannot make a file for the report beside the database."));
    }
    close(fd); // the page takes its place
    if (!write_report(bench, &papers, path)) {
        unlink(path);
        return false;
    }
    snprintf(ret_path, size, "%s", path);
    return true;
}

bool bench_ledger(void *ctx, int64_t from_ms, int64_t to_ms, char *ret_path, size_t size) {
    const struct bench *bench = ctx;
    char path[VIEW_TEXT_MAX];
    char message[600];
    snprintf(message, sizeof message, "%s", _("the disk did not take it."));
    int64_t rows;
    int fd = bench_new_file(bench, "ledger", from_ms, "csv", path, sizeof path);
    if (fd < 0) {
        return complain(_("cannot make a file for the ledger beside the database."));
    }
    bool done = ledger_write(bench->store, from_ms, to_ms, fd, &rows, message, sizeof message) &&
                fsync(fd) == 0;
    if (close(fd) != 0 || !done) {
        unlink(path);
        return complain(message);
    }
    snprintf(ret_path, size, "%s", path);
    return true;
}

// --- its signature -------------------------------------------------------------------------------

static bool open_signing(const struct bench *bench, struct signing *signing, char *message,
                         size_t size) {
    const struct bench_settings *settings = bench->settings;
    char why[SIGNING_TEXT_MAX];
    bench_watch_extend(&bench->watch, BENCH_WATCH_LONG_US); // a stick may take its time
    if (settings->sign_key[0] == '\0') {
        snprintf(
            message, size,
            _("No key is set up at this bench: see [sign] in its settings. Until then sign with "
              "`kerfside sign`."));
        return false;
    }
    if (settings->sign_witness[0] == '\0') {
        snprintf(
            message, size,
            _("No witness is set up at this bench: see [sign] in its settings. Until then sign "
              "with `kerfside sign`."));
        return false;
    }
    if (!signing_open(signing, bench->store, settings->sign_key, settings->sign_witness, false, why,
                      sizeof why)) {
        snprintf(message, size, "%.*s", (int)size - 1, why);
        return false;
    }
    return true;
}

bool bench_sign_ready(void *ctx, char *message, size_t size) {
    const struct bench *bench = ctx;
    struct signing signing;
    if (bench->practice.on) {
        snprintf(message, size, "%s", _("This is practice: no day of it is signed."));
        return false;
    }
    if (!open_signing(ctx, &signing, message, size)) {
        return false;
    }
    signing_close(&signing);
    return true;
}

static void close_signing(struct bench *bench) {
    if (bench->signing_open) {
        signing_close(&bench->signing);
        bench->signing_open = false;
    }
}

void bench_check_stop(void *ctx) {
    struct bench *bench = ctx;
    bench_signing_stop(&bench->check);
    close_signing(bench);
}

bool bench_check_start(void *ctx, char *message, size_t size) {
    struct bench *bench = ctx;
    struct log_filter every = {0};
    struct log_line newest = {0};
    bench_check_stop(bench);
    bench->signing_open = open_signing(bench, &bench->signing, message, size);
    if (!bench->signing_open) {
        return false;
    }
    store_log(bench->store, &every, 0, &newest, 1); // else only how far it is remains unknown
    bench->signing_all = newest.seq;
    if (!bench_signing_start(&bench->check, &bench->signing, bench->settings->station.bench,
                             message, size)) {
        close_signing(bench);
        return complain(message);
    }
    return true;
}

enum station_check bench_check_step(void *ctx, struct station_checked *ret_checked, char *message,
                                    size_t size) {
    struct bench *bench = ctx;
    bool good;
    if (!bench_signing_ended(&bench->check, &good)) {
        *ret_checked = (struct station_checked){
            .entries = bench_signing_read(&bench->check, bench->signing_all),
            .all = bench->signing_all};
        return STATION_CHECK_GOES_ON;
    }
    if (!good) {
        complain(bench->check.message);
        snprintf(message, size, "%.*s", (int)size - 1, bench->check.message);
        close_signing(bench);
    }
    return good ? STATION_CHECK_GOOD : STATION_CHECK_BAD;
}

enum station_sign bench_sign(void *ctx, struct entry *entry, int64_t day_ms,
                             char ret_note[VIEW_NOTE_MAX], char *message, size_t size) {
    static const enum station_sign results[] = {[SIGNING_DONE] = STATION_SIGNED,
                                                [SIGNING_REFUSED] = STATION_NOT_SIGNED,
                                                [SIGNING_UNKNOWN] = STATION_SIGN_UNKNOWN,
                                                [SIGNING_NOT_KEPT] = STATION_SIGNED_UNKEPT};
    struct bench *bench = ctx;
    struct checkpoint_note note;
    char day[CHECKPOINT_DAY_MAX];
    char why[SIGNING_TEXT_MAX] = "";
    bench_watch_extend(&bench->watch, BENCH_WATCH_LONG_US);
    days_text(day_ms, day);
    snprintf(entry->boot, sizeof entry->boot, "%s", bench->boot);
    enum signing_result result = signing_sign(&bench->signing, entry, day, &note, why, sizeof why);
    close_signing(bench);
    if (result == SIGNING_DONE || result == SIGNING_NOT_KEPT) {
        bench->checkpoint_due = true;
        checkpoint_write(&note, ret_note);
    }
    if (result != SIGNING_DONE) {
        complain(why);
        snprintf(message, size, "%.*s", (int)size - 1, why);
    }
    return results[result];
}

void bench_show_code(struct view_day *day) {
    struct qr qr;
    day->code.side = 0;
    if (day->note[0] != '\0' && qr_make(day->note, &qr)) {
        day->code.side = qr.side;
        memcpy(day->code.dark, qr.dark, sizeof day->code.dark);
    }
}
