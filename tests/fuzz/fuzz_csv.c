#include "csv.h"
#include "fuzz.h"

// A cell written and read again is the same text, but for the apostrophe before a formula. It goes
// second: a byte order mark at the very start of a file is passed over.
static void try_cell(const char *cell) {
    static struct csv_row row;
    char line[2 * CSV_CELL_MAX + 8] = "1,";
    size_t size = csv_cell(cell, line + 2, sizeof line - 2);
    struct csv_reader reader = csv_open(line, 2 + size);
    HOLDS(size > 0 || cell[0] == '\0');
    if (strlen(cell) + 1 >= CSV_CELL_MAX) {
        return; // no room for the apostrophe
    }
    HOLDS(csv_next(&reader, &row) == CSV_ROW && row.count == 2);
    HOLDS(strcmp(row.cell[1], cell) == 0 ||
          (row.cell[1][0] == '\'' && strcmp(row.cell[1] + 1, cell) == 0));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    static struct csv_row row;
    char *text = fuzz_string(data, size);
    struct csv_reader reader = csv_open(text, size);
    size_t line = 0;
    enum csv_result result;
    while ((result = csv_next(&reader, &row)) == CSV_ROW) {
        HOLDS(row.count >= 1 && row.count <= CSV_COLUMNS_MAX);
        HOLDS(row.line > line);
        line = row.line;
        for (size_t i = 0; i < row.count; i++) {
            HOLDS(memchr(row.cell[i], '\0', CSV_CELL_MAX) != NULL);
            try_cell(row.cell[i]);
        }
    }
    if (result != CSV_END) {
        HOLDS(reader.error_line > line && reader.error_column >= 1);
        HOLDS(csv_next(&reader, &row) == result);
    }
    free(text);
    return 0;
}
