#ifndef CERTIFICATE_H
#define CERTIFICATE_H

// The certificate of a set, for whoever it was built for: one page, a row a club with what was
// planned, what was made and what was measured, who built it and when.

#include "assembly_check.h"
#include "page.h"

#define CERTIFICATE_CLUBS_MAX 30
struct certificate_club {
    char club[PARTS_SHORT_MAX];
    char head[PARTS_NAME_MAX]; // models
    char shaft[PARTS_NAME_MAX + PARTS_SHORT_MAX];
    char cut_planned[ASSEMBLY_TEXT_MAX]; // length of the cut shaft
    char cut_made[ASSEMBLY_TEXT_MAX];
    struct assembly_values planned;
    struct assembly_values measured;
    struct assembly_check check;
};
struct certificate {
    const char *shop; // its name, may be empty
    const char *build;
    const char *built;   // `Built by Ida Brandt (W-00029), 31 March 2026`
    const char *methods; // how the values were taken
    const char *printed;
    bool draft; // stamped across the page
    const struct certificate_club *clubs;
    size_t count; // 1 to CERTIFICATE_CLUBS_MAX
    struct assembly_tolerance tolerance;
    enum page_paper paper;
    const char *fonts; // folder of the font files
};

// Writes or replaces the file at `path`, always one page. False: `message` says why and nothing
// half-written is left. `watch` may be NULL.
bool certificate_write(const struct certificate *certificate, const char *path,
                       const struct page_watch *watch, char *message, size_t size);

#endif
