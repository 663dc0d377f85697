#include "reader_shelf.h"

#include <fcntl.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

// Sealed, so that the child can neither shrink it under our feet nor write to it.
static bool share(struct reader_shelf *shelf) {
    const int seals = F_SEAL_SHRINK | F_SEAL_GROW | F_SEAL_FUTURE_WRITE | F_SEAL_SEAL;
    void *bytes;
    if (ftruncate(shelf->memory, (off_t)READER_WIRE_BYTES) != 0) {
        return false;
    }
    bytes = mmap(NULL, READER_WIRE_BYTES, PROT_READ | PROT_WRITE, MAP_SHARED, shelf->memory, 0);
    if (bytes == MAP_FAILED) {
        return false;
    }
    shelf->bytes = bytes;
    return fcntl(shelf->memory, F_ADD_SEALS, seals) == 0;
}

bool reader_shelf_init(struct reader_shelf *shelf) {
    *shelf = (struct reader_shelf){0};
    int memory = memfd_create("kerfside frames", MFD_CLOEXEC | MFD_ALLOW_SEALING);
    if (memory < 0) {
        return false;
    }
    shelf->memory = fcntl(memory, F_DUPFD_CLOEXEC, 10); // see reader_child.c
    close(memory);
    if (shelf->memory < 0) {
        return false;
    }
    if (!share(shelf) || pthread_mutex_init(&shelf->mutex, NULL) != 0) {
        if (shelf->bytes != NULL) {
            munmap(shelf->bytes, READER_WIRE_BYTES);
        }
        close(shelf->memory);
        return false;
    }
    return true;
}

void reader_shelf_destroy(struct reader_shelf *shelf) {
    pthread_mutex_destroy(&shelf->mutex);
    munmap(shelf->bytes, READER_WIRE_BYTES);
    close(shelf->memory);
}

void reader_shelf_put(struct reader_shelf *shelf, const struct frame *frame) {
    pthread_mutex_lock(&shelf->mutex);
    memcpy(shelf->bytes + (size_t)shelf->place * READER_WIRE_PLACE, frame->pixels,
           (size_t)frame->width * (size_t)frame->height);
    shelf->counts.frames++;
    shelf->counts.dropped += shelf->waiting;
    shelf->waiting = true;
    shelf->frame = *frame;
    shelf->frame.pixels = NULL;
    pthread_mutex_unlock(&shelf->mutex);
}

bool reader_shelf_take(struct reader_shelf *shelf, struct frame *ret_frame, int *ret_place) {
    bool waiting;
    pthread_mutex_lock(&shelf->mutex);
    waiting = shelf->waiting;
    if (waiting) {
        *ret_frame = shelf->frame;
        *ret_place = shelf->place;
        shelf->place = 1 - shelf->place;
        shelf->waiting = false;
    }
    pthread_mutex_unlock(&shelf->mutex);
    return waiting;
}
