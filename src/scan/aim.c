#include "aim.h"

#include "text.h"
#include "ticket.h"
#include "tongue.h"
#include "wedge.h"

#include <stddef.h>
#include <string.h>

// The first row that fits counts. No modifier: any.
static const struct {
    char letter;
    char modifier;
    bool gs1;
    const char *text;
} rows[] = {
    {'C', '0', false, "Code 128"},
    {'C', '1', true, "GS1-128"},
    {'C', '2', false, "Code 128 with FNC1 second"},
    {'C', '4', false, "ISBT 128"},
    {'C', '\0', false, "Code 128"},
    {'Q', '0', false, "QR (model 1)"},
    {'Q', '1', false, "QR"},
    {'Q', '2', false, "QR with ECI"},
    {'Q', '3', true, "GS1 QR"},
    {'Q', '4', true, "GS1 QR"},
    {'Q', '\0', false, "QR with FNC1 second"},
    {'E', '4', true, "EAN-8"},
    {'E', '\0', true, N_("EAN or UPC")},
    {'I', '\0', false, "Interleaved 2 of 5"},
    {'A', '\0', false, "Code 39"},
    {'F', '\0', false, "Codabar"},
    {'G', '\0', false, "Code 93"},
    {'H', '\0', false, "Code 11"},
    {'L', '\0', false, "PDF417"},
    {'M', '\0', false, "MSI"},
    {'R', '\0', false, "2 of 5"},
    {'S', '\0', false, "2 of 5"},
    {'U', '\0', false, "MaxiCode"},
    {'d', '2', true, "GS1 Data Matrix"},
    {'d', '\0', false, "Data Matrix"},
    {'e', '\0', true, "GS1 DataBar"},
    {'J', '1', true, "GS1 DotCode"},
    {'z', '\0', false, "Aztec"},
};

// The row of an identifier, -1 for none.
static int row_of(const char *aim) {
    for (size_t i = 0; aim[0] != '\0' && i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].letter == aim[1] && (rows[i].modifier == '\0' || rows[i].modifier == aim[2])) {
            return (int)i;
        }
    }
    return -1;
}

const char *aim_text(const char *aim) {
    int row = row_of(aim);
    if (aim[0] == '\0') {
        return "";
    }
    return row < 0 ? N_("unknown to this program") : rows[row].text;
}

bool aim_plain(const char *aim) {
    return aim[0] == '\0' || strcmp(aim, "]C0") == 0 || strcmp(aim, "]Q1") == 0;
}

bool aim_gs1(const char *aim) {
    int row = row_of(aim);
    return row >= 0 && rows[row].gs1;
}

const char *aim_control(char c) {
    // ISO/IEC 646
    static const char *const names[] = {"NUL", "SOH", "STX", "ETX", "EOT", "ENQ", "ACK", "BEL",
                                        "BS",  "TAB", "LF",  "VT",  "FF",  "CR",  "SO",  "SI",
                                        "DLE", "DC1", "DC2", "DC3", "DC4", "NAK", "SYN", "ETB",
                                        "CAN", "EM",  "SUB", "ESC", "FS",  "GS",  "RS",  "US"};
    return c >= 0 && c < ' ' ? names[(size_t)c] : "DEL";
}

static char first_control(const char *text) {
    while (*text != '\0' && (*text < 0 || *text >= ' ') && *text != 0x7F) {
        text++;
    }
    return *text;
}

bool aim_fault(const char *aim, const char *content, char *buffer) {
    struct text out;
    char control = first_control(content);
    if (!aim_plain(aim) && !ticket_gtin_valid(content)) {
        out = text_open(buffer, WEDGE_TEXT_MAX);
        text_say(&out,
                 aim_gs1(aim)
                     ? "This code is %1, a maker's or carrier's label. Scan the ticket's own code."
                     : "This code is %1, no ticket of this shop. Scan the ticket's own code.",
                 aim_text(aim));
        return true;
    }
    if (control != '\0') {
        out = text_open(buffer, WEDGE_TEXT_MAX);
        text_say(&out,
                 "A control character (%1) came with the code, and no ticket has one. Scan the "
                 "ticket's own code.",
                 aim_control(control));
        return true;
    }
    return false;
}
