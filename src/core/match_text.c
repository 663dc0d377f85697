// A club's match in words. Clubs go by the name their order gives them.

#include "match.h"

#include "balance.h"
#include "match_value.h"
#include "text.h"
#include "tongue.h"

#define CLUBS_TEXT_MAX 160

// `4`, `4 and 5`, `4, 5 and 6`; `last` joins what comes before, %1, and the last one, %2.
static void club_list(const struct match_request *request, uint32_t clubs, const char *last,
                      char buffer[CLUBS_TEXT_MAX]) {
    char names[CLUBS_TEXT_MAX];
    struct text before = text_open(names, sizeof names);
    struct text text = text_open(buffer, CLUBS_TEXT_MAX);
    size_t left = (size_t)__builtin_popcount(clubs);
    for (size_t i = 0; i < request->club_count; i++) {
        const char *club = request->clubs[i].order.club;
        if ((clubs >> i & 1) == 0) {
            continue;
        }
        left--;
        if (left > 0) {
            text_add(&before, club);
            text_add(&before, left > 1 ? ", " : "");
        } else {
            text_say(&text, before.used > 0 ? last : "%2", names, club);
        }
    }
}

static void say_count(struct text *text, const char *one, const char *many, size_t count,
                      const char *b, const char *c) {
    char number[LENGTH_TEXT_MAX];
    struct text digits = text_open(number, sizeof number);
    text_add_number(&digits, (int64_t)count);
    text_say(text, tongue_plural(one, many, count), number, b, c);
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
    // TRANSLATORS: %2 a shaft's ticket, %3 the sentence that refuses it.
    say_count(text, "%1 shaft refused, %2: %3", "%1 shafts refused, %2 for one: %3",
              refused->shafts, whole.shaft.ticket, words);
}

static void say_none(const struct match_request *request, const struct match_club *match,
                     size_t club, struct text *text) {
    int code = PLAN_NONE;
    size_t refused = 0;
    for (int i = 0; i < PLAN_CODE_COUNT; i++) {
        refused += match->refused[i].shafts;
        code = match->refused[i].shafts > match->refused[code].shafts ? i : code;
    }
    text_add(text, _("No shaft in stock can be used."));
    if (request->shaft_count == 0) {
        text_add(text, " ");
        text_add(text, _("The stock is empty."));
    }
    if (match->other.shafts > 0) {
        text_add(text, " ");
        say_count(text, "%1 shaft of another model or flex than ordered.",
                  "%1 shafts of another model or flex than ordered.", match->other.shafts, NULL,
                  NULL);
    }
    if (code != PLAN_NONE) {
        text_add(text, " ");
        add_refusal(request, club, &match->refused[code], text);
    }
    if (refused > match->refused[code].shafts) {
        text_add(text, " ");
        say_count(text, "%1 shaft refused for other reasons.",
                  "%1 shafts refused for other reasons.", refused - match->refused[code].shafts,
                  NULL, NULL);
    }
    for (int gap = 0; gap < ESTIMATE_GAP_COUNT; gap++) {
        if (match->unknown[gap].shafts > 0) {
            text_add(text, " ");
            // TRANSLATORS: %2 what is not known, as `shaft weight not known`.
            say_count(text, "%1 shaft: %2.", "%1 shafts: %2.", match->unknown[gap].shafts,
                      estimate_gap_text((enum estimate_gap)gap), NULL);
        }
    }
}

static void say_too_few(const struct match_request *request, const struct match_club *match,
                        struct text *text) {
    size_t clubs = (size_t)__builtin_popcount(match->short_of);
    char names[CLUBS_TEXT_MAX];
    club_list(request, match->short_of, _("%1 and %2"), names);
    // TRANSLATORS: %2 two clubs or more, as `4, 5 and 6`.
    say_count(text,
              "Clubs %2 have only %1 shaft they can use between them. This club is left out; "
              "add a shaft, or another wish.",
              "Clubs %2 have only %1 shafts they can use between them. This club is left out; "
              "add a shaft, or another wish.",
              clubs - 1, names, NULL);
}

static void say_chosen(const struct match_request *request, const struct match_club *match,
                       struct text *text) {
    if (match->swaps != 0) {
        char names[CLUBS_TEXT_MAX];
        club_list(request, match->swaps, _("%1 or %2"), names);
        // TRANSLATORS: %1 other clubs of the set, as `4, 5 or 6`.
        text_say(text, _("Could trade shafts with %1: just as good."), names);
    } else if (match->open) {
        text_add(text, _("Another choice is just as good; this one comes first in the stock."));
    } else {
        text_add(text, _("No other shaft is as good here."));
    }
    if (match->wish_assumed) {
        text_add(text, " ");
        text_add(text, _("No swingweight wished: matched to that of the other clubs."));
    }
}

void match_text(const struct match_request *request, const struct match_result *result, size_t club,
                char *buffer, size_t size) {
    const struct match_club *match = &result->club[club];
    struct text text = text_open(buffer, size);
    char wished[LENGTH_TEXT_MAX];
    struct text wish = text_open(wished, sizeof wished);
    switch (match->outcome) {
    case MATCH_CHOSEN:
        say_chosen(request, match, &text);
        return;
    case MATCH_NO_HEAD:
        text_add(&text, _("No head is reserved for this club. Reserve one."));
        return;
    case MATCH_BAD_WISH:
        text_add_quoted(&wish, request->clubs[club].order.swingweight);
        text_say(&text, _("The wished swingweight %1 cannot be read. Correct the order."), wished);
        return;
    case MATCH_NONE_USABLE:
        say_none(request, match, club, &text);
        return;
    case MATCH_TOO_FEW:
        say_too_few(request, match, &text);
        return;
    }
}
