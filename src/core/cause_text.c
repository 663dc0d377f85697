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
    {"set", NT_("cause", "set")},
    {"recovered", NT_("cause", "recovered")},
    {"locked", NT_("cause", "locked")},
    {"unlocked", NT_("cause", "unlocked")},
    {"withdrawn", N_("withdrawn")},
    {"column", NT_("cause", "column")},
    {"shim", NT_("cause", "shim")},
    {"trim", NT_("cause", "trim")},
    {"extension", NT_("cause", "extension")},
    {"rules", N_("as the rules measure")},
    {"ruler", N_("with a ruler")},
    {"flex", NT_("cause", "flex")},
    {"swingweight", NT_("cause", "swingweight")},
    {"other", NT_("cause", "other")},
    {"desk", N_("at the desk")},
    {"file", N_("in the file")},
    {"tip past mark, recut", N_("tip past mark, recut")},
    {"tip past mark, scrap", N_("tip past mark, scrap")},
    {"too short, recut", N_("too short, recut")},
    {"too short, scrap", N_("too short, scrap")},
};

static const char *const kinds[ENTRY_KIND_COUNT] = {
    [ENTRY_GENESIS] = N_("log begun"),
    [ENTRY_SIGN_ON] = N_("signed on"),
    [ENTRY_SIGN_OFF] = N_("signed off"),
    [ENTRY_CARE] = N_("care list confirmed"),
    [ENTRY_TIP_SHOWN] = N_("tip mark shown"),
    [ENTRY_TIP_PARTIAL] = N_("tip partly cut"),
    [ENTRY_TIP_CUT] = N_("tip cut"),
    [ENTRY_BUTT_SHOWN] = N_("butt mark shown"),
    [ENTRY_BUTT_CUT] = N_("butt cut"),
    [ENTRY_MEASURE] = N_("measured"),
    [ENTRY_WITHDRAW] = N_("withdrawn"),
    [ENTRY_HOLD] = N_("stop"),
    [ENTRY_DRY_FIT] = N_("dry fit"),
    [ENTRY_CONSENT] = N_("consent"),
    [ENTRY_DECIDE] = N_("decision"),
    [ENTRY_PIN] = N_("PIN"),
    [ENTRY_IMPORT] = N_("import"),
    [ENTRY_EXPORT] = N_("export"),
    [ENTRY_FINAL_LENGTH] = N_("final length"),
    [ENTRY_FINAL_SWINGWEIGHT] = N_("final swingweight"),
    [ENTRY_FINAL_FREQUENCY] = N_("final frequency"),
    [ENTRY_FINAL_LOFT] = N_("final loft"),
    [ENTRY_FINAL_LIE] = N_("final lie"),
    [ENTRY_KIT] = N_("shaft chosen"),
    [ENTRY_DAY_SIGNED] = N_("day signed"),
    [ENTRY_CHANGE] = N_("change"),
    [ENTRY_RESTORED] = N_("copy put back"),
    [ENTRY_NOTE] = N_("note"),
    [ENTRY_TOLD] = N_("change understood"),
    [ENTRY_SETTINGS] = N_("setting changed"),
};
// clang-format on

const char *cause_text(const char *cause) {
    for (size_t i = 0; i < sizeof causes / sizeof causes[0]; i++) {
        if (strcmp(causes[i].word, cause) == 0) {
            return _(causes[i].text);
        }
    }
    enum material material;
    return material_from_text(cause, &material) ? material_words(material) : cause;
}

const char *entry_kind_words(enum entry_kind kind) {
    return _(kinds[kind]);
}
