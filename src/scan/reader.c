#include "reader.h"

#include "reader_child.h"
#include "reader_queue.h"
#include "reader_shelf.h"

#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <time.h>
#include <unistd.h>

#define REST_LEAST_US 50000  // before a child is replaced,
#define REST_MOST_US 5000000 // doubled each time up to this
#define GONE_AFTER 3         // children in a row that read nothing

struct reader {
    struct reader_options options;
    char *program;
    pthread_t thread;
    int call; // eventfd: a frame waits, or stop
    atomic_bool stop;
    atomic_uint_fast64_t read;
    atomic_uint_fast64_t restarts;
    struct reader_shelf shelf;
    struct reader_queue queue;
    // The rest belongs to the thread.
    struct reader_child child;
    bool busy; // the child reads request
    struct reader_request request;
    int64_t time_us; // of its frame; never runs back
    int64_t sent_us;
    int failures;     // in a row
    int64_t start_us; // no child before that
    struct accept accept;
};

static int64_t now_us(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static void wake(const struct reader *r) {
    r->options.wake(r->options.ctx);
}

static void lose_child(struct reader *r) {
    int64_t rest = REST_LEAST_US;
    for (int i = 0; i < r->failures && rest < REST_MOST_US; i++) {
        rest *= 2;
    }
    reader_child_end(&r->child);
    r->busy = false;
    r->failures++;
    atomic_fetch_add(&r->restarts, 1);
    r->start_us = now_us() + (rest < REST_MOST_US ? rest : REST_MOST_US);
    if (r->failures >= GONE_AFTER && reader_queue_present(&r->queue, false)) {
        wake(r);
    }
}

static void send_frame(struct reader *r) {
    struct frame frame;
    int place;
    if (r->busy || !reader_shelf_take(&r->shelf, &frame, &place)) {
        return;
    }
    r->request = (struct reader_request){.serial = r->request.serial + 1,
                                         .budget_us = r->options.budget_us,
                                         .place = place,
                                         .width = frame.width,
                                         .height = frame.height};
    r->time_us = frame.time_us > r->time_us ? frame.time_us : r->time_us;
    r->sent_us = now_us();
    r->busy = true;
    if (send(r->child.socket, &r->request, sizeof r->request, MSG_NOSIGNAL) !=
        (ssize_t)sizeof r->request) {
        lose_child(r);
    }
}

static void take_code(struct reader *r, const struct code *code) {
    struct reader_event event = {.kind = READER_CODE,
                                 .verdict = accept_judge(code->symbology, code->text),
                                 .code = *code,
                                 .time_us = r->time_us,
                                 .took_us = now_us() - r->time_us};
    if (event.verdict != ACCEPT_TICKET && event.verdict != ACCEPT_MODEL) {
        event.kind = READER_UNREADABLE;
    }
    if (accept_take(&r->accept, code, r->time_us) == ACCEPT_NEW) {
        event.readings = accept_readings(&r->accept, code);
        reader_queue_event(&r->queue, &event);
    }
}

static void take_reply(struct reader *r) {
    struct reader_reply reply;
    struct reader_sight sight = {.time_us = r->time_us};
    ssize_t size = recv(r->child.socket, &reply, sizeof reply, MSG_DONTWAIT | MSG_TRUNC);
    if (size < 0 && (errno == EAGAIN || errno == EINTR)) {
        return;
    }
    if (size != (ssize_t)sizeof reply || !r->busy || !reader_reply_valid(&reply, &r->request)) {
        lose_child(r);
        return;
    }
    r->busy = false;
    r->failures = 0;
    reader_queue_present(&r->queue, true);
    for (uint64_t i = 0; i < reply.count; i++) {
        take_code(r, &reply.code[i]);
    }
    sight.width = r->request.width;
    sight.height = r->request.height;
    sight.count = (size_t)reply.count;
    memcpy(sight.code, reply.code, sizeof sight.code);
    reader_queue_sight(&r->queue, &sight);
    atomic_fetch_add(&r->read, 1);
    wake(r);
}

// How long there is nothing to do but wait for a reply or a call.
static int patience_ms(const struct reader *r) {
    int64_t until;
    int64_t left;
    if (r->child.pid == 0) {
        until = r->start_us;
    } else if (r->busy) {
        until = r->sent_us + (int64_t)r->options.limit_ms * 1000;
    } else {
        return -1;
    }
    left = until - now_us();
    return left <= 0 ? 0 : (int)(left / 1000 + 1);
}

static void step(struct reader *r) {
    struct pollfd fds[] = {{.fd = r->call, .events = POLLIN},
                           {.fd = r->child.socket, .events = POLLIN}};
    eventfd_t calls;
    poll(fds, 2, patience_ms(r));
    if (fds[0].revents != 0) {
        eventfd_read(r->call, &calls);
    }
    if (fds[1].revents != 0) {
        take_reply(r);
    } else if (r->busy && patience_ms(r) == 0) {
        lose_child(r);
    }
    if (r->child.pid == 0 && now_us() >= r->start_us &&
        !reader_child_start(&r->child, r->program, r->shelf.memory)) {
        lose_child(r);
    }
    if (r->child.pid != 0) {
        send_frame(r);
    }
}

static void *run(void *ctx) {
    struct reader *r = ctx;
    while (!atomic_load(&r->stop)) {
        step(r);
    }
    reader_child_end(&r->child);
    return NULL;
}

struct reader *reader_init(const struct reader_options *options) {
    struct reader *r = calloc(1, sizeof *r);
    if (r == NULL) {
        return NULL;
    }
    r->options = *options;
    r->child.socket = -1;
    accept_init(&r->accept);
    r->program = strdup(options->program == NULL ? "/proc/self/exe" : options->program);
    r->call = eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK);
    if (r->program == NULL || r->call < 0) {
        goto free_reader;
    }
    if (!reader_queue_init(&r->queue)) {
        goto free_reader;
    }
    if (!reader_shelf_init(&r->shelf)) {
        goto destroy_queue;
    }
    return r;
destroy_queue:
    reader_queue_destroy(&r->queue);
free_reader:
    if (r->call >= 0) {
        close(r->call);
    }
    free(r->program);
    free(r);
    return NULL;
}

bool reader_start(struct reader *r) {
    sigset_t all;
    sigset_t before;
    int error;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before); // signals are the main thread's
    error = pthread_create(&r->thread, NULL, run, r);
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return error == 0;
}

void reader_stop(struct reader *r) {
    atomic_store(&r->stop, true);
    eventfd_write(r->call, 1);
}

void reader_join(struct reader *r) {
    pthread_join(r->thread, NULL);
}

void reader_destroy(struct reader *r) {
    if (r == NULL) {
        return;
    }
    reader_shelf_destroy(&r->shelf);
    reader_queue_destroy(&r->queue);
    close(r->call);
    free(r->program);
    free(r);
}

void reader_offer(struct reader *r, const struct frame *frame) {
    reader_shelf_put(&r->shelf, frame);
    eventfd_write(r->call, 1);
}

bool reader_next(struct reader *r, struct reader_event *ret_event) {
    return reader_queue_take(&r->queue, ret_event);
}

bool reader_sight(struct reader *r, struct reader_sight *ret_sight) {
    return reader_queue_take_sight(&r->queue, ret_sight);
}

struct reader_counts reader_counts(struct reader *r) {
    struct reader_counts counts;
    pthread_mutex_lock(&r->shelf.mutex);
    counts = r->shelf.counts;
    pthread_mutex_unlock(&r->shelf.mutex);
    counts.read = atomic_load(&r->read);
    counts.restarts = atomic_load(&r->restarts);
    return counts;
}
