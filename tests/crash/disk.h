#ifndef DISK_H
#define DISK_H

// What is on the disk after a power cut at some operation of the tape. What was synced is there; of
// what was not, each write is kept, lost, or torn into sectors of 512 bytes that are kept or lost
// each by itself, and of the unsynced changes to the folder a random prefix is kept.

#include "tape.h"

struct disk; // opaque

struct disk *disk_new(void);
void disk_free(struct disk *disk);

// Plays the tape up to and without operation `index`. Never backwards.
void disk_play(struct disk *disk, size_t index);

// Cuts the power here and writes what is left to `path` and the names that belong to it (removing
// what was there). `seed` decides what was lost; the disk itself plays on as if nothing had
// happened.
void disk_cut(const struct disk *disk, const char *path, uint32_t seed);

#endif
