// What a word in an entry's `cause` says to a person.

#include "cause_text.h"

#include "tongue.h"

#include <stddef.h>
#include <string.h>

// clang-format off
static const struct {
    const char *word;
    const char *text;
} causes[] = {
    {"bad_code", N_("bad code")},
    {"makers_code", N_("makers code")},
    {"unknown_ticket", N_("unknown ticket")},
    {"unknown_badge", N_("unknown badge")},
    {"not_signed_on", N_("not signed on")},
    {"build_ticket", N_("build ticket")},
    {"badge_now", N_("badge now")},
    {"command_now", N_("command now")},
    {"wrong_pair", N_("wrong pair")},
    {"same_kind", N_("same kind")},
    {"other_part", N_("other part")},
    {"no_build", N_("no build")},
    {"no_partner", N_("no partner")},
    {"already_cut", N_("already cut")},
    {"club_done", N_("club done")},
    {"scrap", NT_("cause", "scrap")},
    {"not_released", N_("not released")},
    {"order_changed", N_("order changed")},
    {"other_bench", N_("other bench")},
    {"decision", NT_("cause", "decision")},
    {"plan_refused", N_("plan refused")},
    {"disk_full", N_("disk full")},
    {"store_failed", N_("store failed")},
    {"scanner_gone", N_("scanner gone")},
    {"scan_fault", N_("scan fault")},
    {"already_logged", N_("already logged")},
    {"something_wrong", N_("something wrong")},
    {"not_safe", N_("not safe")},
    {"wrong_parts", N_("wrong parts")},
    {"supervisor", NT_("cause", "supervisor")},
    {"tip_past_mark", N_("tip past mark")},
    {"butt_short", N_("butt short")},
    {"guard", NT_("cause", "guard")},
    {"illegal_move", N_("illegal move")},
    {"off_the_mark", N_("off the mark")},
    {"measured_wrong", N_("measured wrong")},
    {"pressed_too_early", N_("pressed too early")},
    {"no_butt_cut", N_("no butt cut")},
    {"recut", NT_("cause", "recut")},
    {"use", NT_("cause", "use")},
    {"signed_over", N_("signed over")},
    {"signed_off", N_("signed off")},
    {"idle", NT_("cause", "idle")},
    {"accepted", NT_("cause", "accepted")},
    {"refused", NT_("cause", "refused")},
    {"waiting", NT_("cause", "waiting")},
    {"flex", NT_("cause", "flex")},
    {"swingweight", NT_("cause", "swingweight")},
    {"other", NT_("cause", "other")},
};
// clang-format on

const char *cause_text(const char *cause) {
    for (size_t i = 0; i < sizeof causes / sizeof causes[0]; i++) {
        if (strcmp(causes[i].word, cause) == 0) {
            return _(causes[i].text);
        }
    }
    return cause;
}
