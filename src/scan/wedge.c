#include "wedge.h"

#include "aim.h"

#include <linux/input-event-codes.h>
#include <string.h>

#define ALT_CODES_MIN 2 // a single one may be a person's

typedef void take_fn(void *ctx, const struct wedge_output *output);

static const struct {
    uint16_t code;
    uint8_t mods;
} modifiers[] = {
    {KEY_LEFTSHIFT, STROKE_SHIFT}, {KEY_RIGHTSHIFT, STROKE_SHIFT}, {KEY_LEFTCTRL, STROKE_CTRL},
    {KEY_RIGHTCTRL, STROKE_CTRL},  {KEY_LEFTALT, STROKE_ALT},      {KEY_RIGHTALT, STROKE_ALTGR},
};
#define MODIFIERS (sizeof modifiers / sizeof modifiers[0])

static int modifier(uint16_t code) {
    for (size_t i = 0; i < MODIFIERS; i++) {
        if (modifiers[i].code == code) {
            return (int)i;
        }
    }
    return -1;
}

static uint8_t mods(const struct wedge *w) {
    unsigned all = 0;
    for (size_t i = 0; i < MODIFIERS; i++) {
        if ((w->held & (1u << i)) != 0) {
            all |= modifiers[i].mods;
        }
    }
    if ((all & STROKE_CTRL) != 0 && (all & STROKE_ALT) != 0) {
        return (uint8_t)((all & STROKE_SHIFT) | STROKE_ALTGR); // how some keyboards send AltGr
    }
    return (uint8_t)all;
}

static void forget(struct strokes *strokes) {
    strokes->count = 0;
    strokes->over = false;
}

static void give(take_fn *take, void *ctx, enum wedge_kind kind, const char *text) {
    struct wedge_output output = {.kind = kind};
    memcpy(output.text, text, strlen(text) + 1);
    take(ctx, &output);
}

void wedge_clear(struct wedge *w) {
    forget(&w->line);
    w->line_run = 0;
    w->typed[0] = '\0';
}

// A whole code or line: a sentence about the layout, or its content.
static void finish(struct wedge *w, const struct strokes *strokes, enum wedge_kind kind,
                   take_fn *take, void *ctx) {
    char text[WEDGE_TEXT_MAX];
    char words[WEDGE_TEXT_MAX];
    struct wedge_output output = {.kind = kind};
    const char *content;
    strokes_text(strokes, text);
    content = strokes_content(text, w->settings.prefix, output.aim);
    if (strokes_foreign(strokes, w->settings.prefix, words) ||
        aim_fault(output.aim, content, words)) {
        give(take, ctx, WEDGE_FAULT, words);
    } else if (content[0] != '\0') {
        memcpy(output.text, content, strlen(content) + 1);
        take(ctx, &output);
    }
}

// What was given out as typed because one gap was long, and the burst that goes on from it.
static struct strokes whole_code(const struct wedge *w) {
    struct strokes strokes = {0};
    if (w->first_us - w->line_us >= w->settings.silence_us) {
        return w->pending;
    }
    for (size_t i = w->line_run; i < w->line.count; i++) {
        strokes_add(&strokes, w->line.stroke[i]);
    }
    for (size_t i = 0; i < w->pending.count; i++) {
        strokes_add(&strokes, w->pending.stroke[i]);
    }
    strokes.over |= w->line.over || w->pending.over;
    return strokes;
}

static void code_ends(struct wedge *w, take_fn *take, void *ctx) {
    struct strokes strokes = whole_code(w);
    forget(&w->pending);
    w->burst = false;
    wedge_clear(w);
    finish(w, &strokes, WEDGE_CODE, take, ctx);
}

static void line_ends(struct wedge *w, take_fn *take, void *ctx) {
    struct strokes strokes = w->line;
    wedge_clear(w);
    if (strokes.count > 0) {
        finish(w, &strokes, WEDGE_LINE, take, ctx);
    }
}

static void typed(struct wedge *w, struct stroke stroke, take_fn *take, void *ctx) {
    struct wedge_output output = {.kind = WEDGE_CHAR, .key = stroke_char(stroke)};
    if (stroke.code == KEY_BACKSPACE) {
        output.key = '\b';
        w->line.count -= w->line.count > 0 ? 1 : 0;
        w->line_run = w->line.count < w->line_run ? w->line.count : w->line_run;
    } else if (stroke.code == KEY_TAB) {
        output.key = '\t';
    } else if (output.key >= ' ') {
        strokes_add(&w->line, stroke);
    } else {
        return; // a control character typed by a person means nothing
    }
    strokes_text(&w->line, w->typed);
    take(ctx, &output);
}

static void give_out_typed(struct wedge *w, take_fn *take, void *ctx) {
    struct strokes strokes = w->pending;
    forget(&w->pending);
    if (strokes.count > 0) {
        bool new_run = w->first_us - w->line_us >= w->settings.silence_us;
        w->line_run = new_run ? w->line.count : w->line_run;
        w->line_us = w->last_us;
    }
    for (size_t i = 0; i < strokes.count; i++) {
        typed(w, strokes.stroke[i], take, ctx);
    }
}

// The strokes so far begin the prefix, and it is not complete: 1; complete: 2; else 0.
static int prefix_part(const struct wedge *w) {
    const char *prefix = w->settings.prefix;
    size_t size = strlen(prefix);
    size_t i;
    if (w->pending.count == 0 || size == 0) {
        return 0;
    }
    for (i = 0; i < size && i < w->pending.count; i++) {
        if (stroke_char(w->pending.stroke[i]) != prefix[i]) {
            return 0;
        }
    }
    return i == size ? 2 : 1;
}

// How long after the last stroke the next one may come and still belong to it.
static int64_t patience(const struct wedge *w) {
    if (w->burst || w->alt_codes > 0 || prefix_part(w) == 1) {
        return w->settings.silence_us;
    }
    return w->settings.burst_gap_us;
}

static bool waiting(const struct wedge *w) {
    return w->pending.count > 0 || w->alt_codes > 0;
}

static void alt_ends(struct wedge *w, take_fn *take, void *ctx) {
    int codes = w->alt_codes;
    w->alt_codes = 0;
    if (codes >= ALT_CODES_MIN) {
        forget(&w->pending);
        w->burst = false;
        wedge_clear(w);
        wedge_trace_end(&w->recorder, 0, w->last_us);
        give(take, ctx, WEDGE_FAULT,
             "The scanner types Alt and numbers (ALT mode). Set it to send plain US keyboard "
             "keys.");
    }
}

// Nothing more belongs to what is waiting.
static void silence(struct wedge *w, take_fn *take, void *ctx) {
    alt_ends(w, take, ctx);
    if (w->burst) {
        forget(&w->pending);
        w->burst = false;
        wedge_trace_end(&w->recorder, 0, w->last_us);
    } else {
        give_out_typed(w, take, ctx);
    }
}

void wedge_init(struct wedge *w, const struct wedge_settings *settings) {
    *w = (struct wedge){.settings = *settings};
}

int64_t wedge_deadline(const struct wedge *w) {
    return waiting(w) ? w->last_us + patience(w) : -1;
}

void wedge_tick(struct wedge *w, int64_t now_us, take_fn *take, void *ctx) {
    if (waiting(w) && now_us - w->last_us >= patience(w)) {
        silence(w, take, ctx);
    }
}

const char *wedge_typed(const struct wedge *w) {
    return w->typed;
}

bool wedge_take_trace(struct wedge *w, struct wedge_trace *ret_trace) {
    bool fresh = w->recorder.fresh;
    if (fresh) {
        *ret_trace = w->recorder.done;
        w->recorder.fresh = false;
    }
    return fresh;
}

static bool is_keypad_digit(uint16_t code) {
    return code >= KEY_KP7 && code <= KEY_KP0 && code != KEY_KPMINUS && code != KEY_KPPLUS;
}

static bool is_enter(struct stroke stroke) {
    bool control = (stroke.mods & STROKE_CTRL) != 0;
    return stroke.code == KEY_ENTER || stroke.code == KEY_KPENTER ||
           (control && (stroke.code == KEY_M || stroke.code == KEY_J)); // CR and LF
}

// The suffix counts: three characters and Enter at a scanner's speed are a tape's `8.5`.
static bool whole_burst(const struct wedge *w) {
    bool fast = (int)w->pending.count + 1 >= w->settings.burst_min;
    return w->pending.count > 0 && (w->burst || (fast && w->line.count == 0));
}

static void modifier_moves(struct wedge *w, int which, const struct wedge_key *key) {
    unsigned bit = 1u << which;
    w->held = key->down ? w->held | bit : w->held & ~bit;
    if (modifiers[which].mods != STROKE_ALT) {
        return;
    }
    if (!key->down && w->alt_digits > 0) {
        w->alt_codes += w->alt_codes < ALT_CODES_MIN ? 1 : 0;
        w->last_us = key->time_us;
    }
    w->alt_digits = 0;
}

static void record(struct wedge *w, struct stroke stroke, int64_t time_us) {
    bool alt_digit = (stroke.mods & STROKE_ALT) != 0 && is_keypad_digit(stroke.code);
    if (is_enter(stroke)) {
        wedge_trace_end(&w->recorder, KEY_ENTER, time_us);
    } else if (stroke.code == KEY_TAB && w->settings.suffix_tab) {
        wedge_trace_end(&w->recorder, KEY_TAB, time_us);
    } else if (alt_digit || stroke_char(stroke) != '\0' || stroke.code == KEY_TAB ||
               stroke.code == KEY_BACKSPACE) {
        wedge_trace_key(&w->recorder, stroke, time_us);
    }
}

void wedge_feed(struct wedge *w, const struct wedge_key *key, take_fn *take, void *ctx) {
    struct stroke stroke = {.code = key->code, .mods = mods(w)};
    int which = modifier(key->code);
    wedge_tick(w, key->time_us, take, ctx);
    if (which >= 0) {
        modifier_moves(w, which, key);
        return;
    }
    if (!key->down) {
        return;
    }
    record(w, stroke, key->time_us);
    if ((stroke.mods & STROKE_ALT) != 0 && is_keypad_digit(stroke.code)) {
        w->alt_digits += w->alt_digits < ALT_CODES_MIN ? 1 : 0;
        return;
    }
    if (is_enter(stroke)) {
        alt_ends(w, take, ctx);
    }
    if ((is_enter(stroke) || (stroke.code == KEY_TAB && w->settings.suffix_tab)) &&
        whole_burst(w)) {
        code_ends(w, take, ctx);
        return;
    }
    if (is_enter(stroke)) {
        give_out_typed(w, take, ctx);
        line_ends(w, take, ctx);
        return;
    }
    if (stroke_char(stroke) == '\0' && stroke.code != KEY_BACKSPACE && stroke.code != KEY_TAB) {
        return;
    }
    if (stroke.code == KEY_BACKSPACE && !w->burst && !w->settings.dedicated) {
        give_out_typed(w, take, ctx); // no scanner rubs out: however fast, this is a person
        typed(w, stroke, take, ctx);
        return;
    }
    w->first_us = w->pending.count == 0 ? key->time_us : w->first_us;
    strokes_add(&w->pending, stroke);
    w->last_us = key->time_us;
    w->burst = w->burst || w->settings.dedicated ||
               (int)w->pending.count >= w->settings.burst_min || prefix_part(w) == 2;
}
