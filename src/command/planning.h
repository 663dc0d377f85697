#ifndef PLANNING_H
#define PLANNING_H

// What `kerfside plan` was asked for, and the parts of it that take more than one club.

#include "plan_print.h"
#include "store.h"
#include "worksheet.h"

enum planning_form { PLANNING_RECEIPT, PLANNING_CSV, PLANNING_JSON };

struct planning {
    struct store *store;
    struct bench_rules rules;
    struct assembly assembly;
    enum planning_form form;
    bool moments;
    size_t printed;
    bool refused; // at least one club has no plan
};

// Plans and prints one club.
void planning_club(struct planning *planning, const struct club *club);

// Every club of a build, and as text the whole set. STORE_NONE: no such build; anything but
// STORE_OK and STORE_NONE: said on stderr.
enum store_result planning_build(struct planning *planning, const char *build);

struct planning_sheet {
    const char *path;
    enum page_paper paper;
    const char *bench; // name on the sheet, may be empty
};
// The build's worksheet as PDF, as above, and how many clubs it has. STORE_REFUSED: said on stderr,
// nothing was written.
enum store_result planning_pdf(struct planning *planning, const char *build,
                               const struct planning_sheet *sheet, size_t *ret_clubs);

#endif
