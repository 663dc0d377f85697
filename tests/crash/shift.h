#ifndef SHIFT_H
#define SHIFT_H

// A shift at the bench as a list of entries, run against a store, with a notebook beside it of what
// the store said. The judge then asks a database whether it keeps to the notebook.

#include "fixture.h"
#include "tape.h"

#define SHIFT_MAX 160

// The entries of a shift in which nothing goes wrong: care, tips cut short, at and past the mark,
// withdrawals, a recut on another shaft, dry fits, consents, measures. Made once.
struct script {
    size_t count;
    struct entry entry[SHIFT_MAX];
};
void shift_script(struct script *script, size_t count);

// A closed database with the workshop in it, and a copy of it in a folder of its own.
void shift_database(struct fixture *prepared);
void shift_copy(const struct fixture *prepared, struct fixture *fixture);

// What the store said about an entry, and how long the tape was when it had said so.
struct note {
    enum store_result result;
    int64_t seq;
    size_t ops;
};
struct notebook {
    const struct script *script;
    size_t count; // entries tried; all but the last of them are logged
    struct note note[SHIFT_MAX];
    size_t seeded; // length of the tape when the workshop was in, 0: never
};

// Appends the script as the bench does, from where the notebook ends: an entry whose fate is
// unknown is looked up after opening again, one that failed is tried once more; the shift ends when
// that does not help. A checkpoint comes after every so many entries, and a copy in between.
#define SHIFT_COPY_AT 60
void shift_run(struct fixture *fixture, struct notebook *notebook, size_t checkpoint_every);

enum judgement {
    JUDGE_WHOLE,
    JUDGE_LOST,    // an entry is gone that was said to be logged
    JUDGE_FALSE,   // an entry is there that was said not to be, or more than were tried
    JUDGE_CORRUPT, // the file, the chain, or a club that does not stand where its entries say
    JUDGEMENTS
};

// Judges the database at `path` by what the notebook held when the tape was `ops` long.
enum judgement shift_judge(const char *path, const struct notebook *notebook, size_t ops, char *why,
                           size_t size);

#endif
