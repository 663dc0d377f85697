#include "entry.h"

#include <string.h>

static const char *const kinds[ENTRY_KIND_COUNT] = {
#define X(name, text) text,
    ENTRY_KINDS(X)
#undef X
};
static const char *const consents[CONSENT_COUNT] = {
#define X(name, text) text,
    CONSENTS(X)
#undef X
};
static const char *const stages[STAGE_COUNT] = {
#define X(name, text) text,
    STAGES(X)
#undef X
};

const char *entry_kind_text(enum entry_kind kind) {
    return kinds[kind];
}

bool entry_kind_from_text(const char *text, enum entry_kind *ret) {
    for (int i = 0; i < ENTRY_KIND_COUNT; i++) {
        if (strcmp(kinds[i], text) == 0) {
            *ret = (enum entry_kind)i;
            return true;
        }
    }
    return false;
}

const char *consent_text(enum consent consent) {
    return consents[consent];
}

bool consent_from_text(const char *text, enum consent *ret) {
    for (int i = 0; i < CONSENT_COUNT; i++) {
        if (strcmp(consents[i], text) == 0) {
            *ret = (enum consent)i;
            return true;
        }
    }
    return false;
}

const char *stage_text(enum stage stage) {
    return stages[stage];
}

bool stage_from_text(const char *text, enum stage *ret) {
    for (int i = 0; i < STAGE_COUNT; i++) {
        if (strcmp(stages[i], text) == 0) {
            *ret = (enum stage)i;
            return true;
        }
    }
    return false;
}

bool entry_frequency(const char *text, frequency_dcpm *ret_frequency) {
    int64_t thousandths;
    if (!mass_parse(text, &thousandths) || thousandths % 100 != 0 || thousandths < 50000 ||
        thousandths > 600000) {
        return false;
    }
    *ret_frequency = thousandths / 100;
    return true;
}

bool entry_angle(enum entry_kind kind, const char *text, int64_t *ret_angle) {
    int64_t thousandths;
    int64_t low = kind == ENTRY_FINAL_LIE ? 45000 : 0;
    int64_t high = kind == ENTRY_FINAL_LIE ? 80000 : 75000;
    if (!mass_parse(text, &thousandths) || thousandths % 100 != 0 || thousandths < low ||
        thousandths > high) {
        return false;
    }
    *ret_angle = thousandths;
    return true;
}

bool entry_trim(const char *text, length_nm *ret_trim) {
    length_nm trim;
    if (length_parse(text, LENGTH_UNIT_INCH, &trim, NULL) != LENGTH_OK || trim < 0 ||
        trim > 80 * LENGTH_INCH) {
        return false;
    }
    *ret_trim = trim;
    return true;
}

bool entry_final_length(length_nm length) {
    return length >= 10 * LENGTH_INCH && length <= 70 * LENGTH_INCH;
}

struct entry entry_init(enum entry_kind kind) {
    return (struct entry){.kind = kind, .planned = LENGTH_UNKNOWN, .made = LENGTH_UNKNOWN};
}

struct writer {
    uint8_t *buffer;
    size_t used;
};

static void put_number(struct writer *writer, uint64_t number) {
    // Written out, so that the compiler makes one store of it.
    const uint8_t bytes[sizeof number] = {(uint8_t)(number >> 56), (uint8_t)(number >> 48),
                                          (uint8_t)(number >> 40), (uint8_t)(number >> 32),
                                          (uint8_t)(number >> 24), (uint8_t)(number >> 16),
                                          (uint8_t)(number >> 8),  (uint8_t)number};
    memcpy(writer->buffer + writer->used, bytes, sizeof bytes);
    writer->used += sizeof bytes;
}

static void field_bytes(struct writer *writer, const char *bytes, size_t size) {
    put_number(writer, size);
    memcpy(writer->buffer + writer->used, bytes, size);
    writer->used += size;
}

static void field_number(struct writer *writer, int64_t number) {
    put_number(writer, sizeof number);
    put_number(writer, (uint64_t)number);
}

// A text in an array of the struct; its size bounds it even if the NUL is missing.
#define FIELD_TEXT(writer, array) field_bytes(writer, array, strnlen(array, sizeof(array)))

size_t entry_encode(const struct entry *entry, const uint8_t previous[ENTRY_HASH_SIZE],
                    uint8_t buffer[ENTRY_ENCODED_MAX]) {
    static const char format[] = "kerfside/log/1"; // with its NUL
    struct writer writer = {.buffer = buffer};
    const char *kind = entry_kind_text(entry->kind);
    const char *verdict = verdict_text(entry->verdict);
    memcpy(buffer, format, sizeof format);
    memcpy(buffer + sizeof format, previous, ENTRY_HASH_SIZE);
    writer.used = sizeof format + ENTRY_HASH_SIZE;
    field_number(&writer, entry->seq);
    field_bytes(&writer, kind, strlen(kind));
    field_number(&writer, entry->wall_ms);
    field_number(&writer, entry->mono_ms);
    FIELD_TEXT(&writer, entry->boot);
    FIELD_TEXT(&writer, entry->bench);
    FIELD_TEXT(&writer, entry->worker);
    field_number(&writer, entry->club_id);
    FIELD_TEXT(&writer, entry->build);
    FIELD_TEXT(&writer, entry->club);
    FIELD_TEXT(&writer, entry->head);
    FIELD_TEXT(&writer, entry->shaft);
    FIELD_TEXT(&writer, entry->confirm_id);
    field_number(&writer, entry->attempt);
    field_number(&writer, entry->refers);
    field_number(&writer, entry->planned);
    field_number(&writer, entry->made);
    field_bytes(&writer, verdict, strlen(verdict));
    FIELD_TEXT(&writer, entry->cause);
    FIELD_TEXT(&writer, entry->note);
    field_number(&writer, entry->chart_revision);
    FIELD_TEXT(&writer, entry->plan);
    return writer.used;
}
