// Cells from typed values, the other way round than the import reads them, and rows from cells.

#include "import_columns.h"
#include "import_row.h"
#include "sheet.h"
#include "text.h"
#include "tongue.h"

#include <stdlib.h>
#include <string.h>

// Writes the value at `from` as its cell. Every text is one that its reader takes for that value.
typedef void cell_writer(struct text *text, const void *from);

static int64_t number_at(const void *from) {
    int64_t number;
    memcpy(&number, from, sizeof number);
    return number;
}

static void write_text(struct text *text, const void *from) {
    text_add(text, from);
}

static void write_length(struct text *text, const void *from) {
    char words[LENGTH_TEXT_MAX];
    length_nm length = number_at(from);
    if (length == LENGTH_UNKNOWN) {
        return;
    }
    length_text_short(length, words);
    text_add(text, words);
}

static void write_thousandths(struct text *text, const void *from) {
    char words[LENGTH_TEXT_MAX];
    if (number_at(from) != MASS_UNKNOWN) {
        mass_text(number_at(from), words);
        text_add(text, words);
    }
}

static void write_inertia(struct text *text, const void *from) {
    if (number_at(from) != LENGTH_UNKNOWN) {
        text_add_number(text, number_at(from));
    }
}

static void write_frequency(struct text *text, const void *from) {
    frequency_dcpm frequency = number_at(from);
    if (frequency != FREQUENCY_UNKNOWN) {
        text_add_number(text, frequency / 10);
        text_add(text, frequency % 10 != 0 ? "." : "");
        if (frequency % 10 != 0) {
            text_add_number(text, frequency % 10);
        }
    }
}

static void write_number(struct text *text, const void *from) {
    int number;
    memcpy(&number, from, sizeof number);
    text_add_number(text, number);
}

static void write_yes(struct text *text, const void *from) {
    bool yes;
    memcpy(&yes, from, sizeof yes);
    text_add(text, yes ? "yes" : "no");
}

#define WORD_WRITER(writer, type, noun)                                                            \
    static void writer(struct text *text, const void *from) {                                      \
        enum type value;                                                                           \
        memcpy(&value, from, sizeof value);                                                        \
        text_add(text, noun##_text(value));                                                        \
    }
WORD_WRITER(write_material, material, material)
WORD_WRITER(write_tip, tip_kind, tip_kind)
WORD_WRITER(write_bore_note, bore_note, bore_note)
WORD_WRITER(write_chart_kind, chart_kind, chart_kind)
WORD_WRITER(write_head_kind, head_kind, head_kind)
WORD_WRITER(write_bore_kind, bore_kind, bore_kind)

static void write_note_kinds(struct text *text, const void *from) {
    const struct shaft_model *model = from;
    for (int kind = 0; kind < HEAD_KIND_COUNT; kind++) {
        if ((model->note_kinds & 1u << kind) != 0) {
            text_add(text, text->used > 0 ? " " : "");
            text_add(text, head_kind_text((enum head_kind)kind));
        }
    }
    if (model->note_not_through) {
        text_add(text, text->used > 0 ? " " : "");
        text_add(text, "not_through");
    }
}

static void write_answer(struct text *text, const void *from) {
    enum import_answer answer;
    memcpy(&answer, from, sizeof answer);
    text_add(text, answer == IMPORT_YES ? "yes" : "no");
}
WORD_WRITER(write_order_status, order_status, order_status)

static const struct {
    import_reader *read;
    cell_writer *write;
} writers[] = {
    {import_read_text, write_text},
    {import_read_ticket, write_text},
    {import_read_build, write_text},
    {import_read_date, write_text},
    {import_read_swingweight, write_text},
    {import_read_length, write_length},
    {import_read_mass, write_thousandths},
    {import_read_angle, write_thousandths},
    {import_read_inertia, write_inertia},
    {import_read_frequency, write_frequency},
    {import_read_number, write_number},
    {import_read_yes, write_yes},
    {import_read_material, write_material},
    {import_read_tip, write_tip},
    {import_read_bore_note, write_bore_note},
    {import_read_note_kinds, write_note_kinds},
    {import_read_chart_kind, write_chart_kind},
    {import_read_head_kind, write_head_kind},
    {import_read_bore_kind, write_bore_kind},
    {import_read_answer, write_answer},
    {import_read_order_status, write_order_status},
};

static cell_writer *writer_of(import_reader *read) {
    for (size_t i = 0; i < sizeof writers / sizeof writers[0]; i++) {
        if (writers[i].read == read) {
            return writers[i].write;
        }
    }
    return NULL;
}

bool sheet_row_cells(enum import_kind kind, const union import_row *row,
                     struct document *document) {
    size_t count;
    const struct import_column *column = import_columns(kind, &count);
    bool fits = true;
    for (size_t i = 0; i < count; i++) {
        char value[CHANGE_VALUE_MAX];
        struct text text = text_open(value, sizeof value);
        cell_writer *write = writer_of(column[i].read);
        if (write == NULL) {
            return false;
        }
        write(&text, (const unsigned char *)row + column[i].offset);
        fits = fits && !text.cut && document_set(document, column[i].name, value);
    }
    return fits;
}

bool sheet_chart_cells(const struct chart *chart, struct document *document) {
    bool fits = true;
    for (size_t i = 0; i < chart->count; i++) {
        const struct chart_column *column = &chart->column[i];
        char name[CHANGE_NAME_MAX];
        char value[CHANGE_VALUE_MAX];
        struct text text = text_open(name, sizeof name);
        text_add(&text, ":");
        text_add(&text, column->name);
        text = text_open(value, sizeof value);
        write_thousandths(&text, &column->weight);
        text_add(&text, column->tip_trim == LENGTH_UNKNOWN ? " -" : " ");
        write_length(&text, &column->tip_trim);
        fits = fits && document_set(document, name, value);
    }
    return fits;
}

// --- rows ----------------------------------------------------------------------------------------

static void read_cell(const struct import_column *column, const struct import_cell *cell,
                      union import_row *row) {
    if (column == NULL) {
        return; // not of this sheet
    }
    if (cell->text[0] != '\0') {
        column->read(cell, &column->limits, (unsigned char *)row + column->offset);
    } else if (column->needed) {
        import_complain(cell->say, cell->at, cell->column, _("is empty; fill it in"));
    }
}

static const struct import_column *column_named(enum import_kind kind, const char *name) {
    size_t count;
    const struct import_column *column = import_columns(kind, &count);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(column[i].name, name) == 0) {
            return &column[i];
        }
    }
    return NULL;
}

// Cells that must be there and are not; of a chart those of its columns are named otherwise.
static void lacks(const struct document *document, enum import_kind kind, struct import_say *say,
                  struct import_at at) {
    size_t count;
    const struct import_column *column = import_columns(kind, &count);
    for (size_t i = document->keys; kind != IMPORT_CHARTS && i < count; i++) {
        bool there = false;
        for (size_t j = 0; j < document->count; j++) {
            there = there || strcmp(document->cell[j].name, column[i].name) == 0;
        }
        if (column[i].needed && !there) {
            import_complain(say, at, column[i].name, _("is empty; fill it in"));
        }
    }
}

static void read_row(const struct document *document, enum import_kind kind, struct import_say *say,
                     union import_row *row) {
    for (size_t i = 0; i < document->count; i++) {
        const struct document_cell *from = &document->cell[i];
        const struct import_column *column = column_named(kind, from->name);
        const struct import_cell cell = {
            .say = say, .at = row->at, .column = from->name, .text = from->value};
        if (column != NULL) {
            read_cell(column, &cell, row);
        } else if (kind != IMPORT_CHARTS || from->name[0] != ':') {
            import_complain(say, row->at, from->name, _("is no cell of %s"), document->sheet);
        }
    }
    lacks(document, kind, say, row->at);
}

// The weight and the trim of one column.
static void read_chart_cell(const struct document_cell *from, struct import_say *say,
                            struct import_chart_cell *row) {
    char weight[CHANGE_VALUE_MAX];
    size_t size = strcspn(from->value, " ");
    const char *trim = from->value + size + strspn(from->value + size, " ");
    struct import_cell cell = {.say = say, .at = row->at, .column = from->name};
    memcpy(weight, from->value, size);
    weight[size] = '\0';
    cell.text = from->name + 1;
    read_cell(column_named(IMPORT_CHARTS, "column"), &cell, (union import_row *)row);
    cell.text = weight;
    read_cell(column_named(IMPORT_CHARTS, "column_weight_g"), &cell, (union import_row *)row);
    cell.text = strcmp(trim, "-") == 0 ? "" : trim;
    if (*trim == '\0') {
        import_complain(
            say, row->at, from->name,
            _("has no trim behind the weight; write - for one the maker does not offer"));
    }
    read_cell(column_named(IMPORT_CHARTS, "tip_trim"), &cell, (union import_row *)row);
}

static bool chart_rows(const struct document *document, const union import_row *keys,
                       struct import_say *say, struct import_set *set) {
    for (size_t i = 0; i < document->count; i++) {
        union import_row row = *keys;
        if (document->cell[i].name[0] == ':') {
            row.at.line = i;
            read_chart_cell(&document->cell[i], say, &row.CHARTS);
            if (!import_set_add(set, IMPORT_CHARTS, &row)) {
                return false;
            }
        }
    }
    return true;
}

bool sheet_rows(const struct document *document, enum import_kind kind, struct import_say *say,
                struct import_set *set) {
    union import_row row;
    import_row_clear(kind, &row);
    row.at = (struct import_at){.file = import_kind_name(kind)};
    read_row(document, kind, say, &row);
    if (kind == IMPORT_CHARTS) {
        return chart_rows(document, &row, say, set);
    }
    if (kind == IMPORT_BUILDS && row.BUILDS.shaft[0] != '\0' &&
        row.BUILDS.cancelled != IMPORT_YES) {
        // What was wished for when the shaft was chosen from stock stays beside it.
        union import_row wish = row;
        wish.BUILDS.shaft[0] = '\0';
        import_row_finish(kind, &wish, say);
    } else {
        import_row_finish(kind, &row, say);
    }
    return import_set_add(set, kind, &row);
}
