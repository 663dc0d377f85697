#ifndef PICTURE_H
#define PICTURE_H

// Picture files to frames: PNG, JPEG, PGM (P5, 8 bits), and the frames of a Y4M video. The first
// bytes say which, never the name. Whatever the file holds, the worst is a sentence.

#include "frame.h"

#define PICTURE_TEXT_MAX 240
#define PICTURE_BYTES_MAX ((size_t)64 << 20) // of a file that is no video

struct picture; // opaque: an open file

enum picture_result {
    PICTURE_FRAME, // the caller frees its pixels
    PICTURE_END,
    PICTURE_BAD // ret_error says what is wrong and at which byte, without the file's name; the end
};

// NULL, and ret_error (PICTURE_TEXT_MAX), when it cannot be read or is no picture.
struct picture *picture_open(const char *path, char *ret_error);
void picture_close(struct picture *picture); // takes NULL

// The next frame. time_us is its time in the video, 0 otherwise.
enum picture_result picture_next(struct picture *picture, struct frame *ret_frame, char *ret_error);

#endif
