// What a chart or a model as it stands in the form would do to clubs that are not done, and to one
// club that somebody tries it on. Every plan is made of what the store would hold if the change
// were logged, so nothing is worked out twice.

#include "office_inner.h"
#include "text.h"

#include <string.h>

#define CLUBS_MAX 4096
#define LINES_MAX VIEW_FORM_NOTES

struct outcome {
    bool there; // the change may touch its plan
    bool valid;
    length_nm tip, butt;
    bool off_plan; // cut off already, and not what would be planned
    enum plan_code refusal;
};

struct lines {
    size_t count; // all of them
    char line[LINES_MAX][VIEW_TEXT_MAX];
};

struct effects {
    const struct office *office;
    const struct desk_draft *draft;
    int count;
    int looked;
    int64_t id[CLUBS_MAX];
    struct outcome before[CLUBS_MAX];
    struct lines refused, moved, gained;
    int64_t tried; // the club it is tried on, 0: none
    struct desk_remarks *remarks;
};

// --- one club ------------------------------------------------------------------------------------

static bool reads(const struct effects *effects, const struct club *club) {
    enum chart_kind kind;
    const char *wanted = document_value(&effects->draft->now, "kind");
    return strcmp(effects->draft->now.sheet, "charts") != 0 ||
           (chart_kind_for_head(club->head.kind, &kind) &&
            strcmp(chart_kind_text(kind), wanted) == 0);
}

static bool off_plan(const struct plan *plan) {
    for (size_t i = 0; i < plan->warning_count; i++) {
        if (plan->warning[i].code == PLAN_W_TIP_OFF_PLAN) {
            return true;
        }
    }
    return false;
}

static struct outcome outcome_of(const struct plan *plan, bool valid) {
    return (struct outcome){.there = true,
                            .valid = valid,
                            .tip = plan->tip_mark,
                            .butt = plan->butt_mark,
                            .off_plan = off_plan(plan),
                            .refusal = plan->refusal.code};
}

// `2041-3: ` and what is said about it.
static void say_of(const struct club *club, const char *words, struct text *text) {
    text_say(text, club->progress.stage != STAGE_PENDING ? _("%1-%2 (begun): %3") : "%1-%2: %3",
             club->order.build, club->order.club, words);
}

static void add_length(const struct office *office, length_nm length, struct text *text) {
    char words[LENGTH_TEXT_MAX];
    office_length(office, length, words, sizeof words);
    text_add(text, words);
}

// `tip 1 1/2 to 1 5/8, butt 36 stays`, the four ways that two marks move or stay.
static void moved(const struct office *office, const struct outcome *before,
                  const struct outcome *after, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    char tip[2][LENGTH_TEXT_MAX];
    char butt[2][LENGTH_TEXT_MAX];
    bool tip_stays = before->tip == after->tip;
    bool butt_stays = before->butt == after->butt;
    office_length(office, before->tip, tip[0], sizeof tip[0]);
    office_length(office, after->tip, tip[1], sizeof tip[1]);
    office_length(office, before->butt, butt[0], sizeof butt[0]);
    office_length(office, after->butt, butt[1], sizeof butt[1]);
    text_say(&text,
             tip_stays    ? _("tip %1 stays, butt %3 to %4")
             : butt_stays ? _("tip %1 to %2, butt %3 stays")
                          : _("tip %1 to %2, butt %3 to %4"),
             tip[0], tip[1], butt[0], butt[1]);
}

static void marks(const struct office *office, const char *pattern, length_nm tip, length_nm butt,
                  char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    char words[2][LENGTH_TEXT_MAX];
    office_length(office, tip, words[0], sizeof words[0]);
    office_length(office, butt, words[1], sizeof words[1]);
    text_say(&text, pattern, words[0], words[1]);
}

static struct text next_line(struct lines *lines) {
    size_t at = lines->count++;
    return at < LINES_MAX ? text_open(lines->line[at], VIEW_TEXT_MAX) : text_open(NULL, 0);
}

static void off_plan_words(const struct plan_input *input, const struct plan *plan,
                           char words[PLAN_LINE_TEXT_MAX]) {
    for (size_t i = 0; i < plan->warning_count; i++) {
        if (plan->warning[i].code == PLAN_W_TIP_OFF_PLAN) {
            plan_line_text(input, &plan->warning[i], words, PLAN_LINE_TEXT_MAX);
        }
    }
}

static void compare(struct effects *effects, const struct club *club,
                    const struct outcome *before) {
    struct plan_input input;
    struct plan plan;
    bool valid = club_plan(club, &effects->office->settings->rules, &input, &plan);
    struct outcome after = outcome_of(&plan, valid);
    char words[PLAN_LINE_TEXT_MAX] = "";
    struct lines *lines = &effects->moved;
    if (before->valid && !valid) {
        lines = &effects->refused;
        plan_line_text(&input, &plan.refusal, words, sizeof words);
    } else if (valid && !before->valid) {
        lines = &effects->gained;
        marks(effects->office, _("tip %1, butt %2, had no plan"), after.tip, after.butt, words,
              sizeof words);
    } else if (valid && (before->tip != after.tip || before->butt != after.butt)) {
        moved(effects->office, before, &after, words, sizeof words);
    } else if (valid && after.off_plan && !before->off_plan) {
        off_plan_words(&input, &plan, words);
    } else {
        return;
    }
    struct text text = next_line(lines);
    say_of(club, words, &text);
}

// --- the club it is tried on ---------------------------------------------------------------------

static void note_line(struct desk_remarks *remarks, const struct office *office,
                      enum view_tone tone, const char *words, length_nm amount, bool first) {
    char line[VIEW_TEXT_MAX];
    struct text text = text_open(line, sizeof line);
    text_add(&text, words);
    if (amount != 0 || first) {
        text_add(&text, amount > 0 && !first ? ": +" : ": ");
        add_length(office, amount, &text);
    }
    office_note(remarks, tone, line);
}

static void try_on(struct effects *effects, const struct club *club) {
    struct desk_remarks *remarks = effects->remarks;
    struct plan_input input;
    struct plan plan;
    char words[PLAN_LINE_TEXT_MAX];
    char line[VIEW_TEXT_MAX];
    struct text text = text_open(line, sizeof line);
    bool valid = club_plan(club, &effects->office->settings->rules, &input, &plan);
    if (!valid) {
        plan_line_text(&input, &plan.refusal, words, sizeof words);
        say_of(club, words, &text);
        office_note(remarks, TONE_STOP, line);
        return;
    }
    marks(effects->office, _("tip %1, butt %2"), plan.tip_mark, plan.butt_mark, words,
          sizeof words);
    say_of(club, words, &text);
    office_note(remarks, TONE_FINE, line);
    for (size_t i = 0; i < plan.reason_count; i++) {
        plan_line_text(&input, &plan.reason[i], words, sizeof words);
        note_line(remarks, effects->office, TONE_PLAIN, words, plan.reason[i].amount, i == 0);
    }
    for (size_t i = 0; i < plan.warning_count; i++) {
        plan_line_text(&input, &plan.warning[i], words, sizeof words);
        office_note(remarks, TONE_CAUTION, words);
    }
}

static bool other_chart(const struct effects *effects, const struct club *club) {
    const struct document *now = &effects->draft->now;
    return strcmp(club->shaft.model, document_value(now, "model")) != 0 ||
           strcmp(club->shaft.flex, document_value(now, "flex")) != 0 || !reads(effects, club);
}

static enum store_result try_it(struct effects *effects, struct store *store) {
    struct club club;
    if (effects->tried == 0) {
        return STORE_OK;
    }
    enum store_result result = store_club(store, effects->tried, &club);
    if (result != STORE_OK) {
        return result;
    }
    if (club.head.ticket[0] == '\0' || club.shaft.ticket[0] == '\0') {
        office_note(effects->remarks, TONE_CAUTION,
                    _("The club to try it on lacks its head or its shaft."));
    } else if (other_chart(effects, &club)) {
        office_note(effects->remarks, TONE_CAUTION,
                    _("The club to try it on goes by another chart: another shaft, or another "
                      "kind of head."));
    } else {
        try_on(effects, &club);
    }
    return STORE_OK;
}

// `2041-3`, or the ticket on its head or shaft.
static void find_tried(struct effects *effects) {
    const char *typed = document_value(&effects->draft->now, "try");
    const char *dash = strchr(typed, '-');
    char build[CHANGE_VALUE_MAX];
    struct ticket ticket;
    struct part part;
    enum store_result result = STORE_NONE;
    if (typed[0] == '\0') {
        return;
    }
    if (ticket_parse(typed, &ticket) == TICKET_OK) {
        result = store_part(effects->office->store, ticket.text, &part);
        effects->tried = result == STORE_OK ? part.club_id : 0;
    } else if (dash != NULL) {
        SET(build, typed);
        build[dash - typed] = '\0';
        result = store_club_named(effects->office->store, build, dash + 1, &effects->tried);
    }
    if (result != STORE_OK || effects->tried == 0) {
        office_note(effects->remarks, TONE_CAUTION,
                    _("There is no club to try it on of that name. Write 2041-3."));
    }
}

// --- all of them ---------------------------------------------------------------------------------

static enum store_result look_before(struct effects *effects) {
    const struct document *now = &effects->draft->now;
    struct store *store = effects->office->store;
    const char *model = document_value(now, "model");
    effects->count = strcmp(now->sheet, "head_models") == 0
                         ? store_open_of_head(store, model, effects->id, CLUBS_MAX)
                         : store_open_of_shaft(store, model, document_value(now, "flex"),
                                               effects->id, CLUBS_MAX);
    for (int i = 0; i < effects->count; i++) {
        struct club club;
        struct plan_input input;
        struct plan plan;
        enum store_result result = store_club(store, effects->id[i], &club);
        if (result != STORE_OK) {
            return result;
        }
        if (reads(effects, &club)) {
            bool valid = club_plan(&club, &effects->office->settings->rules, &input, &plan);
            effects->before[i] = outcome_of(&plan, valid);
            effects->looked++;
        }
    }
    return effects->count < 0 ? STORE_FAILED : STORE_OK;
}

static enum store_result look_after(void *ctx, struct store *store) {
    struct effects *effects = ctx;
    for (int i = 0; i < effects->count; i++) {
        struct club club;
        if (!effects->before[i].there) {
            continue;
        }
        enum store_result result = store_club(store, effects->id[i], &club);
        if (result != STORE_OK) {
            return result;
        }
        compare(effects, &club, &effects->before[i]);
    }
    return try_it(effects, store);
}

// As many lines as there is room for, and how many more there are.
static void tell(struct desk_remarks *remarks, const struct lines *lines, enum view_tone tone,
                 size_t *room) {
    size_t shown = lines->count <= *room ? lines->count : *room > 0 ? *room - 1 : 0;
    for (size_t i = 0; i < shown; i++) {
        office_note(remarks, tone, lines->line[i]);
    }
    if (lines->count > shown) {
        char words[VIEW_TEXT_MAX];
        struct text text = text_open(words, sizeof words);
        unsigned long rest = (unsigned long)(lines->count - shown);
        unsigned which = tone == TONE_STOP ? 0 : tone == TONE_CAUTION ? 1 : 2;
        // TRANSLATORS: clubs that are not named one by one, where some were.
        const char *after[] = {
            tongue_plural("and %1 more could not be made", "and %1 more could not be made", rest),
            tongue_plural("and %1 more is cut differently", "and %1 more are cut differently",
                          rest),
            tongue_plural("and %1 more has a plan now", "and %1 more have a plan now", rest)};
        // TRANSLATORS: clubs, none of which is named.
        const char *alone[] = {
            tongue_plural("%1 could not be made", "%1 could not be made", rest),
            tongue_plural("%1 is cut differently", "%1 are cut differently", rest),
            tongue_plural("%1 has a plan now", "%1 have a plan now", rest)};
        text_say(&text, shown > 0 ? after[which] : alone[which], text_number((int64_t)rest).digits);
        office_note(remarks, tone, words);
    }
    *room -= shown < *room ? shown : *room;
}

static void tell_all(struct effects *effects) {
    struct desk_remarks *remarks = effects->remarks;
    size_t changed = effects->refused.count + effects->moved.count;
    char words[VIEW_TEXT_MAX];
    struct text text = text_open(words, sizeof words);
    if (changed > 0) {
        text_say(&text, _("Cut differently: %1 of the open clubs that go by it, %2"),
                 text_number((int64_t)changed).digits, text_number(effects->looked).digits);
    } else if (effects->looked > 0) {
        text_say(&text, _("Open clubs that go by it: %1. None is cut differently."),
                 text_number(effects->looked).digits);
    } else {
        text_add(&text, _("No open club goes by it."));
    }
    office_note(remarks, changed > 0 ? TONE_CAUTION : TONE_FINE, words);
    // Each of the three may need a line that counts the rest, and what is tried some of its own.
    size_t room = effects->tried != 0 ? 3 : VIEW_FORM_NOTES - 5;
    tell(remarks, &effects->refused, TONE_STOP, &room);
    tell(remarks, &effects->moved, TONE_CAUTION, &room);
    tell(remarks, &effects->gained, TONE_FINE, &room);
    if (changed > 0 && document_value(&effects->draft->now, "why")[0] == '\0') {
        office_complain(remarks, "why", _("marks of open clubs change. Say why."));
    }
}

static void look(struct effects *effects, const struct change *change) {
    const struct office *office = effects->office;
    struct entry entry;
    struct desk_remarks tried = {0};
    struct desk_remarks *remarks = effects->remarks;
    enum store_result result = look_before(effects);
    if (result == STORE_OK &&
        !office_change(office, &office->who, effects->draft->id, 0, change, "", &entry)) {
        office_complain(remarks, "", _("This is more than one change can hold. Write less."));
        return;
    }
    if (result == STORE_OK) {
        effects->remarks = &tried;
        result = store_rehearse(office->store, &entry, 1, look_after, effects);
        effects->remarks = remarks;
    }
    if (result != STORE_OK) {
        office_complaints(office, remarks);
        return;
    }
    tell_all(effects);
    for (size_t i = 0; i < tried.note_count; i++) {
        office_note(remarks, tried.note_tone[i], tried.note[i]);
    }
}

void effects_consider(struct office *office, struct desk_draft *draft,
                      struct desk_remarks *remarks) {
    struct effects effects = {.office = office, .draft = draft, .remarks = remarks};
    struct document before, after;
    struct change change;
    sheets_consider(office, draft, remarks);
    if (remarks->complaint_count > 0) {
        return;
    }
    sheets_document(draft, &draft->before, &before);
    sheets_document(draft, &draft->now, &after);
    change_between(draft->exists ? &before : NULL, &after, &change);
    find_tried(&effects);
    if (!change_empty(&change)) {
        look(&effects, &change);
    } else if (try_it(&effects, office->store) != STORE_OK) {
        office_complain(remarks, "", store_message(office->store));
    }
}
