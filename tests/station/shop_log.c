// The log of the workshop in memory: appending, and judging what an append may never do.

#include "record.h"
#include "shop.h"
#include "words.h"

#include <string.h>

uint32_t shop_digest(const char *text) {
    uint32_t hash = 2166136261u;
    for (; *text != '\0'; text++) {
        hash = (hash ^ (unsigned char)*text) * 16777619u;
    }
    return hash;
}

struct shop_entry *shop_slot(struct shop *shop, int64_t seq) {
    return &shop->log[seq % SHOP_LOG];
}

// Of the plan alone: whether the screen warned that it may be cut already, and on which side the
// tip lay, is another matter each time the mark is shown.
static uint32_t plan_digest(const struct entry *entry) {
    char plan[ENTRY_PLAN_MAX];
    char *shown;
    memcpy(plan, entry->plan, sizeof plan);
    shown = strstr(plan, "\nshown\t");
    if (shown != NULL) {
        const char *rest = shown + 1 + strcspn(shown + 1, "\n");
        memmove(shown, rest, strlen(rest) + 1);
    }
    return shop_digest(plan);
}

// What the log may never hold, judged by its entries alone.
static void judge(struct shop *shop, const struct entry *entry) {
    struct shop_club *facts = &shop->club[entry->club_id > 0 ? entry->club_id - 1 : 0];
    uint32_t plan = plan_digest(entry);
    switch (entry->kind) {
    case ENTRY_SIGN_ON:
        memset(shop->care, 0, sizeof shop->care);
        words_copy(shop->worker, sizeof shop->worker, entry->worker);
        break;
    case ENTRY_SIGN_OFF:
        memset(shop->care, 0, sizeof shop->care);
        memset(shop->worker, 0, sizeof shop->worker);
        break;
    case ENTRY_CARE:
        for (int i = 0; i < MATERIAL_COUNT; i++) {
            if (strcmp(entry->cause, material_text((enum material)i)) == 0) {
                shop->care[i] = true;
            }
        }
        break;
    case ENTRY_TIP_SHOWN:
    case ENTRY_BUTT_SHOWN:
        facts->shown = entry->planned;
        facts->shown_butt = entry->kind == ENTRY_BUTT_SHOWN;
        facts->shown_plan = plan;
        facts->shown_for = facts->longer;
        break;
    case ENTRY_TIP_CUT:
        if (facts->tip_cut != 0) {
            shop->violation = "law 3: a second tip cut";
        }
        facts->tip_cut = entry->seq;
        break;
    case ENTRY_BUTT_CUT:
        if (facts->butt_cut != 0) {
            shop->violation = "law 3: a second butt cut";
        }
        facts->butt_cut = entry->seq;
        break;
    case ENTRY_WITHDRAW:
        if (entry->refers == 0 || entry->refers >= entry->seq) {
            shop->violation = "law 5: a withdrawal of nothing";
        }
        facts->tip_cut = entry->refers == facts->tip_cut ? 0 : facts->tip_cut;
        facts->butt_cut = entry->refers == facts->butt_cut ? 0 : facts->butt_cut;
        break;
    case ENTRY_DECIDE:
        if (strcmp(entry->cause, "use") != 0) {
            facts->tip_cut = 0;
            facts->butt_cut = 0;
        }
        break;
    case ENTRY_MEASURE:
        shop->measured = entry->verdict;
        break;
    case ENTRY_HOLD:
        if (strcmp(entry->cause, "not_safe") == 0) {
            memset(shop->care, 0, sizeof shop->care);
        }
        break;
    case ENTRY_GENESIS:
    case ENTRY_TIP_PARTIAL:
    case ENTRY_DRY_FIT:
    case ENTRY_CONSENT:
    case ENTRY_PIN:
    case ENTRY_IMPORT:
    case ENTRY_EXPORT:
    case ENTRY_FINAL_LENGTH:
    case ENTRY_FINAL_SWINGWEIGHT:
    case ENTRY_FINAL_FREQUENCY:
    case ENTRY_FINAL_LOFT:
    case ENTRY_FINAL_LIE:
    case ENTRY_KIT:
    case ENTRY_DAY_SIGNED:
    case ENTRY_CHANGE:
    case ENTRY_TOLD:
    case ENTRY_SETTINGS:
    case ENTRY_RESTORED:
    case ENTRY_NOTE:
    case ENTRY_KIND_COUNT:
        break;
    }
    // Law 6: a cut at the mark carries the very plan that was shown. What the worker says was cut
    // before the order changed is held against the order as it is now.
    bool at_mark = (entry->kind == ENTRY_TIP_CUT || entry->kind == ENTRY_BUTT_CUT) &&
                   entry->made == entry->planned && facts->shown_plan != 0 &&
                   facts->shown_for == facts->longer;
    if (at_mark && facts->shown_butt == (entry->kind == ENTRY_BUTT_CUT) &&
        (facts->shown_plan != plan || facts->shown != entry->planned)) {
        shop->violation = "law 6: the cut's plan is not the one that was shown";
    }
    struct record record;
    if (entry->plan[0] != '\0' && !record_read(entry->plan, &record)) {
        shop->violation = "law 6: a plan in the log that cannot be read";
    }
}

// The effects of an entry besides the stage.
static void apply(struct shop *shop, const struct entry *entry) {
    struct shop_club *facts = &shop->club[entry->club_id > 0 ? entry->club_id - 1 : 0];
    if (entry->kind == ENTRY_DRY_FIT) {
        facts->bore_height = entry->made;
    } else if (entry->kind == ENTRY_CONSENT && strcmp(entry->cause, "shim") == 0) {
        facts->shim = true;
    } else if (entry->kind == ENTRY_CONSENT && strcmp(entry->cause, "extension") == 0) {
        facts->extension = true;
    } else if (entry->kind == ENTRY_CONSENT && strcmp(entry->cause, "trim") == 0) {
        facts->trim_given = entry_trim(entry->note, &facts->trim);
    } else if (entry->kind == ENTRY_CONSENT) {
        words_copy(facts->picked_column, sizeof facts->picked_column, entry->note);
    } else if (entry->kind == ENTRY_DECIDE && strcmp(entry->cause, "recut") == 0) {
        facts->recut = true;
    }
}

static bool at_saw(enum entry_kind kind) {
    return kind == ENTRY_TIP_SHOWN || kind == ENTRY_TIP_PARTIAL || kind == ENTRY_TIP_CUT ||
           kind == ENTRY_BUTT_SHOWN || kind == ENTRY_BUTT_CUT || kind == ENTRY_MEASURE;
}

// As the store: nothing is cut of an order that was changed before a bench was told, no mark is
// shown of one that is not released.
static bool ordered(struct shop *shop, const struct entry *entry) {
    bool shown = entry->kind == ENTRY_TIP_SHOWN || entry->kind == ENTRY_BUTT_SHOWN;
    if (entry->kind == ENTRY_TOLD) {
        bool told = shop->changes > 0 && entry->refers == shop->newest_seq;
        shop->changes = told ? 0 : shop->changes;
        for (int i = 0; told && i < SHOP_CLUBS; i++) {
            shop->club[i].heard = shop->club[i].longer;
        }
        shop->changed_seq = told ? 0 : shop->changed_seq;
        return told;
    }
    return !(at_saw(entry->kind) && shop->changes > 0) &&
           !(shown && shop->status != ORDER_RELEASED);
}

enum station_save shop_append(struct shop *shop, struct entry *entry) {
    if (!ordered(shop, entry)) {
        return STATION_SAVE_REFUSED;
    }
    entry->seq = shop->seq + 1;
    if (entry->club_id != 0 && !stage_advance(&shop->club[entry->club_id - 1].progress, entry)) {
        return STATION_SAVE_REFUSED;
    }
    shop->seq = entry->seq;
    struct shop_entry *kept = shop_slot(shop, entry->seq);
    memset(kept, 0, sizeof *kept);
    kept->seq = entry->seq;
    kept->kind = entry->kind;
    kept->club_id = entry->club_id;
    kept->refers = entry->refers;
    kept->planned = entry->planned;
    kept->made = entry->made;
    kept->verdict = entry->verdict;
    kept->has_plan = entry->plan[0] != '\0';
    words_copy(kept->worker, sizeof kept->worker, entry->worker);
    words_copy(kept->cause, sizeof kept->cause, entry->cause);
    words_copy(kept->confirm_id, sizeof kept->confirm_id, entry->confirm_id);
    if (kept->has_plan && shop->plan_text != NULL) {
        words_copy(shop->plan_text, ENTRY_PLAN_MAX, entry->plan);
    }
    if (entry->kind == ENTRY_NOTE && shop->noted != NULL) {
        *shop->noted = *entry;
    }
    judge(shop, entry);
    apply(shop, entry);
    return STATION_SAVED;
}

bool shop_find_id(const struct shop *shop, const char *confirm_id, int64_t *ret_seq) {
    for (int i = 0; i < SHOP_LOG; i++) {
        if (shop->log[i].seq != 0 && strcmp(shop->log[i].confirm_id, confirm_id) == 0) {
            *ret_seq = shop->log[i].seq;
            return true;
        }
    }
    return false;
}

const struct shop_entry *shop_last(const struct shop *shop, enum entry_kind kind) {
    const struct shop_entry *last = NULL;
    for (int i = 0; i < SHOP_LOG; i++) {
        const struct shop_entry *at = &shop->log[i];
        if (at->seq != 0 && at->kind == kind && (last == NULL || at->seq > last->seq)) {
            last = at;
        }
    }
    return last;
}

int shop_count(const struct shop *shop, enum entry_kind kind) {
    int count = 0;
    for (int i = 0; i < SHOP_LOG; i++) {
        count += shop->log[i].seq != 0 && shop->log[i].kind == kind ? 1 : 0;
    }
    return count;
}
