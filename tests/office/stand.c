#include "stand.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define DAY_MS ((int64_t)86400000)

// --- the world -----------------------------------------------------------------------------------

static int64_t wall_ms(void *ctx) {
    return ((struct stand *)ctx)->wall_ms;
}

static int64_t mono_ms(void *ctx) {
    (void)ctx;
    return 1000;
}

static int64_t day_start_ms(void *ctx, int64_t wall) {
    (void)ctx;
    return wall - wall % DAY_MS;
}

static int64_t date_ms(void *ctx, const char *date) {
    struct tm at = {0};
    const char *end = strptime(date, "%Y-%m-%d", &at);
    (void)ctx;
    return end != NULL && *end == '\0' && strlen(date) == 10 ? (int64_t)timegm(&at) * 1000 : -1;
}

static void day_text(int64_t wall, char *buffer, size_t size) {
    time_t seconds = (time_t)(wall / 1000);
    struct tm at;
    gmtime_r(&seconds, &at);
    strftime(buffer, size, "%Y-%m-%d", &at);
}

static void random_id(void *ctx, char ret_id[CONFIRM_ID_MAX]) {
    struct stand *stand = ctx;
    snprintf(ret_id, CONFIRM_ID_MAX, "%032llx", (unsigned long long)++stand->fixture.ids + 0xabc00);
}

static enum station_save save_all(void *ctx, struct entry *entries, size_t count) {
    struct stand *stand = ctx;
    enum stand_save how = stand->save;
    stand->save = SAVES;
    if (how == SAVE_FAILS) {
        return STATION_SAVE_FAILED;
    }
    if (how == SAVE_UNKNOWN_LOST) {
        return STATION_SAVE_UNKNOWN;
    }
    enum store_result result = store_append_all(stand->fixture.store, entries, count);
    if (how == SAVE_UNKNOWN_THERE) {
        assert_int_equal(result, STORE_OK);
        return STATION_SAVE_UNKNOWN;
    }
    return result == STORE_OK        ? STATION_SAVED
           : result == STORE_REFUSED ? STATION_SAVE_REFUSED
                                     : STATION_SAVE_FAILED;
}

static void why(void *ctx, char *buffer, size_t size) {
    snprintf(buffer, size, "%s", store_message(((struct stand *)ctx)->fixture.store));
}

static enum desk_result deed(void *ctx, const struct worker *who, enum desk_deed which,
                             const struct desk_ref *of, const char *id,
                             struct desk_said *ret_said) {
    struct stand *stand = ctx;
    (void)who;
    (void)id;
    stand->deeds++;
    stand->deed = which;
    memcpy(stand->deed_of, of->key[0], sizeof stand->deed_of);
    strcpy(ret_said->message, stand->printer_fails ? "Not printed: no paper." : "1 label.");
    return stand->printer_fails ? DESK_FAILED : DESK_DONE;
}

int stand_open(void **state) {
    static struct stand stand;
    memset(&stand, 0, sizeof stand);
    fixture_open(&stand.fixture);
    strcpy(stand.settings.bench, BENCH);
    stand.settings.rules = (struct bench_rules)BENCH_RULES_DEFAULT;
    stand.wall_ms = 1796026500000;
    stand.world = (struct station_ops){.ctx = &stand,
                                       .wall_ms = wall_ms,
                                       .mono_ms = mono_ms,
                                       .day_start_ms = day_start_ms,
                                       .date_ms = date_ms,
                                       .random_id = random_id,
                                       .save_all = save_all,
                                       .why = why};
    stand.office = (struct office){.store = stand.fixture.store,
                                   .world = &stand.world,
                                   .settings = &stand.settings,
                                   .deed = deed,
                                   .deed_ctx = &stand,
                                   .day_text = day_text};
    stand.ops = office_ops(&stand.office);
    desk_init(&stand.desk, &stand.ops);
    stand_enter(&stand, false);
    *state = &stand;
    return 0;
}

int stand_close(void **state) {
    struct stand *stand = *state;
    fixture_expect_file(stand->fixture.store);
    fixture_close(&stand->fixture);
    return 0;
}

// --- somebody at the desk ------------------------------------------------------------------------

void stand_enter(struct stand *stand, bool supervisor) {
    struct worker ada = {.badge = BUILDER, .name = "Ada Quill", .role = ROLE_BUILDER};
    struct worker bo = {.badge = SUPERVISOR, .name = "Bo Tarn", .role = ROLE_SUPERVISOR};
    struct worker none = {.badge = ""};
    desk_enter(&stand->desk, &ada, supervisor ? &bo : &none);
}

static void event(struct stand *stand, const struct event *event) {
    assert_int_equal(desk_event(&stand->desk, event), DESK_STAYS);
}

// As after a supervisor's PIN, whoever stands there; then it is again who was there before.
static void open_place(struct stand *stand, enum desk_goes goes, int which, const char *a,
                       const char *b, const char *c) {
    const char *const keys[] = {a, b, c};
    struct event press = {.kind = EVENT_ACTION, .action = ACTION_BACK};
    while (stand->desk.depth > 1) {
        desk_event(&stand->desk, &press);
    }
    struct desk_place place = {.goes = goes, .which = which};
    for (size_t i = 0; i < DESK_KEYS; i++) {
        snprintf(place.of.key[i], DESK_KEY_MAX, "%s", keys[i]);
    }
    stand->desk.wanted = place;
    struct worker worker = stand->desk.worker;
    struct worker supervisor = stand->desk.supervisor;
    struct worker bo = {.badge = SUPERVISOR, .name = "Bo Tarn", .role = ROLE_SUPERVISOR};
    desk_enter(&stand->desk, &worker, supervisor.badge[0] != '\0' ? &supervisor : &bo);
    stand->desk.supervisor = supervisor;
}

void stand_form(struct stand *stand, enum desk_form form) {
    open_place(stand, GOES_FORM, (int)form, "", "", "");
}

void stand_form_of(struct stand *stand, enum desk_form form, const char *a, const char *b,
                   const char *c) {
    open_place(stand, GOES_FORM, (int)form, a, b, c);
}

void stand_list(struct stand *stand, enum desk_list list, const char *a, const char *b,
                const char *c) {
    open_place(stand, GOES_LIST, (int)list, a, b, c);
}

void stand_scan(struct stand *stand, const char *text) {
    struct event scan = {.kind = EVENT_SCAN};
    snprintf(scan.text, sizeof scan.text, "%s", text);
    event(stand, &scan);
}

void stand_type(struct stand *stand, const char *text) {
    for (; *text != '\0'; text++) {
        struct event key = {.kind = EVENT_KEY, .key = *text};
        event(stand, &key);
    }
}

void stand_enter_key(struct stand *stand) {
    stand_type(stand, "\n");
}

void stand_action(struct stand *stand, enum view_action_id id, int64_t argument) {
    struct event action = {.kind = EVENT_ACTION, .action = (int)id, .argument = argument};
    event(stand, &action);
}

void stand_key(struct stand *stand, const char *key) {
    const struct view *view = stand_view(stand);
    for (size_t i = 0; i < view->action_count; i++) {
        if (strcmp(view->action[i].key, key) == 0) {
            stand_action(stand, view->action[i].id, view->action[i].argument);
            return;
        }
    }
    fail_msg("nothing has the key %s", key);
}

// A field is found by walking the cursor, as the arrow keys do.
static int field_of(struct stand *stand, const char *cell) {
    char where[64];
    for (int at = 0; at < VIEW_FORM_FIELDS; at++) {
        stand_action(stand, ACTION_FIELD, at);
        desk_where(&stand->desk, where, sizeof where);
        if (strcmp(strrchr(where, ' ') + 1, cell) == 0) {
            return at;
        }
    }
    fail_msg("no field %s", cell);
    return -1;
}

void stand_fill(struct stand *stand, const char *cell, const char *text) {
    int at = field_of(stand, cell);
    if (text[0] == '\0') {
        for (int i = 0; i < CHANGE_VALUE_MAX; i++) {
            stand_type(stand, "\b");
        }
    }
    stand_type(stand, text);
    stand_action(stand, ACTION_FIELD, at == 0 ? 1 : at - 1);
}

bool stand_weigh(struct stand *stand, mass_mg mass, bool stable) {
    return desk_weigh(&stand->desk, mass, stable);
}

// --- what is to be seen --------------------------------------------------------------------------

const struct view *stand_view(struct stand *stand) {
    memset(&stand->view, 0, sizeof stand->view);
    desk_view(&stand->desk, &stand->view);
    return &stand->view;
}

void stand_at(struct stand *stand, const char *where) {
    char found[64];
    desk_where(&stand->desk, found, sizeof found);
    assert_string_equal(found, where);
}

const char *stand_cell(struct stand *stand, const char *cell) {
    return document_value(&stand->desk.work.draft.now, cell);
}

const char *stand_unit(struct stand *stand, const char *label) {
    const struct view *view = stand_view(stand);
    for (size_t i = 0; i < view->form.field_count; i++) {
        if (strcmp(view->form.field[i].label, label) == 0) {
            return view->form.field[i].unit;
        }
    }
    fail_msg("no field %s", label);
    return "";
}

bool stand_sees(struct stand *stand, const char *words) {
    const struct view *view = stand_view(stand);
    return memmem(view, sizeof *view, words, strlen(words)) != NULL;
}

void stand_see(struct stand *stand, const char *words) {
    if (!stand_sees(stand, words)) {
        const struct view *view = &stand->view;
        for (size_t i = 0; i < view->form.note_count; i++) {
            print_message("note: %s\n", view->form.note[i]);
        }
        for (size_t i = 0; i < view->set.note_count; i++) {
            print_message("note: %s\n", view->set.note[i]);
        }
        fail_msg("not to be seen: %s; the band says %s", words, view->band);
    }
}

int64_t stand_number(struct stand *stand, const char *sql) {
    return fixture_number(stand->fixture.store->db, sql);
}
