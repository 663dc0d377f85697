#ifndef PICTURE_H
#define PICTURE_H

// Picture files to frames: PNG, JPEG, PGM (P5, 8 bits), and the frames of a Y4M video. The first
// bytes say which, never the name. Whatever the file holds, the worst is a sentence.

#include "frame.h"

#define PICTURE_TEXT_MAX 240
#define PICTURE_BYTES_MAX (64L << 20) // of a file that is no video

struct picture; // opaque: an open file

// NULL, and ret_error (PICTURE_TEXT_MAX) says what is wrong with the file and where.
struct picture *picture_open(const char *path, char *ret_error);
void picture_close(struct picture *picture); // takes NULL

enum picture_result { PICTURE_FRAME, PICTURE_END, PICTURE_BAD };

// The next frame, whose pixels the caller frees. time_us is its place in the video, 0 otherwise.
enum picture_result picture_next(struct picture *picture, struct frame *ret_frame, char *ret_error);

#endif
