// Whether a build is done, and else what is missing.

#include "builds.h"

static void say(struct text *text, bool *first, const char *club, const char *a, const char *b) {
    if (*first) {
        text_add(text, text->used > 0 ? "; club " : "club ");
        text_add(text, club);
        text_add(text, ": ");
    } else {
        text_add(text, ", ");
    }
    *first = false;
    text_add(text, a);
    text_add(text, b);
}

bool builds_club_done(const struct club *club, const struct final_values *values,
                      const struct bench_rules *rules, const struct assembly *assembly,
                      const struct assembly_tolerance *tolerance, struct text *text) {
    struct assembly_values planned, measured;
    struct assembly_check check;
    bool first = true;
    if (club->progress.stage != STAGE_DONE) {
        say(text, &first, club->order.club, "not cut", "");
        return false;
    }
    assembly_planned(club, rules, assembly, &planned);
    assembly_measured(values, &measured);
    assembly_check(&planned, &measured, assembly_accepted(values), tolerance, &check);
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        const char *name = assembly_value_text((enum assembly_value)i);
        if (check.wanted[i] && check.state[i] == ASSEMBLY_MISSING) {
            say(text, &first, club->order.club, "no ", name);
        } else if (check.wanted[i] && check.state[i] == ASSEMBLY_OUT && !check.accepted[i]) {
            say(text, &first, club->order.club, name, " out");
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
