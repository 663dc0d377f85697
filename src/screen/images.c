// Textures by key, bounded in bytes; the one unused for longest goes first.

#include "screen_inner.h"

#include <stdlib.h>
#include <string.h>

#define IMAGES_MAX 400
#define IMAGES_BYTES ((size_t)14 << 20)
#define KEY_MAX 200

struct image {
    char key[KEY_MAX];
    SDL_Texture *texture;
    SDL_Point size;
    unsigned used;
};

struct images {
    struct image image[IMAGES_MAX];
    size_t count;
    size_t bytes;
    unsigned clock;
};

static size_t bytes(const struct image *image) {
    return (size_t)image->size.x * (size_t)image->size.y * 4;
}

static void drop(struct images *images, size_t at) {
    SDL_DestroyTexture(images->image[at].texture);
    images->bytes -= bytes(&images->image[at]);
    images->image[at] = images->image[--images->count];
}

static void drop_oldest(struct images *images) {
    size_t oldest = 0;
    for (size_t i = 1; i < images->count; i++) {
        if (images->clock - images->image[i].used > images->clock - images->image[oldest].used) {
            oldest = i;
        }
    }
    drop(images, oldest);
}

bool images_init(struct screen *screen) {
    screen->images = calloc(1, sizeof *screen->images);
    return screen->images != NULL;
}

void images_destroy(struct screen *screen) {
    if (screen->images == NULL) {
        return;
    }
    while (screen->images->count > 0) {
        drop(screen->images, screen->images->count - 1);
    }
    free(screen->images);
    screen->images = NULL;
}

SDL_Texture *images_find(struct screen *screen, const char *key, SDL_Point *ret_size) {
    struct images *images = screen->images;
    for (size_t i = 0; i < images->count; i++) {
        if (strncmp(images->image[i].key, key, KEY_MAX - 1) == 0) {
            images->image[i].used = ++images->clock;
            if (ret_size != NULL) {
                *ret_size = images->image[i].size;
            }
            return images->image[i].texture;
        }
    }
    return NULL;
}

SDL_Texture *images_keep(struct screen *screen, const char *key, SDL_Surface *surface) {
    struct images *images = screen->images;
    struct image *image;
    SDL_Texture *texture;
    if (surface == NULL) {
        return NULL;
    }
    texture = SDL_CreateTextureFromSurface(screen->renderer, surface);
    if (texture != NULL) {
        SDL_Point size = {surface->w, surface->h};
        size_t more = (size_t)size.x * (size_t)size.y * 4;
        while (images->count > 0 &&
               (images->count == IMAGES_MAX || images->bytes + more > IMAGES_BYTES)) {
            drop_oldest(images);
        }
        image = &images->image[images->count++];
        SDL_strlcpy(image->key, key, sizeof image->key);
        image->texture = texture;
        image->size = size;
        image->used = ++images->clock;
        images->bytes += more;
    }
    SDL_FreeSurface(surface);
    return texture;
}
