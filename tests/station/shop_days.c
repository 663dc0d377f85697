// Days in the workshop of the tests: counts, papers, and a signature whose fate the test lays down.

#include "shop.h"
#include "words.h"

#include <string.h>

enum station_lookup shop_day(void *ctx, int64_t from_ms, int64_t to_ms,
                             struct station_day *ret_day) {
    const struct shop *shop = ctx;
    (void)from_ms;
    (void)to_ms;
    if (shop->lost > 0) {
        return STATION_LOOKUP_FAILED;
    }
    ret_day->entries = shop->seq;
    ret_day->uncovered = shop->seq - shop->signed_seq;
    ret_day->is_signed = shop->signed_seq != 0;
    if (ret_day->is_signed) {
        const struct shop_entry *entry = shop_slot((struct shop *)shop, shop->signed_seq);
        words_copy(ret_day->who, sizeof ret_day->who, entry->worker);
        words_copy(ret_day->brief, sizeof ret_day->brief, "2025-11-25 7 9F86-D081-884C-7D65");
        ret_day->signed_ms = 1764064800000;
    }
    return STATION_FOUND;
}

static bool paper(const struct shop *shop, const char *name, char *ret_path, size_t size) {
    if (shop->broken) {
        return false;
    }
    words_copy(ret_path, size, name);
    return true;
}

bool shop_report(void *ctx, int64_t from_ms, int64_t to_ms, char *ret_path, size_t size) {
    (void)from_ms;
    (void)to_ms;
    return paper(ctx, "/var/report.pdf", ret_path, size);
}

bool shop_ledger(void *ctx, int64_t from_ms, int64_t to_ms, char *ret_path, size_t size) {
    (void)from_ms;
    (void)to_ms;
    return paper(ctx, "/var/ledger.csv", ret_path, size);
}

bool shop_sign_ready(void *ctx, char *message, size_t size) {
    const struct shop *shop = ctx;
    if (shop->no_stick) {
        words_copy(message, size, "Could not read the witness. Is its stick plugged in?");
    }
    return !shop->no_stick;
}

bool shop_check_start(void *ctx, char *message, size_t size) {
    struct shop *shop = ctx;
    shop->check_read = 0;
    shop->checking = !shop->broken;
    if (shop->broken) {
        words_copy(message, size, "The check could not be started.");
    }
    return shop->checking;
}

enum station_check shop_check_step(void *ctx, struct station_checked *ret_checked, char *message,
                                   size_t size) {
    struct shop *shop = ctx;
    if (shop->check_looks > 0) {
        shop->check_looks--;
        shop->check_read += 3100000;
        *ret_checked = (struct station_checked){.entries = shop->check_read, .all = 10000000};
        return STATION_CHECK_GOES_ON;
    }
    shop->checking = false;
    if (shop->check_fails) {
        words_copy(message, size, "Entry 7: was changed after it was written. Nothing was signed.");
        return STATION_CHECK_BAD;
    }
    return STATION_CHECK_GOOD;
}

void shop_check_stop(void *ctx) {
    struct shop *shop = ctx;
    shop->checking = false;
}

enum station_sign shop_sign(void *ctx, struct entry *entry, int64_t day_ms,
                            char ret_note[VIEW_NOTE_MAX], char *message, size_t size) {
    struct shop *shop = ctx;
    bool fails = shop->broken || shop->fault != SHOP_NO_FAULT;
    (void)day_ms;
    words_copy(message, size, "");
    if (shop->signing == STATION_NOT_SIGNED || fails) {
        shop->fault = SHOP_NO_FAULT;
        words_copy(message, size, "The log does not fit the witness.");
        return STATION_NOT_SIGNED;
    }
    if (shop->signing == STATION_SIGN_UNKNOWN) {
        words_copy(message, size, "It is not known whether the day was signed.");
        return STATION_SIGN_UNKNOWN;
    }
    if (shop_append(shop, entry) != STATION_SAVED) {
        return STATION_NOT_SIGNED;
    }
    shop->signed_seq = entry->seq;
    words_copy(ret_note, VIEW_NOTE_MAX, "kerfside/Bench%202/0\n7\nhead\nday 2025-11-25\n");
    if (shop->signing == STATION_SIGNED_UNKEPT) {
        words_copy(message, size, "The witness is full. Sign once more when it can be written.");
    }
    return shop->signing;
}
