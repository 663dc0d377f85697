#include "club.h"
#include "tongue.h"

#include <string.h>

bool club_plan(const struct club *club, const struct bench_rules *rules,
               struct plan_input *ret_input, struct plan *ret_plan) {
    // At the tip mark a partial cut may have been logged; the tip is still open then.
    bool tip_open =
        club->progress.stage == STAGE_PENDING || club->progress.stage == STAGE_TIP_SHOWN;
    *ret_input = (struct plan_input){
        .head = &club->head,
        .shaft = &club->shaft,
        .model = &club->model,
        .chart = &club->chart,
        .order = &club->order,
        .rules = rules,
        .tip_made = tip_open ? LENGTH_UNKNOWN : club->progress.tip_made,
    };
    return plan_make(ret_input, ret_plan);
}

static const char *const roles[ROLE_COUNT] = {
    [ROLE_BUILDER] = N_("builder"),
    [ROLE_SUPERVISOR] = N_("supervisor"),
};

const char *role_text(enum role role) {
    return roles[role];
}

const char *role_words(enum role role) {
    return _(roles[role]);
}

bool role_from_text(const char *text, enum role *ret) {
    for (int i = 0; i < ROLE_COUNT; i++) {
        if (strcmp(roles[i], text) == 0) {
            *ret = (enum role)i;
            return true;
        }
    }
    return false;
}
