#include "workday.h"
#include "text.h"

#include <string.h>

// `tip past mark, recut`: why a shaft is gone, and what became of the club.
static void scrapped(struct workday *day, const struct entry *decision, const struct entry *about) {
    char words[ENTRY_CAUSE_MAX];
    struct text text = text_open(words, sizeof words);
    text_add(&text,
             about != NULL && about->kind == ENTRY_TIP_CUT ? "tip past mark, " : "too short, ");
    text_add(&text, decision->cause);
    cut_cause_add(day->scrap, &day->scrap_count, words);
}

static bool is_done(const struct entry *entry, const struct workday_later *later) {
    return entry->kind == ENTRY_MEASURE && !later->withdrawn &&
           (entry->verdict == VERDICT_IN ||
            (entry->verdict == VERDICT_SHORT && strcmp(later->decided, "use") == 0));
}

void workday_add(struct workday *day, const struct entry *entry, const struct entry *about,
                 const struct workday_later *later) {
    bool tip = entry->kind == ENTRY_TIP_CUT;
    bool measure = entry->kind == ENTRY_MEASURE;
    if (later->withdrawn) {
        return;
    }
    day->cuts += tip || entry->kind == ENTRY_BUTT_CUT;
    day->out += (tip || measure) && entry->verdict == VERDICT_SHORT;
    day->open += later->open;
    day->done += is_done(entry, later);
    if (entry->kind == ENTRY_DECIDE && strcmp(entry->cause, "use") != 0) {
        scrapped(day, entry, about);
    }
    struct cut_fact fact = {.kind = entry->kind,
                            .planned = entry->planned,
                            .made = entry->made,
                            .cause = entry->cause,
                            .hour = later->hour};
    cut_stats_add(&day->cut, &fact);
}

void workday_sort(struct workday *day) {
    cut_stats_sort(&day->cut);
    cut_cause_sort(day->scrap, day->scrap_count);
}
