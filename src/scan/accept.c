#include "accept.h"

#include "ticket.h"

#include <string.h>

// QR carries error correction, so that two readings of one frame, each prepared in another way, are
// worth more than three lines across bars.
#define QUALITY_QR 2

void accept_init(struct accept *accept) {
    *accept = (struct accept){0};
}

enum accept_verdict accept_judge(enum code_symbology symbology, const char *text) {
    struct ticket ticket;
    enum ticket_error error = ticket_parse(text, &ticket);
    if (symbology == CODE_EAN13) {
        return strlen(text) == 13 && ticket_gtin_valid(text) ? ACCEPT_MODEL : ACCEPT_FOREIGN;
    }
    if (error == TICKET_BAD_CHECK) {
        return ACCEPT_DAMAGED;
    }
    return error == TICKET_OK && strcmp(ticket.text, text) == 0 ? ACCEPT_TICKET : ACCEPT_FOREIGN;
}

// A ticket is the same in bars and as a QR symbol beside them.
static int find(const struct accept *accept, const struct code *code, enum accept_verdict verdict) {
    for (int i = 0; i < ACCEPT_SEEN_MAX; i++) {
        const struct accept_seen *seen = &accept->seen[i];
        if (seen->verdict == verdict && strcmp(seen->text, code->text) == 0) {
            return i;
        }
    }
    return -1;
}

// The place of what was seen longest ago.
static struct accept_seen *make_room(struct accept *accept) {
    struct accept_seen *oldest = &accept->seen[0];
    for (int i = 0; i < ACCEPT_SEEN_MAX && oldest->text[0] != '\0'; i++) {
        if (accept->seen[i].text[0] == '\0' || accept->seen[i].last_us < oldest->last_us) {
            oldest = &accept->seen[i];
        }
    }
    return oldest;
}

// Whether one frame is enough. What is no ticket and no model must be read twice: it is only told
// to be unreadable, and half a code looks different in every frame.
static bool enough(const struct code *code, enum accept_verdict verdict) {
    int least = code->symbology == CODE_QR ? QUALITY_QR : ACCEPT_QUALITY;
    return (verdict == ACCEPT_TICKET || verdict == ACCEPT_MODEL) && code->quality >= least;
}

enum accept_news accept_take(struct accept *accept, const struct code *code, int64_t time_us) {
    enum accept_verdict verdict = accept_judge(code->symbology, code->text);
    int at = find(accept, code, verdict);
    struct accept_seen *seen = at < 0 ? make_room(accept) : &accept->seen[at];
    int64_t away = at < 0 ? INT64_MAX : time_us - seen->last_us;
    if (at < 0) {
        *seen = (struct accept_seen){.verdict = verdict};
        memcpy(seen->text, code->text, sizeof seen->text);
    }
    seen->said = seen->said && away < ACCEPT_AWAY_US;
    seen->last_us = time_us;
    if (seen->said) {
        return ACCEPT_OLD;
    }
    seen->readings = away <= ACCEPT_AGREE_US ? seen->readings + 1 : 1;
    seen->said = enough(code, verdict) || seen->readings > 1;
    return seen->said ? ACCEPT_NEW : ACCEPT_WAIT;
}

int accept_readings(const struct accept *accept, const struct code *code) {
    int at = find(accept, code, accept_judge(code->symbology, code->text));
    return at < 0 || !accept->seen[at].said ? 0 : accept->seen[at].readings;
}
