// Whether a build is done, and else what is missing.

#include "builds.h"

#include "tongue.h"

static void say(struct text *text, bool *first, const char *club, const char *what) {
    if (*first) {
        text_add(text, text->used > 0 ? "; " : "");
        // TRANSLATORS: what a club lacks, as `club 7: no loft, length out`.
        text_say(text, _("club %1: %2"), club, what);
    } else {
        text_add(text, ", ");
        text_add(text, what);
    }
    *first = false;
}

bool builds_club_done(const struct club *club, const struct final_values *values,
                      const struct bench_rules *rules, const struct assembly *assembly,
                      const struct assembly_tolerance *tolerance, struct text *text) {
    struct assembly_values planned, measured;
    struct assembly_check check;
    bool first = true;
    if (club->progress.stage != STAGE_DONE) {
        say(text, &first, club->order.club, _("not cut"));
        return false;
    }
    assembly_planned(club, rules, assembly, &planned);
    assembly_measured(values, &measured);
    assembly_check(&planned, &measured, assembly_accepted(values), tolerance, &check);
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        char what[ASSEMBLY_TEXT_MAX];
        struct text words = text_open(what, sizeof what);
        const char *name = assembly_value_words((enum assembly_value)i);
        if (check.wanted[i] && check.state[i] == ASSEMBLY_MISSING) {
            text_say(&words, _("no %1"), name);
            say(text, &first, club->order.club, what);
        } else if (check.wanted[i] && check.state[i] == ASSEMBLY_OUT && !check.accepted[i]) {
            // TRANSLATORS: out of tolerance.
            text_say(&words, _("%1 out"), name);
            say(text, &first, club->order.club, what);
        }
    }
    return check.done;
}

struct counting {
    const struct bench_rules *rules;
    const struct assembly *assembly;
    const struct assembly_tolerance *tolerance;
    struct builds_done done;
    struct text text;
};

static bool count(void *context, const struct club *club, const struct final_values *values) {
    struct counting *counting = context;
    if (!club->order.cancelled) {
        counting->done.clubs++;
        counting->done.done += builds_club_done(club, values, counting->rules, counting->assembly,
                                                counting->tolerance, &counting->text)
                                   ? 1
                                   : 0;
    }
    return true;
}

enum store_result builds_done(struct store *store, const char *build,
                              const struct bench_rules *rules, const struct assembly *assembly,
                              const struct assembly_tolerance *tolerance,
                              struct builds_done *ret_done) {
    struct counting counting = {.rules = rules, .assembly = assembly, .tolerance = tolerance};
    counting.text = text_open(counting.done.missing, sizeof counting.done.missing);
    enum store_result result = store_build_clubs(store, build, count, &counting);
    if (result == STORE_OK) {
        *ret_done = counting.done;
    }
    return result;
}
