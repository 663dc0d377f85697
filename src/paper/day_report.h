#ifndef DAY_REPORT_H
#define DAY_REPORT_H

// The report of a day, or of some days, to be filed: what was made, stopped, scrapped and decided,
// the charts of the review, every cut, and at its end the checkpoint that was signed.
//
// As many pages as the cuts need; nothing overlaps or is cut off whatever the names.

#include "checkpoint.h"
#include "page.h"
#include "workday.h"

struct day_report_cut { // tip cut, butt cut or measure
    char time[20];
    char worker[TICKET_TEXT_MAX];
    char club[PARTS_BUILD_MAX + PARTS_SHORT_MAX]; // 2041-3
    char shaft[TICKET_TEXT_MAX];
    enum entry_kind kind;
    length_nm planned;
    length_nm made;
    enum verdict verdict;
    bool withdrawn;
    bool open;
};

struct day_report_decision { // or a note
    enum entry_kind kind;
    char time[20];
    char who[PARTS_NAME_MAX + TICKET_TEXT_MAX];   // name and badge
    char club[PARTS_BUILD_MAX + PARTS_SHORT_MAX]; // empty: a note about no club
    char shaft[TICKET_TEXT_MAX];                  // empty: about no shaft
    char cause[ENTRY_CAUSE_MAX];                  // use, recut, scrap; of a note empty
    enum entry_kind about;                        // what was decided on, or noted about
    int64_t about_seq;
    length_nm planned;
    length_nm made;
    char why[ENTRY_NOTE_MAX];
};

struct day_report_person {
    char badge[TICKET_TEXT_MAX];
    char name[PARTS_NAME_MAX];
    int64_t cuts;
};

// What is known of the signature.
struct day_report_seal {
    bool is_signed;
    char words[512];                // who signed when, or that nobody did; what no witness covers
    struct checkpoint checkpoint;   // if it is signed
    char code[CHECKPOINT_TEXT_MAX]; // the note, with its signature if that is at hand
};

struct day_report {
    const char *title; // `Wednesday 25 November 2026`
    const char *bench; // names of the benches
    const char *printed;
    const struct workday *sum;
    length_nm tolerance;
    bool metric; // lengths in millimetres, else fractions of an inch
    const struct day_report_cut *cuts;
    size_t cut_count;
    const struct day_report_decision *decisions;
    size_t decision_count;
    const struct day_report_person *people;
    size_t person_count;
    const struct day_report_seal *seal;
    enum page_paper paper;
    const char *fonts; // folder of the font files
};

// Writes or replaces the file at `path`. False: `message` says why and nothing half-written is
// left. `watch` may be NULL.
bool day_report_write(const struct day_report *report, const char *path,
                      const struct page_watch *watch, size_t *ret_pages, char *message,
                      size_t size);

#endif
