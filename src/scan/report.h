#ifndef REPORT_H
#define REPORT_H

// The scanner check: what one scan of a ticket, best the check card, says about how the scanner is
// set, and what to change in it. Plain data with final words. Pure.

#include "reader.h"
#include "scale.h"
#include "serial_record.h"
#include "wedge.h"

#define REPORT_TEXT_MAX 320
#define REPORT_SHORT_MAX 96
#define REPORT_ADVICE_MAX 4

// A command ticket that commands nothing. Its letters are those which the layouts write on other
// keys, so that a wrong one shows and can be told from the others.
#define REPORT_CARD "K-YZAQWM6"
#define REPORT_SCALE "Scale" // the source of what a scale sent

enum report_verdict {
    REPORT_GOOD,
    REPORT_WORKS, // read, but with settings that will cause trouble
    REPORT_BAD
};

// What is not known is an empty text.
struct scan_report {
    char source[REPORT_SHORT_MAX]; // "Keyboard", "Scanner 2", "Serial scanner 1", "Camera", "Scale"
    char text[REPORT_TEXT_MAX];    // as it arrived, control characters as <GS>, others as <FF>
    char bytes[REPORT_TEXT_MAX];   // the same in hexadecimal; long ones end in `...`
    char aim[REPORT_TEXT_MAX];     // "]C0, Code 128", "none sent"
    char symbology[REPORT_SHORT_MAX];
    char timing[REPORT_TEXT_MAX]; // "54 ms in all; between characters 6 ms, at most 9 ms"
    char agreed[REPORT_TEXT_MAX]; // a camera's: "9 lines across it, in one picture"
    char ending[REPORT_SHORT_MAX];
    int64_t total_us; // first character to last; -1: not known
    int64_t gap_mean_us;
    int64_t gap_most_us;
    enum report_verdict verdict;
    char verdict_text[REPORT_TEXT_MAX];
    size_t advice_count; // most urgent first
    char advice[REPORT_ADVICE_MAX][REPORT_TEXT_MAX];
};

// A scanner's keys: `number` is that of its own device from 1, 0 for the window's keyboard.
void report_keys(const struct wedge_trace *trace, const struct wedge_settings *settings, int number,
                 struct scan_report *ret_report);
void report_serial(const struct serial_trace *trace, const char *prefix, int number,
                   struct scan_report *ret_report);
// One line of it, its weight in grams whatever it is sent in.
void report_scale(const struct scale_reading *reading, struct scan_report *ret_report);
// A code that counts, or one that is unreadable.
void report_camera(const struct reader_event *event, struct scan_report *ret_report);

#endif
