#include "report_advice.h"

#include "aim.h"
#include "strokes.h"
#include "ticket.h"
#include "tongue.h"

#include <string.h>

static const struct {
    int weight;
    const char *text;
} findings[] = {
#define X(name, weight, text) [REPORT_##name] = {weight, text},
    REPORT_FINDINGS(X)
#undef X
};

const char *report_finding_text(enum report_finding finding) {
    return _(findings[finding].text);
}

int report_finding_weight(enum report_finding finding) {
    return findings[finding].weight;
}

static bool any_in(const char *text, char low, char high) {
    for (; *text != '\0'; text++) {
        if (*text >= low && *text <= high) {
            return true;
        }
    }
    return false;
}

// A whole ticket, with something before or behind it.
static bool holds_ticket(const char *text) {
    char part[TICKET_TEXT_MAX];
    struct ticket ticket;
    for (; *text != '\0'; text++) {
        size_t left = strlen(text);
        for (size_t size = 4; size <= left && size < sizeof part; size++) {
            memcpy(part, text, size);
            part[size] = '\0';
            if (part[0] > ' ' && part[size - 1] > ' ' && ticket_parse(part, &ticket) == TICKET_OK) {
                return true;
            }
        }
    }
    return false;
}

static unsigned bit(enum report_finding finding, bool found) {
    return found ? 1u << finding : 0;
}

unsigned report_findings(const char *text, const char *prefix) {
    char aim[4];
    struct ticket ticket;
    const char *content = strokes_content(text, prefix, aim);
    enum ticket_error error = ticket_parse(content, &ticket);
    unsigned found = bit(REPORT_NO_AIM, aim[0] == '\0') |
                     bit(REPORT_NO_PREFIX, strncmp(text, prefix, strlen(prefix)) != 0);
    if (!aim_plain(aim)) {
        return found | bit(REPORT_OTHER_CODE, true);
    }
    if (any_in(content, 1, ' ' - 1) || any_in(content, 0x7F, 0x7F)) {
        return found | bit(REPORT_CONTROL, true);
    }
    if (error == TICKET_OK) {
        return found | bit(REPORT_SMALL, any_in(content, 'a', 'z'));
    }
    if (error == TICKET_BAD_CHECK) {
        return found | bit(REPORT_MISREAD, true);
    }
    return found | bit(holds_ticket(content) ? REPORT_EXTRA : REPORT_UNKNOWN, true);
}
