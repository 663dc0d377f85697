#include "csv.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

struct csv_reader csv_open(const char *text, size_t size) {
    bool mark = size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0;
    return (struct csv_reader){.text = text, .size = size, .offset = mark ? 3 : 0, .line = 1};
}

static bool at(const struct csv_reader *reader, char c) {
    return reader->offset < reader->size && reader->text[reader->offset] == c;
}

// LF or CRLF; a lone CR is no line end.
static size_t line_end(const struct csv_reader *reader) {
    if (at(reader, '\n')) {
        return 1;
    }
    return at(reader, '\r') && reader->offset + 1 < reader->size &&
                   reader->text[reader->offset + 1] == '\n'
               ? 2
               : 0;
}

// The cell being read: `row` is NULL on the first, checking pass.
struct cell {
    struct csv_row *row;
    size_t index;
    size_t size;
};

static enum csv_result take_char(struct csv_reader *reader, struct cell *cell) {
    const char *here = reader->text + reader->offset;
    size_t size = line_end(reader);
    if (size > 0) {
        reader->line++; // only called on one inside quotes
    } else {
        size = text_utf8_size(here, reader->size - reader->offset);
        if (size == 0 || (unsigned char)*here < 0x20 || *here == 0x7F) {
            return CSV_BAD_BYTE;
        }
    }
    if (cell->size + size >= CSV_CELL_MAX) {
        return CSV_CELL_TOO_LONG;
    }
    if (cell->row != NULL) {
        memcpy(cell->row->cell[cell->index] + cell->size, here, size);
    }
    cell->size += size;
    reader->offset += size;
    return CSV_ROW;
}

static bool cell_ends(const struct csv_reader *reader) {
    return reader->offset == reader->size || at(reader, ',') || line_end(reader) > 0;
}

static enum csv_result take_quoted(struct csv_reader *reader, struct cell *cell) {
    reader->offset++;
    while (reader->offset < reader->size) {
        if (at(reader, '"')) {
            reader->offset++;
            if (!at(reader, '"')) {
                return cell_ends(reader) ? CSV_ROW : CSV_STRAY_QUOTE;
            }
        }
        enum csv_result result = take_char(reader, cell);
        if (result != CSV_ROW) {
            return result;
        }
    }
    return CSV_OPEN_QUOTE;
}

static enum csv_result take_plain(struct csv_reader *reader, struct cell *cell) {
    while (!cell_ends(reader)) {
        enum csv_result result = at(reader, '"') ? CSV_STRAY_QUOTE : take_char(reader, cell);
        if (result != CSV_ROW) {
            return result;
        }
    }
    return CSV_ROW;
}

// One row that is there; leaves the reader behind its line end. *column is the cell it reached.
static enum csv_result take_row(struct csv_reader *reader, struct csv_row *row, size_t *column) {
    size_t first_line = reader->line;
    for (size_t index = 0; index < CSV_COLUMNS_MAX; index++) {
        struct cell cell = {.row = row, .index = index};
        enum csv_result result;
        *column = index + 1;
        result = at(reader, '"') ? take_quoted(reader, &cell) : take_plain(reader, &cell);
        if (result != CSV_ROW) {
            return result;
        }
        if (row != NULL) {
            row->cell[index][cell.size] = '\0';
        }
        if (!at(reader, ',')) {
            reader->line += line_end(reader) > 0 ? 1 : 0;
            reader->offset += line_end(reader);
            if (row != NULL) {
                row->line = first_line;
                row->count = index + 1;
            }
            return CSV_ROW;
        }
        reader->offset++;
    }
    *column = CSV_COLUMNS_MAX + 1;
    return CSV_TOO_MANY_COLUMNS;
}

enum csv_result csv_next(struct csv_reader *reader, struct csv_row *ret_row) {
    struct csv_reader probe;
    enum csv_result result;
    size_t column = 0;
    while (line_end(reader) > 0) {
        reader->offset += line_end(reader);
        reader->line++;
    }
    if (reader->offset == reader->size) {
        return CSV_END;
    }
    probe = *reader;
    result = take_row(&probe, NULL, &column);
    if (result != CSV_ROW) {
        reader->error_line = probe.line;
        reader->error_column = column;
        return result;
    }
    return take_row(reader, ret_row, &column);
}

const char *csv_result_text(enum csv_result result) {
    switch (result) {
    case CSV_ROW:
        return _("a row");
    case CSV_END:
        return _("the end of the file");
    case CSV_TOO_MANY_COLUMNS:
        return _("more than 32 columns; take the extra ones out");
    case CSV_CELL_TOO_LONG:
        return _("more than 511 bytes in one cell; shorten it");
    case CSV_OPEN_QUOTE:
        return _("a quote is opened and never closed; close it");
    case CSV_STRAY_QUOTE:
        return _(
            "a quote in the middle of a cell; put the whole cell in quotes and double the quote");
    case CSV_BAD_BYTE:
        return _("a character that is no text; save the file as UTF-8 without tabs");
    }
    return _("");
}

static bool plain_number(const char *text) {
    size_t digits;
    text += *text == '-' || *text == '+' ? 1 : 0;
    digits = strspn(text, "0123456789");
    text += digits;
    if (*text == '.') {
        digits = strspn(text + 1, "0123456789");
        text += 1 + digits;
    }
    return digits > 0 && *text == '\0';
}

size_t csv_cell(const char *text, char *buffer, size_t size) {
    bool formula = text[0] != '\0' && strchr("=+-@", text[0]) != NULL && !plain_number(text);
    bool quoted = text[strcspn(text, ",\"\r\n")] != '\0' || text[0] == ' ' ||
                  (text[0] != '\0' && text[strlen(text) - 1] == ' ');
    struct text out = text_open(buffer, size);
    text_add(&out, quoted ? "\"" : "");
    text_add(&out, formula ? "'" : "");
    for (; *text != '\0'; text++) {
        text_add_bytes(&out, *text == '"' ? "\"\"" : text, *text == '"' ? 2 : 1);
    }
    text_add(&out, quoted ? "\"" : "");
    return out.cut ? 0 : out.used;
}
