#ifndef WITNESS_FILE_H
#define WITNESS_FILE_H

// A witness: a file of signed notes, one behind the other, kept where the station cannot take them
// back. It only ever grows by whole notes; what a power cut left of the last one is no note, and
// the next one takes its place.

#include "witness_key.h"

struct witness_mark {
    int line; // where the note begins, from 1
    struct checkpoint_note note;
};
struct witness {
    int fd; // -1: only read
    char path[1000];
    size_t count;
    struct witness_mark *mark; // by rising size
    size_t whole;              // bytes of whole notes
    int torn_line;             // where a last note begins that is not whole, 0: none
};

enum witness_result {
    WITNESS_OK,
    WITNESS_DAMAGED, // not written by us with this key; the message names the line
    WITNESS_FAILED   // could not be read
};

// Reads every note and verifies its signature. WITNESS_DAMAGED: the notes before the bad one are in
// *ret_witness. To be released with witness_release after anything but WITNESS_FAILED.
enum witness_result witness_read(const char *path, const uint8_t public[WITNESS_PUBLIC_SIZE],
                                 struct witness *ret_witness, char *message, size_t size);

// The same for adding a note: makes the file if it is missing, and holds an exclusive flock on it
// until released. Fails on WITNESS_DAMAGED.
enum witness_result witness_open(const char *path, const uint8_t public[WITNESS_PUBLIC_SIZE],
                                 struct witness *ret_witness, char *message, size_t size);

// Adds the note behind the whole ones; true when file and folder are synced. On failure the file
// ends where it did, if the disk lets it.
bool witness_append(struct witness *witness, const struct checkpoint_note *note, char *message,
                    size_t size);

// The newest note over so many entries, NULL: there is none.
const struct checkpoint_note *witness_note(const struct witness *witness, int64_t size);

void witness_release(struct witness *witness);

#endif
