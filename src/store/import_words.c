// Cells that hold one of a few words.

#include "import_cell.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

static bool none_of(const struct import_cell *cell, const char *const *words, int count) {
    char buffer[IMPORT_QUOTED_MAX];
    char list[IMPORT_QUOTED_MAX];
    struct text text = text_open(list, sizeof list);
    for (int i = 0; i < count; i++) {
        text_add(&text, words[i][0] != '\0' && text.used > 0 ? ", " : "");
        text_add(&text, words[i]);
    }
    import_complain(cell->say, cell->at, cell->column, _("%s is none of: %s"),
                    import_quote(cell->text, buffer), list);
    return false;
}

// A reader for the words of an enum of core.
#define WORD_READER(reader, type, noun, count)                                                     \
    bool reader(const struct import_cell *cell, const struct import_limits *limits, void *to) {    \
        enum type value;                                                                           \
        (void)limits;                                                                              \
        if (!noun##_from_text(cell->text, &value)) {                                               \
            const char *words[count];                                                              \
            for (int i = 0; i < (count); i++) {                                                    \
                words[i] = noun##_text((enum type)i);                                              \
            }                                                                                      \
            return none_of(cell, words, count);                                                    \
        }                                                                                          \
        memcpy(to, &value, sizeof value);                                                          \
        return true;                                                                               \
    }

WORD_READER(import_read_material, material, material, MATERIAL_COUNT)
WORD_READER(import_read_tip, tip_kind, tip_kind, TIP_KIND_COUNT)
WORD_READER(import_read_bore_note, bore_note, bore_note, BORE_NOTE_COUNT)
WORD_READER(import_read_chart_kind, chart_kind, chart_kind, CHART_KIND_COUNT)
WORD_READER(import_read_head_kind, head_kind, head_kind, HEAD_KIND_COUNT)
WORD_READER(import_read_bore_kind, bore_kind, bore_kind, BORE_KIND_COUNT)
WORD_READER(import_read_role, role, role, ROLE_COUNT)
WORD_READER(import_read_order_status, order_status, order_status, ORDER_STATUS_COUNT)

bool import_read_yes(const struct import_cell *cell, const struct import_limits *limits, void *to) {
    static const char *const words[] = {"no", "yes"};
    bool yes = strcmp(cell->text, "yes") == 0;
    (void)limits;
    if (!yes && strcmp(cell->text, "no") != 0) {
        return none_of(cell, words, 2);
    }
    memcpy(to, &yes, sizeof yes);
    return true;
}

bool import_read_answer(const struct import_cell *cell, const struct import_limits *limits,
                        void *to) {
    bool yes;
    if (!import_read_yes(cell, limits, &yes)) {
        return false;
    }
    enum import_answer answer = yes ? IMPORT_YES : IMPORT_NO;
    memcpy(to, &answer, sizeof answer);
    return true;
}

#define NOTE_KINDS_MAX (HEAD_KIND_COUNT + 2)

static bool note_kind(const char *word, unsigned *ret_kinds, bool *ret_not_through) {
    enum head_kind kind;
    if (strcmp(word, "not_through") == 0) {
        *ret_not_through = true;
    } else if (strcmp(word, "wood") == 0) {
        *ret_kinds |= 1u << HEAD_KIND_DRIVER | 1u << HEAD_KIND_FAIRWAY;
    } else if (head_kind_from_text(word, &kind)) {
        *ret_kinds |= 1u << kind;
    } else {
        return false;
    }
    return true;
}

bool import_read_note_kinds(const struct import_cell *cell, const struct import_limits *limits,
                            void *to) {
    struct shaft_model *model = to;
    char list[CSV_CELL_MAX];
    char *rest = NULL;
    unsigned kinds = 0;
    bool not_through = false;
    (void)limits;
    memcpy(list, cell->text, strlen(cell->text) + 1);
    for (char *word = strtok_r(list, " ;", &rest); word != NULL;
         word = strtok_r(NULL, " ;", &rest)) {
        if (!note_kind(word, &kinds, &not_through)) {
            const char *words[NOTE_KINDS_MAX] = {"wood"};
            const struct import_cell part = {cell->say, cell->at, cell->column, word};
            for (int i = 0; i < HEAD_KIND_COUNT; i++) {
                words[i + 1] = head_kind_text((enum head_kind)i);
            }
            words[NOTE_KINDS_MAX - 1] = "not_through";
            return none_of(&part, words, NOTE_KINDS_MAX);
        }
    }
    model->note_kinds = kinds;
    model->note_not_through = not_through;
    return true;
}
