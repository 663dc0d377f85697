// Number entry: what the keys, picks and a typing tape put into the fields. Nothing here confirms.

#include "station_inner.h"
#include "text.h"
#include "ticket_number.h"

#include <string.h>

static bool is_dry_fit(const struct station *s) {
    return s->number.kind == NUMBER_DRY_FIT;
}

static enum length_unit unit(const struct station *s) {
    return s->settings.metric_first ? LENGTH_UNIT_MM : LENGTH_UNIT_INCH;
}

void number_text(const struct station *s, length_nm length, char buffer[NUMBER_TEXT_MAX]) {
    char words[LENGTH_TEXT_MAX];
    memset(buffer, 0, NUMBER_TEXT_MAX);
    struct text text = text_open(buffer, NUMBER_TEXT_MAX);
    if (s->settings.metric_first && length % (LENGTH_MM / 10) == 0) {
        length_text_mm(length, 1, words);
        text_add_figure(&text, words);
        text_add(&text, " mm");
        return;
    }
    length_text_short(length, words);
    text_add_figure(&text, words);
    if (s->settings.metric_first) {
        text_add(&text, " in");
    }
}

bool number_value(const struct station *s, int field, length_nm *ret_length) {
    return length_parse(s->number.text[field], unit(s), ret_length, NULL) == LENGTH_OK;
}

static enum station_state state_of(enum number_kind kind) {
    if (kind == NUMBER_DRY_FIT) {
        return STATION_DRY_FIT;
    }
    return kind == NUMBER_MEASURE ? STATION_MEASURE : STATION_MISCUT;
}

void number_open(struct station *s, enum number_kind kind) {
    memset(&s->number, 0, sizeof s->number);
    s->number.kind = kind;
    s->number.field_count = kind == NUMBER_DRY_FIT ? 2 : 1;
    if (kind == NUMBER_DRY_FIT && s->club.shaft.raw_length != LENGTH_UNKNOWN) {
        number_text(s, answer_piece(s), s->number.text[1]);
    }
    station_move(s, state_of(kind));
}

static void clear_messages(struct station *s) {
    memset(s->number.error, 0, sizeof s->number.error);
}

// The first key into a prefilled field starts it afresh.
static char *typed_into(struct station *s) {
    int at = s->number.active;
    clear_messages(s);
    if (!s->number.touched[at]) {
        memset(s->number.text[at], 0, NUMBER_TEXT_MAX);
        s->number.touched[at] = true;
    }
    return s->number.text[at];
}

static bool belongs_to_a_length(int64_t key) {
    return (key >= '0' && key <= '9') || key == '/' || key == '.' || key == ',' || key == '-' ||
           key == ' ' || key == '"' || key == 'i' || key == 'n' || key == 'm';
}

// Swingweights are typed in small letters too.
static int64_t large_letter(const struct station *s, int64_t key) {
    bool small = s->number.kind == NUMBER_FINAL_SWINGWEIGHT && key >= 'a' && key <= 'g';
    return small ? key - 'a' + 'A' : key;
}

static bool belongs(const struct station *s, int64_t key) {
    bool other = s->state == STATION_FINAL && s->number.kind != NUMBER_FINAL_LENGTH;
    return other ? final_key(s->number.kind, key) : belongs_to_a_length(key);
}

// Keeps the whole inches and sets the fraction, in lowest terms.
static void set_sixteenth(struct station *s, int64_t n) {
    char *field = typed_into(s);
    size_t whole = strspn(field, "0123456789");
    char fraction[LENGTH_TEXT_MAX];
    struct text text;
    if (whole > 4 || field[whole] == '/') {
        whole = 0; // it was a fraction alone
    }
    memset(field + whole, 0, NUMBER_TEXT_MAX - whole);
    text = (struct text){.buffer = field, .size = NUMBER_TEXT_MAX, .used = whole};
    length_text_fraction(n * LENGTH_INCH / 16, fraction);
    if (whole > 0) {
        text_add(&text, " ");
    }
    text_add(&text, fraction);
    if (s->settings.metric_first) {
        text_add(&text, " in");
    }
}

void number_key(struct station *s, int64_t key) {
    key = large_letter(s, key);
    if (key == '\b') {
        s->number.touched[s->number.active] = true; // rubbing out keeps what was prefilled
        char *field = typed_into(s);
        size_t size = strlen(field);
        if (size > 0) {
            field[size - 1] = '\0';
        }
    } else if (key == '\t' && s->number.field_count > 1) {
        number_field(s, 1 - s->number.active);
    } else if (key > VIEW_KEY_SIXTEENTH && key < VIEW_KEY_SIXTEENTH + 16 && belongs(s, '/')) {
        set_sixteenth(s, key - VIEW_KEY_SIXTEENTH);
    } else if (belongs(s, key)) {
        char *field = typed_into(s);
        size_t size = strlen(field);
        if (size + 1 < NUMBER_TEXT_MAX) {
            field[size] = (char)key;
        }
    }
}

void number_pick(struct station *s, length_nm length) {
    char *field = typed_into(s);
    if (length >= 0 && length <= LENGTH_LIMIT) {
        number_text(s, length, field);
    }
}

void number_field(struct station *s, int64_t field) {
    if (field >= 0 && field < s->number.field_count) {
        s->number.active = (int)field;
    }
}

bool number_ticket(struct station *s, const char *text) {
    const struct ticket_number *number = ticket_number_of(text);
    if (number == NULL || !station_asks_number(s)) {
        return false;
    }
    number_key(s, number->sixteenths > 0 ? VIEW_KEY_SIXTEENTH + number->sixteenths : number->key);
    return true;
}

bool number_scan(struct station *s, const char *text) {
    length_nm length;
    struct final_values values;
    bool reads = s->state == STATION_FINAL
                     ? final_reads(s, text, &values)
                     : length_parse(text, unit(s), &length, NULL) == LENGTH_OK;
    if (!station_asks_number(s) || strlen(text) >= NUMBER_TEXT_MAX || !reads) {
        return false;
    }
    char *field = typed_into(s);
    words_copy(field, NUMBER_TEXT_MAX, text);
    if (is_dry_fit(s) && s->number.active == 0 && s->number.text[1][0] == '\0') {
        s->number.active = 1;
    }
    station_sound(s, SOUND_ACCEPTED);
    return true;
}
