#ifndef TICKET_CODE_H
#define TICKET_CODE_H

// Bar codes of a ticket as plain modules. This and qr.c alone know libzint, whose structures grow
// from release to release.

#include <stdbool.h>

#define TICKET_CODE_WIDTH_MAX 200 // Code 128, 15 characters of set B: 11 x (1 + 15 + 1) + 13
#define TICKET_CODE_ROWS_MAX 21   // QR version 1

// Quiet zones, in modules: Code 128 left and right (ISO/IEC 15417), QR all around (ISO/IEC 18004).
// Numbers from memory; the standards are not public.
#define TICKET_CODE_QUIET_BARS 10
#define TICKET_CODE_QUIET_QR 4

struct ticket_code {
    int width; // modules, without quiet zones
    int rows;  // 1: bars
    bool dark[TICKET_CODE_ROWS_MAX][TICKET_CODE_WIDTH_MAX];
};

// Code 128. False: no ticket's text, or no memory.
bool ticket_code_bars(const char *text, struct ticket_code *ret_code);

// QR version 1 with error correction Q, which holds 16 of 0-9 A-Z and hyphen: any ticket.
bool ticket_code_qr(const char *text, struct ticket_code *ret_code);

#endif
