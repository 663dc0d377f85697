#include "checkpoint.h"
#include "base64.h"
#include "text.h"

#include <string.h>

#define ORIGIN_BEGIN "kerfside/"
#define SIGNATURE_BEGIN "\xE2\x80\x94 " // em dash and a blank
#define SIGNED_SIZE (CHECKPOINT_KEY_ID_SIZE + CHECKPOINT_SIGNATURE_SIZE)
#define LINE_MAX_SIZE 256 // longer than any line of a note

static const char *const error_words[CHECKPOINT_ERROR_COUNT] = {
#define X(name, words) words,
    CHECKPOINT_ERRORS(X)
#undef X
};

const char *checkpoint_error_words(enum checkpoint_error error) {
    return error_words[error];
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool checkpoint_is_day(const char *text) {
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    int part[3] = {0};
    for (size_t i = 0, at = 0; i < CHECKPOINT_DAY_MAX - 1; i++) {
        bool hyphen = i == 4 || i == 7;
        if (hyphen ? text[i] != '-' : !is_digit(text[i])) {
            return false;
        }
        at += hyphen ? 1 : 0;
        part[at] = hyphen ? 0 : part[at] * 10 + (text[i] - '0');
    }
    if (text[CHECKPOINT_DAY_MAX - 1] != '\0' || part[1] < 1 || part[1] > 12 || part[2] < 1) {
        return false;
    }
    bool leap = (part[0] % 4 == 0 && part[0] % 100 != 0) || part[0] % 400 == 0;
    return part[2] <= days[part[1] - 1] + (leap && part[1] == 2 ? 1 : 0);
}

// --- writing -----------------------------------------------------------------------------------

static bool is_plain(char c) {
    return is_digit(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '.' ||
           c == '-' || c == '_';
}

static void add_hex(struct text *text, uint8_t byte) {
    static const char digits[] = "0123456789ABCDEF";
    text_add_bytes(text, &digits[byte >> 4], 1);
    text_add_bytes(text, &digits[byte & 15], 1);
}

void checkpoint_origin(const struct checkpoint *checkpoint, char origin[CHECKPOINT_ORIGIN_MAX]) {
    struct text text = text_open(origin, CHECKPOINT_ORIGIN_MAX);
    text_add(&text, ORIGIN_BEGIN);
    for (const char *c = checkpoint->bench; *c != '\0'; c++) {
        if (is_plain(*c)) {
            text_add_bytes(&text, c, 1);
        } else {
            text_add(&text, "%");
            add_hex(&text, (uint8_t)*c);
        }
    }
    text_add(&text, "/");
    text_add(&text, checkpoint->incarnation);
}

size_t checkpoint_body(const struct checkpoint *checkpoint, char body[CHECKPOINT_BODY_MAX]) {
    struct text text = text_open(body, CHECKPOINT_BODY_MAX);
    char origin[CHECKPOINT_ORIGIN_MAX];
    char head[BASE64_SIZE(ENTRY_HASH_SIZE) + 1];
    checkpoint_origin(checkpoint, origin);
    base64_write(checkpoint->head, sizeof checkpoint->head, head);
    text_add(&text, origin);
    text_add(&text, "\n");
    text_add_number(&text, checkpoint->size);
    text_add(&text, "\n");
    text_add(&text, head);
    text_add(&text, "\nday ");
    text_add(&text, checkpoint->day);
    text_add(&text, "\n");
    return text.used;
}

size_t checkpoint_write(const struct checkpoint_note *note, char buffer[CHECKPOINT_TEXT_MAX]) {
    struct text text = text_open(buffer, CHECKPOINT_TEXT_MAX);
    char body[CHECKPOINT_BODY_MAX];
    char origin[CHECKPOINT_ORIGIN_MAX];
    char base64[BASE64_SIZE(SIGNED_SIZE) + 1];
    uint8_t bytes[SIGNED_SIZE];
    checkpoint_body(&note->checkpoint, body);
    checkpoint_origin(&note->checkpoint, origin);
    text_add(&text, body);
    text_add(&text, "\n");
    for (size_t i = 0; i < note->signature_count; i++) {
        const struct checkpoint_signature *signature = &note->signature[i];
        memcpy(bytes, signature->key_id, CHECKPOINT_KEY_ID_SIZE);
        memcpy(bytes + CHECKPOINT_KEY_ID_SIZE, signature->bytes, CHECKPOINT_SIGNATURE_SIZE);
        base64_write(bytes, sizeof bytes, base64);
        text_add(&text, SIGNATURE_BEGIN);
        text_add(&text, origin);
        text_add(&text, " ");
        text_add(&text, base64);
        text_add(&text, "\n");
    }
    return text.used;
}

void checkpoint_short(const struct checkpoint *checkpoint, char buffer[CHECKPOINT_SHORT_MAX]) {
    struct text text = text_open(buffer, CHECKPOINT_SHORT_MAX);
    text_add(&text, checkpoint->day);
    text_add(&text, " ");
    text_add_number(&text, checkpoint->size);
    for (size_t i = 0; i < 8; i++) {
        text_add(&text, i == 0 ? " " : i % 2 == 0 ? "-" : "");
        add_hex(&text, checkpoint->head[i]);
    }
}

// --- parsing -----------------------------------------------------------------------------------

struct reader {
    const char *at;
    size_t left;
    int line; // that `words` came from
    char words[LINE_MAX_SIZE];
};

// The next line without its newline. A line too long, or with a NUL in it, is empty of all that a
// note has; one without its newline is cut.
static enum checkpoint_error next(struct reader *reader, enum checkpoint_error wrong) {
    size_t most = reader->left < LINE_MAX_SIZE ? reader->left : LINE_MAX_SIZE;
    const char *newline = most == 0 ? NULL : memchr(reader->at, '\n', most);
    reader->line++;
    if (newline == NULL) {
        return reader->left < LINE_MAX_SIZE ? CHECKPOINT_CUT : wrong;
    }
    size_t size = (size_t)(newline - reader->at);
    memcpy(reader->words, reader->at, size);
    reader->words[size] = '\0';
    reader->at += size + 1;
    reader->left -= size + 1;
    return strlen(reader->words) == size ? CHECKPOINT_OK : wrong;
}

static int hex_digit(char c) {
    return is_digit(c) ? c - '0' : c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

static bool read_bench(const char *words, size_t size, char bench[ENTRY_BENCH_MAX]) {
    size_t used = 0;
    for (size_t i = 0; i < size; i++) {
        char c = words[i];
        if (c == '%' && size - i > 2) {
            int high = hex_digit(words[i + 1]);
            int low = hex_digit(words[i + 2]);
            if (high < 0 || low < 0 || high + low == 0 || is_plain((char)(high << 4 | low))) {
                return false;
            }
            c = (char)(high << 4 | low);
            i += 2;
        } else if (!is_plain(c)) {
            return false;
        }
        if (used + 1 == ENTRY_BENCH_MAX) {
            return false;
        }
        bench[used++] = c;
    }
    bench[used] = '\0';
    return true;
}

static bool read_origin(const char *words, struct checkpoint *checkpoint) {
    size_t begin = strlen(ORIGIN_BEGIN);
    if (strncmp(words, ORIGIN_BEGIN, begin) != 0) {
        return false;
    }
    const char *bench = words + begin;
    const char *slash = strchr(bench, '/');
    if (slash == NULL || strlen(slash + 1) != CONFIRM_ID_MAX - 1 ||
        strspn(slash + 1, "0123456789abcdef") != CONFIRM_ID_MAX - 1) {
        return false;
    }
    memcpy(checkpoint->incarnation, slash + 1, CONFIRM_ID_MAX);
    return read_bench(bench, (size_t)(slash - bench), checkpoint->bench);
}

static bool read_size(const char *words, struct checkpoint *checkpoint) {
    int64_t size = 0;
    if (words[0] < '1' || words[0] > '9' || strlen(words) > 18) {
        return false;
    }
    for (const char *c = words; *c != '\0'; c++) {
        if (!is_digit(*c)) {
            return false;
        }
        size = size * 10 + (*c - '0');
    }
    checkpoint->size = size;
    return true;
}

static bool read_head(const char *words, struct checkpoint *checkpoint) {
    return strlen(words) == BASE64_SIZE(ENTRY_HASH_SIZE) &&
           base64_read(words, checkpoint->head, ENTRY_HASH_SIZE);
}

static bool read_day(const char *words, struct checkpoint *checkpoint) {
    if (strncmp(words, "day ", 4) != 0 || !checkpoint_is_day(words + 4)) {
        return false;
    }
    memcpy(checkpoint->day, words + 4, CHECKPOINT_DAY_MAX);
    return true;
}

static bool read_blank(const char *words, struct checkpoint *checkpoint) {
    (void)checkpoint;
    return words[0] == '\0';
}

static bool read_signature(const char *words, const char *origin,
                           struct checkpoint_signature *signature) {
    uint8_t bytes[SIGNED_SIZE];
    size_t begin = strlen(SIGNATURE_BEGIN);
    size_t name = strlen(origin);
    if (strncmp(words, SIGNATURE_BEGIN, begin) != 0 || strncmp(words + begin, origin, name) != 0 ||
        words[begin + name] != ' ') {
        return false;
    }
    words += begin + name + 1;
    if (strlen(words) != BASE64_SIZE(SIGNED_SIZE) || !base64_read(words, bytes, SIGNED_SIZE)) {
        return false;
    }
    memcpy(signature->key_id, bytes, CHECKPOINT_KEY_ID_SIZE);
    memcpy(signature->bytes, bytes + CHECKPOINT_KEY_ID_SIZE, CHECKPOINT_SIGNATURE_SIZE);
    return true;
}

// One signature, and as many more as lines go on to begin like one.
static enum checkpoint_error signatures(struct reader *reader, struct checkpoint_note *note) {
    char origin[CHECKPOINT_ORIGIN_MAX];
    size_t begin = strlen(SIGNATURE_BEGIN);
    checkpoint_origin(&note->checkpoint, origin);
    do {
        enum checkpoint_error error = next(reader, CHECKPOINT_SIGNATURE);
        if (error != CHECKPOINT_OK) {
            return error;
        }
        if (note->signature_count == CHECKPOINT_SIGNATURES_MAX ||
            !read_signature(reader->words, origin, &note->signature[note->signature_count])) {
            return CHECKPOINT_SIGNATURE;
        }
        note->signature_count++;
    } while (reader->left >= begin && memcmp(reader->at, SIGNATURE_BEGIN, begin) == 0);
    return CHECKPOINT_OK;
}

static enum checkpoint_error body(struct reader *reader, struct checkpoint *checkpoint) {
    static const struct {
        bool (*read)(const char *words, struct checkpoint *checkpoint);
        enum checkpoint_error wrong;
    } lines[] = {
        {read_origin, CHECKPOINT_ORIGIN}, {read_size, CHECKPOINT_SIZE},
        {read_head, CHECKPOINT_HEAD},     {read_day, CHECKPOINT_DAY},
        {read_blank, CHECKPOINT_BLANK},
    };
    enum checkpoint_error error = CHECKPOINT_OK;
    for (size_t i = 0; error == CHECKPOINT_OK && i < sizeof lines / sizeof lines[0]; i++) {
        error = next(reader, lines[i].wrong);
        if (error == CHECKPOINT_OK && !lines[i].read(reader->words, checkpoint)) {
            error = lines[i].wrong;
        }
    }
    return error;
}

enum checkpoint_error checkpoint_parse(const char *text, size_t size,
                                       struct checkpoint_note *ret_note, size_t *ret_used,
                                       int *ret_line) {
    struct reader reader = {.at = text, .left = size};
    struct checkpoint_note note = {0};
    enum checkpoint_error error = body(&reader, &note.checkpoint);
    if (error == CHECKPOINT_OK) {
        error = signatures(&reader, &note);
    }
    if (error != CHECKPOINT_OK) {
        *ret_line = reader.line;
        return error;
    }
    *ret_note = note;
    *ret_used = size - reader.left;
    return CHECKPOINT_OK;
}
