// A club's match in words. Clubs go by the name their order gives them.

#include "match.h"

#include "balance.h"
#include "match_value.h"
#include "text.h"

static void add_clubs(const struct match_request *request, uint32_t clubs, const char *and,
                      struct text *text) {
    size_t left = (size_t)__builtin_popcount(clubs);
    for (size_t i = 0; i < request->club_count; i++) {
        if ((clubs >> i & 1) != 0) {
            text_add(text, request->clubs[i].order.club);
            left--;
            text_add(text, left > 1 ? ", " : left == 1 ? and : "");
        }
    }
}

static void add_shafts(struct text *text, size_t shafts) {
    text_add_number(text, (int64_t)shafts);
    text_add(text, shafts == 1 ? " shaft" : " shafts");
}

static void add_refusal(const struct match_request *request, size_t club,
                        const struct match_count *refused, struct text *text) {
    struct club whole;
    struct plan_input input;
    struct plan plan;
    char words[PLAN_LINE_TEXT_MAX];
    match_value_club(request, club, refused->first, &whole);
    club_plan(&whole, request->rules, &input, &plan);
    plan_line_text(&input, &plan.refusal, words, sizeof words);
    add_shafts(text, refused->shafts);
    text_add(text, " refused, ");
    text_add(text, whole.shaft.ticket);
    text_add(text, refused->shafts == 1 ? ": " : " for one: ");
    text_add(text, words);
}

static void say_none(const struct match_request *request, const struct match_club *match,
                     size_t club, struct text *text) {
    int code = PLAN_NONE;
    size_t refused = 0;
    for (int i = 0; i < PLAN_CODE_COUNT; i++) {
        refused += match->refused[i].shafts;
        code = match->refused[i].shafts > match->refused[code].shafts ? i : code;
    }
    text_add(text, "No shaft in stock can be used.");
    if (request->shaft_count == 0) {
        text_add(text, " The stock is empty.");
    }
    if (match->other.shafts > 0) {
        text_add(text, " ");
        add_shafts(text, match->other.shafts);
        text_add(text, " of another model or flex than ordered.");
    }
    if (code != PLAN_NONE) {
        text_add(text, " ");
        add_refusal(request, club, &match->refused[code], text);
    }
    if (refused > match->refused[code].shafts) {
        text_add(text, " ");
        add_shafts(text, refused - match->refused[code].shafts);
        text_add(text, " refused for other reasons.");
    }
    for (int gap = 0; gap < ESTIMATE_GAP_COUNT; gap++) {
        if (match->unknown[gap].shafts > 0) {
            text_add(text, " ");
            add_shafts(text, match->unknown[gap].shafts);
            text_add(text, ": ");
            text_add(text, estimate_gap_text((enum estimate_gap)gap));
            text_add(text, ".");
        }
    }
}

static void say_too_few(const struct match_request *request, const struct match_club *match,
                        struct text *text) {
    size_t clubs = (size_t)__builtin_popcount(match->short_of);
    text_add(text, "Clubs ");
    add_clubs(request, match->short_of, " and ", text);
    text_add(text, " have only ");
    add_shafts(text, clubs - 1);
    text_add(text, " they can use between them. This club is left out; add a shaft, or another "
                   "wish.");
}

static void say_chosen(const struct match_request *request, const struct match_club *match,
                       struct text *text) {
    if (match->swaps != 0) {
        text_add(text, "Could trade shafts with ");
        add_clubs(request, match->swaps, " or ", text);
        text_add(text, ": just as good.");
    } else if (match->open) {
        text_add(text, "Another choice is just as good; this one comes first in the stock.");
    } else {
        text_add(text, "No other shaft is as good here.");
    }
    if (match->wish_assumed) {
        text_add(text, " No swingweight wished: matched to that of the other clubs.");
    }
}

void match_text(const struct match_request *request, const struct match_result *result, size_t club,
                char *buffer, size_t size) {
    const struct match_club *match = &result->club[club];
    struct text text = text_open(buffer, size);
    switch (match->outcome) {
    case MATCH_CHOSEN:
        say_chosen(request, match, &text);
        return;
    case MATCH_NO_HEAD:
        text_add(&text, "No head is reserved for this club. Reserve one.");
        return;
    case MATCH_BAD_WISH:
        text_add(&text, "The wished swingweight ");
        text_add_quoted(&text, request->clubs[club].order.swingweight);
        text_add(&text, " cannot be read. Correct the order.");
        return;
    case MATCH_NONE_USABLE:
        say_none(request, match, club, &text);
        return;
    case MATCH_TOO_FEW:
        say_too_few(request, match, &text);
        return;
    }
}
