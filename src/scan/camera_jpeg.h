#ifndef CAMERA_JPEG_H
#define CAMERA_JPEG_H

// Motion JPEG: one picture to grey.

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct camera_jpeg; // opaque, for one thread

struct camera_jpeg *camera_jpeg_init(void);         // NULL on no memory
void camera_jpeg_destroy(struct camera_jpeg *jpeg); // takes NULL

// False for anything but a whole picture of width x height; what `pixels` holds is void then.
bool camera_jpeg_grey(struct camera_jpeg *jpeg, const uint8_t *bytes, size_t size, int width,
                      int height, uint8_t *pixels);

#endif
