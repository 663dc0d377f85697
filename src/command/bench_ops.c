// What the station asks of the world: clock, chance, sounds, people and the work in the store.

#include "bench.h"
#include "builds.h"
#include "text.h"
#include "tongue.h"
#include "workshop.h"

#include <stdio.h>
#include <string.h>
#include <sys/random.h>

static struct bench *of(void *ctx) {
    return ctx;
}

static int64_t mono_ms(void *ctx) {
    return bench_clock_boot_ms(&of(ctx)->clock);
}

static int64_t wall_ms(void *ctx) {
    return bench_clock_wall_ms(&of(ctx)->clock);
}

static int64_t day_start_ms(void *ctx, int64_t wall) {
    (void)ctx;
    return bench_clock_day_start(wall);
}

static void time_text(void *ctx, int64_t wall, bool date, char *buffer, size_t size) {
    (void)ctx;
    bench_clock_text(wall, date, buffer, size);
}

static int64_t date_ms(void *ctx, const char *date) {
    (void)ctx;
    return bench_clock_day(date);
}

static void random_id(void *ctx, char ret_id[CONFIRM_ID_MAX]) {
    unsigned char bytes[(CONFIRM_ID_MAX - 1) / 2];
    (void)ctx;
    memset(ret_id, 0, CONFIRM_ID_MAX);
    while (getrandom(bytes, sizeof bytes, 0) != (ssize_t)sizeof bytes) {
        // only a signal can come between
    }
    for (size_t i = 0; i < sizeof bytes; i++) {
        snprintf(ret_id + 2 * i, 3, "%02x", bytes[i]);
    }
}

static void sound(void *ctx, enum station_sound which) {
    static const enum screen_sound sounds[] = {[SOUND_ACCEPTED] = SCREEN_SOUND_ACCEPTED,
                                               [SOUND_HOLD] = SCREEN_SOUND_HOLD,
                                               [SOUND_LOGGED] = SCREEN_SOUND_LOGGED};
    screen_play(of(ctx)->screen, sounds[which]);
}

static bool room(void *ctx) {
    return store_room(of(ctx)->store);
}

// A store that failed to read is opened again, so that the next try has a chance.
static enum station_lookup looked_up(struct bench *bench, enum store_result result) {
    if (result == STORE_OK) {
        return STATION_FOUND;
    }
    if (result == STORE_NONE) {
        return STATION_ABSENT;
    }
    fprintf(stderr, "kerfside bench: %s\n", store_message(bench->store));
    store_reopen(bench->store);
    return STATION_LOOKUP_FAILED;
}

static enum station_lookup worker(void *ctx, const char *badge, struct worker *ret_worker) {
    return looked_up(of(ctx), store_worker(of(ctx)->store, badge, ret_worker));
}

static enum station_lookup part(void *ctx, const char *ticket, struct part *ret_part) {
    return looked_up(of(ctx), store_part(of(ctx)->store, ticket, ret_part));
}

static enum station_lookup code_model(void *ctx, const char *gtin,
                                      struct station_model *ret_model) {
    struct code_model model;
    enum station_lookup found =
        looked_up(of(ctx), store_model_of_code(of(ctx)->store, gtin, &model));
    if (found == STATION_FOUND) {
        *ret_model = (struct station_model){.head = model.is_head, .parts = model.parts};
        memcpy(ret_model->model, model.model, sizeof ret_model->model);
        memcpy(ret_model->flex, model.flex, sizeof ret_model->flex);
    }
    return found;
}

static enum station_lookup club(void *ctx, int64_t club_id, struct club *ret_club) {
    return looked_up(of(ctx), store_club(of(ctx)->store, club_id, ret_club));
}

static enum station_lookup entry_of(void *ctx, int64_t seq, struct entry *ret_entry) {
    return looked_up(of(ctx), store_entry(of(ctx)->store, seq, ret_entry));
}

static enum station_lookup saved(void *ctx, const char *confirm_id, int64_t *ret_seq) {
    return looked_up(of(ctx), store_confirmed(of(ctx)->store, confirm_id, ret_seq));
}

static void trace_saved(const struct bench *bench, const struct entry *entry) {
    if (bench->trace) {
        printf("saved %lld %s %s\n", (long long)entry->seq, entry_kind_text(entry->kind),
               entry->confirm_id);
        fflush(stdout);
    }
}

static enum station_save save_all(void *ctx, struct entry *entries, size_t count) {
    struct bench *bench = ctx;
    enum store_result result;
    for (size_t i = 0; i < count; i++) {
        snprintf(entries[i].boot, sizeof entries[i].boot, "%s", bench->boot);
    }
    result = store_append_all(bench->store, entries, count);
    if (result == STORE_OK) {
        bench->checkpoint_due = true;
        for (size_t i = 0; i < count; i++) {
            trace_saved(bench, &entries[i]);
        }
        return STATION_SAVED;
    }
    struct text words = text_open(bench->why, sizeof bench->why);
    text_add(&words, store_message(bench->store));
    fprintf(stderr, "kerfside bench: %s\n", store_message(bench->store));
    if (result == STORE_REFUSED) {
        return STATION_SAVE_REFUSED;
    }
    if (result == STORE_UNKNOWN || result == STORE_FAILED) {
        store_reopen(bench->store); // the only cure after a failed sync
    }
    return result == STORE_UNKNOWN ? STATION_SAVE_UNKNOWN : STATION_SAVE_FAILED;
}

static enum station_save save(void *ctx, struct entry *entry) {
    return save_all(ctx, entry, 1);
}

static void why(void *ctx, char *buffer, size_t size) {
    snprintf(buffer, size, "%s", of(ctx)->why);
}

static const char *next_step(enum stage stage) {
    switch (stage) {
    case STAGE_TIP_SHOWN:
        return _("tip cut next");
    case STAGE_TIP_CUT:
    case STAGE_BUTT_SHOWN:
        return _("butt cut next");
    case STAGE_BUTT_CUT:
        return _("measure next");
    case STAGE_DECISION:
        return _("to be decided");
    case STAGE_PENDING:
    case STAGE_DONE:
    case STAGE_COUNT:
        break;
    }
    return "";
}

// `today`, `late`, `27 Nov` of a date of the calendar.
static void due_text(const struct bench *bench, const char *due, char *buffer, size_t size) {
    struct bench_clock noon = {.simulated = true};
    char text[24];
    int64_t today = bench_clock_day_start(bench_clock_wall_ms(&bench->clock));
    int64_t day;
    snprintf(text, sizeof text, "%.10sT12:00", due);
    if (!bench_clock_set(&noon, text)) {
        snprintf(buffer, size, "%.15s", due); // an order with no date
        return;
    }
    day = bench_clock_day_start(noon.wall_ms);
    if (day == today) {
        snprintf(buffer, size, "%s", _("today"));
    } else if (day < today) {
        snprintf(buffer, size, "%s", _("late"));
    } else {
        bench_clock_text(noon.wall_ms, true, buffer, size);
    }
}

static int queue(void *ctx, bool half_cut, struct view_queue_row *rows, int max) {
    const struct bench *bench = ctx;
    struct club_line lines[VIEW_ROWS_MAX];
    int count = store_clubs(bench->store, half_cut ? CLUBS_HALF_CUT : CLUBS_NEXT, lines,
                            max < VIEW_ROWS_MAX ? max : VIEW_ROWS_MAX, NULL);
    for (int i = 0; i < count; i++) {
        struct view_queue_row *row = &rows[i];
        *row = (struct view_queue_row){0};
        snprintf(row->build, sizeof row->build, "%s", lines[i].build);
        snprintf(row->club, sizeof row->club, _("%d of %d"), lines[i].position, lines[i].count);
        snprintf(row->head, sizeof row->head, "%s", lines[i].head);
        snprintf(row->shaft, sizeof row->shaft, "%s", lines[i].shaft);
        snprintf(row->next, sizeof row->next, "%s",
                 lines[i].held ? _("on hold") : next_step(lines[i].stage));
        due_text(bench, lines[i].due, row->due, sizeof row->due);
    }
    return count;
}

static void today(void *ctx, struct view_today *ret_today) {
    const struct bench *bench = ctx;
    int64_t from = bench_clock_day_start(bench_clock_wall_ms(&bench->clock));
    int64_t into_tomorrow = from + (int64_t)30 * 3600 * 1000;
    struct day_count count;
    if (store_day(bench->store, from, bench_clock_day_start(into_tomorrow), &count) == STORE_OK) {
        *ret_today = (struct view_today){.clubs = count.clubs_done,
                                         .cuts = count.cuts,
                                         .out = count.out_of_tolerance,
                                         .holds = count.holds};
    }
}

static void waits(void *ctx, struct station_wait *ret_wait) {
    struct station_wait wait = {0};
    struct club_line line;
    if (store_clubs(of(ctx)->store, CLUBS_NEXT, &line, 1, &wait.clubs) >= 0) {
        store_pace(of(ctx)->store, &wait.pace_ms); // else it is not known
    }
    *ret_wait = wait;
}

static void put_change(struct station_changes *changes, const struct change_line *line) {
    if (changes->shown == STATION_CHANGES_MAX) {
        memmove(&changes->row[0], &changes->row[1],
                (STATION_CHANGES_MAX - 1) * sizeof changes->row[0]);
        changes->shown--;
    }
    struct station_change *row = &changes->row[changes->shown++];
    struct text words = text_open(row->words, sizeof row->words);
    text_add(&words, line->words);
    row->wall_ms = line->wall_ms;
    memcpy(row->worker, line->worker, sizeof row->worker);
    memcpy(row->club, line->club, sizeof row->club);
    memcpy(row->part, line->part, sizeof row->part);
    changes->newest = line->seq;
    changes->count++;
}

static enum station_lookup changes(void *ctx, const char *build, int64_t from,
                                   struct station_changes *ret_changes) {
    struct station_changes found = {0};
    struct change_line lines[8];
    const int max = (int)(sizeof lines / sizeof lines[0]);
    int count = max;
    while (count == max) {
        count = store_order_changes(of(ctx)->store, build, from, lines, max);
        for (int i = 0; i < count; i++) {
            put_change(&found, &lines[i]);
        }
        from = found.newest + 1;
    }
    if (count < 0 || found.count == 0) {
        return looked_up(of(ctx), STORE_FAILED);
    }
    *ret_changes = found;
    return STATION_FOUND;
}

static enum station_pin pin(void *ctx, const char *badge, const char *digits, int *ret_wait_s) {
    struct store *store = of(ctx)->store;
    switch (store_pin_check(store, badge, digits, ret_wait_s)) {
    case PIN_RIGHT:
        return STATION_PIN_RIGHT;
    case PIN_WRONG:
        return STATION_PIN_WRONG;
    case PIN_WAIT:
        return STATION_PIN_WAIT;
    case PIN_LOCKED:
        return STATION_PIN_LOCKED;
    case PIN_NO_PEPPER:
        fprintf(stderr, "kerfside bench: %s\n", store_message(store));
        return STATION_PIN_NO_PEPPER;
    case PIN_NOT_SET:
        return STATION_PIN_NOT_SET;
    case PIN_FAILED:
        break;
    }
    fprintf(stderr, "kerfside bench: %s\n", store_message(store));
    store_reopen(store); // the only cure after a failed sync
    return STATION_PIN_FAILED;
}

static enum station_save unlock(void *ctx, const char *badge, const char *by) {
    struct store *store = of(ctx)->store;
    enum store_result result = store_pin_unlock(store, badge, by);
    if (result == STORE_OK) {
        return STATION_SAVED;
    }
    fprintf(stderr, "kerfside bench: %s\n", store_message(store));
    if (result == STORE_UNKNOWN || result == STORE_FAILED) {
        store_reopen(store); // the only cure after a failed sync
    }
    return result == STORE_REFUSED ? STATION_SAVE_REFUSED : STATION_SAVE_FAILED;
}

static enum station_lookup set(void *ctx, const char *build, struct set *ret_set) {
    const struct station_settings *settings = &of(ctx)->settings->station;
    return looked_up(of(ctx), builds_set(of(ctx)->store, build, &settings->rules,
                                         &settings->assembly, &settings->finals, ret_set));
}

static enum station_lookup beside(void *ctx, const char *build, bool before,
                                  char ret_build[PARTS_BUILD_MAX]) {
    return looked_up(of(ctx), store_build_beside(of(ctx)->store, build, before, ret_build));
}

static enum station_lookup kit(void *ctx, const char *build, enum match_by by,
                               struct kit *ret_kit) {
    const struct station_settings *settings = &of(ctx)->settings->station;
    return looked_up(of(ctx), builds_kit(of(ctx)->store, build, by, &settings->rules,
                                         &settings->assembly, ret_kit));
}

static int spares(void *ctx, const char *shaft, struct part *parts, int max) {
    int count = store_spare_shafts(of(ctx)->store, shaft, parts, max);
    return count > 0 ? count : 0;
}

static void copies(void *ctx, struct station_copies *ret_copies) {
    bench_backup_tell(&of(ctx)->backup, wall_ms(ctx), ret_copies);
}

static void sounds(void *ctx) {
    screen_play_all(((struct bench *)ctx)->screen);
}

struct station_ops bench_ops(struct bench *bench) {
    return (struct station_ops){
        .ctx = bench,
        .mono_ms = mono_ms,
        .wall_ms = wall_ms,
        .day_start_ms = day_start_ms,
        .time_text = time_text,
        .date_ms = date_ms,
        .random_id = random_id,
        .sound = sound,
        .room = room,
        .worker = worker,
        .part = part,
        .code_model = code_model,
        .club = club,
        .queue = queue,
        .today = today,
        .wait = waits,
        .changes = changes,
        .save = save,
        .saved = saved,
        .why = why,
        .pin = pin,
        .unlock = unlock,
        .log = bench_log_rows,
        .choices = bench_choices,
        .entry = entry_of,
        .about = bench_about,
        .spares = spares,
        .export_csv = bench_export,
        .stats = bench_stats,
        .tickets = bench_tickets,
        .set = set,
        .beside = beside,
        .kit = kit,
        .day = bench_day,
        .report = bench_day_report,
        .ledger = bench_ledger,
        .sign_ready = bench_sign_ready,
        .check_start = bench_check_start,
        .check_step = bench_check_step,
        .check_stop = bench_check_stop,
        .sign = bench_sign,
        .save_all = save_all,
        .copies = copies,
        .selfcheck = bench_selfcheck_tell,
        .selfcheck_again = bench_selfcheck_again,
        .sounds = sounds,
    };
}
