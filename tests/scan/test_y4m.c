// Against yuv4mpeg(5) of mjpegtools 2.1.0, whose ppmtoy4m wrote the headers marked so. Sizes of
// colour planes for odd widths and heights round up: common practice, the page does not say.

#include "check.h"
#include "y4m.h"

#include <stdio.h>
#include <stdlib.h>

static uint8_t stream[1 << 16];
static size_t length;

static void put(const char *text) {
    memcpy(stream + length, text, strlen(text));
    length += strlen(text);
}

static void fill(int byte, size_t count) {
    memset(stream + length, byte, count);
    length += count;
}

// Feeds at most `piece` bytes at a time; the number of frames, whose shades are added up.
static int frames_of(struct y4m *y, size_t piece, int64_t *ret_shades) {
    int frames = 0;
    *ret_shades = 0;
    y4m_init(y);
    for (size_t at = 0; at < length;) {
        size_t size = length - at < piece ? length - at : piece;
        size_t used;
        enum y4m_step step = y4m_feed(y, stream + at, size, &used);
        assert_true(used <= size);
        at += used;
        if (step == Y4M_FAULT) {
            break;
        }
        if (step == Y4M_FRAME) {
            uint8_t *pixels = y4m_take_pixels(y);
            for (int i = 0; i < y->width * y->height; i++) {
                *ret_shades += pixels[i];
            }
            free(pixels);
            frames++;
        } else {
            assert_int_equal(used, size);
        }
    }
    y4m_release(y);
    return frames;
}

static void test_formats(void **state) {
    (void)state;
    static const struct {
        const char *header;
        int width;
        int height;
        int colour;
        int64_t interval_us;
    } rows[] = {
        {"W50 H32 F30000:1001 Ip A1:1 C420jpeg", 50, 32, 800, 33366}, // ppmtoy4m
        {"W50 H32 F30000:1001 Ip A1:1 C444", 50, 32, 3200, 33366},    // ppmtoy4m
        {"W50 H32", 50, 32, 800, 0},                                  // 4:2:0 is the default
        {"W50 H32 F0:0 A0:0 I?", 50, 32, 800, 0},
        {"C420mpeg2 H32 W50 F25:1", 50, 32, 800, 40000}, // in any order
        {"W50 H32 C420paldv", 50, 32, 800, 0},
        {"W50 H32 C420", 50, 32, 800, 0},
        {"W48 H32 C411", 48, 32, 768, 0},
        {"W50 H32 C422", 50, 32, 1600, 0},
        {"W50 H32 C444alpha", 50, 32, 4800, 0},
        {"W50 H32 Cmono", 50, 32, 0, 0},
        {"W7 H5 C420jpeg", 7, 5, 24, 0},
        {"W7 H5 C422", 7, 5, 40, 0},
        {"W7 H5 C411", 7, 5, 20, 0},
        {"W1 H1 Cmono F1000000:1 XYSCSS=420JPEG Xanything", 1, 1, 0, 1},
        {"W2 H1 F1:3600", 2, 1, 2, 10000000},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct y4m y;
        int64_t shades;
        size_t area = (size_t)(rows[i].width * rows[i].height);
        length = 0;
        put("YUV4MPEG2 ");
        put(rows[i].header);
        put("\nFRAME\n");
        fill(100, area);
        fill(200, (size_t)rows[i].colour);
        put("FRAME Ixyz Xthings\n");
        fill(50, area);
        fill(200, (size_t)rows[i].colour);
        for (size_t piece = 1; piece < 4000; piece = 3 * piece + 1) { // cut anywhere
            assert_int_equal(frames_of(&y, piece, &shades), 2);
            assert_int_equal(shades, 150 * area);
            assert_int_equal(y.width, rows[i].width);
            assert_int_equal(y.height, rows[i].height);
            assert_int_equal(y.interval_us, rows[i].interval_us);
        }
        length--; // the last byte of the second frame
        assert_int_equal(frames_of(&y, 1000, &shades), 1);
    }
}

static void test_faults(void **state) {
    (void)state;
    static const struct {
        const char *start;
        const char *fault;
    } rows[] = {
        {"X", "it is no Y4M video"},
        {"YUV4MPEG W2 H2\n", "it is no Y4M video"},
        {"YUV4MPEG2\n", "its size is not"},
        {"YUV4MPEG2W2 H2\n", "it is no Y4M video"},
        {"YUV4MPEG2 W2\n", "its size is not"},
        {"YUV4MPEG2 W0 H2\n", "its size is not"},
        {"YUV4MPEG2 W2 H-2\n", "its size is not"},
        {"YUV4MPEG2 W4097 H2\n", "its size is not"},
        {"YUV4MPEG2 W2 H4097\n", "its size is not"},
        {"YUV4MPEG2 W99999999999999999999 H2\n", "its size is not"},
        {"YUV4MPEG2 W2x H2\n", "its size is not"},
        {"YUV4MPEG2 W2 H2 F25\n", "its frame rate is no fraction"},
        {"YUV4MPEG2 W2 H2 F25:0\n", "its frame rate is no fraction"},
        {"YUV4MPEG2 W2 H2 F25:1x\n", "its frame rate is no fraction"},
        {"YUV4MPEG2 W2 H2 C420p10\n", "it has a colour format other than"},
        {"YUV4MPEG2 W2 H2 C\n", "it has a colour format other than"},
        {"YUV4MPEG2 W2 H2 Cmono\nFRAMED\n", "a frame does not begin where it should"},
        {"YUV4MPEG2 W2 H2 Cmono\nFRAME\n12345", "a frame does not begin where it should"},
        {"YUV4MPEG2 W2 H2 Cmono\nFRAME\n1234\n", "a frame does not begin where it should"},
        {"YUV4MPEG2 W2 H2 Cmono\nFRA\n", "a frame does not begin where it should"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct y4m y;
        int64_t shades;
        size_t used;
        length = 0;
        put(rows[i].start);
        frames_of(&y, 3, &shades);
        assert_int_equal(y.state, Y4M_WRONG);
        if (strstr(y.fault, rows[i].fault) != y.fault) {
            fail_msg("%s: %s", rows[i].start, y.fault);
        }
        assert_int_equal(y4m_feed(&y, stream, 1, &used), Y4M_FAULT); // and stays so
        assert_int_equal(used, 0);
    }
}

static void test_endless_lines(void **state) {
    (void)state;
    static const char *const starts[] = {"YUV4MPEG2 W2 H2 X", "YUV4MPEG2 W2 H2\nFRAME X"};
    struct y4m y;
    int64_t shades;
    for (size_t i = 0; i < COUNT(starts); i++) {
        length = 0;
        put(starts[i]);
        fill('a', 50000);
        frames_of(&y, 100, &shades);
        assert_int_equal(y.state, Y4M_WRONG);
        assert_string_equal(y.fault, "a line of its header is too long or no text");
        length = 0;
        put(starts[i]);
        fill(0, 1);
        put("\n");
        frames_of(&y, 100, &shades);
        assert_string_equal(y.fault, "a line of its header is too long or no text");
    }
    // The longest that is taken.
    length = 0;
    put("YUV4MPEG2 W1 H1 Cmono X");
    fill('a', Y4M_LINE_MAX - 1 - length);
    put("\nFRAME\n*");
    assert_int_equal(frames_of(&y, 100, &shades), 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_formats),
        cmocka_unit_test(test_faults),
        cmocka_unit_test(test_endless_lines),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
