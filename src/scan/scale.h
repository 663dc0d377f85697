#ifndef SCALE_H
#define SCALE_H

// From the bytes of a scale that sends its reading over and over as plain text to weights. Pure:
// takes bytes with times. Memory is bounded whatever comes, and nothing is guessed: a line is read
// as below or refused as a whole.
//
// Lines end at CR, LF or both; empty ones are none. Blanks (0x20) may stand at the beginning, at
// the end and between what follows here in its order:
//
//   [ST | US | S S | S D] [GS | NT]   each with at most one comma behind it
//   [+ | -]  number  [g | kg | oz | lb]  [ST | S | US | ?] [GS | NT]
//
//   ST, S S, S behind: stable.  US, S D, ? behind: not stable.  GS: gross.  NT: net.
//   number: at most eight digits without leading zeros, with at most one decimal point.
//   No unit: the one of the settings. Units in small letters; also KG, OZ and LB.
//   OL, with or without a sign, in place of the number or in front of all: beyond what the scale
//   can weigh, whatever follows behind a blank or a comma. `S +` and `S -` alone are the same.
//
// `ST,GS,+  203.4 g`, `US,NT,-0001.2 g`, `+ 203.45 g  S`, `203.4`, `    0.2034 kg`. Said twice, or
// otherwise each time; a comma for a point; other units (as ozt), other words (as TR, a tare), a
// weight beyond 1000 kg, grams or kilograms finer than a milligram: refused. The words are common
// practice of scales, no source.
//
// Grams and kilograms are exact. 1 oz = 28.349523125 g and 1 lb = 453.59237 g exactly
// (international pound, 1 July 1959; NIST Handbook 44, Appendix C); what is no whole number of
// milligrams then is rounded once, half away from zero.
//
// Stable is what the scale calls stable. Of one that never says either, it is what has been the
// same SCALE_SAME_MIN times in a row and for SCALE_SAME_US. One that has said so once says it each
// time: without the word its line is not stable.
//
// Half a line is never read as a whole one: at the beginning all is passed over up to the first
// end, or until nothing has come for SCALE_PAUSE_US; a line with such a pause in it is refused, and
// so is what comes behind it up to the next end. What a scale showed SCALE_SILENT_US ago is not
// known any more.

#include "length.h"

#define SCALE_LINE_MAX 48 // bytes before the end
#define SCALE_SAME_MIN 3
#define SCALE_SAME_US 500000
#define SCALE_PAUSE_US 100000
#define SCALE_SILENT_US 3000000

enum scale_unit { SCALE_GRAM, SCALE_KILOGRAM, SCALE_OUNCE, SCALE_POUND };

// 7E1 is taken apart here and not by the line: seven bits and their even parity are sent in the
// time of eight bits without one, so a wrong bit is noticed whatever the driver does.
enum scale_format { SCALE_8N1, SCALE_7E1 };

enum scale_kind {
    SCALE_WEIGHT,
    SCALE_OVER,   // beyond what it can weigh
    SCALE_REFUSED // a line that is no weight; what was known before still is
};
enum scale_load { SCALE_LOAD_UNSAID, SCALE_GROSS, SCALE_NET };

struct scale_reading {
    enum scale_kind kind;
    mass_mg mass; // of a weight, else MASS_UNKNOWN
    bool stable;
    enum scale_load load;
    char line[SCALE_LINE_MAX + 1]; // as it came; what cannot be printed as `?`, the rest cut off
    const char *why;               // refused: a sentence; else NULL. Never freed
};

struct scale_parser {
    enum scale_unit unit;
    enum scale_format format;
    char line[SCALE_LINE_MAX + 1];
    size_t count;
    bool bad_bit;    // in this line: a byte with wrong parity
    bool passing;    // over what is no line's beginning
    bool fresh;      // nothing has come since the beginning
    int64_t last_us; // of the newest byte
    bool says;       // the scale has said whether it is stable
    mass_mg same;    // the newest weight, MASS_UNKNOWN: none
    int same_count;
    int64_t same_us;    // when it was first the same
    int64_t reading_us; // of the newest weight or overload; -1: none, or too long ago
};

typedef void scale_take(void *ctx, const struct scale_reading *reading);

// One line without its end, on its own: stable only if it says so. `ret_said`: it says so or the
// contrary; may be NULL. Fills all of *ret_reading whatever the line is.
void scale_line(const char *line, size_t size, enum scale_unit unit,
                struct scale_reading *ret_reading, bool *ret_said);

void scale_parser_init(struct scale_parser *parser, enum scale_unit unit, enum scale_format format,
                       int64_t now_us);
// The line is open anew, or bytes are missing here.
void scale_parser_forget(struct scale_parser *parser, int64_t now_us);
// The bytes of one read. Calls `take` for each line, in order.
void scale_parser_feed(struct scale_parser *parser, const char *bytes, size_t size, int64_t now_us,
                       scale_take *take, void *ctx);
// Only when nothing waits to be fed: a pause is one of the scale and not of the reader. True: what
// was known is known no more, since the scale is silent.
bool scale_parser_tick(struct scale_parser *parser, int64_t now_us, scale_take *take, void *ctx);
// When scale_parser_tick is due, or -1.
int64_t scale_parser_deadline(const struct scale_parser *parser);

#endif
