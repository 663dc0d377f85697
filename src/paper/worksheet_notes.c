#include "text.h"
#include "tongue.h"
#include "worksheet_inner.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define GAP 6.0      // above the notes
#define DEEP_LEAST 4 // lines
#define BETWEEN 14.0 // columns

void sheet_note(struct sheet *sheet, size_t row, const char *words) {
    size_t i = 0;
    while (i < sheet->note_count && strcmp(sheet->note[i].text, words) != 0) {
        i++;
    }
    if (i == NOTES_MAX) {
        return;
    }
    if (i == sheet->note_count) {
        struct text text = text_open(sheet->note[i].text, sizeof sheet->note[i].text);
        text_add(&text, words);
        sheet->note_count++;
    }
    sheet->note[i].rows |= UINT32_C(1) << row;
}

// Numbers of the row's notes; more than three go on two lines.
static void number_row(struct sheet *sheet, size_t row) {
    struct cell *cell = &sheet->row[row].cell[COLUMN_NOTES];
    struct text text = text_open(cell->top, sizeof cell->top);
    int count = 0;
    int done = 0;
    for (size_t i = 0; i < sheet->note_count; i++) {
        count += (sheet->note[i].rows >> row & 1) != 0;
    }
    for (size_t i = 0; i < sheet->note_count; i++) {
        if ((sheet->note[i].rows >> row & 1) == 0) {
            continue;
        }
        if (count > 3 && done == (count + 1) / 2) {
            text_add(&text, ",");
            text = text_open(cell->below, sizeof cell->below);
        } else if (done > 0) {
            text_add(&text, ", ");
        }
        text_add_number(&text, (int64_t)i + 1);
        done++;
    }
}

void sheet_number_notes(struct sheet *sheet) {
    for (size_t row = 0; row < sheet->of->count; row++) {
        number_row(sheet, row);
    }
}

// --- on the page -------------------------------------------------------------------------------

static double size_of(double scale) {
    return 7 * fmin(fmax(scale, 0.8), 1.1);
}

static double pitch_of(double scale) {
    return size_of(scale) * 1.3;
}

static size_t columns_of(double width) {
    return width > 600 ? 3 : 2;
}

static double column_width(double width) {
    double columns = (double)columns_of(width);
    return (width - BETWEEN * (columns - 1)) / columns;
}

static void words_of(const struct sheet *sheet, size_t i, size_t shown,
                     char words[NOTE_TEXT_MAX + 80]) {
    if (i < shown) {
        snprintf(words, NOTE_TEXT_MAX + 80, "%zu  %s", i + 1, sheet->note[i].text);
    } else {
        snprintf(
            words, NOTE_TEXT_MAX + 80,
            _("Notes %zu to %zu find no room here. Read them before cutting: kerfside plan %s"),
            shown + 1, sheet->note_count, sheet->of->set->build);
    }
}

static size_t last_of(const struct sheet *sheet, size_t shown) {
    return shown < sheet->note_count ? shown + 1 : sheet->note_count;
}

static size_t lines_of(struct sheet *sheet, size_t i, double width, double scale, size_t shown) {
    char words[NOTE_TEXT_MAX + 80];
    words_of(sheet, i, shown, words);
    return page_wrap(sheet->page, PAGE_REGULAR, size_of(scale), column_width(width), words, NULL,
                     NULL);
}

// Where the next note of so many lines begins: never torn apart by the end of a column.
static size_t place(size_t at, size_t lines, size_t deep) {
    size_t left = deep - at % deep;
    return lines > left && lines <= deep ? at + left : at;
}

static bool fits(struct sheet *sheet, double width, double scale, size_t shown, size_t deep) {
    size_t at = 0;
    for (size_t i = 0; i < last_of(sheet, shown); i++) {
        size_t lines = lines_of(sheet, i, width, scale, shown);
        at = place(at, lines, deep) + lines;
    }
    return at <= deep * columns_of(width);
}

size_t notes_deep(struct sheet *sheet, double width, double scale, size_t shown) {
    size_t lines = 0;
    for (size_t i = 0; i < last_of(sheet, shown); i++) {
        lines += lines_of(sheet, i, width, scale, shown);
    }
    size_t deep = (lines + columns_of(width) - 1) / columns_of(width);
    deep = deep < DEEP_LEAST ? DEEP_LEAST : deep;
    while (!fits(sheet, width, scale, shown, deep)) {
        deep++;
    }
    return lines < deep ? lines : deep;
}

double notes_height(size_t deep, double scale) {
    return deep == 0 ? 0 : GAP + (double)deep * pitch_of(scale);
}

size_t notes_room(double height, double scale) {
    double lines = floor((height - GAP) / pitch_of(scale));
    return lines > 0 ? (size_t)lines : 0;
}

struct notes_drawing {
    struct sheet *sheet;
    double y;
    double width; // of a column
    size_t deep;
    size_t at;
};

static void draw_line(void *of, size_t index, const char *words) {
    struct notes_drawing *drawing = of;
    double scale = drawing->sheet->at.scale;
    size_t at = drawing->at + index;
    size_t column = at / drawing->deep;
    double x = PAGE_MARGIN + (double)column * (drawing->width + BETWEEN);
    double y = drawing->y + (double)(at % drawing->deep) * pitch_of(scale);
    page_text(drawing->sheet->page, PAGE_REGULAR, size_of(scale), PAGE_LEFT, x, y + size_of(scale),
              words);
}

void notes_draw(struct sheet *sheet, double y) {
    char words[NOTE_TEXT_MAX + 80];
    double width = sheet->at.sheet.width - 2 * PAGE_MARGIN;
    double scale = sheet->at.scale;
    size_t shown = sheet->at.notes_shown;
    struct notes_drawing drawing = {.sheet = sheet,
                                    .y = y + GAP,
                                    .width = column_width(width),
                                    .deep = notes_deep(sheet, width, scale, shown)};
    for (size_t i = 0; i < last_of(sheet, shown); i++) {
        size_t lines = lines_of(sheet, i, width, scale, shown);
        drawing.at = place(drawing.at, lines, drawing.deep);
        words_of(sheet, i, shown, words);
        page_wrap(sheet->page, PAGE_REGULAR, size_of(scale), drawing.width, words, draw_line,
                  &drawing);
        drawing.at += lines;
    }
}
