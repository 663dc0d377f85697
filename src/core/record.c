// One table of fields serves writing and reading. Reading is strict by construction: what was read
// is written again and must give the same text.

#include "record.h"
#include "text.h"

#include <stddef.h>
#include <string.h>

enum field_type { FIELD_TEXT, FIELD_NUMBER, FIELD_COUNT, FIELD_MATERIAL, FIELD_YES };

struct field {
    const char *key;
    enum field_type type;
    size_t offset;
    size_t size;
};

#define FIELD(type, name)                                                                          \
    { #name, type, offsetof(struct record, name), sizeof(((struct record *)NULL)->name) }

static const struct field fields[] = {
    FIELD(FIELD_TEXT, build),
    FIELD(FIELD_TEXT, club),
    FIELD(FIELD_COUNT, position),
    FIELD(FIELD_COUNT, count),
    FIELD(FIELD_TEXT, head),
    FIELD(FIELD_TEXT, head_model),
    FIELD(FIELD_TEXT, engraved),
    FIELD(FIELD_NUMBER, head_weight),
    FIELD(FIELD_NUMBER, bore_height),
    FIELD(FIELD_TEXT, shaft),
    FIELD(FIELD_TEXT, shaft_model),
    FIELD(FIELD_TEXT, flex),
    FIELD(FIELD_MATERIAL, material),
    FIELD(FIELD_NUMBER, raw_length),
    FIELD(FIELD_NUMBER, playing_length),
    FIELD(FIELD_NUMBER, grip_cap),
    FIELD(FIELD_NUMBER, mark_step),
    FIELD(FIELD_NUMBER, tolerance),
    FIELD(FIELD_NUMBER, chart_revision),
    FIELD(FIELD_NUMBER, model_revision),
    FIELD(FIELD_TEXT, column),
    FIELD(FIELD_NUMBER, tip_trim),
    FIELD(FIELD_NUMBER, tip_mark),
    FIELD(FIELD_NUMBER, finished),
    FIELD(FIELD_NUMBER, butt_mark),
    FIELD(FIELD_NUMBER, butt_trim),
    FIELD(FIELD_YES, butt_cut),
};
#define FIELDS (sizeof fields / sizeof fields[0])
#define HEADER "kerfside-plan\t1\n"
#define FOOTER "end\tkerfside-plan\n"

// --- writing -----------------------------------------------------------------------------------

static bool add_value(struct text *text, const char *value, size_t size) {
    size_t count = strnlen(value, size);
    for (size_t i = 0; i < count; i++) {
        if ((unsigned char)value[i] < 0x20 || value[i] == 0x7F) {
            return false;
        }
    }
    text_add_bytes(text, value, count);
    return count < size;
}

static void add_number(struct text *text, int64_t number) {
    if (number == LENGTH_UNKNOWN) {
        text_add(text, "unknown");
    } else {
        text_add_number(text, number);
    }
}

static bool add_field(struct text *text, const struct field *field, const struct record *record) {
    const char *at = (const char *)record + field->offset;
    int64_t number;
    int count;
    enum material material;
    bool yes;
    text_add(text, field->key);
    text_add(text, "\t");
    switch (field->type) {
    case FIELD_TEXT:
        if (!add_value(text, at, field->size)) {
            return false;
        }
        break;
    case FIELD_NUMBER:
        memcpy(&number, at, sizeof number);
        add_number(text, number);
        break;
    case FIELD_COUNT:
        memcpy(&count, at, sizeof count);
        add_number(text, count);
        break;
    case FIELD_MATERIAL:
        memcpy(&material, at, sizeof material);
        text_add(text, material_text(material));
        break;
    case FIELD_YES:
        memcpy(&yes, at, sizeof yes);
        text_add(text, yes ? "yes" : "no");
        break;
    }
    text_add(text, "\n");
    return true;
}

// A length that most plans have none of.
static void add_extra(struct text *text, const char *key, length_nm length) {
    if (length != 0) {
        text_add(text, key);
        text_add(text, "\t");
        add_number(text, length);
        text_add(text, "\n");
    }
}

static bool add_lines(struct text *text, const char *key, const struct record_line *line,
                      size_t count, size_t max) {
    for (size_t i = 0; i < count && i < max; i++) {
        text_add(text, key);
        text_add(text, "\t");
        text_add(text, plan_code_name(line[i].code));
        text_add(text, "\t");
        add_number(text, line[i].amount);
        text_add(text, "\t");
        if (!add_value(text, line[i].text, sizeof line[i].text)) {
            return false;
        }
        text_add(text, "\n");
    }
    return count <= max;
}

static bool add_words(struct text *text, const char *key, const char *words) {
    text_add(text, key);
    text_add(text, "\t");
    if (!add_value(text, words, ESTIMATE_TEXT_MAX)) {
        return false;
    }
    text_add(text, "\n");
    return true;
}

static bool add_estimates(struct text *text, const struct record *record) {
    const struct estimate_lines *lines = &record->estimates;
    for (size_t i = 0; i < lines->count && i < ESTIMATE_LINES_MAX; i++) {
        if (!add_words(text, "estimate", lines->line[i])) {
            return false;
        }
    }
    return lines->count <= ESTIMATE_LINES_MAX &&
           (record->outcome[0] == '\0' || add_words(text, "outcome", record->outcome));
}

static void add_shown(struct text *text, const struct record_shown *shown) {
    if (!shown->known) {
        return;
    }
    text_add(text, "shown\t");
    text_add(text, shown->tip_right ? "right\t" : "left\t");
    text_add(text, shown->metric ? "mm\t" : "in\t");
    text_add(text, shown->maybe ? "maybe\t" : "sure\t");
    text_add(text, shown->new_tip ? "new tip\t" : "tip\t");
    add_number(text, shown->piece);
    text_add(text, "\t");
    add_number(text, shown->tip_part);
    text_add(text, "\n");
}

bool record_write(const struct record *record, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    text_add(&text, HEADER);
    for (size_t i = 0; i < FIELDS; i++) {
        if (!add_field(&text, &fields[i], record)) {
            return false;
        }
    }
    add_extra(&text, "extension", record->extension);
    add_extra(&text, "proud", record->proud);
    if (!add_lines(&text, "reason", record->reason, record->reason_count, PLAN_REASONS_MAX) ||
        !add_lines(&text, "warning", record->warning, record->warning_count, PLAN_WARNINGS_MAX) ||
        !add_estimates(&text, record)) {
        return false;
    }
    add_shown(&text, &record->shown);
    text_add(&text, FOOTER);
    return !text.cut;
}

// --- reading -----------------------------------------------------------------------------------

// Copies the word up to `stop` into `word` and steps behind it.
static bool take_word(const char **at, char stop, char *word, size_t size) {
    const char *end = strchr(*at, stop);
    if (end == NULL || (size_t)(end - *at) >= size) {
        return false;
    }
    memcpy(word, *at, (size_t)(end - *at));
    word[end - *at] = '\0';
    *at = end + 1;
    return true;
}

static bool to_number(const char *word, int64_t *ret_number) {
    int64_t number = 0;
    bool negative = *word == '-';
    if (strcmp(word, "unknown") == 0) {
        *ret_number = LENGTH_UNKNOWN;
        return true;
    }
    for (word += negative ? 1 : 0; *word != '\0'; word++) {
        if (*word < '0' || *word > '9' || __builtin_mul_overflow(number, 10, &number) ||
            __builtin_add_overflow(number, *word - '0', &number)) {
            return false;
        }
    }
    *ret_number = negative ? -number : number;
    return true;
}

static bool take_field(const char **at, const struct field *field, struct record *record) {
    char *to = (char *)record + field->offset;
    char word[PLAN_SOURCE_TEXT_MAX];
    int64_t number;
    if (!take_word(at, '\t', word, sizeof word) || strcmp(word, field->key) != 0 ||
        !take_word(at, '\n', word, field->type == FIELD_TEXT ? field->size : sizeof word)) {
        return false;
    }
    if (field->type == FIELD_TEXT) {
        memcpy(to, word, strlen(word) + 1);
    } else if (field->type == FIELD_MATERIAL) {
        return material_from_text(word, &record->material);
    } else if (field->type == FIELD_YES) {
        record->butt_cut = strcmp(word, "yes") == 0;
    } else if (!to_number(word, &number)) {
        return false;
    } else if (field->type == FIELD_COUNT) {
        int count = (int)number;
        memcpy(to, &count, sizeof count);
    } else {
        memcpy(to, &number, sizeof number);
    }
    return true;
}

static bool take_extra(const char **at, const char *key, length_nm *ret_length) {
    size_t size = strlen(key);
    char word[32];
    if (strncmp(*at, key, size) != 0 || (*at)[size] != '\t') {
        return true;
    }
    *at += size + 1;
    return take_word(at, '\n', word, sizeof word) && to_number(word, ret_length);
}

static bool to_code(const char *word, char first, enum plan_code *ret_code) {
    for (int i = PLAN_NONE + 1; i < PLAN_CODE_COUNT; i++) {
        if (word[0] == first && strcmp(plan_code_name((enum plan_code)i), word) == 0) {
            *ret_code = (enum plan_code)i;
            return true;
        }
    }
    return false;
}

// Lines of this key as long as they stand there; their codes begin with `first`.
static bool take_lines(const char **at, const char *key, char first, struct record_line *line,
                       size_t max, size_t *ret_count) {
    size_t count = 0;
    size_t size = strlen(key);
    char word[32];
    while (strncmp(*at, key, size) == 0 && (*at)[size] == '\t') {
        *at += size + 1;
        if (count == max || !take_word(at, '\t', word, sizeof word) ||
            !to_code(word, first, &line[count].code) || !take_word(at, '\t', word, sizeof word) ||
            !to_number(word, &line[count].amount) ||
            !take_word(at, '\n', line[count].text, sizeof line[count].text)) {
            return false;
        }
        count++;
    }
    *ret_count = count;
    return true;
}

// True when nothing is wrong; *ret_there says whether a line of this key stood there.
static bool take_words(const char **at, const char *key, char words[ESTIMATE_TEXT_MAX],
                       bool *ret_there) {
    size_t size = strlen(key);
    *ret_there = strncmp(*at, key, size) == 0 && (*at)[size] == '\t';
    if (!*ret_there) {
        return true;
    }
    *at += size + 1;
    return take_word(at, '\n', words, ESTIMATE_TEXT_MAX);
}

static bool take_estimates(const char **at, struct record *record) {
    struct estimate_lines *lines = &record->estimates;
    bool there = true;
    while (there && lines->count < ESTIMATE_LINES_MAX) {
        if (!take_words(at, "estimate", lines->line[lines->count], &there)) {
            return false;
        }
        lines->count += there ? 1 : 0;
    }
    return take_words(at, "outcome", record->outcome, &there);
}

// Words are compared when what was read is written again.
static bool take_shown(const char **at, struct record_shown *shown) {
    char word[4][16];
    char number[2][32];
    if (strncmp(*at, "shown\t", 6) != 0) {
        return true;
    }
    *at += 6;
    for (size_t i = 0; i < 4; i++) {
        if (!take_word(at, '\t', word[i], sizeof word[i])) {
            return false;
        }
    }
    if (!take_word(at, '\t', number[0], sizeof number[0]) ||
        !take_word(at, '\n', number[1], sizeof number[1]) || !to_number(number[0], &shown->piece) ||
        !to_number(number[1], &shown->tip_part)) {
        return false;
    }
    shown->known = true;
    shown->tip_right = strcmp(word[0], "right") == 0;
    shown->metric = strcmp(word[1], "mm") == 0;
    shown->maybe = strcmp(word[2], "maybe") == 0;
    shown->new_tip = strcmp(word[3], "new tip") == 0;
    return true;
}

bool record_read(const char *text, struct record *ret_record) {
    struct record record = {0};
    char again[ENTRY_PLAN_MAX];
    const char *at = text;
    if (strncmp(at, HEADER, strlen(HEADER)) != 0) {
        return false;
    }
    at += strlen(HEADER);
    for (size_t i = 0; i < FIELDS; i++) {
        if (!take_field(&at, &fields[i], &record)) {
            return false;
        }
    }
    if (!take_extra(&at, "extension", &record.extension) ||
        !take_extra(&at, "proud", &record.proud) ||
        !take_lines(&at, "reason", 'R', record.reason, PLAN_REASONS_MAX, &record.reason_count) ||
        !take_lines(&at, "warning", 'W', record.warning, PLAN_WARNINGS_MAX,
                    &record.warning_count) ||
        !take_estimates(&at, &record) || !take_shown(&at, &record.shown) ||
        !record_write(&record, again, sizeof again) || strcmp(again, text) != 0) {
        return false;
    }
    *ret_record = record;
    return true;
}
