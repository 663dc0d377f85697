// What is left of a shaft, with a ticket of its own: a shaft again, of which some of the tip is
// off.

#include "lists.h"
#include "office_inner.h"
#include "text.h"

#include <string.h>

#define LIFE_MAX 100 // entries about one shaft
#define TAPE_OFF                                                                                   \
    (LENGTH_INCH / 8) // a tape is right to that, and no piece grows: the shop's own rule

static bool withdrawn(const struct log_line *lines, int count, int64_t seq) {
    for (int i = 0; i < count; i++) {
        if (lines[i].kind == ENTRY_WITHDRAW && lines[i].refers == seq) {
            return true;
        }
    }
    return false;
}

// What the saw took off its tip for good; 0: nothing.
static enum desk_result tip_cut(struct office *office, const char *ticket, length_nm *ret_cut) {
    struct log_line lines[LIFE_MAX];
    struct log_filter filter;
    memset(&filter, 0, sizeof filter);
    SET(filter.ticket, ticket);
    int count = store_log(office->store, &filter, 0, lines, LIFE_MAX);
    *ret_cut = 0;
    for (int i = 0; i < count; i++) {
        if (lines[i].kind == ENTRY_TIP_CUT && !withdrawn(lines, count, lines[i].seq)) {
            *ret_cut = lines[i].made;
            break;
        }
    }
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

// What is left of it; DESK_NONE: it is in an order, or was never cut.
static enum desk_result left_of(struct office *office, const char *ticket, length_nm *ret_left) {
    struct part_line lines[VIEW_ROWS_MAX];
    int count = store_shafts(office->store, ticket, "", lines, VIEW_ROWS_MAX);
    for (int i = 0; i < count; i++) {
        if (strcmp(lines[i].ticket, ticket) == 0) {
            *ret_left = lines[i].length;
            return lines[i].life == PART_RAW || lines[i].build[0] != '\0' ? DESK_NONE : DESK_DONE;
        }
    }
    return count < 0 ? DESK_FAILED : DESK_NONE;
}

static length_nm length_in(const struct document *document, const char *cell) {
    length_nm length = LENGTH_UNKNOWN;
    length_parse(document_value(document, cell), LENGTH_UNIT_INCH, &length, NULL);
    return length;
}

enum desk_result offcut_begin(struct office *office, struct desk_draft *draft) {
    static const char *const kept[] = {"model", "flex", "rack", "lot"};
    const char *from = draft->of.key[0];
    struct document shaft;
    length_nm left = LENGTH_UNKNOWN;
    length_nm cut = 0;
    enum store_result known = store_document(office->store, "shafts", &from, &shaft);
    enum desk_result result =
        known == STORE_OK ? left_of(office, from, &left) : office_result(known);
    result = result == DESK_DONE ? tip_cut(office, from, &cut) : result;
    if (result != DESK_DONE) {
        return result;
    }
    struct document *now = &draft->now;
    memset(now, 0, sizeof *now);
    SET(now->sheet, "shafts");
    now->keys = 1;
    result = made_propose(office, draft);
    for (size_t i = 0; i < sizeof kept / sizeof *kept; i++) {
        document_set(now, kept[i], document_value(&shaft, kept[i]));
    }
    length_nm before = length_in(&shaft, "tip_cut"); // it may have been an offcut itself
    document_set(now, "from_shaft", from);
    office_set_length(now, "raw_length", left);
    office_set_length(now, "tip_cut", cut + (before != LENGTH_UNKNOWN ? before : 0));
    draft->before = *now;
    draft->exists = true; // the piece does
    return result;
}

// No piece is longer than it was when it was cut.
static void look_at_length(const struct office *office, const struct desk_draft *draft,
                           struct desk_remarks *remarks) {
    length_nm left = length_in(&draft->before, "raw_length");
    length_nm now = length_in(&draft->now, "raw_length");
    char length[LENGTH_TEXT_MAX];
    char words[VIEW_TEXT_MAX];
    struct text text = text_open(words, sizeof words);
    if (now == LENGTH_UNKNOWN) {
        office_complain(remarks, "raw_length", _("measure what is left."));
    } else if (left != LENGTH_UNKNOWN && now > left + TAPE_OFF) {
        office_length(office, left, length, sizeof length);
        text_say(&text,
                 office->settings->metric_first
                     ? _("longer than the %1 mm that were left. Measure again.")
                     : _("longer than the %1 in that were left. Measure again."),
                 length);
        office_complain(remarks, "raw_length", words);
    }
}

void offcut_consider(struct office *office, struct desk_draft *draft,
                     struct desk_remarks *remarks) {
    made_ticket(office, draft, remarks);
    sheets_consider(office, draft, remarks);
    look_at_length(office, draft, remarks);
    office_note(remarks, TONE_PLAIN,
                _("Measure it. What is off its tip already counts: only the rest of a trim is cut. "
                  "Weight and length are those of the piece."));
}
