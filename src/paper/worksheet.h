#ifndef WORKSHEET_H
#define WORKSHEET_H

// The worksheet of a build: one page to take to the saw. A row a club with its marks, room to write
// down what was made, every warning and refusal in words, and the set against a straight line.
//
// Whatever the build and its names, it is one page and nothing overlaps or is cut off: the sheet
// lies on its side or stands upright, whichever lets the writing be larger. Notes that find no room
// even so are counted, and where they can be read is said.

#include "page.h"
#include "set.h"

struct worksheet {
    const struct club *clubs; // of one build, in its order
    size_t count;             // 1 to SET_CLUBS_MAX
    const struct set *set;    // of the same clubs
    const struct bench_rules *rules;
    const struct assembly *assembly;
    const char *bench;   // name of bench or workshop, may be empty
    const char *printed; // day and time, in words
    enum page_paper paper;
    const char *fonts; // folder of the font files
};

// Writes or replaces the file at `path`. False: `message` says why and nothing half-written is
// left. `watch` may be NULL.
bool worksheet_write(const struct worksheet *worksheet, const char *path,
                     const struct page_watch *watch, char *message, size_t size);

#endif
