#include "disk.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define SECTOR 512

struct image {
    uint8_t *bytes;
    int64_t size;
    int64_t room;
};

// A piece of a write, or a truncation, that is not on the disk for certain.
struct pending {
    size_t op;
    int from; // within the write
    int size;
    bool lost; // a sync failed over it: no later sync brings it to the disk
};

struct side {
    struct image synced;
    struct pending *pending;
    size_t count;
    size_t room;
};

struct disk {
    size_t played;
    struct side side[TAPE_MAX];
    int file_of[TAPE_MAX]; // which file a name in the folder is for certain, -1: none
    size_t *folder;        // operations on the folder that are not synced
    size_t folder_count;
    size_t folder_room;
};

struct disk *disk_new(void) {
    struct disk *disk = calloc(1, sizeof *disk);
    memset(disk->file_of, -1, sizeof disk->file_of);
    return disk;
}

void disk_free(struct disk *disk) {
    for (int i = 0; i < TAPE_MAX; i++) {
        free(disk->side[i].synced.bytes);
        free(disk->side[i].pending);
    }
    free(disk->folder);
    free(disk);
}

static void resize(struct image *image, int64_t size) {
    if (size > image->room) {
        image->room = 2 * size;
        image->bytes = realloc(image->bytes, (size_t)image->room);
    }
    if (size > image->size) {
        memset(image->bytes + image->size, 0, (size_t)(size - image->size));
    }
    image->size = size;
}

static void put(struct image *image, const struct tape_op *op, int from, int size) {
    if (op->offset + from + size > image->size) {
        resize(image, op->offset + from + size);
    }
    memcpy(image->bytes + op->offset + from, op->bytes + from, (size_t)size);
}

static void apply(struct image *image, const struct pending *pending) {
    const struct tape_op *op = tape_op(pending->op);
    if (op->kind == TAPE_TRUNCATE) {
        resize(image, op->offset);
    } else {
        put(image, op, pending->from, pending->size);
    }
}

static void add(struct side *side, struct pending pending) {
    if (side->count == side->room) {
        side->room = side->room == 0 ? 64 : 2 * side->room;
        side->pending = realloc(side->pending, side->room * sizeof side->pending[0]);
    }
    side->pending[side->count++] = pending;
}

// Takes what lies from `start` up to `end` in the file out of a lost piece: at most two are left.
static void take_out(struct side *side, const struct pending *lost, int64_t start, int64_t end) {
    int64_t first = tape_op(lost->op)->offset + lost->from;
    int64_t last = first + lost->size;
    if (start >= last || end <= first) {
        add(side, *lost);
        return;
    }
    if (first < start) {
        struct pending before = *lost;
        before.size = (int)(start - first);
        add(side, before);
    }
    if (last > end) {
        struct pending behind = *lost;
        behind.from += (int)(end - first);
        behind.size = (int)(last - end);
        add(side, behind);
    }
}

// What was lost does not come back over what was written and synced later.
static void overwrite_lost(struct side *side, const struct pending *newer) {
    const struct tape_op *op = tape_op(newer->op);
    bool truncate = op->kind == TAPE_TRUNCATE;
    int64_t start = truncate ? op->offset : op->offset + newer->from;
    int64_t end = truncate ? INT64_MAX : start + newer->size;
    struct side left = {0};
    for (size_t i = 0; i < side->count; i++) {
        take_out(&left, &side->pending[i], start, end);
    }
    free(side->pending);
    side->pending = left.pending;
    side->count = left.count;
    side->room = left.room;
}

static void sync_side(struct side *side) {
    struct side waiting = *side;
    side->pending = NULL;
    side->count = 0;
    side->room = 0;
    for (size_t i = 0; i < waiting.count; i++) {
        const struct pending *pending = &waiting.pending[i];
        if (pending->lost) {
            add(side, *pending);
        } else {
            apply(&side->synced, pending);
            overwrite_lost(side, pending);
        }
    }
    free(waiting.pending);
}

static void folder_step(int file_of[TAPE_MAX], const struct tape_op *op) {
    if (op->kind == TAPE_RENAME) {
        file_of[op->to] = file_of[op->name];
    }
    file_of[op->name] = op->kind == TAPE_CREATE ? op->file : -1;
}

static void sync_folder(struct disk *disk) {
    for (size_t i = 0; i < disk->folder_count; i++) {
        folder_step(disk->file_of, tape_op(disk->folder[i]));
    }
    disk->folder_count = 0;
}

static void change_folder(struct disk *disk, size_t op) {
    if (disk->folder_count == disk->folder_room) {
        disk->folder_room = disk->folder_room == 0 ? 16 : 2 * disk->folder_room;
        disk->folder = realloc(disk->folder, disk->folder_room * sizeof disk->folder[0]);
    }
    disk->folder[disk->folder_count++] = op;
}

void disk_play(struct disk *disk, size_t index) {
    for (; disk->played < index; disk->played++) {
        const struct tape_op *op = tape_op(disk->played);
        struct side *side = &disk->side[op->file];
        switch (op->kind) {
        case TAPE_CREATE:
        case TAPE_RENAME:
        case TAPE_UNLINK:
            change_folder(disk, disk->played);
            break;
        case TAPE_WRITE:
        case TAPE_TRUNCATE:
            add(side, (struct pending){.op = disk->played, .size = op->size});
            break;
        case TAPE_SYNC:
            sync_side(side);
            break;
        case TAPE_LOST_SYNC:
            for (size_t i = 0; i < side->count; i++) {
                side->pending[i].lost = true;
            }
            break;
        case TAPE_FOLDER_SYNC:
            sync_folder(disk);
            break;
        }
    }
}

static uint32_t draw(uint32_t *seed) {
    *seed = *seed * 1664525u + 1013904223u;
    return *seed >> 8;
}

static void tear(struct image *image, const struct pending *pending, uint32_t *seed) {
    const struct tape_op *op = tape_op(pending->op);
    int end = pending->from + pending->size;
    int from = pending->from;
    while (from < end) {
        int left = SECTOR - (int)((op->offset + from) % SECTOR);
        int size = end - from < left ? end - from : left;
        if (draw(seed) % 2 == 0) {
            put(image, op, from, size);
        }
        from += size;
    }
}

// One cut in eight loses all there is to lose, and one keeps it.
static struct image after_cut(const struct side *side, uint32_t style, uint32_t *seed) {
    struct image image = {0};
    resize(&image, side->synced.size);
    if (side->synced.size > 0) {
        memcpy(image.bytes, side->synced.bytes, (size_t)side->synced.size);
    }
    for (size_t i = 0; i < side->count; i++) {
        const struct pending *pending = &side->pending[i];
        uint32_t fate = style < 2 ? style : draw(seed) % 3;
        if (fate == 1 || (fate == 2 && tape_op(pending->op)->kind == TAPE_TRUNCATE)) {
            apply(&image, pending);
        } else if (fate == 2) {
            tear(&image, pending, seed);
        }
    }
    return image;
}

static void write_out(const char *path, const struct image *image) {
    FILE *out = fopen(path, "w");
    if (out == NULL || fwrite(image->bytes, 1, (size_t)image->size, out) != (size_t)image->size ||
        fclose(out) != 0) {
        abort();
    }
}

void disk_cut(const struct disk *disk, const char *path, uint32_t seed) {
    char shm[220];
    uint32_t style = draw(&seed) % 8;
    size_t changes = style == 0   ? 0
                     : style == 1 ? disk->folder_count
                                  : draw(&seed) % (uint32_t)(disk->folder_count + 1);
    int file_of[TAPE_MAX];
    memcpy(file_of, disk->file_of, sizeof file_of);
    for (size_t i = 0; i < changes; i++) {
        folder_step(file_of, tape_op(disk->folder[i]));
    }
    for (int i = 0; tape_name(i) != NULL; i++) {
        char name[200];
        snprintf(name, sizeof name, "%s%s", path, tape_name(i));
        unlink(name);
        if (file_of[i] >= 0) {
            // A file with two names is the same under both.
            uint32_t own = seed + 77u * (uint32_t)file_of[i];
            struct image image = after_cut(&disk->side[file_of[i]], style, &own);
            write_out(name, &image);
            free(image.bytes);
        }
        snprintf(shm, sizeof shm, "%s-shm", name);
        unlink(shm);
    }
}
