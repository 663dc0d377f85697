#ifndef WORKSHEET_INNER_H
#define WORKSHEET_INNER_H

// What the files of the worksheet share: the sheet's content, filled once (worksheet_rows.c), then
// how it is arranged (worksheet_arrange.c), then drawn part by part. Sizes grow with `scale`.

#include "worksheet.h"

enum column {
    COLUMN_CLUB,
    COLUMN_HEAD,
    COLUMN_SHAFT,
    COLUMN_LENGTH,
    COLUMN_BORE,
    COLUMN_CHART,
    COLUMN_TIP,
    COLUMN_BUTT,
    COLUMN_WEIGHT,
    COLUMN_SWINGWEIGHT,
    COLUMN_FREQUENCY,
    COLUMN_NOTES,
    COLUMN_MADE_TIP,
    COLUMN_MADE_BUTT,
    COLUMN_MEASURED,
    COLUMN_COUNT
};

#define CELL_TEXT_MAX 160
struct cell {
    char top[CELL_TEXT_MAX]; // the whole inches of a mark
    char below[CELL_TEXT_MAX];
    char numerator[8]; // a mark's fraction, empty: none
    char denominator[8];
    bool mark;
    bool box; // room to write in
};

struct row {
    struct plan_input input;
    struct plan plan;
    struct estimate estimate;
    bool planned;
    struct cell cell[COLUMN_COUNT];
};

#define NOTE_TEXT_MAX PLAN_LINE_TEXT_MAX
// A refusal, or warnings and what is not known of the estimates, of every club.
#define NOTES_MAX (SET_CLUBS_MAX * (PLAN_WARNINGS_MAX + 3))
struct note {
    char text[NOTE_TEXT_MAX];
    uint32_t rows; // bit i: it belongs to row i
};

struct arrangement {
    struct page_box sheet;
    double scale;
    double column[COLUMN_COUNT];
    double header;
    double heads; // of the table
    double row;
    double plots;
    double notes;
    double footer;
    size_t notes_shown;
};

struct sheet {
    const struct worksheet *of;
    struct page *page;
    size_t note_count;
    struct arrangement at;
    struct row row[SET_CLUBS_MAX];
    struct note note[NOTES_MAX];
};

// worksheet_rows.c
void sheet_fill(struct sheet *sheet);

// worksheet_notes.c: notes are numbered from 1 in the order they come; the same words are one note.
void sheet_note(struct sheet *sheet, size_t row, const char *words);
void sheet_number_notes(struct sheet *sheet);
size_t notes_deep(struct sheet *sheet, double width, double scale, size_t shown); // lines a column
double notes_height(size_t deep, double scale);
size_t notes_room(double height, double scale); // lines a column
void notes_draw(struct sheet *sheet, double y);

// worksheet_table.c: widths as narrow as the words allow; returns their sum.
double table_widths(struct sheet *sheet, double scale, double width[COLUMN_COUNT]);
double table_row_least(double scale);
double table_heads(double scale);
void table_draw(struct sheet *sheet, double y);

// worksheet_margins.c: header and footer.
double header_height(struct sheet *sheet, double width);
double footer_height(struct sheet *sheet, double width);
void header_draw(struct sheet *sheet, double y);
void footer_draw(struct sheet *sheet, double y);

// worksheet_plot.c
double plots_least(double scale);
double plots_most(double scale);
void plots_draw(struct sheet *sheet, double y);

// worksheet_arrange.c
void sheet_arrange(struct sheet *sheet);

#endif
