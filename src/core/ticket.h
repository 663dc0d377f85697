#ifndef TICKET_H
#define TICKET_H

// Tickets: the printed and scanned identifiers of this shop, `H-0001A`.
//
// A letter for what it names, a hyphen, 1 to TICKET_BODY_MAX digits or capital letters, and one
// check character after ISO/IEC 7064 MOD 37-2 over letter and body with the hyphen left out.
// MOD 37-2 catches every single wrong character and every swap of neighbours. A body whose check
// character would be `*` is never issued and never accepted. Pure functions, any thread.

#include <stdbool.h>
#include <stddef.h>

#define TICKET_BODY_MAX 12
#define TICKET_TEXT_MAX 16 // "H-" + body + check + NUL

enum ticket_kind {
    TICKET_HEAD,    // H-
    TICKET_SHAFT,   // S-
    TICKET_BUILD,   // B-
    TICKET_WORKER,  // W-
    TICKET_COMMAND, // K-  never confirms anything
    TICKET_KIND_COUNT
};

struct ticket {
    enum ticket_kind kind;
    char text[TICKET_TEXT_MAX]; // canonical, capitals: "H-0001A"
};

enum ticket_error {
    TICKET_OK,
    TICKET_EMPTY,
    TICKET_NOT_A_TICKET, // no known letter and hyphen in front
    TICKET_TOO_SHORT,
    TICKET_TOO_LONG,
    TICKET_BAD_CHAR,
    TICKET_BAD_CHECK // well formed, but the check character is another
};

// MOD 37-2 check character ('0'-'9', 'A'-'Z' or '*') over `size` characters of 0-9 A-Z.
// Returns 0 for an empty payload or any other character.
char ticket_check_char(const char *payload, size_t size);

// Reads a scanned or typed ticket, small letters taken as capitals, blanks around ignored.
// *ret_ticket is untouched on failure.
enum ticket_error ticket_parse(const char *text, struct ticket *ret_ticket);

// Makes the ticket for `body` ("0001"). False if the body is not allowed or its check is `*`.
bool ticket_make(enum ticket_kind kind, const char *body, struct ticket *ret_ticket);

// Body of a canonical ticket, "0001" of "H-0001A". buffer holds TICKET_TEXT_MAX.
void ticket_body(const struct ticket *ticket, char *buffer);

// One sentence for a person: what is wrong with `text` and what to do.
void ticket_error_text(const char *text, enum ticket_error error, char *buffer, size_t size);
// The same in English, for the log; and such a text in the shop's language, appended. False: it is
// none.
void ticket_error_source(const char *text, enum ticket_error error, char *buffer, size_t size);
struct text;
bool ticket_error_reword(struct text *text, const char *source);

// "head", "shaft", "build", "worker badge", "command".
const char *ticket_kind_name(enum ticket_kind kind);

// GS1 mod-10 check digit (weights 3, 1, 3 ... from the right; GS1 General Specifications 7.9) over
// `size` digits; returns 0 when one of them is no digit.
char ticket_gtin_check(const char *digits, size_t size);

// A GTIN-8, -12, -13 or -14 with a right check digit. It names a model, never a part.
bool ticket_gtin_valid(const char *text);

#endif
