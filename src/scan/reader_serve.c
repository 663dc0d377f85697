#include "decode.h"
#include "reader.h"
#include "reader_wire.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/socket.h>

#define MEMORY_MAX (512UL << 20)
#define FILES_MAX 16 // iconv, which ZBar asks about the letters of a QR symbol, opens its tables

// A sanitizer's shadow memory alone is larger than any sensible limit.
#if defined(__SANITIZE_ADDRESS__)
#define SANITIZED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define SANITIZED 1
#endif
#endif
#ifndef SANITIZED
#define SANITIZED 0
#endif

// Whatever a picture makes of this process, it gets no further: nothing written, no privileges, no
// life after the bench.
static bool confine(void) {
    const struct rlimit memory = {MEMORY_MAX, MEMORY_MAX};
    const struct rlimit none = {0, 0};
    const struct rlimit files = {FILES_MAX, FILES_MAX};
    return prctl(PR_SET_PDEATHSIG, SIGKILL) == 0 && prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 &&
           (SANITIZED || setrlimit(RLIMIT_AS, &memory) == 0) &&
           setrlimit(RLIMIT_FSIZE, &none) == 0 && setrlimit(RLIMIT_CORE, &none) == 0 &&
           setrlimit(RLIMIT_NOFILE, &files) == 0;
}

static bool request_valid(const struct reader_request *request) {
    return request->width >= 1 && request->width <= FRAME_SIDE_MAX && request->height >= 1 &&
           request->height <= FRAME_SIDE_MAX && (request->place == 0 || request->place == 1);
}

// Until the reader closes its end.
static bool serve(struct decoder *decoder, uint8_t *memory) {
    struct reader_request request;
    struct reader_reply reply;
    ssize_t size;
    while ((size = recv(READER_WIRE_SOCKET, &request, sizeof request, 0)) > 0) {
        if (size != (ssize_t)sizeof request || !request_valid(&request)) {
            return false;
        }
        const struct frame frame = {.width = request.width,
                                    .height = request.height,
                                    .pixels = memory + (size_t)request.place * READER_WIRE_PLACE};
        memset(&reply, 0, sizeof reply);
        reply.serial = request.serial;
        reply.count = decoder_read(decoder, &frame, request.budget_us, reply.code);
        if (send(READER_WIRE_SOCKET, &reply, sizeof reply, MSG_NOSIGNAL) != (ssize_t)sizeof reply) {
            return false;
        }
    }
    return size == 0;
}

int reader_serve(void) {
    void *memory = mmap(NULL, READER_WIRE_BYTES, PROT_READ, MAP_SHARED, READER_WIRE_MEMORY, 0);
    struct decoder *decoder;
    bool done;
    if (memory == MAP_FAILED || !confine()) {
        return EXIT_FAILURE;
    }
    decoder = decoder_init();
    done = decoder != NULL && serve(decoder, memory);
    decoder_destroy(decoder);
    munmap(memory, READER_WIRE_BYTES);
    return done ? EXIT_SUCCESS : EXIT_FAILURE;
}
