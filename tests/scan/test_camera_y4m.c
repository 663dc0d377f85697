// A Y4M file or FIFO in a camera's place.

#include "check.h"
#include "viewer.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#define HEADER "YUV4MPEG2 W8 H4 F50:1 C420jpeg\n"
#define AREA 32
#define COLOUR 16

static char folder[64];
static char path[96];
static int writer;
static struct viewer viewer;

static int set_up(void **state) {
    (void)state;
    strcpy(folder, "/tmp/kerfside-video-XXXXXX");
    assert_non_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/video.y4m", folder);
    writer = -1;
    viewer_init(&viewer, path);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    viewer_destroy(&viewer);
    if (writer >= 0) {
        close(writer);
    }
    unlink(path);
    rmdir(folder);
    return 0;
}

static size_t frame(uint8_t *to, int shade) {
    memcpy(to, "FRAME\n", 6);
    memset(to + 6, shade, AREA);
    memset(to + 6 + AREA, 0xEE, COLOUR);
    return 6 + AREA + COLOUR;
}

// --- files ---------------------------------------------------------------------------------------

// Shades 1 to `frames`, one a frame.
static void make_file(const char *header, int frames) {
    FILE *file = fopen(path, "w");
    uint8_t bytes[128];
    fputs(header, file);
    for (int i = 1; i <= frames; i++) {
        fwrite(bytes, frame(bytes, i), 1, file);
    }
    fclose(file);
}

// How long it takes until so many frames were counted, the first being there at once.
static int64_t time_of_frames(uint64_t frames) {
    int64_t start = viewer_now_ms();
    viewer_start(&viewer);
    viewer_wait_frames(&viewer, frames);
    return viewer_now_ms() - start;
}

// Never faster; as fast at the best of several tries, since the machine may be busy.
static void test_file_at_its_rate(void **state) {
    (void)state;
    int64_t best = VIEWER_NEVER_MS;
    make_file(HEADER, 11);
    viewer.options.once = true;
    for (int i = 0; i < 10 && best > 350; i++) {
        int64_t taken = time_of_frames(11);
        viewer_expect(&viewer, CAMERA_GONE, "video.y4m: the video is at its end");
        viewer_sleep_ms(50); // and is not played again
        assert_int_equal(camera_counts(viewer.camera).frames, 11);
        viewer_stop(&viewer);
        assert_true(taken >= 199); // 10 times 20 ms
        best = taken < best ? taken : best;
    }
    assert_true(best <= 350);
}

static void test_file_in_a_loop(void **state) {
    (void)state;
    struct camera_event event;
    uint8_t last = 0;
    int again = 0;
    make_file("YUV4MPEG2 W8 H4 F10:1 C420jpeg\n", 3);
    viewer_start(&viewer);
    for (int i = 0; i < 8; i++) {
        struct frame now = viewer_frame(&viewer);
        assert_in_range(now.pixels[0], 1, 3);
        again += now.pixels[0] < last;
        last = now.pixels[0];
        free(now.pixels);
    }
    assert_in_range(again, 2, 7);
    assert_false(camera_next(viewer.camera, &event));
}

static void test_no_rate(void **state) {
    (void)state;
    make_file("YUV4MPEG2 W8 H4 C420jpeg\n", 10);
    assert_in_range(time_of_frames(6), 199, 1500); // 25 a second
}

static void test_rate_is_bounded(void **state) {
    (void)state;
    make_file("YUV4MPEG2 W8 H4 F100000:1 C420jpeg\n", 10);
    assert_in_range(time_of_frames(21), 319, 2000);
}

static void test_files_that_are_none(void **state) {
    (void)state;
    static const struct {
        const char *text;
        const char *fault;
    } rows[] = {
        {"", "it holds no whole frame"},
        {HEADER, "it holds no whole frame"},
        {HEADER "FRAME\n123", "it holds no whole frame"},
        {"\x89PNG\r\n", "it is no Y4M video"},
        {"YUV4MPEG2 W8 H4 C420p10\n", "it has a colour format other than"},
        {"YUV4MPEG2 W5000 H4\n", "its size is not 1 to 4096 pixels a side"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        FILE *file = fopen(path, "w");
        fputs(rows[i].text, file);
        fclose(file);
        viewer_start(&viewer);
        viewer_expect(&viewer, CAMERA_GONE, rows[i].fault);
        make_file(HEADER, 1); // put right
        viewer_expect(&viewer, CAMERA_BACK, "");
        viewer_expect_shade(&viewer, 1, 0);
        viewer_stop(&viewer);
    }
}

static void test_missing_file(void **state) {
    (void)state;
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "video.y4m: not there");
    make_file(HEADER, 1);
    viewer_expect(&viewer, CAMERA_BACK, "");
}

// --- FIFOs ---------------------------------------------------------------------------------------

static void make_fifo(void) {
    assert_int_equal(mkfifo(path, 0600), 0);
}

static void open_writer(void) {
    int64_t start = viewer_now_ms();
    do {
        writer = open(path, O_WRONLY | O_NONBLOCK | O_CLOEXEC);
        viewer_sleep_ms(1);
        assert_true(viewer_now_ms() - start < VIEWER_WAIT_MS);
    } while (writer < 0);
}

// False: there is no reader any more.
static bool write_bytes(const void *bytes, size_t size) {
    const uint8_t *at = bytes;
    int64_t start = viewer_now_ms();
    while (size > 0) {
        ssize_t done = write(writer, at, size);
        if (done < 0 && errno == EPIPE) {
            return false;
        }
        if (done < 0) {
            assert_int_equal(errno, EAGAIN);
            assert_true(viewer_now_ms() - start < 4 * VIEWER_WAIT_MS);
            viewer_sleep_ms(1);
            continue;
        }
        at += done;
        size -= (size_t)done;
    }
    return true;
}

static void write_frame(int shade) {
    uint8_t bytes[128];
    assert_true(write_bytes(bytes, frame(bytes, shade)));
}

static void close_writer(void) {
    close(writer);
    writer = -1;
}

static void test_fifo_as_it_comes(void **state) {
    (void)state;
    static const char slow[] = "YUV4MPEG2 W8 H4 F1:1 C420jpeg\n";
    int64_t start;
    make_fifo();
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "video.y4m: nobody writes to it");
    open_writer();
    write_bytes(slow, strlen(slow));
    write_frame(7);
    viewer_expect(&viewer, CAMERA_BACK, "");
    viewer_expect_shade(&viewer, 7, 0);
    viewer_sleep_ms(100);
    start = viewer_now_ms();
    write_frame(8); // whatever the header says
    viewer_expect_shade(&viewer, 8, 0);
    assert_true(viewer_now_ms() - start < 500);
}

static void test_fifo_with_a_writer_from_the_start(void **state) {
    (void)state;
    struct camera_event event;
    make_fifo();
    writer = open(path, O_RDWR | O_NONBLOCK | O_CLOEXEC);
    write_bytes(HEADER, strlen(HEADER));
    write_frame(9);
    viewer_start(&viewer);
    viewer_expect_shade(&viewer, 9, 0);
    assert_false(camera_next(viewer.camera, &event));
}

static void test_writer_goes_and_comes(void **state) {
    (void)state;
    make_fifo();
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "nobody writes to it");
    for (int i = 0; i < 4; i++) {
        open_writer();
        write_bytes(HEADER, strlen(HEADER));
        write_frame(10 + i);
        viewer_expect(&viewer, CAMERA_BACK, "");
        viewer_expect_shade(&viewer, 10 + i, 0);
        if (i % 2 == 1) {
            write_bytes("FRAME\nhalf", 10); // in mid-frame
        }
        close_writer();
        viewer_expect(&viewer, CAMERA_GONE, "nobody writes to it any more");
    }
}

static void test_several_frames_at_once(void **state) {
    (void)state;
    uint8_t bytes[1024];
    size_t size = strlen(HEADER);
    make_fifo();
    viewer_start(&viewer);
    open_writer();
    memcpy(bytes, HEADER, size);
    for (int i = 1; i <= 5; i++) {
        size += frame(bytes + size, i);
    }
    write_bytes(bytes, size);
    viewer_wait_frames(&viewer, 5); // with nothing more to read
    viewer_expect_shade(&viewer, 5, 0);
    assert_int_equal(camera_counts(viewer.camera).dropped, 4);
}

static int64_t cpu_ms(void) {
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return (int64_t)(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) * 1000 +
           (usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) / 1000;
}

// 10 MB of garbage: refused at its first byte, however often it begins anew.
static void test_garbage(void **state) {
    (void)state;
    static uint8_t noise[65536];
    struct rusage before;
    struct rusage after;
    int refused = 0;
    int64_t cpu = cpu_ms();
    make_fifo();
    for (size_t i = 0; i < sizeof noise; i++) {
        noise[i] = (uint8_t)(i * 2654435761U >> 13);
    }
    viewer_start(&viewer);
    open_writer();
    getrusage(RUSAGE_SELF, &before);
    for (int i = 0; i < 160; i++) {
        if (!write_bytes(noise, sizeof noise)) {
            refused++;
            close_writer();
            open_writer();
        }
    }
    getrusage(RUSAGE_SELF, &after);
    assert_true(refused > 0);
    assert_true(after.ru_maxrss - before.ru_maxrss < 9000); // KiB; sanitizers keep what was freed
    assert_true(cpu_ms() - cpu < 2000);
    viewer_expect(&viewer, CAMERA_GONE, "");
    close_writer();
    open_writer();
    viewer_sleep_ms(100);
    viewer_stop(&viewer);
}

static void test_garbage_is_named(void **state) {
    (void)state;
    make_fifo();
    writer = open(path, O_RDWR | O_NONBLOCK | O_CLOEXEC);
    write_bytes("GIF89a", 6);
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "video.y4m: it is no Y4M video");
}

// An endless stream of good frames: the newest is kept, and no faster than 60 or so a second.
static void test_endless_frames(void **state) {
    (void)state;
    uint8_t bytes[128];
    size_t size = frame(bytes, 77);
    int64_t start = viewer_now_ms();
    make_fifo();
    viewer_start(&viewer);
    open_writer();
    write_bytes(HEADER, strlen(HEADER));
    while (viewer_now_ms() - start < 500) {
        ssize_t done = write(writer, bytes, size);
        if (done < 0) {
            viewer_sleep_ms(5);
        } else if ((size_t)done < size) {
            assert_true(write_bytes(bytes + done, size - (size_t)done));
        }
    }
    viewer_expect_shade(&viewer, 77, 0);
    assert_in_range(camera_counts(viewer.camera).frames, 3, 40);
    viewer_stop(&viewer);
}

static void test_stops_at_once(void **state) {
    (void)state;
    make_file("YUV4MPEG2 W8 H4 F1:10 C420jpeg\n", 3);
    viewer_start(&viewer);
    viewer_expect_shade(&viewer, 1, 0);
    viewer_stop(&viewer); // ten seconds from the next frame
    unlink(path);
    make_fifo();
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "nobody writes to it");
    viewer_stop(&viewer);
}

int main(void) {
#define T(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        T(test_file_at_its_rate),
        T(test_file_in_a_loop),
        T(test_no_rate),
        T(test_rate_is_bounded),
        T(test_files_that_are_none),
        T(test_missing_file),
        T(test_fifo_as_it_comes),
        T(test_fifo_with_a_writer_from_the_start),
        T(test_writer_goes_and_comes),
        T(test_several_frames_at_once),
        T(test_garbage),
        T(test_garbage_is_named),
        T(test_endless_frames),
        T(test_stops_at_once),
    };
    signal(SIGPIPE, SIG_IGN);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
