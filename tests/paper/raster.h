#ifndef RASTER_H
#define RASTER_H

// Pages as printer's dots: grey pictures made by poppler's pdftoppm.

#include <stdbool.h>
#include <stdint.h>

struct raster {
    int width;
    int height;
    unsigned char *grey; // rows packed, 255 white
};

// Page 1, 2... of a PDF at so many dots an inch. To be released.
void raster_page(struct raster *raster, const char *pdf, int page, double per_inch);
void raster_release(struct raster *raster);
void raster_write(const struct raster *raster, const char *path);

// Seeded (not 0) noise of about this standard deviation on every dot.
void raster_noise(struct raster *raster, double deviation, uint64_t seed);

// Every dot becomes the mean of its neighbourhood, weighted 1 2 1 both ways.
void raster_blur(struct raster *raster);

// A new picture: part of one; where that ends, less of it.
void raster_cut(const struct raster *raster, double x, double y, double width, double height,
                struct raster *ret);

// A new picture: what a camera far away sees of the label around a tube, its row `centre` towards
// the camera. Lit from there: light falls off with the cosine.
void raster_around(const struct raster *raster, double radius, double centre, struct raster *ret);

bool raster_dark(const struct raster *raster, int x, int y);

#endif
