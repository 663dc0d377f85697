#include "ticket.h"
#include "reword.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

static const struct {
    char letter;
    const char *name;
} kinds[TICKET_KIND_COUNT] = {
    [TICKET_HEAD] = {'H', N_("head")},       [TICKET_SHAFT] = {'S', N_("shaft")},
    [TICKET_BUILD] = {'B', N_("build")},     [TICKET_WORKER] = {'W', N_("worker badge")},
    [TICKET_COMMAND] = {'K', N_("command")},
};

static const char alphabet[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*";

// Value of a character in a payload, -1 for any other. `*` is a check character only.
static int value(char c) {
    if (c >= '0' && c <= '9') {
        return c - '0';
    }
    return c >= 'A' && c <= 'Z' ? c - 'A' + 10 : -1;
}

// ISO/IEC 7064 pure system, modulus 37, radix 2.
char ticket_check_char(const char *payload, size_t size) {
    int sum = 0;
    for (size_t i = 0; i < size; i++) {
        if (value(payload[i]) < 0) {
            return 0;
        }
        sum = (sum + value(payload[i])) * 2 % 37;
    }
    return size > 0 ? alphabet[(38 - sum) % 37] : (char)0;
}

static bool blank(char c) {
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

static char capital(char c) {
    return c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
}

static bool kind_of(char letter, enum ticket_kind *ret_kind) {
    for (int i = 0; i < TICKET_KIND_COUNT; i++) {
        if (kinds[i].letter == letter) {
            *ret_kind = (enum ticket_kind)i;
            return true;
        }
    }
    return false;
}

// The check character of "H-0001..." over letter and body, 0 when one of them is not allowed.
static char check_of(const char *text, size_t body_size) {
    char payload[1 + TICKET_BODY_MAX];
    payload[0] = text[0];
    memcpy(payload + 1, text + 2, body_size);
    return ticket_check_char(payload, 1 + body_size);
}

enum ticket_error ticket_parse(const char *text, struct ticket *ret_ticket) {
    struct ticket ticket = {0};
    size_t size;
    while (blank(*text)) {
        text++;
    }
    size = strlen(text);
    while (size > 0 && blank(text[size - 1])) {
        size--;
    }
    if (size == 0) {
        return TICKET_EMPTY;
    }
    if (size < 2 || text[1] != '-' || !kind_of(capital(text[0]), &ticket.kind)) {
        return TICKET_NOT_A_TICKET;
    }
    if (size < 4) { // letter, hyphen, body, check
        return TICKET_TOO_SHORT;
    }
    if (size > TICKET_TEXT_MAX - 1) {
        return TICKET_TOO_LONG;
    }
    for (size_t i = 0; i < size; i++) {
        ticket.text[i] = capital(text[i]);
        if (i != 1 && value(ticket.text[i]) < 0) {
            return TICKET_BAD_CHAR;
        }
    }
    if (check_of(ticket.text, size - 3) != ticket.text[size - 1]) {
        return TICKET_BAD_CHECK;
    }
    *ret_ticket = ticket;
    return TICKET_OK;
}

bool ticket_make(enum ticket_kind kind, const char *body, struct ticket *ret_ticket) {
    struct ticket ticket = {.kind = kind};
    size_t size = strlen(body);
    char check;
    if (size == 0 || size > TICKET_BODY_MAX) {
        return false;
    }
    ticket.text[0] = kinds[kind].letter;
    ticket.text[1] = '-';
    memcpy(ticket.text + 2, body, size);
    check = check_of(ticket.text, size);
    if (check == 0 || check == '*') {
        return false;
    }
    ticket.text[2 + size] = check;
    *ret_ticket = ticket;
    return true;
}

void ticket_body(const struct ticket *ticket, char *buffer) {
    size_t size = strlen(ticket->text) - 3;
    memcpy(buffer, ticket->text + 2, size);
    buffer[size] = '\0';
}

static const char *advice(enum ticket_error error) {
    switch (error) {
    case TICKET_OK:
        break;
    case TICKET_EMPTY:
        return N_("Nothing was read. Scan the ticket again.");
    case TICKET_NOT_A_TICKET:
        return N_(
            "%1 is not a ticket of this shop. Scan a ticket that begins with H-, S-, B-, W- or "
            "K-.");
    case TICKET_TOO_SHORT:
        return N_("%1 is too short for a ticket. Scan it again, or type all of it.");
    case TICKET_TOO_LONG:
        return N_("%1 is too long for a ticket. Scan one ticket at a time.");
    case TICKET_BAD_CHAR:
        return N_(
            "%1 has a character no ticket has. Only letters and digits follow the hyphen; scan "
            "it again.");
    case TICKET_BAD_CHECK:
        return N_(
            "%1 was misread: its last character does not match. Scan it again, or check what you "
            "typed.");
    }
    return "";
}

void ticket_error_source(const char *text, enum ticket_error error, char *buffer, size_t size) {
    struct text out = text_open(buffer, size);
    char words[96];
    struct text quoted = text_open(words, sizeof words);
    text_add_quoted(&quoted, text);
    text_say(&out, advice(error), words);
}

static void part(struct text *text, const struct reword_part *of) {
    text_add_bytes(text, of->at, of->size);
}

bool ticket_error_reword(struct text *text, const char *source) {
    for (int i = TICKET_OK + 1; i <= TICKET_BAD_CHECK; i++) {
        if (reword(text, advice((enum ticket_error)i), source, part)) {
            return true;
        }
    }
    return false;
}

void ticket_error_text(const char *text, enum ticket_error error, char *buffer, size_t size) {
    char source[300];
    struct text out = text_open(buffer, size);
    ticket_error_source(text, error, source, sizeof source);
    ticket_error_reword(&out, source);
}

const char *ticket_kind_name(enum ticket_kind kind) {
    return _(kinds[kind].name);
}

char ticket_gtin_check(const char *digits, size_t size) {
    int sum = 0;
    for (size_t i = 0; i < size; i++) {
        if (digits[i] < '0' || digits[i] > '9') {
            return 0;
        }
        sum = (sum + (digits[i] - '0') * ((size - i) % 2 == 1 ? 3 : 1)) % 10;
    }
    return (char)('0' + (10 - sum) % 10);
}

bool ticket_gtin_valid(const char *text) {
    size_t size = strlen(text);
    if (size != 8 && size != 12 && size != 13 && size != 14) {
        return false;
    }
    return ticket_gtin_check(text, size - 1) == text[size - 1];
}
