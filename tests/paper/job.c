#include "job.h"

#include <stdio.h>
#include <stdlib.h>

#define FONTS KERFSIDE_SOURCE_DIR "/assets/fonts"
#define W15 "WWWWWWWWWWWWWWW"
#define W47 W15 W15 W15 "WW"

static const struct assembly assembly = ASSEMBLY_DEFAULT;

static const char *const kinds[JOB_KIND_COUNT] = {"plain", "long-names", "trouble"};

static char folder[128];

int job_folder_make(void **state) {
    const char *kept = getenv("KERFSIDE_SHOTS");
    (void)state;
    snprintf(folder, sizeof folder, "%s", kept != NULL ? kept : "/tmp/kerfside-paper-XXXXXX");
    return kept != NULL || mkdtemp(folder) != NULL ? 0 : -1;
}

int job_folder_drop(void **state) {
    char command[192];
    (void)state;
    snprintf(command, sizeof command, "rm -r '%s'", folder);
    return getenv("KERFSIDE_SHOTS") != NULL || system(command) == 0 ? 0 : -1;
}

const char *job_folder(void) {
    return folder;
}

const char *job_kind_text(enum job_kind kind) {
    return kinds[kind];
}

static void saw(void *of, const char *words, const struct page_box *box) {
    struct job_seen *seen = of;
    assert_true(seen->count < JOB_BOXES_MAX);
    snprintf(seen->words[seen->count], sizeof seen->words[0], "%s", words != NULL ? words : "");
    seen->box[seen->count++] = *box;
}

// --- builds ------------------------------------------------------------------------------------

static struct club plain_club(int index, int count) {
    struct sample sample = sample_make();
    struct club club = {
        .id = index + 1,
        .order = sample.order,
        .head = sample.head,
        .shaft = sample.shaft,
        .model = sample.model,
        .chart = sample.chart,
        .profile = {.count = 3,
                    .point = {{0, 19000}, {IN(23, 0, 1), 33000}, {IN(46, 0, 1), 61000}}},
        .progress = {.tip_made = LENGTH_UNKNOWN},
    };
    snprintf(club.order.build, sizeof club.order.build, "2071");
    snprintf(club.order.club, sizeof club.order.club, "%d", index + 1);
    snprintf(club.head.ticket, sizeof club.head.ticket, "H-%04d%c", index, 'A' + index % 26);
    snprintf(club.shaft.ticket, sizeof club.shaft.ticket, "S-%04d%c", index, 'Z' - index % 26);
    club.order.position = index + 1;
    club.order.count = count;
    club.order.playing_length = IN(45, 0, 1) - LENGTH_INCH / 2 * index;
    club.head.weight = GRAMS(200) + index * 1000;
    club.head.bore_height = IN(1, 0, 1) + LENGTH_64TH * (index % 3);
    return club;
}

static void long_names(struct club *club, int index) {
    snprintf(club->order.build, sizeof club->order.build, "%s", W15);
    snprintf(club->order.club, sizeof club->order.club, "%s", W15);
    snprintf(club->order.due, sizeof club->order.due, "2026-12-%02d", 1 + index % 28);
    snprintf(club->order.swingweight, sizeof club->order.swingweight, "D2.5");
    snprintf(club->head.ticket, sizeof club->head.ticket, "H-WWWWWWWWWWWW%c", 'A' + index % 26);
    snprintf(club->shaft.ticket, sizeof club->shaft.ticket, "S-WWWWWWWWWWWW%c", 'A' + index % 26);
    snprintf(club->shaft.rack, sizeof club->shaft.rack, "%s", W15 "WWWWWWWW");
    snprintf(club->shaft.model, sizeof club->shaft.model, "%s", W47);
    club->shaft.model[46] = (char)('A' + index % 26);
    snprintf(club->shaft.flex, sizeof club->shaft.flex, "%s", W15);
    for (size_t i = 0; i < club->chart.count; i++) {
        snprintf(club->chart.column[i].name, sizeof club->chart.column[i].name, "%s", W15);
    }
    club->head.weight += 123; // three decimals
}

// Refusals and warnings whose words all differ.
static void trouble(struct club *club, int index) {
    switch (index % 6) {
    case 0:
        club->shaft.raw_length = IN(30, 0, 1) - LENGTH_64TH * index; // too short by ever more
        club->order.playing_length = IN(45, 0, 1);
        break;
    case 1:
        snprintf(club->head.engraved, sizeof club->head.engraved, "%d", 100 + index);
        club->order.playing_length = IN(48, 1, 2) + LENGTH_64TH * index;
        club->shaft.raw_length = IN(60, 0, 1);
        break;
    case 2:
        club->shaft.weight = MASS_UNKNOWN;
        break;
    case 3:
        club->shaft.ticket[0] = '\0';
        break;
    case 4:
        club->head.weight = GRAMS(290 + index); // beyond the chart
        break;
    default:
        club->progress.stage = STAGE_DONE;
        club->progress.tip_made = IN(0, 1, 2) + LENGTH_64TH * index; // off the plan
        break;
    }
}

struct job *job_make(int count, enum job_kind kind) {
    struct job *job = calloc(1, sizeof *job);
    assert_non_null(job);
    job->rules = (struct bench_rules)BENCH_RULES_DEFAULT;
    for (int i = 0; i < count; i++) {
        job->clubs[i] = plain_club(i, count);
        if (kind == JOB_LONG_NAMES) {
            long_names(&job->clubs[i], i);
        } else if (kind == JOB_TROUBLE) {
            trouble(&job->clubs[i], i);
        }
    }
    for (int i = 0; i < count / 2; i++) { // some are made
        job->measured[i].known[SET_LENGTH] = true;
        job->measured[i].value[SET_LENGTH] = 45.05 - 0.5 * i;
        job->measured[i].known[SET_SWINGWEIGHT] = true;
        job->measured[i].value[SET_SWINGWEIGHT] = 214 + i % 3;
    }
    job->worksheet = (struct worksheet){
        .clubs = job->clubs,
        .count = (size_t)count,
        .set = &job->set,
        .rules = &job->rules,
        .assembly = &assembly,
        .bench = "Saw 1",
        .printed = "2026-11-25 14:30",
        .fonts = FONTS,
    };
    job->watch = (struct page_watch){.saw = saw, .of = &job->seen};
    return job;
}

bool job_write(struct job *job, const char *name) {
    set_make(job->clubs, job->measured, job->worksheet.count, &job->rules, &assembly, &job->set);
    snprintf(job->path, sizeof job->path, "%s%s%s", *name == '/' ? "" : folder,
             *name == '/' ? "" : "/", name);
    job->seen.count = 0;
    return worksheet_write(&job->worksheet, job->path, &job->watch, job->message,
                           sizeof job->message);
}
