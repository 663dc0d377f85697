#ifndef PICTURE_STILL_H
#define PICTURE_STILL_H

// One picture in memory to a frame. False leaves *ret_frame alone and says what is wrong and where.

#include "frame.h"

#define PICTURE_FAULT_MAX 120

struct picture_fault {
    size_t byte;                  // at or shortly behind what is wrong
    char text[PICTURE_FAULT_MAX]; // half a sentence
};

bool picture_pgm(const uint8_t *bytes, size_t size, struct frame *ret_frame,
                 struct picture_fault *ret_fault);
bool picture_png(const uint8_t *bytes, size_t size, struct frame *ret_frame,
                 struct picture_fault *ret_fault);
// libjpeg-turbo does not say where; the byte is 0. One of more than FRAME_SIDE_MAX a side, as
// telephones make them, comes at half its size.
bool picture_jpeg(const uint8_t *bytes, size_t size, struct frame *ret_frame,
                  struct picture_fault *ret_fault);

// Sets *ret_fault; false.
bool picture_wrong(struct picture_fault *ret_fault, size_t byte, const char *text);
// Pixels for a picture of that size, if that is a size for a frame.
bool picture_room(size_t width, size_t height, size_t byte, struct frame *ret_frame,
                  struct picture_fault *ret_fault);

#endif
