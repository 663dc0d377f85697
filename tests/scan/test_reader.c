// The decoder in its process: what it reads, and everything that may become of it. This program is
// its own decoder; KERFSIDE_TEST_CHILD makes a bad one of it.

#include "check.h"
#include "reader.h"
#include "reader_wire.h"
#include "scene.h"

#include <dirent.h>
#include <semaphore.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define WAIT_MS 20000
#define LIMIT_MS 1500

static struct reader *reader;
static sem_t woken;
static int64_t frame_us; // time of the newest frame offered

static int64_t now_ms(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static void sleep_ms(int ms) {
    nanosleep(&(struct timespec){ms / 1000, ms % 1000 * 1000000L}, NULL);
}

static void wake(void *ctx) {
    sem_post(ctx);
}

static void start(const char *program, int limit_ms) {
    reader = reader_init(&(struct reader_options){.program = program,
                                                  .limit_ms = limit_ms,
                                                  .budget_us = READER_BUDGET_US,
                                                  .wake = wake,
                                                  .ctx = &woken});
    assert_non_null(reader);
    assert_true(reader_start(reader));
}

static int set_up(void **state) {
    (void)state;
    sem_init(&woken, 0, 0);
    frame_us = 1000000;
    reader = NULL;
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    unsetenv("KERFSIDE_TEST_CHILD");
    if (reader != NULL) {
        reader_stop(reader);
        reader_join(reader);
        reader_destroy(reader);
    }
    sem_destroy(&woken);
    return 0;
}

static struct frame draw(enum scene_symbol symbol, const char *text) {
    struct scene scene = SCENE_DEFAULT;
    struct frame frame;
    scene.width = 480;
    scene.height = 270;
    scene.seed = 7;
    scene.noise = 2;
    scene.symbol = symbol;
    scene.module = symbol == SCENE_QR ? 4 : 2.5;
    snprintf(scene.text, sizeof scene.text, "%s", text);
    assert_true(scene_draw(&scene, &frame, NULL));
    return frame;
}

static void offer(struct frame *frame, int64_t later_us) {
    frame_us += later_us;
    frame->time_us = frame_us;
    reader_offer(reader, frame);
}

// Until so many frames were read, all in all.
static void wait_read(uint64_t count) {
    int64_t end = now_ms() + WAIT_MS;
    while (reader_counts(reader).read < count) {
        assert_true(now_ms() < end);
        sleep_ms(1);
    }
}

static void read_one(struct frame *frame, int64_t later_us) {
    uint64_t before = reader_counts(reader).read;
    offer(frame, later_us);
    wait_read(before + 1);
}

static struct reader_event expect_event(enum reader_kind kind) {
    struct reader_event event;
    int64_t end = now_ms() + WAIT_MS;
    while (!reader_next(reader, &event)) {
        assert_true(now_ms() < end);
        sem_timedwait(&woken, &(struct timespec){time(NULL) + 1, 0});
    }
    assert_int_equal(event.kind, kind);
    return event;
}

static void expect_nothing(void) {
    struct reader_event event;
    assert_false(reader_next(reader, &event));
}

// The one child of this process, 0 for none.
static pid_t child(void) {
    DIR *proc = opendir("/proc");
    pid_t found = 0;
    assert_non_null(proc);
    for (struct dirent *entry = readdir(proc); entry != NULL; entry = readdir(proc)) {
        char path[300];
        FILE *file;
        int pid;
        int parent;
        snprintf(path, sizeof path, "/proc/%s/stat", entry->d_name);
        file = fopen(path, "r");
        if (file != NULL) {
            if (fscanf(file, "%d (%*[^)]) %*c %d", &pid, &parent) == 2 && parent == getpid()) {
                found = pid;
            }
            fclose(file);
        }
    }
    closedir(proc);
    return found;
}

static int open_files(void) {
    DIR *folder = opendir("/proc/self/fd");
    int count = 0;
    assert_non_null(folder);
    while (readdir(folder) != NULL) {
        count++;
    }
    closedir(folder);
    return count;
}

// --- what it reads -------------------------------------------------------------------------------

static void reads_a_ticket(void **state) {
    struct frame frame = draw(SCENE_CODE128, "H-0001A");
    struct reader_sight sight;
    (void)state;
    start(NULL, READER_LIMIT_MS);
    offer(&frame, 0);
    struct reader_event event = expect_event(READER_CODE);
    assert_int_equal(event.verdict, ACCEPT_TICKET);
    assert_int_equal(event.code.symbology, CODE_128);
    assert_string_equal(event.code.text, "H-0001A");
    assert_int_equal(event.time_us, frame_us);
    assert_true(reader_sight(reader, &sight));
    assert_int_equal(sight.width, 480);
    assert_int_equal(sight.height, 270);
    assert_int_equal(sight.time_us, frame_us);
    assert_int_equal(sight.count, 1);
    assert_string_equal(sight.code[0].text, "H-0001A");
    assert_false(reader_sight(reader, &sight));
    expect_nothing();
    free(frame.pixels);
}

static void reads_qr_in_the_child(void **state) {
    struct frame frame = draw(SCENE_QR, "S-0001S");
    (void)state;
    start(NULL, READER_LIMIT_MS);
    offer(&frame, 0);
    assert_string_equal(expect_event(READER_CODE).code.text, "S-0001S");
    free(frame.pixels);
}

static void says_a_code_once_until_it_has_left(void **state) {
    struct frame frame = draw(SCENE_CODE128, "H-0001A");
    (void)state;
    start(NULL, READER_LIMIT_MS);
    read_one(&frame, 0);
    expect_event(READER_CODE);
    for (int i = 0; i < 20; i++) {
        read_one(&frame, ACCEPT_AWAY_US - 1);
    }
    expect_nothing();
    read_one(&frame, ACCEPT_AWAY_US);
    expect_event(READER_CODE);
    expect_nothing();
    free(frame.pixels);
}

static void what_is_no_ticket_is_unreadable(void **state) {
    struct frame frames[] = {draw(SCENE_CODE128, "H-0001B"), draw(SCENE_QR, "WIFI:S:bench;;")};
    const enum accept_verdict verdicts[] = {ACCEPT_DAMAGED, ACCEPT_FOREIGN};
    (void)state;
    start(NULL, READER_LIMIT_MS);
    for (size_t i = 0; i < COUNT(frames); i++) {
        read_one(&frames[i], 100000);
        expect_nothing();
        read_one(&frames[i], 100000);
        assert_int_equal(expect_event(READER_UNREADABLE).verdict, verdicts[i]);
        read_one(&frames[i], 100000);
        expect_nothing();
        free(frames[i].pixels);
    }
}

static void any_size_of_frame(void **state) {
    const int sizes[][2] = {{1, 1},    {2, 3},  {3, 3},     {1, 4096},
                            {4096, 1}, {9, 10}, {17, 4000}, {2048, 2048}};
    uint64_t random = 1;
    (void)state;
    start(NULL, WAIT_MS);
    for (size_t i = 0; i < COUNT(sizes); i++) {
        size_t count = (size_t)sizes[i][0] * (size_t)sizes[i][1];
        struct frame frame = {.width = sizes[i][0], .height = sizes[i][1], .pixels = malloc(count)};
        assert_non_null(frame.pixels);
        for (size_t k = 0; k < count; k++) {
            frame.pixels[k] = (uint8_t)scene_random(&random);
        }
        read_one(&frame, 1000);
        free(frame.pixels);
    }
    expect_nothing();
    assert_int_equal(reader_counts(reader).restarts, 0);
}

// --- what may become of it -----------------------------------------------------------------------

static void comes_back_from_every_death(void **state) {
    const int signals[] = {SIGABRT, SIGSEGV, SIGKILL, SIGTERM};
    struct frame frame = draw(SCENE_CODE128, "H-0001A");
    (void)state;
    start(NULL, READER_LIMIT_MS);
    for (size_t i = 0; i < COUNT(signals); i++) {
        read_one(&frame, 2 * ACCEPT_AWAY_US);
        expect_event(READER_CODE);
        assert_true(child() > 0);
        kill(child(), signals[i]);
        while (reader_counts(reader).restarts < i + 1) {
            sleep_ms(1);
        }
    }
    read_one(&frame, 2 * ACCEPT_AWAY_US);
    expect_event(READER_CODE);
    expect_nothing();
    free(frame.pixels);
}

static void a_child_that_stands_still_is_replaced(void **state) {
    struct frame lost = draw(SCENE_CODE128, "H-0001A");
    struct frame frame = draw(SCENE_CODE128, "S-0001S");
    (void)state;
    start(NULL, LIMIT_MS);
    read_one(&lost, 0);
    expect_event(READER_CODE);
    pid_t stopped = child();
    assert_true(stopped > 0);
    kill(stopped, SIGSTOP);
    int64_t begun = now_ms();
    offer(&lost, 2 * ACCEPT_AWAY_US); // goes to the child and is lost with it
    sleep_ms(100);
    for (int i = 0; i < 50; i++) {
        offer(&frame, 1000);
    }
    assert_true(now_ms() - begun < LIMIT_MS / 2); // offering does not wait for the child
    assert_string_equal(expect_event(READER_CODE).code.text, "S-0001S");
    assert_true(now_ms() - begun >= LIMIT_MS);
    assert_int_not_equal(child(), stopped);
    struct reader_counts counts = reader_counts(reader);
    assert_int_equal(counts.frames, 52);
    assert_int_equal(counts.dropped, 49);
    assert_int_equal(counts.read, 2);
    assert_int_equal(counts.restarts, 1);
    free(lost.pixels);
    free(frame.pixels);
}

static void says_when_it_cannot_be_run_and_when_it_can(void **state) {
    struct frame frame = draw(SCENE_CODE128, "H-0001A");
    char folder[] = "/tmp/kerfside-reader-XXXXXX";
    char program[64];
    (void)state;
    assert_non_null(mkdtemp(folder));
    snprintf(program, sizeof program, "%s/decoder", folder);
    start(program, READER_LIMIT_MS);
    offer(&frame, 0);
    expect_event(READER_GONE);
    sleep_ms(300);
    expect_nothing();
    char self[256] = {0};
    assert_true(readlink("/proc/self/exe", self, sizeof self - 1) > 0);
    assert_int_equal(symlink(self, program), 0);
    expect_event(READER_CODE);
    expect_event(READER_BACK);
    expect_nothing();
    unlink(program);
    rmdir(folder);
    free(frame.pixels);
}

static void leaves_nothing_behind(void **state) {
    struct frame frame = draw(SCENE_CODE128, "H-0001A");
    int before = open_files();
    (void)state;
    for (int i = 0; i < 3; i++) {
        start(NULL, READER_LIMIT_MS);
        read_one(&frame, 1000);
        reader_stop(reader);
        reader_join(reader);
        reader_destroy(reader);
        assert_int_equal(child(), 0);
    }
    reader = NULL;
    assert_int_equal(open_files(), before);
    reader_destroy(NULL);
    free(frame.pixels);
}

static void a_lying_child_is_not_believed(void **state) {
    static const char *const lies[] = {"serial",  "count", "control", "endless", "empty", "corner",
                                       "quality", "kind",  "short",   "unasked", "writes"};
    struct frame frame = draw(SCENE_CODE128, "H-0001A");
    (void)state;
    for (size_t i = 0; i < COUNT(lies); i++) {
        setenv("KERFSIDE_TEST_CHILD", lies[i], 1);
        start(NULL, LIMIT_MS);
        offer(&frame, 1000);
        for (int64_t end = now_ms() + WAIT_MS; reader_counts(reader).restarts < 1;) {
            assert_true(now_ms() < end);
            sleep_ms(1);
        }
        expect_nothing();
        assert_int_equal(reader_counts(reader).read, 0);
        reader_stop(reader);
        reader_join(reader);
        reader_destroy(reader);
        reader = NULL;
    }
    free(frame.pixels);
}

static void a_true_reply_by_the_same_means_is_believed(void **state) {
    struct frame frame = draw(SCENE_NOTHING, "");
    (void)state;
    setenv("KERFSIDE_TEST_CHILD", "true", 1);
    start(NULL, LIMIT_MS);
    offer(&frame, 1000);
    assert_string_equal(expect_event(READER_CODE).code.text, "H-0001A");
    free(frame.pixels);
}

// More codes than anybody takes: the newest are kept.
static void a_full_queue_drops_the_oldest(void **state) {
    struct frame frame = draw(SCENE_NOTHING, "");
    (void)state;
    setenv("KERFSIDE_TEST_CHILD", "true", 1);
    start(NULL, LIMIT_MS);
    for (int i = 0; i < READER_EVENTS_MAX + 10; i++) {
        read_one(&frame, 2 * ACCEPT_AWAY_US);
    }
    for (int i = READER_EVENTS_MAX - 1; i >= 0; i--) {
        assert_int_equal(expect_event(READER_CODE).time_us, frame_us - i * 2 * ACCEPT_AWAY_US);
    }
    expect_nothing();
    free(frame.pixels);
}

// --- the child -----------------------------------------------------------------------------------

static void spoil(struct reader_reply *reply, size_t *size, const char *lie) {
    struct code *code = &reply->code[0];
    if (strcmp(lie, "serial") == 0) {
        reply->serial++;
    } else if (strcmp(lie, "count") == 0) {
        reply->count = FRAME_CODES_MAX + 1;
    } else if (strcmp(lie, "control") == 0) {
        code->text[3] = '\t';
    } else if (strcmp(lie, "endless") == 0) {
        memset(code->text, 'A', sizeof code->text);
    } else if (strcmp(lie, "empty") == 0) {
        code->text[0] = '\0';
    } else if (strcmp(lie, "corner") == 0) {
        code->corner[2].x = 480;
    } else if (strcmp(lie, "quality") == 0) {
        code->quality = 0;
    } else if (strcmp(lie, "kind") == 0) {
        code->symbology = CODE_SYMBOLOGY_COUNT;
    } else if (strcmp(lie, "short") == 0) {
        (*size)--;
    }
}

static int lie_about(const char *lie) {
    struct reader_request request = {0};
    struct reader_reply reply = {.count = 1};
    size_t size = sizeof reply;
    reply.code[0] = (struct code){.symbology = CODE_128, .quality = 9, .text = "H-0001A"};
    if (strcmp(lie, "unasked") == 0) {
        send(READER_WIRE_SOCKET, &reply, size, 0);
    }
    if (strcmp(lie, "writes") == 0 &&
        mmap(NULL, 4096, PROT_WRITE, MAP_SHARED, READER_WIRE_MEMORY, 0) == MAP_FAILED &&
        ftruncate(READER_WIRE_MEMORY, 0) != 0) {
        return 1;
    }
    while (recv(READER_WIRE_SOCKET, &request, sizeof request, 0) > 0) {
        reply.serial = request.serial;
        spoil(&reply, &size, lie);
        send(READER_WIRE_SOCKET, &reply, size, 0);
    }
    return 0;
}

int main(int argc, char **argv) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(reads_a_ticket, set_up, tear_down),
        cmocka_unit_test_setup_teardown(reads_qr_in_the_child, set_up, tear_down),
        cmocka_unit_test_setup_teardown(says_a_code_once_until_it_has_left, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_is_no_ticket_is_unreadable, set_up, tear_down),
        cmocka_unit_test_setup_teardown(any_size_of_frame, set_up, tear_down),
        cmocka_unit_test_setup_teardown(comes_back_from_every_death, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_child_that_stands_still_is_replaced, set_up, tear_down),
        cmocka_unit_test_setup_teardown(says_when_it_cannot_be_run_and_when_it_can, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(leaves_nothing_behind, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_lying_child_is_not_believed, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_true_reply_by_the_same_means_is_believed, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(a_full_queue_drops_the_oldest, set_up, tear_down),
    };
    if (argc == 2 && strcmp(argv[1], "decoder") == 0) {
        const char *lie = getenv("KERFSIDE_TEST_CHILD");
        return lie == NULL ? reader_serve() : lie_about(lie);
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
