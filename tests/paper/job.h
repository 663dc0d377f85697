#ifndef JOB_H
#define JOB_H

// Invented builds of any size for the paper's tests, written to a folder of their own.
// KERFSIDE_SHOTS=FOLDER keeps the pages there, to be looked at.

#include "worksheet.h"

#include "check.h"
#include "sample.h"

#define JOB_BOXES_MAX 8000

// Names as long as they may be; or every club refused or warned about in words of its own.
enum job_kind { JOB_PLAIN, JOB_LONG_NAMES, JOB_TROUBLE, JOB_KIND_COUNT };
const char *job_kind_text(enum job_kind kind);

// What the page was told to draw; no words: a shape.
struct job_seen {
    size_t count;
    struct page_box box[JOB_BOXES_MAX];
    char words[JOB_BOXES_MAX][80];
};

struct job {
    struct club clubs[SET_CLUBS_MAX];
    struct set_measured measured[SET_CLUBS_MAX];
    struct set set;
    struct bench_rules rules;
    struct worksheet worksheet;
    struct job_seen seen;
    struct page_watch watch;
    char path[256];
    char message[512];
};

int job_folder_make(void **state);
int job_folder_drop(void **state);
const char *job_folder(void);

// To be freed.
struct job *job_make(int count, enum job_kind kind);
// `name` is a file of the folder, or an absolute path.
bool job_write(struct job *job, const char *name);

#endif
