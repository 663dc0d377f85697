#include "shop.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static int64_t mono_ms(void *ctx) {
    const struct shop *shop = ctx;
    return shop->now_ms;
}

static int64_t wall_ms(void *ctx) {
    const struct shop *shop = ctx;
    return 1772440200000 + shop->now_ms; // 2 March 2026, 08:30 UTC
}

static void random_id(void *ctx, char ret_id[CONFIRM_ID_MAX]) {
    struct shop *shop = ctx;
    snprintf(ret_id, CONFIRM_ID_MAX, "%032llx", 0xabcdull << 32 | ++shop->fixture.ids);
}

// A bench at Greenwich. Days are counted from 1970.
static void time_text(void *ctx, int64_t ms, bool date, char *buffer, size_t size) {
    (void)ctx;
    if (date) {
        snprintf(buffer, size, "%lld", (long long)(ms / 86400000));
    } else {
        snprintf(buffer, size, "%lld:%02lld", (long long)(ms / 3600000 % 24),
                 (long long)(ms / 60000 % 60));
    }
}

static int64_t date_ms(void *ctx, const char *date) {
    struct tm day = {.tm_mday = 1};
    (void)ctx;
    day.tm_year = atoi(date) - 1900; // only first days of years are asked for
    return (int64_t)timegm(&day) * 1000;
}

static enum station_save save_all(void *ctx, struct entry *entries, size_t count) {
    struct shop *shop = ctx;
    switch ((int)store_append_all(shop->fixture.store, entries, count)) {
    case STORE_OK:
        return STATION_SAVED;
    case STORE_REFUSED:
        return STATION_SAVE_REFUSED;
    default:
        return STATION_SAVE_FAILED;
    }
}

static void why(void *ctx, char *buffer, size_t size) {
    const struct shop *shop = ctx;
    snprintf(buffer, size, "%s", store_message(shop->fixture.store));
}

void shop_open(struct shop *shop) {
    memset(shop, 0, sizeof *shop);
    fixture_open(&shop->fixture);
    shop->settings.rules = (struct bench_rules)BENCH_RULES_DEFAULT;
    strcpy(shop->settings.bench, BENCH);
    shop->world = (struct station_ops){.ctx = shop,
                                       .mono_ms = mono_ms,
                                       .wall_ms = wall_ms,
                                       .random_id = random_id,
                                       .time_text = time_text,
                                       .date_ms = date_ms,
                                       .save_all = save_all,
                                       .why = why};
    shop->office = (struct office){
        .store = shop->fixture.store, .world = &shop->world, .settings = &shop->settings};
    shop->ops = office_ops(&shop->office);
    assert_int_equal(store_worker(shop->fixture.store, SUPERVISOR, &shop->who), STORE_OK);
}

void shop_close(struct shop *shop) {
    fixture_expect_check(shop->fixture.store);
    fixture_close(&shop->fixture);
}

int shop_opened(void **state) {
    static struct shop shop;
    shop_open(&shop);
    *state = &shop;
    return 0;
}

int shop_closed(void **state) {
    shop_close(*state);
    return 0;
}

int64_t shop_entries(const struct shop *shop) {
    sqlite3 *db = fixture_raw(shop->fixture.path);
    int64_t count = fixture_number(db, "SELECT count(*) FROM log");
    sqlite3_close(db);
    return count;
}

struct desk_draft shop_draft(struct shop *shop, enum desk_form form, const char *a, const char *b,
                             const char *c) {
    const char *const keys[DESK_KEYS] = {a, b, c};
    struct desk_draft draft;
    memset(&draft, 0, sizeof draft);
    draft.form = form;
    for (size_t i = 0; i < DESK_KEYS; i++) {
        snprintf(draft.of.key[i], DESK_KEY_MAX, "%s", keys[i] != NULL ? keys[i] : "");
    }
    random_id(shop, draft.id);
    assert_int_equal(shop->ops.begin(shop->ops.ctx, &draft), DESK_DONE);
    return draft;
}

void shop_set(struct desk_draft *draft, const char *cell, const char *value) {
    assert_true(document_set(&draft->now, cell, value));
}

struct desk_remarks shop_consider(struct shop *shop, struct desk_draft *draft) {
    struct desk_remarks remarks;
    memset(&remarks, 0, sizeof remarks);
    shop->ops.consider(shop->ops.ctx, &shop->who, draft, &remarks);
    return remarks;
}

int64_t shop_save(struct shop *shop, struct desk_draft *draft) {
    struct desk_said said;
    long long seq = 0;
    memset(&said, 0, sizeof said);
    if (shop->ops.save(shop->ops.ctx, &shop->who, draft, &said) != DESK_DONE ||
        sscanf(said.message, "Saved, entry %lld.", &seq) != 1) {
        fail_msg("%s", said.message);
    }
    return seq;
}

void shop_expect_note(const struct desk_remarks *remarks, size_t at, enum view_tone tone,
                      const char *text) {
    if (at >= remarks->note_count || strcmp(remarks->note[at], text) != 0 ||
        remarks->note_tone[at] != tone) {
        fail_msg("note %zu of %zu: \"%s\" (tone %d), not \"%s\"", at, remarks->note_count,
                 at < remarks->note_count ? remarks->note[at] : "",
                 at < remarks->note_count ? (int)remarks->note_tone[at] : -1, text);
    }
}

void shop_expect_notes(const struct desk_remarks *remarks, size_t count) {
    if (remarks->complaint_count > 0 || remarks->note_count != count) {
        fail_msg("%zu notes, %s", remarks->note_count,
                 remarks->complaint_count > 0 ? remarks->complaint[0].text : "no complaint");
    }
}

void shop_expect_complaint(const struct desk_remarks *remarks, const char *cell,
                           const char *words) {
    if (remarks->complaint_count == 0 || strcmp(remarks->complaint[0].cell, cell) != 0 ||
        strstr(remarks->complaint[0].text, words) == NULL) {
        fail_msg("%zu complaints, %s: %s", remarks->complaint_count, remarks->complaint[0].cell,
                 remarks->complaint[0].text);
    }
}
