#ifndef CSV_H
#define CSV_H

// RFC 4180 reading and writing, from and to memory. Comma, optional quotes, "" inside quotes,
// CRLF or LF; a UTF-8 byte order mark is skipped. Input is outside bytes: bounded, never trusted.

#include <stdbool.h>
#include <stddef.h>

#define CSV_COLUMNS_MAX 32
#define CSV_CELL_MAX 512 // bytes with NUL

struct csv_row {
    size_t line;  // of the row's first byte, from 1
    size_t count; // cells
    char cell[CSV_COLUMNS_MAX][CSV_CELL_MAX];
};

enum csv_result {
    CSV_ROW,
    CSV_END,
    CSV_TOO_MANY_COLUMNS,
    CSV_CELL_TOO_LONG,
    CSV_OPEN_QUOTE,  // text ended inside quotes
    CSV_STRAY_QUOTE, // a quote in an unquoted cell, or text after a closing quote
    CSV_BAD_BYTE     // NUL or another control character, or invalid UTF-8
};

struct csv_reader {
    const char *text;
    size_t size;
    size_t offset;
    size_t line;
    size_t error_line;   // of the last error
    size_t error_column; // cell number from 1
};

struct csv_reader csv_open(const char *text, size_t size);

// Next row into *ret_row (blank lines are passed over). After an error the reader stays there, and
// *ret_row is untouched.
enum csv_result csv_next(struct csv_reader *reader, struct csv_row *ret_row);

// What an error means, in words.
const char *csv_result_text(enum csv_result result);

// Writes `text` as one cell, quoted when it must be; a leading = + - @ that a spreadsheet would run
// as a formula is defused with a preceding apostrophe unless the text is a plain number.
// Returns bytes written before the NUL, or 0 if it does not fit; an empty text gives an empty cell.
size_t csv_cell(const char *text, char *buffer, size_t size);

#endif
