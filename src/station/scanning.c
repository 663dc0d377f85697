// What a scanned or typed code means where the bench stands. A scan never confirms anything.

#include "station_inner.h"

#include <string.h>

static void makers_code(const struct station *s, const char *gtin, struct hold *hold) {
    struct station_model model;
    char parts[LENGTH_TEXT_MAX];
    memset(&model, 0, sizeof model);
    hold_line(hold, WORD_HOLD_MAKERS, gtin, NULL, NULL);
    if (s->ops->code_model(s->ops->ctx, gtin, &model) == STATION_FOUND) {
        say_number(model.parts, parts);
        hold_line(hold, model.head ? WORD_HOLD_MAKERS_HEAD : WORD_HOLD_MAKERS_SHAFT, model.model,
                  model.flex, parts);
    }
}

static void bad_code(struct station *s, const char *text, enum ticket_error error) {
    bool gtin = ticket_gtin_valid(text);
    struct hold hold = hold_make(s, gtin ? HOLD_MAKERS_CODE : HOLD_BAD_CODE);
    if (gtin) {
        makers_code(s, text, &hold);
        hold_todo(&hold, WORD_DO_SHOP_TICKET, NULL, NULL, NULL);
    } else {
        ticket_error_source(text, error, hold.line[0], sizeof hold.line[0]);
        hold_todo(&hold, WORD_DO_AGAIN, NULL, NULL, NULL);
        hold_todo(&hold, WORD_DO_TYPE, NULL, NULL, NULL);
    }
    hold_show(s, &hold);
}

static void sign_on(struct station *s, const struct worker *worker) {
    if (station_signed_on(s)) {
        station_sign_off(s, "signed_over");
    }
    s->worker = *worker;
    struct entry entry = save_entry(s, ENTRY_SIGN_ON);
    station_sound(s, SOUND_ACCEPTED);
    save_begin(s, &entry, THEN_READY);
}

static void unknown_badge(struct station *s, const char *badge) {
    struct hold hold = hold_make(s, HOLD_UNKNOWN_BADGE);
    hold_line(&hold, WORD_HOLD_UNKNOWN_BADGE, badge, NULL, NULL);
    hold_todo(&hold, WORD_DO_OTHER_BADGE, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void badge_now(struct station *s) {
    struct hold hold = hold_make(s, HOLD_BADGE_NOW);
    hold_line(&hold, WORD_HOLD_IN_WORK, s->club.order.build, s->club.order.club, NULL);
    hold_todo(&hold, WORD_DO_FINISH, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void badge(struct station *s, const char *text) {
    bool between =
        s->state == STATION_SIGNED_OUT || s->state == STATION_READY || s->state == STATION_LOGGED;
    bool same = strcmp(s->worker.badge, text) == 0;
    struct worker worker;
    memset(&worker, 0, sizeof worker);
    if (same && (!between || s->worker.role != ROLE_SUPERVISOR)) {
        return; // the worker's own badge once more
    }
    if (!between) {
        badge_now(s);
        return;
    }
    switch (s->ops->worker(s->ops->ctx, text, &worker)) {
    case STATION_ABSENT:
        unknown_badge(s, text);
        return;
    case STATION_LOOKUP_FAILED:
        hold_store_failed(s);
        return;
    case STATION_FOUND:
        break;
    }
    if (s->state == STATION_LOGGED) {
        station_home(s);
    }
    if (s->state == STATION_READY && worker.role == ROLE_SUPERVISOR) {
        pin_open(s, PIN_FOR_REVIEW, &worker);
        station_sound(s, SOUND_ACCEPTED);
    } else {
        sign_on(s, &worker);
    }
}

static void not_signed_on(struct station *s) {
    struct hold hold = hold_make(s, HOLD_NOT_SIGNED_ON);
    hold_line(&hold, WORD_HOLD_NOT_ON, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_BADGE, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void other_part(struct station *s, const char *text) {
    struct hold hold = hold_make(s, HOLD_OTHER_PART);
    hold_line(&hold, WORD_HOLD_READ, text, NULL, NULL);
    hold_line(&hold, WORD_HOLD_IN_WORK, s->club.order.build, s->club.order.club, NULL);
    hold_todo(&hold, WORD_DO_FINISH, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void part(struct station *s, const struct ticket *ticket) {
    if (s->state == STATION_SIGNED_OUT) {
        not_signed_on(s);
        return;
    }
    if (s->state == STATION_LOGGED) {
        station_home(s); // the next club starts at once
    }
    if (s->state == STATION_READY || s->state == STATION_PAIR) {
        pairing_scan(s, ticket);
    } else if (strcmp(s->head, ticket->text) != 0 && strcmp(s->shaft, ticket->text) != 0) {
        other_part(s, ticket->text);
    }
}

static void build_ticket(struct station *s, const char *text) {
    struct hold hold = hold_make(s, HOLD_BUILD_TICKET);
    hold_line(&hold, WORD_HOLD_READ, text, NULL, NULL);
    hold_todo(&hold, WORD_DO_HEAD_OR_SHAFT, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void command_now(struct station *s, const char *text) {
    struct hold hold = hold_make(s, HOLD_COMMAND_NOW);
    hold_line(&hold, WORD_HOLD_COMMAND, text, NULL, NULL);
    hold_todo(&hold, WORD_DO_PRESS_BACK, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static bool is(const char *text, const char *body) {
    struct ticket command;
    return ticket_make(TICKET_COMMAND, body, &command) && strcmp(command.text, text) == 0;
}

// True when the command did something here.
static bool command(struct station *s, const char *text) {
    if (is(text, "OUT") && station_signed_on(s)) {
        station_sign_off(s, "signed_off");
        return true;
    }
    if (is(text, "BACK")) {
        station_home(s);
        return true;
    }
    if (is(text, "FIT") && s->state == STATION_BUTT_CUT) {
        number_open(s, NUMBER_DRY_FIT);
        return true;
    }
    if (is(text, "WRONG") && s->state != STATION_HOLD && s->supervisor.badge[0] == '\0') {
        wrong_open(s);
        return true;
    }
    // The letters that other keyboard layouts have elsewhere, so that the check sees them.
    if (is(text, "YZAQWM") && s->state == STATION_READY) {
        station_move(s, STATION_CHECK);
        return true;
    }
    if (is(text, "REVIEW") && s->state == STATION_READY) {
        pin_open(s, PIN_FOR_REVIEW, NULL);
        return true;
    }
    return number_ticket(s, text);
}

// A scan of the right part goes on from a hold. False when this hold must be answered first.
static bool leave_hold(struct station *s) {
    bool one_part = (s->head[0] == '\0') != (s->shaft[0] == '\0');
    enum station_state back = s->hold.back;
    if (s->hold.unsafe || s->hold.cause == HOLD_SOMETHING_WRONG) {
        return false;
    }
    if (back == STATION_PAIR && one_part) {
        station_move(s, STATION_PAIR);
        return true;
    }
    if (s->hold.start_over || back == STATION_READY || back == STATION_SIGNED_OUT ||
        back == STATION_PAIR || back == STATION_LOGGED) {
        station_home(s);
        return true;
    }
    return false;
}

static void ticket_scan(struct station *s, const struct ticket *ticket) {
    if (ticket->kind == TICKET_COMMAND) {
        if (command(s, ticket->text)) {
            station_sound(s, SOUND_ACCEPTED);
        } else {
            command_now(s, ticket->text);
        }
        return;
    }
    if (s->state == STATION_HOLD && !leave_hold(s)) {
        station_sound(s, SOUND_HOLD);
        return;
    }
    switch (ticket->kind) {
    case TICKET_HEAD:
    case TICKET_SHAFT:
        part(s, ticket);
        break;
    case TICKET_BUILD:
        build_ticket(s, ticket->text);
        break;
    case TICKET_WORKER:
        badge(s, ticket->text);
        break;
    case TICKET_COMMAND:
    case TICKET_KIND_COUNT:
        break;
    }
}

// PIN and log have their own place for words; a line typed there has come in as keys already.
static bool typed_here(struct station *s, const char *text) {
    size_t note = strlen(s->review.note);
    size_t size = strlen(text);
    if (s->state == STATION_PIN && s->supervisor.badge[0] != '\0') {
        return strcmp(s->pin.digits, text) == 0;
    }
    if (s->state == STATION_REVIEW && s->review.note_active && size <= note &&
        strcmp(s->review.note + note - size, text) == 0) {
        s->review.note_active = false;
        return true;
    }
    return false;
}

static bool names_build(const struct ticket *ticket) {
    return ticket->kind == TICKET_HEAD || ticket->kind == TICKET_SHAFT ||
           ticket->kind == TICKET_BUILD;
}

void scanning_scan(struct station *s, const char *text) {
    struct ticket ticket;
    enum ticket_error error;
    memset(&ticket, 0, sizeof ticket);
    error = ticket_parse(text, &ticket);
    bool is_command = error == TICKET_OK && ticket.kind == TICKET_COMMAND;
    if (typed_here(s, text)) {
        return;
    }
    if (s->state == STATION_CHECK) {
        station_sound(s, SOUND_ACCEPTED); // nothing is done with it but show it
        return;
    }
    if (s->state == STATION_DESK) {
        return; // the desk takes it
    }
    if (s->state == STATION_SELFCHECK) { // a scan goes on from there, unless nothing may
        if (selfchecks_keep_out(s)) {
            station_sound(s, SOUND_HOLD);
            return;
        }
        station_home(s);
    }
    if (s->state == STATION_PIN && !is_command) {
        pin_badge(s, error == TICKET_OK ? ticket.text : text);
    } else if (error == TICKET_OK && s->state == STATION_SET && names_build(&ticket)) {
        sets_scan(s, &ticket);
    } else if (s->state == STATION_SET && !is_command) {
        SAY(s->set.message, SET_NO_SCAN, NULL, NULL, NULL);
        station_sound(s, SOUND_HOLD);
    } else if (s->state == STATION_FINAL && !is_command) {
        if (!number_scan(s, text)) {
            SAY(s->number.error, FINAL_NO_SCAN, NULL, NULL, NULL);
            station_sound(s, SOUND_HOLD);
        }
    } else if (day_checks(s) && !is_command) {
        station_sound(s, SOUND_HOLD); // that day is being signed
    } else if (s->state == STATION_REVIEW && !is_command) {
        memset(s->review.message, 0, sizeof s->review.message);
        filters_search(s, text, error == TICKET_OK ? &ticket : NULL);
    } else if (error == TICKET_OK) {
        ticket_scan(s, &ticket);
    } else if (!number_scan(s, text)) {
        bad_code(s, text, error);
    }
}
