#ifndef AIM_H
#define AIM_H

// AIM symbology identifiers, ISO/IEC 15424: `]`, a letter for the symbology, a modifier. What they
// mean, and which codes are none of this shop's tickets. Pure.
//
// Tickets are plain Code 128 (`]C0`) or QR (`]Q1`). With FNC1 in first place the same bars are
// GS1-128 (`]C1`) and GS1 QR (`]Q3`), which no ticket is, however alike its text.

#include <stdbool.h>

// "Code 128", "GS1-128", "EAN or UPC"; "unknown to this program" for what is not in the table. ""
// for "".
const char *aim_text(const char *aim);

// Tickets come this way, or the scanner sent no identifier.
bool aim_plain(const char *aim);

// Follows the rules of GS1: a maker's or carrier's label.
bool aim_gs1(const char *aim);

// True when what was read can be no code of this shop and no supplier's number: its identifier
// names another kind of code, or it holds control characters. `buffer` (WEDGE_TEXT_MAX) then holds
// a sentence.
bool aim_fault(const char *aim, const char *content, char *buffer);

// Name of a control character, "GS" for 0x1D; "DEL" for 0x7F.
const char *aim_control(char c);

#endif
