// Signed out, ready, scanner check, pair and care.

#include "station_inner.h"
#include "text.h"

#include <string.h>

static void half_cut(const struct station *s, struct view *view) {
    struct view_queue_row rows[3];
    int count = s->ops->queue(s->ops->ctx, true, rows, 3);
    if (count <= 0) {
        return;
    }
    SET(view->band, word(WORD_HALF_CUT));
    for (int i = 0; i < count; i++) {
        struct text text = {
            .buffer = view->band, .size = sizeof view->band, .used = strlen(view->band)};
        text_add(&text, i > 0 ? ", " : "");
        words_add(view->band, sizeof view->band, WORD_HALF_CUT_ONE, rows[i].shaft, rows[i].next,
                  NULL);
    }
}

void view_message(const struct station *s, struct view *view) {
    int count = s->ops->queue(s->ops->ctx, false, view->queue, VIEW_ROWS_MAX);
    bool out = s->state == STATION_SIGNED_OUT;
    view->body = VIEW_MESSAGE;
    view->queue_count = count > 0 ? (size_t)count : 0;
    view->has_today = true;
    s->ops->today(s->ops->ctx, &view->today);
    ordering_wait_text(s, view->waits, sizeof view->waits);
    SET(view->title, word(out ? WORD_SIGN_ON : WORD_READY));
    SET(view->subtitle, word(copies_late(s) ? WORD_COPIES_LATE
                             : out          ? WORD_SIGN_ON_MORE
                                            : WORD_READY_MORE));
    if (s->settings.wrong[0] != '\0') {
        words_fill(view->subtitle, sizeof view->subtitle,
                   s->settings.last_good ? WORD_SETTINGS_LAST_GOOD : WORD_SETTINGS_STANDARD,
                   s->settings.wrong, NULL, NULL);
    }
    view_band(view, TONE_PLAIN, false, out ? WORD_SIGN_ON_BAND : WORD_READY_BAND,
              out ? WORD_EMPTY : WORD_READY_HINT);
    if (!out) {
        half_cut(s, view);
    }
}

void view_check(struct view *view) {
    view->body = VIEW_CHECK;
    SET(view->title, word(WORD_CHECK));
    SET(view->subtitle, word(WORD_CHECK_MORE));
    view_band(view, TONE_PLAIN, true, WORD_CHECK_BAND, WORD_EMPTY);
}

static void line(struct view_card *card, enum word which, const char *a, const char *b) {
    words_fill(card->line[card->line_count], sizeof card->line[0], which, a, b, NULL);
    card->line_count++;
}

static void head_card(const struct station *s, struct view_card *card) {
    const struct head *head = &s->club.head;
    char text[LENGTH_TEXT_MAX + 2];
    card->filled = s->head[0] != '\0';
    words_fill(card->title, sizeof card->title, card->filled ? WORD_CARD_HEAD : WORD_CARD_SCAN_HEAD,
               head->ticket, NULL, NULL);
    SET(card->line[card->line_count], head->model);
    card->line_count++;
    if (head->weight != MASS_UNKNOWN) {
        struct text grams = text_open(text, sizeof text);
        text_add_mass(&grams, head->weight);
        line(card, head->engraved[0] != '\0' ? WORD_CARD_WEIGHT : WORD_CARD_WEIGHT_ONLY, text,
             head->engraved);
    }
    if (card->filled) {
        if (head->bore == BORE_THROUGH) {
            line(card, WORD_CARD_THROUGH, NULL, NULL);
        } else {
            say_length(s, head->bore_height, text);
            line(card, WORD_CARD_BORE, text, NULL);
        }
    }
}

static void shaft_card(const struct station *s, struct view_card *card) {
    const struct shaft *shaft = &s->club.shaft;
    char text[LENGTH_TEXT_MAX];
    card->filled = s->shaft[0] != '\0';
    words_fill(card->title, sizeof card->title,
               card->filled ? WORD_CARD_SHAFT : WORD_CARD_SCAN_SHAFT, shaft->ticket, NULL, NULL);
    line(card, WORD_CARD_FLEX, shaft->model, shaft->flex);
    if (card->filled) {
        say_length(s, shaft->raw_length, text);
        line(card, WORD_CARD_RAW, text, NULL);
    }
    if (shaft->rack[0] != '\0') {
        line(card, WORD_CARD_RACK, shaft->rack, NULL);
    } else if (!card->filled) {
        line(card, WORD_CARD_NO_RACK, NULL, NULL);
    }
}

void view_pair(const struct station *s, struct view *view) {
    const struct order *order = &s->club.order;
    bool want_head = s->head[0] == '\0';
    char position[LENGTH_TEXT_MAX];
    char count[LENGTH_TEXT_MAX];
    say_number(order->position, position);
    say_number(order->count, count);
    view->body = VIEW_PAIR;
    SET(view->title, word(want_head ? WORD_PAIR_HEAD : WORD_PAIR_SHAFT));
    SAY(view->subtitle, PAIR_BUILD, order->build, position, count);
    head_card(s, &view->card[0]);
    shaft_card(s, &view->card[1]);
    view_band(view, TONE_WORK, false, WORD_EMPTY, WORD_PAIR_HINT);
    words_fill(view->band, sizeof view->band,
               want_head ? WORD_PAIR_BAND_HEAD : WORD_PAIR_BAND_SHAFT,
               want_head ? s->club.head.ticket : s->club.shaft.ticket, NULL, NULL);
}

void view_care(const struct station *s, struct view *view) {
    static const enum word steel[] = {WORD_CARE_EYES,  WORD_CARE_EARS, WORD_CARE_GUARD,
                                      WORD_CARE_CLAMP, WORD_CARE_STOP, WORD_CARE_SPARKS,
                                      WORD_CARE_DEBURR};
    static const enum word graphite[] = {WORD_CARE_EYES,  WORD_CARE_BREATHING, WORD_CARE_EARS,
                                         WORD_CARE_GUARD, WORD_CARE_CLAMP,     WORD_CARE_STOP,
                                         WORD_CARE_DUST,  WORD_CARE_SPLINTERS};
    bool is_steel = s->club.model.material == MATERIAL_STEEL;
    const enum word *bullets = is_steel ? steel : graphite;
    size_t count = is_steel ? sizeof steel / sizeof steel[0] : sizeof graphite / sizeof graphite[0];
    view->body = VIEW_CARE;
    SET(view->care.title, word(is_steel ? WORD_CARE_STEEL : WORD_CARE_GRAPHITE));
    SET(view->care.lead, word(WORD_CARE_LEAD));
    for (size_t i = 0; i < count; i++) {
        SET(view->care.bullet[i], word(bullets[i]));
    }
    view->care.count = count;
    SET(view->care.foot, word(WORD_CARE_FOOT));
    view_band(view, TONE_CAUTION, true, WORD_CARE_BAND, WORD_CARE_HINT);
}
