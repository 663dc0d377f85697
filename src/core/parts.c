#include "parts.h"

#include "tongue.h"

#include <string.h>

static const char *const head_texts[] = {
#define X(name, csv, words) csv,
    HEAD_KINDS(X)
#undef X
};
static const char *const head_words[] = {
#define X(name, csv, words) words,
    HEAD_KINDS(X)
#undef X
};
static const char *const chart_texts[] = {
#define X(name, csv, words) csv,
    CHART_KINDS(X)
#undef X
};
static const char *const chart_words[] = {
#define X(name, csv, words) words,
    CHART_KINDS(X)
#undef X
};
static const char *const material_texts[] = {
    [MATERIAL_STEEL] = N_("steel"),
    [MATERIAL_GRAPHITE] = N_("graphite"),
};
static const char *const tip_texts[] = {
    [TIP_PARALLEL] = N_("parallel"),
    [TIP_TAPER] = N_("taper"),
};
static const char *const bore_texts[] = {
    [BORE_UNKNOWN] = "",
    [BORE_BLIND] = N_("blind"),
    [BORE_THROUGH] = N_("through"),
    [BORE_SHORT] = N_("short"),
};
static const char *const note_texts[] = {
    [BORE_NOTE_NONE] = N_("none"),
    [BORE_NOTE_ADD_HEIGHT] = "add_height",
    [BORE_NOTE_ABOVE_REFERENCE] = "above_reference",
};
static const char *const status_texts[] = {
    [ORDER_RELEASED] = N_("released"),
    [ORDER_DRAFT] = N_("draft"),
    [ORDER_HELD] = N_("held"),
    [ORDER_CANCELLED] = N_("cancelled"),
};

static bool find(const char *const *texts, int count, const char *text, int *ret_index) {
    for (int i = 0; i < count; i++) {
        if (strcmp(texts[i], text) == 0) {
            *ret_index = i;
            return true;
        }
    }
    return false;
}

// The two directions of one list of words.
#define WORDS(type, name, texts, count)                                                            \
    const char *name##_text(enum type value) {                                                     \
        return texts[value];                                                                       \
    }                                                                                              \
    bool name##_from_text(const char *text, enum type *ret) {                                      \
        int index;                                                                                 \
        if (!find(texts, count, text, &index)) {                                                   \
            return false;                                                                          \
        }                                                                                          \
        *ret = (enum type)index;                                                                   \
        return true;                                                                               \
    }

WORDS(head_kind, head_kind, head_texts, HEAD_KIND_COUNT)
WORDS(chart_kind, chart_kind, chart_texts, CHART_KIND_COUNT)
WORDS(material, material, material_texts, MATERIAL_COUNT)
WORDS(tip_kind, tip_kind, tip_texts, TIP_KIND_COUNT)
WORDS(bore_kind, bore_kind, bore_texts, BORE_KIND_COUNT)
WORDS(bore_note, bore_note, note_texts, BORE_NOTE_COUNT)
WORDS(order_status, order_status, status_texts, ORDER_STATUS_COUNT)

const char *head_kind_words(enum head_kind kind) {
    return _(head_words[kind]);
}

const char *head_kind_source(enum head_kind kind) {
    return head_words[kind];
}

const char *chart_kind_words(enum chart_kind kind) {
    return _(chart_words[kind]);
}

const char *material_words(enum material material) {
    return _(material_texts[material]);
}

const char *csv_words(const char *word) {
    int index;
    if (find(head_texts, HEAD_KIND_COUNT, word, &index)) {
        return _(head_words[index]);
    }
    if (find(chart_texts, CHART_KIND_COUNT, word, &index)) {
        return _(chart_words[index]);
    }
    return find(material_texts, MATERIAL_COUNT, word, &index) ||
                   find(tip_texts, TIP_KIND_COUNT, word, &index) ||
                   find(status_texts, ORDER_STATUS_COUNT, word, &index)
               ? _(word)
               : word;
}

bool chart_kind_for_head(enum head_kind kind, enum chart_kind *ret) {
    switch (kind) {
    case HEAD_KIND_DRIVER:
    case HEAD_KIND_FAIRWAY:
        *ret = CHART_KIND_WOOD;
        return true;
    case HEAD_KIND_HYBRID:
        *ret = CHART_KIND_HYBRID;
        return true;
    case HEAD_KIND_IRON:
        *ret = CHART_KIND_IRON;
        return true;
    case HEAD_KIND_WEDGE:
        *ret = CHART_KIND_WEDGE;
        return true;
    case HEAD_KIND_PUTTER:
    case HEAD_KIND_COUNT:
        break;
    }
    return false;
}

length_nm head_bore_height(const struct head *head) {
    return head->bore == BORE_THROUGH ? 0 : head->bore_height;
}

length_nm shaft_tip_cut(const struct shaft *shaft) {
    return shaft->tip_cut > 0 ? shaft->tip_cut : 0;
}

bool order_given_trim(const struct order *order, length_nm *ret_trim) {
    length_nm trim =
        order->trim_consent != LENGTH_UNKNOWN ? order->trim_consent : order->given_trim;
    if (trim == LENGTH_UNKNOWN) {
        return false;
    }
    *ret_trim = trim;
    return true;
}

struct order order_empty(void) {
    return (struct order){
        .playing_length = LENGTH_UNKNOWN,
        .grip_cap = LENGTH_UNKNOWN,
        .grip_weight = MASS_UNKNOWN,
        .uniform_reference = LENGTH_UNKNOWN,
        .given_trim = LENGTH_UNKNOWN,
        .trim_consent = LENGTH_UNKNOWN,
        .loft = LENGTH_UNKNOWN,
        .lie = LENGTH_UNKNOWN,
    };
}
