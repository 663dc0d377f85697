#include "kit.h"
#include "balance.h"
#include "text.h"
#include "tongue.h"

bool kit_waits(const struct club *club) {
    return club->shaft.ticket[0] == '\0' && club->order.wished_model[0] != '\0' &&
           club->progress.stage == STAGE_PENDING;
}

static void copy(char *to, size_t size, const char *from) {
    struct text text = text_open(to, size);
    text_add(&text, from);
}

static void fill(const struct match_request *request, const struct match_result *result, size_t at,
                 struct kit_club *to) {
    const struct club *club = &request->clubs[at];
    const struct match_club *match = &result->club[at];
    *to = (struct kit_club){.club_id = club->id,
                            .shaft_weight = MASS_UNKNOWN,
                            .raw_length = LENGTH_UNKNOWN,
                            .aim = match->aim};
    copy(to->club, sizeof to->club, club->order.club);
    copy(to->head, sizeof to->head, club->head.ticket);
    match_text(request, result, at, to->words, sizeof to->words);
    if (match->outcome == MATCH_CHOSEN) {
        const struct shaft *shaft = request->stock[match->shaft].shaft;
        copy(to->shaft, sizeof to->shaft, shaft->ticket);
        copy(to->rack, sizeof to->rack, shaft->rack);
        to->shaft_weight = shaft->weight;
        to->raw_length = shaft->raw_length;
        to->value = match->value;
    }
}

void kit_make(const struct match_request *request, const struct match_result *result,
              struct kit *ret_kit) {
    *ret_kit = (struct kit){.by = request->by,
                            .stock = request->shaft_count,
                            .count = result->count,
                            .chosen = result->chosen,
                            .spread = result->spread,
                            .aimed = result->aimed};
    if (ret_kit->count > SET_CLUBS_MAX) {
        ret_kit->count = SET_CLUBS_MAX;
    }
    if (request->club_count > 0) {
        copy(ret_kit->build, sizeof ret_kit->build, request->clubs[0].order.build);
    }
    for (size_t i = 0; i < ret_kit->count; i++) {
        fill(request, result, i, &ret_kit->club[i]);
    }
}

void kit_value_text(enum match_by by, double value, char buffer[KIT_TEXT_MAX]) {
    struct text text = text_open(buffer, KIT_TEXT_MAX);
    char scale[BALANCE_SCALE_TEXT_MAX];
    if (by == MATCH_BY_SWINGWEIGHT && balance_scale_text(value, scale)) {
        text_add_figure(&text, scale);
    } else {
        text_add_decimal(&text, value, 1);
        text_add(&text, " ");
        text_add(&text, by == MATCH_BY_SWINGWEIGHT ? T_("unit", "in oz") : T_("unit", "cpm"));
    }
}

void kit_spread_text(enum match_by by, double spread, char buffer[KIT_TEXT_MAX]) {
    struct text text = text_open(buffer, KIT_TEXT_MAX);
    text_add_decimal(&text, spread, 1);
    text_add(&text, " ");
    text_add(&text, by == MATCH_BY_SWINGWEIGHT ? T_("unit", "points") : T_("unit", "cpm"));
}
