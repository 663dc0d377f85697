#include "report.h"

#include "aim.h"
#include "report_advice.h"
#include "text.h"
#include "tongue.h"

#include <linux/input-event-codes.h>
#include <stdio.h>
#include <string.h>

#define HEX_MAX 38 // bytes shown: three places each

// Bytes as they came, however odd.
static void show(const char *bytes, size_t count, struct scan_report *r) {
    struct text text = text_open(r->text, sizeof r->text);
    struct text hex = text_open(r->bytes, sizeof r->bytes);
    for (size_t i = 0; i < count; i++) {
        unsigned char byte = (unsigned char)bytes[i];
        char word[8];
        if (byte > 0x7F) {
            snprintf(word, sizeof word, "<%02X>", byte);
        } else if (byte < ' ' || byte == 0x7F) {
            snprintf(word, sizeof word, "<%s>", aim_control(bytes[i]));
        } else {
            snprintf(word, sizeof word, "%c", byte);
        }
        text_add(&text, word);
        if (i < HEX_MAX) {
            snprintf(word, sizeof word, i > 0 ? " %02X" : "%02X", byte);
            text_add(&hex, word);
        }
    }
    text_add(&hex, count > HEX_MAX ? " ..." : "");
}

struct ms_words {
    char words[24];
};

static struct ms_words ms_words(int64_t us) {
    struct ms_words ms = {0};
    struct text text = text_open(ms.words, sizeof ms.words);
    text_add_decimal(&text, (double)us / 1000, us < 10000 ? 1 : 0);
    return ms;
}

static void tell_timing(const int64_t *time_us, size_t count, bool pieces, struct scan_report *r) {
    struct text text = text_open(r->timing, sizeof r->timing);
    r->total_us = count > 0 ? time_us[count - 1] - time_us[0] : 0;
    r->gap_mean_us = count > 1 ? r->total_us / (int64_t)(count - 1) : 0;
    r->gap_most_us = 0;
    for (size_t i = 1; i < count; i++) {
        int64_t gap = time_us[i] - time_us[i - 1];
        r->gap_most_us = gap > r->gap_most_us ? gap : r->gap_most_us;
    }
    if (pieces && r->total_us == 0) {
        text_add(&text, _("all at once"));
        return;
    }
    text_say(&text, _("%1 ms in all; between characters %2 ms, at most %3 ms"),
             ms_words(r->total_us).words, ms_words(r->gap_mean_us).words,
             ms_words(r->gap_most_us).words);
}

static void tell_aim(const char *aim, struct scan_report *r) {
    struct text text = text_open(r->aim, sizeof r->aim);
    if (aim[0] == '\0') {
        text_add(&text, _("none sent"));
        return;
    }
    text_add(&text, aim);
    text_add(&text, ", ");
    text_add(&text, _(aim_text(aim)));
    snprintf(r->symbology, sizeof r->symbology, "%s", _(aim_text(aim)));
}

// `layouts` stands where an advice has %s.
static void add_advice(const char *advice, const char *layouts, struct scan_report *r) {
    struct text text = text_open(r->advice[r->advice_count], REPORT_TEXT_MAX);
    const char *gap = strstr(advice, "%s");
    text_add_bytes(&text, advice, gap != NULL ? (size_t)(gap - advice) : strlen(advice));
    if (gap != NULL) {
        text_add(&text, layouts);
        text_add(&text, gap + 2);
    }
    r->advice_count++;
}

static const char *const scanner_verdicts[] = {
    [REPORT_GOOD] = N_("Good. This scanner is set right."),
    [REPORT_WORKS] = N_("It works, but its settings will cause trouble."),
    [REPORT_BAD] = N_("Codes from this scanner cannot be used as it is set.")};
static const char *const camera_verdicts[] = {
    [REPORT_GOOD] = N_("Good. The camera reads this code at once."),
    [REPORT_WORKS] = N_("It counts, but one picture was not enough."),
    [REPORT_BAD] = N_("The camera reads this code, but it counts for nothing.")};

static void conclude(unsigned found, const char *layouts, const char *const *verdicts,
                     struct scan_report *r) {
    int worst = 0;
    for (int i = 0; i < REPORT_FINDING_COUNT; i++) {
        enum report_finding finding = (enum report_finding)i;
        if ((found & 1u << i) == 0) {
            continue;
        }
        if (report_finding_weight(finding) > worst) {
            worst = report_finding_weight(finding);
        }
        if (r->advice_count < REPORT_ADVICE_MAX) {
            add_advice(report_finding_text(finding), layouts, r);
        }
    }
    r->verdict = (enum report_verdict)worst;
    snprintf(r->verdict_text, sizeof r->verdict_text, "%s", _(verdicts[worst]));
}

static void source(const char *name, int number, struct scan_report *r) {
    snprintf(r->source, sizeof r->source, number > 0 ? "%s %d" : "%s", name, number);
}

static bool alt_mode(const struct strokes *strokes) {
    size_t digits = 0;
    for (size_t i = 0; i < strokes->count; i++) {
        digits += (strokes->stroke[i].mods & STROKE_ALT) != 0;
    }
    return digits >= 4; // two characters at least
}

// What only the keys tell. Whatever the text says is void then, and 0 means that it counts.
static unsigned key_findings(const struct wedge_trace *trace, const char *prefix, char *layouts) {
    char words[STROKES_TEXT_MAX];
    const struct strokes *strokes = &trace->strokes;
    if (alt_mode(strokes)) {
        return 1u << REPORT_ALT;
    }
    if (strokes->over) {
        return 1u << REPORT_ENDLESS;
    }
    if (strokes_foreign(strokes, prefix, words)) {
        return strokes_layouts(strokes, prefix, layouts) ? 1u << REPORT_LAYOUT : 1u << REPORT_CAPS;
    }
    return 0;
}

void report_keys(const struct wedge_trace *trace, const struct wedge_settings *settings, int number,
                 struct scan_report *ret_report) {
    struct scan_report r = {0};
    struct wedge_trace code = *trace;
    size_t count = code.strokes.count;
    bool tab = trace->end == 0 && count > 0 && code.strokes.stroke[count - 1].code == KEY_TAB;
    bool by_gap = number == 0 && settings->prefix[0] == '\0'; // all that tells it from a person
    char text[STROKES_TEXT_MAX];
    char layouts[STROKES_TEXT_MAX] = "";
    char aim[4];
    unsigned found;
    code.strokes.count -= tab ? 1 : 0;
    strokes_text(&code.strokes, text);
    strokes_content(text, settings->prefix, aim);
    source(number > 0 ? _("Scanner") : _("Keyboard"), number, &r);
    show(text, strlen(text), &r);
    tell_aim(aim, &r);
    tell_timing(code.time_us, code.strokes.count, false, &r);
    found = key_findings(&code, settings->prefix, layouts);
    if (found == 0) {
        found = report_findings(text, settings->prefix);
    }
    snprintf(r.ending, sizeof r.ending, "%s",
             trace->end == KEY_ENTER        ? "Enter"
             : trace->end == KEY_TAB || tab ? "Tab"
                                            : _("none"));
    if (trace->end == 0 && (found & 1u << REPORT_ALT) == 0) {
        found |= 1u << (tab ? REPORT_TAB : REPORT_NO_END);
    }
    if (by_gap && r.gap_most_us > settings->burst_gap_us * 2 / 3) {
        found |= 1u << REPORT_SLOW;
    } else if (r.gap_most_us > settings->silence_us / 3) {
        found |= 1u << REPORT_BREAKS;
    }
    conclude(found, layouts, scanner_verdicts, &r);
    *ret_report = r;
}

void report_serial(const struct serial_trace *trace, const char *prefix, int number,
                   struct scan_report *ret_report) {
    struct scan_report r = {0};
    char text[WEDGE_TEXT_MAX];
    char aim[4];
    unsigned found;
    bool is_text = true;
    memcpy(text, trace->byte, trace->count);
    text[trace->count] = '\0';
    for (size_t i = 0; i < trace->count; i++) {
        is_text = is_text && text[i] > 0;
    }
    strokes_content(text, prefix, aim);
    source(_("Serial scanner"), number, &r);
    show(trace->byte, trace->count, &r);
    tell_aim(aim, &r);
    tell_timing(trace->time_us, trace->count, true, &r);
    snprintf(r.ending, sizeof r.ending, "%s",
             trace->end[0] == '\0'   ? _("none")
             : trace->end[0] == '\n' ? "LF"
             : trace->end[1] == '\n' ? "CR LF"
                                     : "CR");
    if (!is_text) {
        found = 1u << REPORT_NO_TEXT;
    } else if (trace->over) {
        found = 1u << REPORT_ENDLESS;
    } else {
        found = report_findings(text, prefix) | (trace->end[0] == '\0' ? 1u << REPORT_NO_END : 0) |
                (r.gap_most_us > SERIAL_IDLE_US / 2 ? 1u << REPORT_BREAKS : 0);
    }
    conclude(found, "", scanner_verdicts, &r);
    *ret_report = r;
}

static unsigned camera_findings(const struct reader_event *event) {
    switch (event->verdict) {
    case ACCEPT_FOREIGN:
        return 1u << REPORT_UNKNOWN;
    case ACCEPT_DAMAGED:
        return 1u << REPORT_DAMAGED;
    case ACCEPT_TICKET:
    case ACCEPT_MODEL:
        break;
    }
    return event->readings > 1 ? 1u << REPORT_FAINT : 0;
}

// What QR symbols are read by are ways of looking at them, bars are read by lines across.
static void tell_agreed(const struct reader_event *event, struct scan_report *r) {
    struct text text = text_open(r->agreed, sizeof r->agreed);
    unsigned long quality = (unsigned long)event->code.quality;
    const char *ways = event->code.symbology == CODE_QR
                           ? tongue_plural("%1 look", "%1 looks", quality)
                           : tongue_plural("%1 line across it", "%1 lines across it", quality);
    char looked[REPORT_TEXT_MAX];
    struct text count = text_open(looked, sizeof looked);
    text_say(&count, ways, text_number((int64_t)quality).digits);
    // TRANSLATORS: %2 in how many ways a code was read, as `3 looks`; %1 the camera's pictures.
    text_say(
        &text,
        tongue_plural("%2, in %1 picture", "%2, in %1 pictures", (unsigned long)event->readings),
        text_number(event->readings).digits, looked);
}

void report_camera(const struct reader_event *event, struct scan_report *ret_report) {
    struct scan_report r = {.total_us = event->took_us, .gap_mean_us = -1, .gap_most_us = -1};
    struct text timing = text_open(r.timing, sizeof r.timing);
    source(_("Camera"), 0, &r);
    show(event->code.text, strlen(event->code.text), &r);
    r.bytes[0] = '\0'; // the same again
    snprintf(r.symbology, sizeof r.symbology, "%s", code_symbology_text(event->code.symbology));
    text_say(&timing, _("%1 ms from picture to reading"), ms_words(event->took_us).words);
    tell_agreed(event, &r);
    conclude(camera_findings(event), "", camera_verdicts, &r);
    *ret_report = r;
}
