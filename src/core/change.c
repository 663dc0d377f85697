#include "change.h"
#include "text.h"

#include <string.h>

// --- documents -----------------------------------------------------------------------------------

static const struct document_cell *find(const struct document *document, const char *name) {
    for (size_t i = 0; document != NULL && i < document->count; i++) {
        if (strcmp(document->cell[i].name, name) == 0) {
            return &document->cell[i];
        }
    }
    return NULL;
}

const char *document_value(const struct document *document, const char *name) {
    const struct document_cell *cell = find(document, name);
    return cell != NULL ? cell->value : "";
}

static bool plain(const char *text, size_t size) {
    size_t length = strnlen(text, size);
    for (size_t i = 0; length < size && i < length;) {
        size_t step = text_utf8_size(text + i, length - i);
        unsigned char first = (unsigned char)text[i];
        unsigned char second = (unsigned char)text[i + 1];
        if (step == 0 || first < 0x20 || first == 0x7F || (first == 0xC2 && second < 0xA0)) {
            return false;
        }
        i += step;
    }
    return length < size;
}

bool document_set(struct document *document, const char *name, const char *value) {
    struct document_cell cell = {0};
    struct document_cell *at = (struct document_cell *)find(document, name);
    if (name[0] == '\0' || !plain(name, sizeof cell.name) || !plain(value, sizeof cell.value) ||
        (at == NULL && document->count == CHANGE_CELLS_MAX)) {
        return false;
    }
    at = at != NULL ? at : &document->cell[document->count++];
    strcpy(cell.name, name);
    strcpy(cell.value, value);
    *at = cell;
    return true;
}

void document_drop(struct document *document, const char *name) {
    struct document_cell *at = (struct document_cell *)find(document, name);
    if (at != NULL && at >= document->cell + document->keys) {
        size_t after = (size_t)(document->cell + document->count - (at + 1));
        memmove(at, at + 1, after * sizeof *at);
        memset(&document->cell[--document->count], 0, sizeof *at);
    }
}

// --- changes -------------------------------------------------------------------------------------

static void add_cell(struct change *change, const char *name, const char *before,
                     const char *after) {
    if (change->count < CHANGE_CELLS_MAX && strcmp(before, after) != 0) {
        struct change_cell *cell = &change->cell[change->count++];
        strcpy(cell->name, name);
        strcpy(cell->before, before);
        strcpy(cell->after, after);
    }
}

void change_between(const struct document *before, const struct document *after,
                    struct change *ret_change) {
    const struct document *any = after != NULL ? after : before;
    *ret_change =
        // NOLINTNEXTLINE(clang-analyzer-core.NullDereference): one of them is given
        (struct change){.made = before == NULL, .taken = after == NULL, .keys = any->keys};
    strcpy(ret_change->sheet, any->sheet);
    memcpy(ret_change->key, any->cell, any->keys * sizeof any->cell[0]);
    for (size_t i = any->keys; i < any->count; i++) {
        const char *name = any->cell[i].name;
        add_cell(ret_change, name, document_value(before, name), document_value(after, name));
    }
    // What only the one before has.
    for (size_t i = any->keys; after != NULL && before != NULL && i < before->count; i++) {
        if (find(after, before->cell[i].name) == NULL) {
            add_cell(ret_change, before->cell[i].name, before->cell[i].value, "");
        }
    }
}

bool change_empty(const struct change *change) {
    return change->count == 0 && !change->made && !change->taken;
}

void change_back(const struct change *change, struct change *ret_back) {
    struct change back = *change;
    back.made = change->taken;
    back.taken = change->made;
    for (size_t i = 0; i < change->count; i++) {
        memcpy(back.cell[i].before, change->cell[i].after, CHANGE_VALUE_MAX);
        memcpy(back.cell[i].after, change->cell[i].before, CHANGE_VALUE_MAX);
    }
    *ret_back = back;
}

const char *change_apply(const struct change *change, const struct document *now,
                         struct document *ret_after) {
    struct document after = {.keys = change->keys, .count = change->keys};
    if ((now == NULL) != change->made) {
        return change->keys > 0 ? change->key[0].name : change->sheet;
    }
    if (now != NULL) {
        after = *now;
    }
    strcpy(after.sheet, change->sheet);
    memcpy(after.cell, change->key, change->keys * sizeof change->key[0]);
    for (size_t i = 0; i < change->count; i++) {
        const struct change_cell *cell = &change->cell[i];
        if (strcmp(document_value(now, cell->name), cell->before) != 0 ||
            !document_set(&after, cell->name, cell->after)) {
            return cell->name;
        }
    }
    if (!change->taken) {
        *ret_after = after;
    }
    return NULL;
}

void change_words(const struct change *change, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    for (size_t i = 0; i < change->count; i++) {
        const struct change_cell *cell = &change->cell[i];
        text_add(&text, i > 0 ? "; " : "");
        if (cell->name[0] == ':') { // a chart's column
            text_add(&text, "column ");
            text_add(&text, cell->name + 1);
            text_add(&text, ": ");
        } else {
            text_add(&text, cell->name);
            text_add(&text, " ");
        }
        if (!change->made) {
            text_add(&text, cell->before[0] != '\0' ? cell->before : "none");
            text_add(&text, change->taken ? "" : " to ");
        }
        if (!change->taken) {
            text_add(&text, cell->after[0] != '\0' ? cell->after : "none");
        }
    }
}

// --- text ----------------------------------------------------------------------------------------

#define HEADER "kerfside-change\t1\n"
#define FOOTER "end\tkerfside-change\n"

static void line(struct text *text, const char *key, const char *a, const char *b, const char *c) {
    const char *const values[] = {a, b, c};
    text_add(text, key);
    for (size_t i = 0; i < 3 && values[i] != NULL; i++) {
        text_add(text, "\t");
        text_add(text, values[i]);
    }
    text_add(text, "\n");
}

bool change_write(const struct change *change, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    text_add(&text, HEADER);
    line(&text, "sheet", change->sheet, NULL, NULL);
    if (change->made || change->taken) {
        line(&text, change->made ? "made" : "taken", "", NULL, NULL);
    }
    for (size_t i = 0; i < change->keys; i++) {
        line(&text, "key", change->key[i].name, change->key[i].value, NULL);
    }
    for (size_t i = 0; i < change->count; i++) {
        line(&text, "cell", change->cell[i].name, change->cell[i].before, change->cell[i].after);
    }
    text_add(&text, FOOTER);
    return !text.cut;
}

// The next field of a line, ended by a tab or the line's end. False: too long, or no field.
static bool field(const char **at, char *to, size_t size) {
    size_t length;
    if (**at != '\t') {
        return false;
    }
    length = strcspn(*at + 1, "\t\n");
    if (length >= size) {
        return false;
    }
    memcpy(to, *at + 1, length);
    to[length] = '\0';
    *at += 1 + length;
    return true;
}

static bool begins(const char **at, const char *word) {
    size_t length = strlen(word);
    if (strncmp(*at, word, length) != 0) {
        return false;
    }
    *at += length;
    return true;
}

// One line into *change; whatever is odd shows when the result is written again.
static bool read_line(const char **at, struct change *change) {
    char nothing[1];
    if (begins(at, "sheet")) {
        return field(at, change->sheet, sizeof change->sheet);
    }
    if (begins(at, "made") || begins(at, "taken")) {
        bool made = (*at)[-1] == 'e';
        change->made |= made;
        change->taken |= !made;
        return field(at, nothing, sizeof nothing);
    }
    if (begins(at, "key") && change->keys < CHANGE_KEYS_MAX) {
        struct document_cell *key = &change->key[change->keys++];
        return field(at, key->name, sizeof key->name) && field(at, key->value, sizeof key->value);
    }
    if (begins(at, "cell") && change->count < CHANGE_CELLS_MAX) {
        struct change_cell *cell = &change->cell[change->count++];
        return field(at, cell->name, sizeof cell->name) &&
               field(at, cell->before, sizeof cell->before) &&
               field(at, cell->after, sizeof cell->after);
    }
    return false;
}

// What document_set would not take is in no change.
static bool possible(const struct change *change) {
    struct document document = {0};
    for (size_t i = 0; i < change->keys; i++) {
        if (!document_set(&document, change->key[i].name, change->key[i].value)) {
            return false;
        }
    }
    for (size_t i = 0; i < change->count; i++) {
        const struct change_cell *cell = &change->cell[i];
        size_t count = document.count;
        if (!document_set(&document, cell->name, cell->before) || document.count == count ||
            !document_set(&document, cell->name, cell->after) ||
            strcmp(cell->before, cell->after) == 0 || (change->made && cell->before[0] != '\0') ||
            (change->taken && cell->after[0] != '\0')) {
            return false;
        }
    }
    return document.count == change->keys + change->count && change->sheet[0] != '\0' &&
           plain(change->sheet, sizeof change->sheet);
}

static bool read_lines(const char *text, struct change *change) {
    const char *at = text;
    if (!begins(&at, HEADER)) {
        return false;
    }
    while (strcmp(at, FOOTER) != 0) {
        if (!read_line(&at, change) || !begins(&at, "\n")) {
            return false;
        }
    }
    return possible(change);
}

// Strict by construction: what was read is written again and must give the same text.
bool change_read(const char *text, struct change *ret_change) {
    struct change change = {0};
    char again[CHANGE_TEXT_MAX];
    if (!read_lines(text, &change) || !change_write(&change, again, sizeof again) ||
        strcmp(again, text) != 0) {
        return false;
    }
    *ret_change = change;
    return true;
}
