#include "shop.h"
#include "words.h"

#include <stdio.h>
#include <string.h>

static struct shop *of(void *ctx) {
    return ctx;
}

// Nth-call injection: true when this call is the one to fail.
static bool fails(struct shop *shop) {
    shop->calls++;
    return shop->calls_to_failure != 0 && shop->calls == shop->calls_to_failure;
}

static bool lookup_lost(struct shop *shop) {
    if (fails(shop)) {
        return true;
    }
    if (shop->lost > 0) {
        shop->lost--;
        return true;
    }
    return false;
}

static int64_t mono_ms(void *ctx) {
    return of(ctx)->now_ms;
}

static int64_t wall_ms(void *ctx) {
    return 1764064800000 + of(ctx)->now_ms;
}

static int64_t day_start_ms(void *ctx, int64_t wall) {
    (void)ctx;
    return wall - wall % 86400000;
}

static void time_text(void *ctx, int64_t wall, bool date, char *buffer, size_t size) {
    (void)ctx;
    if (date) {
        snprintf(buffer, size, "day %d", (int)(wall / 86400000));
    } else {
        snprintf(buffer, size, "%02d:%02d", (int)(wall / 3600000 % 24), (int)(wall / 60000 % 60));
    }
}

static void random_id(void *ctx, char ret_id[CONFIRM_ID_MAX]) {
    memset(ret_id, 0, CONFIRM_ID_MAX);
    snprintf(ret_id, CONFIRM_ID_MAX, "%032llx", (unsigned long long)++of(ctx)->ids);
}

static void sound(void *ctx, enum station_sound which) {
    of(ctx)->sounds[which]++;
}

static bool room(void *ctx) {
    return !fails(of(ctx)) && !of(ctx)->full;
}

static enum station_lookup worker(void *ctx, const char *badge, struct worker *ret_worker) {
    const struct catalogue *catalogue = of(ctx)->catalogue;
    if (lookup_lost(of(ctx))) {
        return STATION_LOOKUP_FAILED;
    }
    for (size_t i = 0; i < catalogue->worker_count; i++) {
        if (strcmp(catalogue->worker[i].badge, badge) == 0) {
            *ret_worker = catalogue->worker[i];
            return STATION_FOUND;
        }
    }
    return STATION_ABSENT;
}

static void load(const struct shop *shop, size_t i, struct club *ret_club) {
    *ret_club = shop->catalogue->club[i];
    ret_club->progress = shop->club[i].progress;
    ret_club->head.bore_height = shop->club[i].bore_height;
    words_copy(ret_club->order.picked_column, PARTS_SHORT_MAX, shop->club[i].picked_column);
    ret_club->order.shim_consent = shop->club[i].shim;
    ret_club->order.extension_consent = shop->club[i].extension;
    if (shop->club[i].trim_given) {
        ret_club->order.trim_consent = shop->club[i].trim;
    }
    ret_club->order.status = shop->status;
    ret_club->order.changed_seq = shop->changed_seq;
    enum stage stage = ret_club->progress.stage;
    ret_club->order.playing_length += shop->club[i].longer;
    ret_club->shown_mark =
        stage == STAGE_TIP_SHOWN || stage == STAGE_BUTT_SHOWN ? shop->club[i].shown : 0;
    if (shop->club[i].recut) {
        words_copy(ret_club->shaft.ticket, TICKET_TEXT_MAX, shop->catalogue->loose[0].ticket);
    }
}

static enum station_lookup part(void *ctx, const char *ticket, struct part *ret_part) {
    const struct shop *shop = of(ctx);
    struct club club;
    if (lookup_lost(of(ctx))) {
        return STATION_LOOKUP_FAILED;
    }
    for (size_t i = 0; i < shop->catalogue->club_count; i++) {
        load(shop, i, &club);
        bool head = strcmp(club.head.ticket, ticket) == 0;
        if (head || strcmp(club.shaft.ticket, ticket) == 0) {
            struct part found = {.kind = head ? TICKET_HEAD : TICKET_SHAFT, .club_id = club.id};
            bool cut = !head && shop->club[i].progress.stage >= STAGE_TIP_CUT;
            found.life = cut ? PART_CUT : PART_RAW;
            words_copy(found.ticket, sizeof found.ticket, ticket);
            words_copy(found.build, sizeof found.build, club.order.build);
            words_copy(found.club, sizeof found.club, club.order.club);
            *ret_part = found;
            return STATION_FOUND;
        }
    }
    for (int i = 0; i < 4; i++) {
        if (strcmp(shop->catalogue->loose[i].ticket, ticket) == 0) {
            *ret_part = shop->catalogue->loose[i];
            return STATION_FOUND;
        }
    }
    return STATION_ABSENT;
}

static enum station_lookup club(void *ctx, int64_t club_id, struct club *ret_club) {
    if (lookup_lost(of(ctx))) {
        return STATION_LOOKUP_FAILED;
    }
    if (club_id < 1 || club_id > (int64_t)of(ctx)->catalogue->club_count) {
        return STATION_ABSENT;
    }
    load(of(ctx), (size_t)club_id - 1, ret_club);
    return STATION_FOUND;
}

static int queue(void *ctx, bool half_cut, struct view_queue_row *rows, int max) {
    const struct shop *shop = of(ctx);
    int count = 0;
    for (size_t i = 0; i < shop->catalogue->club_count && count < max; i++) {
        enum stage stage = shop->club[i].progress.stage;
        bool half = stage != STAGE_PENDING && stage != STAGE_DONE;
        if (half == half_cut && stage != STAGE_DONE) {
            struct view_queue_row row = {.due = "today", .club = "1 of 9"};
            words_copy(row.build, sizeof row.build, shop->catalogue->club[i].order.build);
            words_copy(row.head, sizeof row.head, shop->catalogue->club[i].head.ticket);
            words_copy(row.shaft, sizeof row.shaft, shop->catalogue->club[i].shaft.ticket);
            words_copy(row.next, sizeof row.next, half ? "butt cut next" : "");
            rows[count++] = row;
        }
    }
    return count;
}

// Days of the tests are written as of the epoch: `1970-01-03` is day 2.
static int64_t date_ms(void *ctx, const char *date) {
    int day = 0;
    int end = 0;
    (void)ctx;
    return sscanf(date, "1970-01-%2d%n", &day, &end) == 1 && date[end] == '\0' && day > 0
               ? (int64_t)(day - 1) * 86400000
               : -1;
}

static int choices(void *ctx, enum station_choice choice, char texts[][STATION_CHOICE_MAX],
                   int max) {
    static const char *const materials[] = {"graphite", "steel"};
    (void)ctx;
    (void)max;
    if (choice == CHOICE_MATERIALS) {
        words_copy(texts[0], STATION_CHOICE_MAX, materials[0]);
        words_copy(texts[1], STATION_CHOICE_MAX, materials[1]);
        return 2;
    }
    words_copy(texts[0], STATION_CHOICE_MAX,
               choice == CHOICE_BENCHES ? "Bench 1" : shop_ticket(TICKET_WORKER, "14"));
    return 1;
}

static void today(void *ctx, struct view_today *ret_today) {
    (void)ctx;
    *ret_today = (struct view_today){0};
}

static void waits(void *ctx, struct station_wait *ret_wait) {
    *ret_wait = of(ctx)->wait;
}

void shop_change(struct shop *shop, length_nm longer) {
    shop->newest_seq = ++shop->seq;
    shop->changed_seq = shop->changes++ == 0 ? shop->newest_seq : shop->changed_seq;
    for (size_t i = 0; i < shop->catalogue->club_count; i++) {
        const struct progress *progress = &shop->club[i].progress;
        if (progress->stage <= STAGE_BUTT_SHOWN && progress->measure_seq == 0) {
            shop->club[i].longer = longer;
        }
    }
}

static enum station_lookup changes(void *ctx, const char *build, int64_t from,
                                   struct station_changes *ret_changes) {
    const struct shop *shop = of(ctx);
    struct station_changes found = {.count = shop->changes, .newest = shop->newest_seq};
    (void)build;
    if (lookup_lost(of(ctx)) || from != shop->changed_seq) {
        return STATION_LOOKUP_FAILED;
    }
    for (; found.shown < shop->changes && found.shown < STATION_CHANGES_MAX; found.shown++) {
        struct station_change *row = &found.row[found.shown];
        row->wall_ms = shop->now_ms;
        words_copy(row->worker, sizeof row->worker, shop_ticket(TICKET_WORKER, "3"));
        words_copy(row->club, sizeof row->club, "1");
        words_copy(row->words, sizeof row->words, "playing_length 37 to 36 1/2");
    }
    *ret_changes = found;
    return STATION_FOUND;
}

static enum station_save save(void *ctx, struct entry *entry) {
    struct shop *shop = of(ctx);
    enum shop_fault fault = shop->fault;
    struct entry quiet = *entry;
    if (fails(shop) || shop->broken) {
        return STATION_SAVE_FAILED;
    }
    if (shop_find_id(shop, entry->confirm_id, &entry->seq)) {
        return STATION_SAVED;
    }
    shop->fault = SHOP_NO_FAULT;
    switch (fault) {
    case SHOP_NO_FAULT:
        return shop_append(shop, entry);
    case SHOP_FAIL:
        return STATION_SAVE_FAILED;
    case SHOP_UNKNOWN_ABSENT:
        return STATION_SAVE_UNKNOWN;
    case SHOP_UNKNOWN_BLIND:
        shop->blind = 1;
        break;
    case SHOP_UNKNOWN_FOUND:
        break;
    }
    return shop_append(shop, &quiet) == STATION_SAVED ? STATION_SAVE_UNKNOWN : STATION_SAVE_REFUSED;
}

static enum station_lookup saved(void *ctx, const char *confirm_id, int64_t *ret_seq) {
    struct shop *shop = of(ctx);
    if (fails(shop)) {
        return STATION_LOOKUP_FAILED;
    }
    if (shop->blind > 0) {
        shop->blind--;
        return STATION_LOOKUP_FAILED;
    }
    return shop_find_id(shop, confirm_id, ret_seq) ? STATION_FOUND : STATION_ABSENT;
}

static enum station_pin pin(void *ctx, const char *badge, const char *digits, int *ret_wait_s) {
    struct shop *shop = of(ctx);
    if (fails(shop)) {
        return STATION_PIN_FAILED;
    }
    if (strcmp(badge, shop_ticket(TICKET_WORKER, "3")) != 0) {
        return STATION_PIN_NOT_SET;
    }
    if (shop->pin_wait_s > 0) {
        *ret_wait_s = shop->pin_wait_s;
        return STATION_PIN_WAIT;
    }
    return strcmp(digits, "4711") == 0 ? STATION_PIN_RIGHT : STATION_PIN_WRONG;
}

static enum station_save unlock(void *ctx, const char *badge, const char *by) {
    (void)badge;
    (void)by;
    return fails(of(ctx)) ? STATION_SAVE_FAILED : STATION_SAVED;
}

static bool wanted(const struct shop *shop, const struct review_filter *filter,
                   const struct shop_entry *entry) {
    const struct progress *progress =
        &shop->club[entry->club_id > 0 ? entry->club_id - 1 : 0].progress;
    if (filter->worker[0] != '\0' && strcmp(filter->worker, entry->worker) != 0) {
        return false;
    }
    if (filter->verdict != VERDICT_NONE && filter->verdict != entry->verdict) {
        return false;
    }
    return !filter->open_only || (entry->club_id != 0 && progress->decision_seq == entry->seq);
}

static int log_rows(void *ctx, const struct review_filter *filter, int64_t before,
                    struct view_log_row *rows, int max) {
    struct shop *shop = of(ctx);
    int64_t seq = before == 0 ? shop->seq : before - 1;
    int count = 0;
    if (fails(shop)) {
        return -1;
    }
    for (; seq > 0 && seq > shop->seq - SHOP_LOG && count < max; seq--) {
        const struct shop_entry *entry = shop_slot(shop, seq);
        if (entry->seq == seq && wanted(shop, filter, entry)) {
            struct view_log_row row = {.seq = seq};
            words_copy(row.cut, sizeof row.cut, entry_kind_text(entry->kind));
            words_copy(row.verdict, sizeof row.verdict, verdict_text(entry->verdict));
            rows[count++] = row;
        }
    }
    return count;
}

static enum station_lookup entry_of(void *ctx, int64_t seq, struct entry *ret_entry) {
    struct shop *shop = of(ctx);
    const struct shop_entry *kept = shop_slot(shop, seq);
    if (fails(shop)) {
        return STATION_LOOKUP_FAILED;
    }
    if (kept->seq != seq) {
        return STATION_ABSENT;
    }
    *ret_entry = entry_init(kept->kind);
    ret_entry->seq = seq;
    ret_entry->club_id = kept->club_id;
    ret_entry->planned = kept->planned;
    ret_entry->made = kept->made;
    ret_entry->verdict = kept->verdict;
    ret_entry->refers = kept->refers;
    words_copy(ret_entry->worker, sizeof ret_entry->worker, kept->worker);
    words_copy(ret_entry->cause, sizeof ret_entry->cause, kept->cause);
    words_copy(ret_entry->confirm_id, sizeof ret_entry->confirm_id, kept->confirm_id);
    if (kept->has_plan && shop->plan_text != NULL) {
        words_copy(ret_entry->plan, sizeof ret_entry->plan, shop->plan_text);
    }
    if (kept->club_id != 0) {
        struct club about;
        load(shop, (size_t)kept->club_id - 1, &about);
        words_copy(ret_entry->build, sizeof ret_entry->build, about.order.build);
        words_copy(ret_entry->club, sizeof ret_entry->club, about.order.club);
        words_copy(ret_entry->head, sizeof ret_entry->head, about.head.ticket);
        words_copy(ret_entry->shaft, sizeof ret_entry->shaft, about.shaft.ticket);
    }
    return STATION_FOUND;
}

static enum station_lookup about(void *ctx, int64_t seq, struct station_remark *remarks, int max,
                                 int *ret_count, int64_t *ret_total) {
    struct shop *shop = of(ctx);
    int count = 0;
    int64_t total = 0;
    if (fails(shop)) {
        return STATION_LOOKUP_FAILED;
    }
    for (int64_t later = seq + 1; later <= shop->seq; later++) {
        const struct shop_entry *kept = shop_slot(shop, later);
        total += kept->seq == later && kept->refers == seq;
    }
    for (int64_t later = shop->seq; later > seq && count < max; later--) {
        const struct shop_entry *kept = shop_slot(shop, later);
        if (kept->seq == later && kept->refers == seq) {
            memmove(remarks + 1, remarks, (size_t)count * sizeof *remarks);
            remarks[0] = (struct station_remark){.kind = kept->kind, .wall_ms = later};
            words_copy(remarks[0].worker, sizeof remarks[0].worker, kept->worker);
            words_copy(remarks[0].cause, sizeof remarks[0].cause, kept->cause);
            if (shop->noted != NULL && shop->noted->seq == later) {
                words_copy(remarks[0].note, sizeof remarks[0].note, shop->noted->note);
            }
            count++;
        }
    }
    *ret_count = count;
    *ret_total = total;
    return count > 0 ? STATION_FOUND : STATION_ABSENT;
}

static int spares(void *ctx, const char *shaft, struct part *parts, int max) {
    (void)ctx;
    (void)shaft;
    if (max < 1 || fails(of(ctx))) {
        return 0;
    }
    parts[0] = of(ctx)->catalogue->loose[0];
    return 1;
}

static bool export_csv(void *ctx, const struct review_filter *filter, char *ret_path, size_t size) {
    (void)filter;
    if (fails(of(ctx)) || of(ctx)->broken) {
        return false;
    }
    snprintf(ret_path, size, "/var/log.csv");
    return true;
}

static void selfcheck(void *ctx, struct station_selfcheck *ret_selfcheck) {
    selfcheck_judge(&of(ctx)->facts, ret_selfcheck->finding);
    ret_selfcheck->stops = selfcheck_stops(&of(ctx)->facts);
}

static void selfcheck_again(void *ctx) {
    of(ctx)->looks++;
}

static void sounds(void *ctx) {
    of(ctx)->heard++;
}

static void copies(void *ctx, struct station_copies *ret_copies) {
    *ret_copies = of(ctx)->copies;
}

static void why(void *ctx, char *buffer, size_t size) {
    (void)ctx;
    snprintf(buffer, size, "The disk is full.");
}

const struct station_ops shop_ops = {
    .mono_ms = mono_ms,
    .wall_ms = wall_ms,
    .day_start_ms = day_start_ms,
    .time_text = time_text,
    .date_ms = date_ms,
    .choices = choices,
    .random_id = random_id,
    .sound = sound,
    .room = room,
    .worker = worker,
    .part = part,
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
    .log = log_rows,
    .entry = entry_of,
    .about = about,
    .spares = spares,
    .export_csv = export_csv,
    .code_model = shop_code_model,
    .stats = shop_stats,
    .tickets = shop_tickets,
    .set = shop_set,
    .beside = shop_beside,
    .kit = shop_kit,
    .day = shop_day,
    .report = shop_report,
    .ledger = shop_ledger,
    .sign_ready = shop_sign_ready,
    .check_start = shop_check_start,
    .check_step = shop_check_step,
    .check_stop = shop_check_stop,
    .sign = shop_sign,
    .save_all = shop_save_all,
    .copies = copies,
    .selfcheck = selfcheck,
    .selfcheck_again = selfcheck_again,
    .sounds = sounds,
};

struct station_ops shop_ops_for(struct shop *shop) {
    struct station_ops ops = shop_ops;
    ops.ctx = shop;
    return ops;
}

void shop_init(struct shop *shop, const struct catalogue *catalogue) {
    memset(shop, 0, sizeof *shop);
    shop->catalogue = catalogue;
    shop->now_ms = 100000;
    for (size_t i = 0; i < catalogue->club_count; i++) {
        shop->club[i].progress = catalogue->club[i].progress;
        shop->club[i].bore_height = catalogue->club[i].head.bore_height;
    }
}

bool shop_one_button;

struct station_settings shop_settings(void) {
    return (struct station_settings){.one_button = shop_one_button,
                                     .bench = "Bench 2",
                                     .rules = BENCH_RULES_DEFAULT,
                                     .finals = ASSEMBLY_TOLERANCE_DEFAULT,
                                     .length_method = LENGTH_METHOD_RULER,
                                     .idle_sign_off_ms = 10 * 60 * 1000};
}
