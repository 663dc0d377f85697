#include "laws.h"
#include "record.h"

#include <string.h>

void laws_remember(const struct station *station, const struct shop *shop,
                   struct laws_before *ret_before) {
    memset(ret_before, 0, sizeof *ret_before);
    ret_before->seq = shop->seq;
    ret_before->holds_heard = shop->sounds[SOUND_HOLD];
    ret_before->saving = station->saving != SAVING_NONE;
    ret_before->state = station->state;
    memcpy(ret_before->head, station->head, sizeof ret_before->head);
    memcpy(ret_before->shaft, station->shaft, sizeof ret_before->shaft);
    memcpy(ret_before->pending_id, station->pending.confirm_id, sizeof ret_before->pending_id);
    ret_before->dead = shop->moved_ms != 0 && shop->now_ms < shop->moved_ms + 400;
}

static bool names(const char *text, const char *ticket) {
    return strstr(text, ticket) != NULL;
}

// The club whose head and shaft are both named on the cut view, 0 none.
static int64_t club_on_screen(const struct shop *shop, const struct view *view) {
    for (size_t i = 0; i < shop->catalogue->club_count; i++) {
        const struct club *club = &shop->catalogue->club[i];
        const char *shaft =
            shop->club[i].recut ? shop->catalogue->loose[0].ticket : club->shaft.ticket;
        if (names(view->cut.head, club->head.ticket) && names(view->cut.shaft, shaft)) {
            return club->id;
        }
    }
    return 0;
}

static bool plan_of(const struct shop *shop, int64_t club_id, struct plan *ret_plan) {
    struct station_settings settings = shop_settings();
    struct shop copy = *shop;
    struct club club;
    struct plan_input input;
    copy.lost = 0;
    copy.checking = false;
    copy.calls_to_failure = 0;
    // A mark may stand while the desk changes the order; no cut follows before that was heard.
    copy.club[club_id - 1].longer = shop->club[club_id - 1].heard;
    return shop_ops.club(&copy, club_id, &club) == STATION_FOUND &&
           club_plan(&club, &settings.rules, &input, ret_plan);
}

static const char *law_1(const struct shop *shop, const struct view *view) {
    const struct view_cut *cut = &view->cut;
    int64_t club_id = club_on_screen(shop, view);
    struct plan plan;
    if (view->body != VIEW_CUT) {
        return NULL;
    }
    if (club_id == 0) {
        return "law 1: a mark for head and shaft of different clubs";
    }
    const struct shop_club *facts = &shop->club[club_id - 1];
    enum material material = shop->catalogue->club[club_id - 1].model.material;
    if (shop->worker[0] == '\0') {
        return "law 1: a mark with nobody signed on";
    }
    if (!shop->care[material]) {
        return "law 1: a mark with no care confirmed this session";
    }
    if (facts->progress.stage != (cut->butt ? STAGE_BUTT_SHOWN : STAGE_TIP_SHOWN) ||
        strcmp(facts->progress.bench, "Bench 2") != 0) {
        return "law 1: a mark for a club that is not pending here";
    }
    if (!plan_of(shop, club_id, &plan)) {
        return "law 1: a mark without a valid plan";
    }
    length_nm part =
        cut->butt || facts->progress.tip_made == LENGTH_UNKNOWN ? 0 : facts->progress.tip_made;
    if (cut->mark.value != (cut->butt ? plan.butt_mark : plan.tip_mark - part)) {
        return "law 1: a mark that is not the plan's";
    }
    if (facts->shown_butt != cut->butt || facts->shown != cut->mark.value + part ||
        facts->shown_plan == 0) {
        return "law 6: a mark on the screen that is not in the log";
    }
    return NULL;
}

static bool day_is_checked(const struct station *station) {
    return station->state == STATION_REVIEW && station->review.mode == REVIEW_CHECK;
}

static const char *law_2(const struct station *station, const struct shop *shop,
                         const struct laws_before *before, const struct event *event,
                         const struct view *view) {
    bool saving = station->saving != SAVING_NONE;
    bool says = view->body == VIEW_NOTICE && (strcmp(view->notice.title, "NOT LOGGED") == 0 ||
                                              strcmp(view->notice.title, "Checking the log") == 0);
    if (view->body == VIEW_NOTICE && view->notice.tone == TONE_FINE) {
        if (shop->measured != VERDICT_IN) {
            return "law 2: logged on the screen, but not in the log";
        }
    }
    if (view->body == VIEW_DAY && (view->day.note[0] != '\0' || view->day.tone == TONE_FINE) &&
        shop->signed_seq == 0) {
        return "law 2: signed on the screen, but not in the log";
    }
    if (shop->checking != day_is_checked(station)) {
        return "law 2: the log is checked for nobody, or waited for in vain";
    }
    if (saving != says) {
        return "law 2: an open entry and the screen does not say so";
    }
    if (saving && view->action_count != 0) {
        return "law 2: something can be started while an entry is open";
    }
    bool number = station->pending.kind == ENTRY_TIP_CUT ||
                  station->pending.kind == ENTRY_BUTT_CUT || station->pending.kind == ENTRY_MEASURE;
    if (saving && number &&
        (!view->notice.has_mark || view->notice.mark.value != station->pending.made)) {
        return "law 2: the number of an open entry is lost";
    }
    if (before->saving && event->kind != EVENT_TICK && shop->seq != before->seq) {
        return "law 2: something was logged while an entry was open";
    }
    if (before->saving && saving && strcmp(before->pending_id, station->pending.confirm_id) != 0 &&
        shop->seq == before->seq) {
        return "law 2: an open entry was given up for another";
    }
    return NULL;
}

static bool confirms(enum entry_kind kind) {
    return kind == ENTRY_CARE || kind == ENTRY_TIP_CUT || kind == ENTRY_TIP_PARTIAL ||
           kind == ENTRY_BUTT_CUT || kind == ENTRY_MEASURE || kind == ENTRY_WITHDRAW ||
           kind == ENTRY_DRY_FIT || kind == ENTRY_CONSENT || kind == ENTRY_DECIDE ||
           kind == ENTRY_DAY_SIGNED || kind == ENTRY_NOTE;
}

static const char *law_4(const struct station *station, const struct shop *shop,
                         const struct laws_before *before, const struct event *event) {
    bool button = event->kind == EVENT_PRESS || event->kind == EVENT_HELD;
    bool new_head = station->head[0] != '\0' && strcmp(station->head, before->head) != 0;
    bool new_shaft = station->shaft[0] != '\0' && strcmp(station->shaft, before->shaft) != 0;
    for (int64_t seq = before->seq + 1; seq <= shop->seq; seq++) {
        const struct shop_entry *entry = &shop->log[seq % SHOP_LOG];
        if (event->kind == EVENT_SCAN && confirms(entry->kind)) {
            return "law 4: a scan confirmed";
        }
    }
    if (event->kind != EVENT_SCAN && (new_head || new_shaft)) {
        return "law 4: something but a scan identified a part";
    }
    if (button && before->dead && (shop->seq != before->seq || station->state != before->state)) {
        return "law 3: a press within the dead time did something";
    }
    return NULL;
}

static const char *law_8(const struct station *station, const struct shop *shop,
                         const struct laws_before *before, const struct view *view) {
    const struct view_notice *notice = &view->notice;
    bool heard = shop->sounds[SOUND_HOLD] != before->holds_heard;
    bool words = view->number.error[0] != '\0' || view->pin_message[0] != '\0' ||
                 view->body == VIEW_NOTICE || station->review.message[0] != '\0' ||
                 station->set.message[0] != '\0';
    if (view->band[0] == '\0') {
        return "law 8: the band says nothing";
    }
    if (view->body == VIEW_NOTICE &&
        (notice->title[0] == '\0' || (notice->line_count == 0 && notice->todo_count == 0))) {
        return "law 8: a notice without words";
    }
    if (view->body == VIEW_NOTICE && notice->tone == TONE_STOP && notice->todo_count == 0) {
        return "law 8: a stop that does not say what to do";
    }
    if (station->review.message[0] != '\0' && strcmp(view->band, station->review.message) != 0 &&
        station->state == STATION_REVIEW) {
        return "law 8: words that are not on the screen";
    }
    if (station->set.message[0] != '\0' && strcmp(view->band, station->set.message) != 0 &&
        station->state == STATION_SET && station->saving == SAVING_NONE) {
        return "law 8: words about a set that are not on the screen";
    }
    if (heard && !words) {
        return "law 8: a beep and no words";
    }
    if (station->state == STATION_HOLD && before->state != STATION_HOLD &&
        station->hold.cause == HOLD_NONE) {
        return "law 8: a hold without a cause";
    }
    if (station->state == STATION_HOLD && station->hold.cause == HOLD_ALREADY_LOGGED) {
        return "law 3: an entry was tried that the log cannot take"; // nobody else writes here
    }
    if (station->state == STATION_HOLD &&
        (station->hold.cause == HOLD_GUARD || station->hold.cause == HOLD_ILLEGAL_MOVE)) {
        return "law 8: the station stopped itself";
    }
    return NULL;
}

const char *laws_judge(const struct station *station, const struct shop *shop,
                       const struct laws_before *before, const struct event *event,
                       const struct view *view) {
    const char *broken = shop->violation; // laws 3, 5 and 6, judged as the log is written
    broken = broken != NULL ? broken : law_1(shop, view);
    broken = broken != NULL ? broken : law_2(station, shop, before, event, view);
    broken = broken != NULL ? broken : law_4(station, shop, before, event);
    return broken != NULL ? broken : law_8(station, shop, before, view);
}

static void give(struct station *station, struct shop *shop, enum event_kind kind,
                 const char *text) {
    struct event event = {.kind = kind};
    memcpy(event.text, text, strlen(text) + 1);
    shop->now_ms += 500;
    station_event(station, &event);
}

const char *laws_restart(const struct shop *shop, int64_t club_id) {
    static struct shop copy;
    static struct station station;
    struct station_settings settings = shop_settings();
    struct station_ops ops = shop_ops_for(&copy);
    const struct club *club = &shop->catalogue->club[club_id - 1];
    const struct shop_club *facts = &shop->club[club_id - 1];
    struct plan plan;
    copy = *shop;
    copy.fault = SHOP_NO_FAULT;
    copy.broken = false;
    copy.full = false;
    copy.blind = 0;
    copy.lost = 0;
    if (!plan_of(&copy, club_id, &plan)) {
        return NULL;
    }
    station_init(&station, &settings, &ops);
    give(&station, &copy, EVENT_SCAN, shop->catalogue->worker[0].badge);
    give(&station, &copy, EVENT_SCAN,
         facts->recut ? shop->catalogue->loose[0].ticket : club->shaft.ticket);
    give(&station, &copy, EVENT_SCAN, club->head.ticket);
    if (station.state == STATION_CARE) {
        give(&station, &copy, EVENT_PRESS, "");
    }
    bool ok = false;
    switch (facts->progress.stage) {
    case STAGE_PENDING:
        ok = station.state == STATION_TIP_CUT && station.club.id == club_id;
        break;
    case STAGE_TIP_SHOWN:
    case STAGE_BUTT_SHOWN:
        ok = station.state == STATION_RESUME && station.club.id == club_id;
        break;
    case STAGE_TIP_CUT:
        ok = station.state == STATION_BUTT_CUT && station.shown_mark == plan.butt_mark;
        break;
    case STAGE_BUTT_CUT:
        ok = station.state == STATION_MEASURE;
        break;
    case STAGE_DECISION:
        ok = station.state == STATION_HOLD && station.hold.cause == HOLD_DECISION;
        break;
    case STAGE_DONE:
        ok = station.state == STATION_HOLD &&
             (station.hold.cause == HOLD_CLUB_DONE || station.hold.cause == HOLD_ALREADY_CUT);
        break;
    case STAGE_COUNT:
        break;
    }
    return ok ? NULL : "law 7: a restart does not lead to the next step";
}
