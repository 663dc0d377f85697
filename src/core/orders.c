#include "orders.h"

#include <stdio.h>
#include <string.h>

bool order_lengths(length_nm start, length_nm step, size_t count, length_nm *ret_lengths) {
    length_nm length = start;
    for (size_t i = 0; i < count; i++) {
        if (!entry_final_length(length) || step > LENGTH_LIMIT || step < -LENGTH_LIMIT) {
            return false;
        }
        length -= step;
    }
    for (size_t i = 0; i < count; i++) {
        ret_lengths[i] = start - (length_nm)i * step;
    }
    return true;
}

// --- new orders ----------------------------------------------------------------------------------

static bool is_build(const char *text) {
    size_t size = strlen(text);
    return size > 0 && size <= TICKET_BODY_MAX &&
           strspn(text, "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ") == size;
}

bool order_make(const char *build, struct change *ret_change) {
    struct document order = {.sheet = "orders", .keys = 1};
    char priority[12];
    snprintf(priority, sizeof priority, "%d", ORDER_PRIORITY_DEFAULT);
    if (!is_build(build) || !document_set(&order, "build", build) ||
        !document_set(&order, "status", order_status_text(ORDER_DRAFT)) ||
        !document_set(&order, "priority", priority)) {
        return false;
    }
    change_between(NULL, &order, ret_change);
    return true;
}

bool order_copy(const struct document *line, const char *build, const char *model, const char *flex,
                struct change *ret_change) {
    struct document copy = *line;
    if (strcmp(line->sheet, "builds") != 0 || line->keys != 2 || !is_build(build) ||
        strcmp(document_value(line, "cancelled"), "yes") == 0 ||
        !document_set(&copy, "build", build) || !document_set(&copy, "head", "") ||
        !document_set(&copy, "shaft", "") || !document_set(&copy, "due", "")) {
        return false;
    }
    if (model[0] != '\0' &&
        (!document_set(&copy, "shaft_model", model) || !document_set(&copy, "flex", flex))) {
        return false;
    }
    change_between(NULL, &copy, ret_change);
    return true;
}

// --- changes -------------------------------------------------------------------------------------

static const char *first_of(const struct change *change, const char *const *names, size_t count) {
    for (size_t i = 0; i < change->count; i++) {
        for (size_t j = 0; j < count; j++) {
            if (strcmp(change->cell[i].name, names[j]) == 0) {
                return change->cell[i].name;
            }
        }
    }
    return NULL;
}

const char *order_too_late(const struct change *change, const struct progress *progress, bool cut) {
    // Each row is too late once the one before it is.
    static const char *const cells[] = {"head",           "shaft",       "cancelled", "step",
                                        "uniform_flex",   "shaft_model", "flex",      "given_trim",
                                        "playing_length", "grip_cap",    "extension"};
    const size_t parts = 3, tip = 8, all = sizeof cells / sizeof cells[0];
    bool tip_cut = cut || progress->tip_seq != 0 || progress->tip_made != LENGTH_UNKNOWN;
    bool butt_cut = progress->butt_seq != 0 || progress->measure_seq != 0;
    if (progress->stage == STAGE_DONE) {
        return change->count > 0 ? change->cell[0].name : NULL;
    }
    if (progress->stage == STAGE_PENDING && !cut) {
        return NULL;
    }
    return first_of(change, cells, butt_cut ? all : tip_cut ? tip : parts);
}

bool order_change_tells(const struct change *change) {
    static const char *const quiet[] = {"rack", "lot", "reference", "priority", "due"};
    size_t heard = change->count;
    for (size_t i = 0; i < change->count; i++) {
        for (size_t j = 0; j < sizeof quiet / sizeof quiet[0]; j++) {
            heard -= strcmp(change->cell[i].name, quiet[j]) == 0 ? 1 : 0;
        }
    }
    return heard > 0;
}

// --- stock ---------------------------------------------------------------------------------------

int64_t order_again(int64_t free, int64_t needed, int64_t least, int64_t wanted) {
    int64_t left = free - needed;
    return left < least && wanted > left ? wanted - left : 0;
}

bool order_offcut_fits(length_nm remaining, length_nm finished, length_nm tip_trim) {
    return remaining != LENGTH_UNKNOWN && finished != LENGTH_UNKNOWN &&
           tip_trim != LENGTH_UNKNOWN && finished > 0 && tip_trim >= 0 && remaining >= tip_trim &&
           remaining - tip_trim >= finished;
}
