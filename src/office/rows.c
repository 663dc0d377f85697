// How a list's page is filled.

#include "office_inner.h"
#include "text.h"

#include <stdio.h>
#include <string.h>

int rows_add(struct desk_table *table) {
    if (table->set.row_count == VIEW_ROWS_MAX) {
        table->more = true;
        return -1;
    }
    return (int)table->set.row_count++;
}

void rows_head(struct desk_table *table, const char *const *heads, size_t count) {
    for (size_t i = 0; i < count && i < VIEW_CELLS; i++) {
        SET(table->set.head[i], heads[i]);
    }
}

void rows_note(struct desk_table *table, enum view_tone tone, const char *text) {
    if (table->set.note_count < VIEW_LINES_MAX) {
        SET(table->set.note[table->set.note_count], text);
        table->set.note_tone[table->set.note_count++] = tone;
    }
}

#define BRIEF 40 // bytes of a cell's text

void rows_brief(const char *text, char cell[VIEW_CELL_MAX]) {
    char first[BRIEF + 1];
    words_copy(first, sizeof first, text);
    char *blank = strlen(text) > BRIEF ? strrchr(first, ' ') : NULL;
    if (blank != NULL) {
        *blank = '\0';
    }
    snprintf(cell, VIEW_CELL_MAX, "%s%s", first, strlen(text) > BRIEF ? " ..." : "");
}

static char capital(char letter) {
    return (char)(letter >= 'a' && letter <= 'z' ? letter - 'a' + 'A' : letter);
}

static bool has(const char *text, const char *part) {
    size_t size = strlen(part);
    for (; strlen(text) >= size; text++) {
        size_t same = 0;
        while (same < size && capital(text[same]) == capital(part[same])) {
            same++;
        }
        if (same == size) {
            return true;
        }
    }
    return false;
}

bool rows_wanted(const struct desk_query *query, const char *a, const char *b) {
    return has(a, query->find) || has(b, query->find);
}

void rows_number(int64_t number, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    text_add_number(&text, number);
}
