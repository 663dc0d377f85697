// The press that answers a number question: read, checked for sense, then put on its way to the
// log. A number that cannot be is an error on the screen and does nothing.

#include "station_inner.h"

#include <string.h>

#define SLACK (LENGTH_INCH / 8) // a raw length is good to about this

length_nm answer_piece(const struct station *s) {
    const struct progress *progress = &s->club.progress;
    bool cut = progress->tip_made != LENGTH_UNKNOWN && progress->stage != STAGE_PENDING;
    return s->club.shaft.raw_length - (cut ? progress->tip_made : 0);
}

// The same with what is added at the butt.
static length_nm longest(const struct station *s) {
    struct plan_input input;
    struct plan plan;
    return answer_piece(s) + (cutting_plan(s, &input, &plan) ? plan.extension : 0);
}

static bool wrong(struct station *s, enum word which, const char *a) {
    words_fill(s->number.error, sizeof s->number.error, which, a, NULL, NULL);
    station_sound(s, SOUND_HOLD);
    return false;
}

static bool wrong_piece(struct station *s, length_nm piece) {
    char text[LENGTH_TEXT_MAX];
    say_length(s, piece, text);
    return wrong(s, WORD_NUMBER_PIECE, text);
}

static bool read(struct station *s, int field, length_nm *ret_length) {
    const char *text = s->number.text[field];
    enum length_unit unit = s->settings.metric_first ? LENGTH_UNIT_MM : LENGTH_UNIT_INCH;
    struct length_error error;
    length_nm length;
    enum length_error_code code = length_parse(text, unit, &length, &error);
    if (code == LENGTH_EMPTY) {
        s->number.active = field;
        return wrong(s, WORD_NUMBER_EMPTY, NULL);
    }
    if (code != LENGTH_OK) {
        s->number.active = field;
        memset(s->number.error, 0, sizeof s->number.error);
        length_error_text(text, &error, s->number.error, sizeof s->number.error);
        station_sound(s, SOUND_HOLD);
        return false;
    }
    if (length < 0) {
        return wrong(s, WORD_NUMBER_NEGATIVE, NULL);
    }
    *ret_length = length;
    return true;
}

static void dry_fit(struct station *s) {
    length_nm overall;
    length_nm raw;
    length_nm height;
    if (!read(s, 0, &overall) || !read(s, 1, &raw)) {
        return;
    }
    if (raw == 0) {
        wrong(s, WORD_NUMBER_ZERO, NULL);
    } else if (overall < raw) {
        wrong(s, WORD_NUMBER_OVERALL, NULL);
    } else if (!plan_dry_fit(overall, raw, &height)) {
        char text[LENGTH_TEXT_MAX];
        say_length(s, overall - raw, text);
        wrong(s, WORD_DRY_RANGE, text);
    } else {
        struct entry entry = save_entry(s, ENTRY_DRY_FIT);
        entry.planned = overall;
        entry.made = height;
        save_begin(s, &entry, THEN_REPLAN);
    }
}

static void tip_made(struct station *s) {
    length_nm made;
    length_nm raw = s->club.shaft.raw_length;
    if (!read(s, 0, &made)) {
        return;
    }
    if (made >= raw) {
        wrong_piece(s, raw);
    } else {
        cutting_tip_made(s, made);
    }
}

// The butt was cut somewhere else before a restart: still too long, its mark comes again; else it
// counts as cut and is measured.
static void butt_left(struct station *s) {
    struct plan_input input;
    struct plan plan;
    length_nm left;
    if (!read(s, 0, &left)) {
        return;
    }
    if (left == 0) {
        wrong(s, WORD_NUMBER_ZERO, NULL);
    } else if (left > answer_piece(s) + SLACK) {
        wrong_piece(s, answer_piece(s));
    } else if (!cutting_plan(s, &input, &plan) ||
               plan_verdict(left, plan.butt_mark, s->settings.rules.tolerance) == VERDICT_LONG) {
        cutting_step(s);
    } else {
        cutting_butt_made(s, left);
    }
}

// R6 is asked of what is given as of any trim, before it goes into the log.
static void given_trim(struct station *s) {
    struct club club = s->club;
    struct plan_input input;
    struct plan plan;
    length_nm trim;
    if (!read(s, 0, &trim)) {
        return;
    }
    if (trim >= s->club.shaft.raw_length) {
        wrong_piece(s, s->club.shaft.raw_length);
        return;
    }
    club.order.trim_consent = trim;
    if (!club_plan(&club, &s->settings.rules, &input, &plan) &&
        plan.refusal.code != PLAN_F_TOO_SHORT_SHAFT) {
        memset(s->number.error, 0, sizeof s->number.error);
        plan_line_text(&input, &plan.refusal, s->number.error, sizeof s->number.error);
        station_sound(s, SOUND_HOLD);
        return;
    }
    consent_trim(s, trim);
}

static void measure(struct station *s) {
    struct plan_input input;
    struct plan plan;
    struct entry entry;
    length_nm made;
    if (!read(s, 0, &made)) {
        return;
    }
    if (made == 0) {
        wrong(s, WORD_NUMBER_ZERO, NULL);
        return;
    }
    if (made > longest(s) + SLACK) {
        wrong_piece(s, longest(s));
        return;
    }
    if (!cutting_plan(s, &input, &plan)) {
        cutting_step(s); // says why there is no plan any more
        return;
    }
    entry = save_entry(s, ENTRY_MEASURE);
    entry.planned = plan.butt_mark;
    entry.made = made;
    entry.verdict = plan_verdict(made, plan.butt_mark, s->settings.rules.tolerance);
    if (s->club.progress.stage != STAGE_BUTT_CUT) {
        SET(entry.cause, "no_butt_cut");
    }
    cutting_record(s, &entry);
    save_begin(s, &entry,
               entry.verdict == VERDICT_IN     ? THEN_LOGGED
               : entry.verdict == VERDICT_LONG ? THEN_LONG
                                               : THEN_SHORT);
}

void answer_press(struct station *s) {
    memset(s->number.error, 0, sizeof s->number.error);
    switch (s->number.kind) {
    case NUMBER_DRY_FIT:
        dry_fit(s);
        break;
    case NUMBER_TIP_MADE:
        tip_made(s);
        break;
    case NUMBER_BUTT_LEFT:
        butt_left(s);
        break;
    case NUMBER_MEASURE:
        measure(s);
        break;
    case NUMBER_FINAL_LENGTH:
    case NUMBER_FINAL_SWINGWEIGHT:
    case NUMBER_FINAL_FREQUENCY:
    case NUMBER_FINAL_LOFT:
    case NUMBER_FINAL_LIE:
        final_press(s);
        break;
    case NUMBER_GIVEN_TRIM:
        given_trim(s);
        break;
    }
}
