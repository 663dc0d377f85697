#include "selfcheck.h"
#include "text.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>

#define MINUTE_MS ((int64_t)60 * 1000)
#define HOUR_MS (60 * MINUTE_MS)
#define DAY_MS (24 * HOUR_MS)
#define SIGNED_DAYS 7 // then somebody has forgotten it
#define WHOLE_DAYS 2  // the bench checks all once a day while it is quiet
#define LITTLE_BYTES ((int64_t)1000000000)
#define LEAST_BYTES ((int64_t)128 << 20) // twice what marks need
#define LITTLE_FILES 1000
#define WORN_PERCENT 80

static const char *const names[SELFCHECK_COUNT] = {
    [SELFCHECK_LOG] = N_("Log"),           [SELFCHECK_DISK] = N_("Disk"),
    [SELFCHECK_SETTINGS] = N_("Settings"), [SELFCHECK_CLOCK] = N_("Clock"),
    [SELFCHECK_COPIES] = N_("Copies"),     [SELFCHECK_COPIES_DISK] = N_("Disk of the copies"),
    [SELFCHECK_SIGNED] = N_("Signature"),  [SELFCHECK_RESERVE] = N_("Reserve"),
    [SELFCHECK_BENCHES] = N_("Others"),    [SELFCHECK_SCANNER] = N_("Scanner"),
    [SELFCHECK_BUTTON] = N_("Button"),     [SELFCHECK_SCALE] = N_("Scale"),
    [SELFCHECK_CAMERA] = N_("Camera"),     [SELFCHECK_PRINTER] = N_("Printer"),
    [SELFCHECK_SCREEN] = N_("Screen"),     [SELFCHECK_SOUND] = N_("Sound"),
};

void selfcheck_bytes(int64_t bytes, char *buffer, size_t size) {
    static const struct {
        int64_t unit;
        const char *name;
    } units[] = {{1000000000000, " TB"}, {1000000000, " GB"}, {1000000, " MB"}, {1000, " kB"}};
    struct text text = text_open(buffer, size);
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (bytes >= units[i].unit) {
            double value = (double)bytes / (double)units[i].unit;
            text_add_decimal(&text, value, value < 99.95 ? 1 : 0);
            text_add(&text, units[i].name);
            return;
        }
    }
    text_say(&text, tongue_plural("%1 byte", "%1 bytes", (unsigned long)bytes),
             text_number(bytes).digits);
}

// How long ago, in words.
static void ago(int64_t now_ms, int64_t then_ms, char *buffer, size_t size) {
    int64_t hours = (now_ms - then_ms) / HOUR_MS;
    if (hours < 1) {
        snprintf(buffer, size, "%s", _("within the hour"));
    } else if (hours < 48) {
        snprintf(buffer, size, _("%lld h ago"), (long long)hours);
    } else {
        snprintf(buffer, size, _("%lld days ago"), (long long)(hours / 24));
    }
}

#define VALUE(...) snprintf(to->value, sizeof to->value, __VA_ARGS__)

static void todo(struct selfcheck_finding *to, enum selfcheck_state state, bool tell,
                 const char *words) {
    to->state = state;
    to->tell = tell;
    struct text text = text_open(to->todo, sizeof to->todo);
    text_add(&text, words);
}

static void judge_log(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    char when[48] = "";
    bool broken = facts->log.tail == CHAIN_BROKEN || facts->log.whole == CHAIN_BROKEN;
    if (broken) {
        VALUE("%s", facts->log.problem);
        todo(to, SELFCHECK_BAD, true,
             _("Cut nothing more. Keep the files as they are, call whoever keeps the machine, go "
               "back to the last whole copy."));
        return;
    }
    ago(facts->now_ms, facts->log.whole_ms, when, sizeof when);
    if (facts->log.whole == CHAIN_READING) {
        VALUE(_("%lld entries, %lld of them read again so far"), (long long)facts->log.entries,
              (long long)facts->log.read);
    } else if (facts->log.whole_ms > 0) {
        VALUE(_("%lld entries, all of them checked %s"), (long long)facts->log.entries, when);
    } else if (facts->log.tail == CHAIN_WHOLE) {
        VALUE(_("%lld entries, the last %lld checked"), (long long)facts->log.entries,
              (long long)facts->log.tail_count);
    } else {
        VALUE(_("%lld entries, not checked yet"), (long long)facts->log.entries);
    }
    if (facts->log.whole != CHAIN_READING && facts->log.whole_ms > 0 &&
        facts->now_ms - facts->log.whole_ms > WHOLE_DAYS * DAY_MS) {
        todo(to, SELFCHECK_LOOK, false,
             _("All of it is checked once a day while the bench is quiet: leave it on for that."));
    }
}

// What `free` of a disk comes to.
static void judge_disk(const struct selfcheck_disk *disk, int64_t least,
                       struct selfcheck_finding *to) {
    char free[24];
    char total[24];
    char health[64];
    if (!disk->known) {
        VALUE("%s", _("cannot be looked at"));
        todo(to, SELFCHECK_LOOK, true, _("Is it plugged in and mounted?"));
        return;
    }
    selfcheck_bytes(disk->free, free, sizeof free);
    selfcheck_bytes(disk->total, total, sizeof total);
    if (disk->used_percent >= 0) {
        snprintf(health, sizeof health, _("%d %% of its life used"), disk->used_percent);
    } else if (disk->errors > 0) {
        snprintf(health, sizeof health, _("%lld errors met"), (long long)disk->errors);
    } else {
        snprintf(health, sizeof health, "%s", _("its health is not known"));
    }
    VALUE(_("%s free of %s, %s"), free, total, health);
    if (disk->read_only) {
        VALUE(_("can only be read, %s"), health);
        todo(to, SELFCHECK_BAD, true,
             _("Nothing can be logged. A disk that fails turns so: make a copy elsewhere, then "
               "start "
               "the machine again."));
    } else if (disk->free < least || (disk->files_free >= 0 && disk->files_free < 10)) {
        todo(to, SELFCHECK_BAD, true, _("Make room: old reports, logs and copies on this disk."));
    } else if (disk->errors > 0) {
        todo(
            to, SELFCHECK_LOOK, true,
            _("The disk has failed to read or write. Make a copy elsewhere and have it replaced."));
    } else if (disk->used_percent >= WORN_PERCENT) {
        todo(to, SELFCHECK_LOOK, true, _("Have it replaced before it wears out."));
    } else if (disk->free < LITTLE_BYTES ||
               (disk->files_free >= 0 && disk->files_free < LITTLE_FILES)) {
        todo(to, SELFCHECK_LOOK, true, _("Make room soon: old reports, logs and copies."));
    }
}

static void judge_copies_disk(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    if (!facts->copies.wanted) {
        VALUE("%s", _("none is set up"));
        return;
    }
    judge_disk(&facts->copies_disk, 0, to);
    if (to->state == SELFCHECK_GOOD && facts->same_disk) {
        todo(to, SELFCHECK_LOOK, false,
             _("It is the disk of the database: when it fails both are gone. Name another in the "
               "settings."));
    }
}

static void judge_copies(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    char when[48];
    if (!facts->copies.wanted) {
        VALUE("%s", _("none are set up"));
        todo(to, SELFCHECK_LOOK, false, _("Name a folder on another disk in the settings."));
        return;
    }
    ago(facts->now_ms, facts->copies.last_ms, when, sizeof when);
    if (facts->copies.last_ms == 0) {
        VALUE("%s", _("there is none yet"));
    } else {
        VALUE(_("the newest was made %s"), when);
    }
    if (facts->copies.failing && facts->copies.why != NULL && facts->copies.why[0] != '\0') {
        struct text text = {
            .buffer = to->value, .size = sizeof to->value, .used = strlen(to->value)};
        text_add(&text, ": ");
        text_add(&text, facts->copies.why);
    }
    if (facts->copies.late) {
        todo(to, SELFCHECK_BAD, true,
             _("Is its disk there, and has it room? Then wait ten minutes."));
    } else if (facts->copies.failing) {
        todo(to, SELFCHECK_LOOK, true, _("It is tried again every ten minutes."));
    }
}

static void judge_signed(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    char when[48];
    ago(facts->now_ms, facts->signing.last_ms, when, sizeof when);
    if (facts->signing.last_ms == 0) {
        VALUE("%s", _("no day has been signed"));
    } else {
        VALUE(_("the last day was signed %s, %lld entries since"), when,
              (long long)facts->signing.uncovered);
    }
    if (facts->signing.wanted && (facts->signing.last_ms == 0 ||
                                  facts->now_ms - facts->signing.last_ms > SIGNED_DAYS * DAY_MS)) {
        todo(to, SELFCHECK_LOOK, false, _("A supervisor signs the day in the cut log."));
    }
}

static void judge_reserve(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    char size[24];
    char wanted[24];
    selfcheck_bytes(facts->reserve, size, sizeof size);
    selfcheck_bytes(facts->reserve_wanted, wanted, sizeof wanted);
    VALUE(_("%s of %s kept for cuts already made"), size, wanted);
    if (facts->reserve < facts->reserve_wanted) {
        todo(to, SELFCHECK_LOOK, true,
             _("Make room on the disk: then it is made again by itself."));
    }
}

static void judge_clock(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    if (facts->clock.set_back_ms > MINUTE_MS) {
        VALUE(_("%lld min behind the last entry of the log"),
              (long long)(facts->clock.set_back_ms / MINUTE_MS));
        todo(to, SELFCHECK_LOOK, true,
             _("Set the machine's clock. The log keeps its order all the same."));
        return;
    }
    VALUE("%s", facts->clock.synchronised > 0 ? _("kept right by the network")
                : facts->clock.synchronised == 0
                    ? _("goes by itself, no network keeps it right")
                    : _("whether anything keeps it right is not known"));
    if (facts->clock.synchronised == 0) {
        todo(to, SELFCHECK_LOOK, false, _("Compare it with a watch now and then."));
    }
}

static void judge_settings(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    if (facts->settings.wrong != NULL && facts->settings.wrong[0] != '\0') {
        VALUE("%s", facts->settings.wrong);
        todo(
            to, SELFCHECK_BAD, true,
            facts->settings.last_good
                ? _("The last good settings hold. Mend the line, or save the settings at the desk.")
                : _("The standards hold. Mend the line, or save the settings at the desk."));
        return;
    }
    VALUE("%s", facts->settings.named ? _("the file is right") : _("no file is named: standards"));
}

static void judge_others(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    if (facts->others < 0) {
        VALUE("%s", _("whether others use this database is not known"));
    } else if (facts->others == 0) {
        VALUE("%s", _("no other bench uses this database"));
    } else {
        VALUE(_("programs beside this one that use this database: %d"), facts->others);
    }
}

static void judge_device(const struct selfcheck_devices *device, const char *plain,
                         struct selfcheck_finding *to) {
    if (device->named == 0) {
        VALUE("%s", plain);
        return;
    }
    VALUE(_("%d of %d there"), device->there, device->named);
    if (device->there < device->named) {
        todo(to, device->there == 0 ? SELFCHECK_BAD : SELFCHECK_LOOK, true,
             _("Plug it in. Is its path in the settings right, and may the program read it?"));
    }
}

static void judge_camera(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    judge_device(&facts->camera, _("none is set up"), to);
    if (facts->camera.named > 0 && facts->camera.there == facts->camera.named) {
        VALUE("%s",
              facts->camera_frames ? _("pictures come") : _("there, but no picture has come"));
        if (!facts->camera_frames) {
            todo(to, SELFCHECK_LOOK, true, _("Unplug it and plug it in again."));
        }
    }
}

static void judge_printer(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    const char *queue = facts->printer_queue == NULL ? "" : facts->printer_queue;
    switch (facts->printer) {
    case PRINTER_UNWANTED:
        VALUE("%s", _("labels become files, none is printed"));
        break;
    case PRINTER_ASKED:
        VALUE("%s", _("being asked"));
        break;
    case PRINTER_THERE:
        if (queue[0] == '\0') {
            VALUE("%s", _("the default queue takes jobs"));
        } else {
            VALUE(_("queue %s takes jobs"), queue);
        }
        break;
    case PRINTER_MISSING:
        if (queue[0] == '\0') {
            VALUE("%s", _("there is no default queue"));
        } else {
            VALUE(_("there is no queue %s that takes jobs"), queue);
        }
        todo(to, SELFCHECK_BAD, true,
             _("Is the printer on? Set it up in CUPS, or name its queue in the settings."));
        break;
    case PRINTER_SILENT:
        VALUE("%s", _("CUPS does not answer"));
        todo(to, SELFCHECK_LOOK, true, _("Labels can be printed from their files meanwhile."));
        break;
    }
}

static void judge_screen(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    if (facts->screen.hertz > 0) {
        VALUE(_("%d x %d at %d Hz, %s"), facts->screen.width, facts->screen.height,
              facts->screen.hertz, facts->screen.driver);
    } else {
        VALUE("%d x %d, %s", facts->screen.width, facts->screen.height, facts->screen.driver);
    }
}

static void judge_sound(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    static const char *const words[] = {
        [SOUND_OFF] = N_("silent, as the settings say"),
        [SOUND_UNTRIED] = N_("not tried since the start"),
        [SOUND_PLAYED] = N_("played; did you hear it?"),
        [SOUND_MISSING] = N_("there is no sound device"),
    };
    VALUE("%s", _(words[facts->sound]));
    if (facts->sound == SOUND_MISSING) {
        todo(to, SELFCHECK_LOOK, false,
             _("The screen says it all. Is the loudspeaker plugged in?"));
    }
}

static void judge(const struct selfcheck_facts *facts, struct selfcheck_finding *to) {
    switch (to->which) {
    case SELFCHECK_LOG:
        judge_log(facts, to);
        break;
    case SELFCHECK_DISK:
        judge_disk(&facts->disk, facts->reserve_wanted > 0 ? LEAST_BYTES : 0, to);
        break;
    case SELFCHECK_SETTINGS:
        judge_settings(facts, to);
        break;
    case SELFCHECK_CLOCK:
        judge_clock(facts, to);
        break;
    case SELFCHECK_COPIES:
        judge_copies(facts, to);
        break;
    case SELFCHECK_COPIES_DISK:
        judge_copies_disk(facts, to);
        break;
    case SELFCHECK_SIGNED:
        judge_signed(facts, to);
        break;
    case SELFCHECK_RESERVE:
        judge_reserve(facts, to);
        break;
    case SELFCHECK_BENCHES:
        judge_others(facts, to);
        break;
    case SELFCHECK_SCANNER:
        judge_device(&facts->scanner, _("types into the window"), to);
        break;
    case SELFCHECK_BUTTON:
        judge_device(&facts->button, _("its key comes with the window's"), to);
        break;
    case SELFCHECK_SCALE:
        judge_device(&facts->scale, _("none is set up"), to);
        break;
    case SELFCHECK_CAMERA:
        judge_camera(facts, to);
        break;
    case SELFCHECK_PRINTER:
        judge_printer(facts, to);
        break;
    case SELFCHECK_SCREEN:
        judge_screen(facts, to);
        break;
    case SELFCHECK_SOUND:
        judge_sound(facts, to);
        break;
    case SELFCHECK_COUNT:
        break;
    }
}

void selfcheck_judge(const struct selfcheck_facts *facts,
                     struct selfcheck_finding ret_findings[SELFCHECK_COUNT]) {
    struct selfcheck_finding all[SELFCHECK_COUNT];
    size_t count = 0;
    for (int i = 0; i < SELFCHECK_COUNT; i++) {
        all[i] = (struct selfcheck_finding){.which = (enum selfcheck_which)i};
        snprintf(all[i].name, sizeof all[i].name, "%s", _(names[i]));
        judge(facts, &all[i]);
    }
    for (int state = SELFCHECK_BAD; state >= SELFCHECK_GOOD; state--) {
        for (int i = 0; i < SELFCHECK_COUNT; i++) {
            if (all[i].state == (enum selfcheck_state)state) {
                ret_findings[count++] = all[i];
            }
        }
    }
}

bool selfcheck_stops(const struct selfcheck_facts *facts) {
    return facts->log.tail == CHAIN_BROKEN || facts->log.whole == CHAIN_BROKEN;
}
