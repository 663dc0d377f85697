#include "screen_inner.h"

#include <png.h>

bool png_write(const char *path, const void *pixels, int width, int height, int pitch) {
    png_image image = {.version = PNG_IMAGE_VERSION,
                       .width = (png_uint_32)width,
                       .height = (png_uint_32)height,
                       .format = PNG_FORMAT_RGB};
    return png_image_write_to_file(&image, path, 0, pixels, pitch, NULL) != 0;
}
