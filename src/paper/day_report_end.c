// What was decided, and what was signed.

#include "base64.h"
#include "cause_text.h"
#include "day_report_inner.h"
#include "text.h"
#include "tongue.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define MODULE (8 * 72 / 300.0) // eight dots at 300 dpi
#define ROWS_MAX (QR_SIDE_MAX * (QR_SIDE_MAX + 1) / 2)

// --- decisions -----------------------------------------------------------------------------------

static void head_words(const struct day_report_decision *decision, char head[PAGE_WORDS_MAX]) {
    struct text text = text_open(head, PAGE_WORDS_MAX);
    const char *what = decision->kind == ENTRY_NOTE ? _("note") : cause_text(decision->cause);
    // TRANSLATORS: %1 time, %2 club, %3 shaft, %4 what was decided.
    text_say(&text,
             decision->club[0] == '\0'
                 ? decision->shaft[0] == '\0' ? "%1  %4" : _("%1, shaft %3  %4")
             : decision->shaft[0] == '\0' ? _("%1  club %2: %4")
                                          : _("%1  club %2, shaft %3: %4"),
             decision->time, decision->club, decision->shaft, what);
}

static void note_words(const struct day_report_decision *note,
                       char rest[PAGE_WORDS_MAX + ENTRY_NOTE_MAX]) {
    struct text text = text_open(rest, PAGE_WORDS_MAX + ENTRY_NOTE_MAX);
    // TRANSLATORS: %2 what kind of entry, as `tip cut`; %3 who, %4 what was noted.
    text_say(&text, _("About entry %1, %2. Noted by %3: %4"), text_number(note->about_seq).digits,
             entry_kind_words(note->about), note->who, note->why);
}

static void decision_words(const struct flow *flow, const struct day_report_decision *decision,
                           char head[PAGE_WORDS_MAX], char rest[PAGE_WORDS_MAX + ENTRY_NOTE_MAX]) {
    char made[48] = "";
    char planned[48] = "";
    struct text text;
    head_words(decision, head);
    if (decision->kind == ENTRY_NOTE) {
        note_words(decision, rest);
        return;
    }
    flow_length(flow, decision->made, true, made, sizeof made);
    flow_length(flow, decision->planned, true, planned, sizeof planned);
    text = text_open(rest, PAGE_WORDS_MAX + ENTRY_NOTE_MAX);
    bool why = decision->why[0] != '\0';
    text_say(&text,
             decision->about == ENTRY_TIP_CUT
                 ? why ? _("Cut off the tip %1, planned %2. Decided by %3: %4")
                       : _("Cut off the tip %1, planned %2. Decided by %3.")
             : why ? _("Measured %1, planned %2. Decided by %3: %4")
                   : _("Measured %1, planned %2. Decided by %3."),
             made, planned, decision->who, decision->why);
}

void flow_decisions(struct flow *flow) {
    char head[PAGE_WORDS_MAX];
    char rest[PAGE_WORDS_MAX + ENTRY_NOTE_MAX];
    flow_heading(flow, _("Decisions and notes"), 4 * REPORT_TEXT * REPORT_PITCH);
    if (flow->of->decision_count == 0) {
        flow_words(flow, PAGE_REGULAR, REPORT_TEXT, _("There were none."));
    }
    for (size_t i = 0; i < flow->of->decision_count; i++) {
        decision_words(flow, &flow->of->decisions[i], head, rest);
        bool drawn = flow->drawn;
        double y = flow->y;
        flow->drawn = false; // how high it is
        flow_words(flow, PAGE_BOLD, REPORT_TEXT, head);
        flow_words(flow, PAGE_REGULAR, REPORT_TEXT, rest);
        double height = flow->y - y;
        flow->drawn = drawn;
        flow->y = y;
        flow_need(flow, height);
        flow_words(flow, PAGE_BOLD, REPORT_TEXT, head);
        flow_words(flow, PAGE_REGULAR, REPORT_TEXT, rest);
        flow->y += 4;
    }
}

// --- signature -----------------------------------------------------------------------------------

static void draw_qr(struct flow *flow, const struct qr *qr, double left, double top) {
    static struct page_box boxes[ROWS_MAX];
    size_t count = 0;
    double dot = 72 / 300.0;
    left = round(left / dot) * dot;
    top = round(top / dot) * dot;
    for (int y = 0; y < qr->side; y++) {
        for (int x = 0; x < qr->side; x++) {
            int first = x;
            while (x < qr->side && qr->dark[y][x]) {
                x++;
            }
            if (x > first) {
                boxes[count++] = (struct page_box){left + first * MODULE, top + y * MODULE,
                                                   (x - first) * MODULE, MODULE};
            }
        }
    }
    page_fill_all(flow->page, boxes, count);
}

// Name and value below each other; returns where the next one begins.
static double draw_fact(struct flow *flow, double y, double width, const char *name,
                        const char *value) {
    y += flow_words_at(flow, PAGE_REGULAR, REPORT_SMALL, PAGE_MARGIN, y, width, name);
    return y + 4 + flow_words_at(flow, PAGE_BOLD, REPORT_TEXT, PAGE_MARGIN, y, width, value);
}

// Words and facts; returns their height.
static double draw_seal(struct flow *flow, double width) {
    const struct day_report_seal *seal = flow->of->seal;
    char origin[CHECKPOINT_ORIGIN_MAX];
    char head[BASE64_SIZE(ENTRY_HASH_SIZE) + 1];
    char brief[CHECKPOINT_SHORT_MAX];
    char number[32];
    double y = flow->y;
    struct text text = text_open(number, sizeof number);
    y += flow_words_at(flow, seal->is_signed ? PAGE_REGULAR : PAGE_BOLD, REPORT_TEXT, PAGE_MARGIN,
                       y, width, seal->words);
    if (seal->is_signed) {
        checkpoint_origin(&seal->checkpoint, origin);
        checkpoint_short(&seal->checkpoint, brief);
        base64_write(seal->checkpoint.head, ENTRY_HASH_SIZE, head);
        text_add_number(&text, seal->checkpoint.size);
        y += 8;
        y = draw_fact(flow, y, width, _("Log (origin)"), origin);
        y = draw_fact(flow, y, width, _("Entries it stands for (size)"), number);
        y = draw_fact(flow, y, width, _("Hash of the last of them (head)"), head);
        y = draw_fact(flow, y, width, _("In short, to compare by eye"), brief);
    }
    return y - flow->y;
}

void flow_seal(struct flow *flow, const struct qr *qr) {
    double side = qr->side > 0 ? (qr->side + 2 * QR_QUIET) * MODULE : 0;
    double width = flow_width(flow) - side;
    struct flow counted = *flow;
    counted.drawn = false;
    double height = fmax(side, draw_seal(&counted, width));
    flow_heading(flow, _("Signature"), height);
    draw_seal(flow, width);
    if (flow->drawn && qr->side > 0) {
        draw_qr(flow, qr, flow->sheet.width - PAGE_MARGIN - side + QR_QUIET * MODULE,
                flow->y + QR_QUIET * MODULE);
    }
    flow->y += height;
}
