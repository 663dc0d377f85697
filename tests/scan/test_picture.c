// Picture files: what ImageMagick writes is the reference for PNG and JPEG, pgm(5) and yuv4mpeg(5)
// for the rest.

#include "check.h"
#include "picture.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#define WIDTH 37
#define HEIGHT 21

static char folder[64];
static char path[128];
static char error[PICTURE_TEXT_MAX];

static int set_up(void **state) {
    (void)state;
    strcpy(folder, "/tmp/kerfside-picture-XXXXXX");
    assert_non_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/a", folder);
    strcpy(error, "untouched");
    return 0;
}

static int tear_down(void **state) {
    char command[128];
    (void)state;
    snprintf(command, sizeof command, "rm -r %s", folder);
    return system(command);
}

static void write_bytes(const void *bytes, size_t size) {
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
}

static uint8_t grey_at(int x, int y) {
    return (uint8_t)((x * 7 + y * 11) % 256);
}

// The grey ramp above as a PGM file.
static void write_ramp(void) {
    uint8_t bytes[64 + WIDTH * HEIGHT];
    int size = sprintf((char *)bytes, "P5\n%d %d\n255\n", WIDTH, HEIGHT);
    for (int i = 0; i < WIDTH * HEIGHT; i++) {
        bytes[size++] = grey_at(i % WIDTH, i / WIDTH);
    }
    write_bytes(bytes, (size_t)size);
}

// Has ImageMagick make `path` of the ramp.
static void convert(const char *how) {
    char command[400];
    write_ramp();
    snprintf(command, sizeof command, "cd %s && convert PGM:a %s:b && mv b a", folder, how);
    assert_int_equal(system(command), 0);
}

static void expect_ramp(int off) {
    struct picture *picture = picture_open(path, error);
    struct frame frame;
    if (picture == NULL || picture_next(picture, &frame, error) != PICTURE_FRAME) {
        fail_msg("%s", error);
    }
    assert_int_equal(frame.width, WIDTH);
    assert_int_equal(frame.height, HEIGHT);
    assert_int_equal(frame.time_us, 0);
    for (int y = 0; y < HEIGHT; y++) {
        for (int x = 0; x < WIDTH; x++) {
            assert_in_range(frame.pixels[y * WIDTH + x] + off, grey_at(x, y),
                            grey_at(x, y) + 2 * off);
        }
    }
    free(frame.pixels);
    assert_int_equal(picture_next(picture, &frame, error), PICTURE_END);
    picture_close(picture);
}

static void every_kind_gives_the_same_picture(void **state) {
    static const struct {
        const char *how;
        int off;
    } kinds[] = {
        {"PNG", 0},
        {"-interlace PNG PNG", 0},
        {"-depth 16 PNG48", 1},
        {"-type TrueColor PNG24", 1},
        {"-type TrueColorAlpha PNG32", 1},
        {"-type Palette PNG8", 6}, // ImageMagick leaves out some greys
        {"PGM", 0},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(kinds); i++) {
        convert(kinds[i].how);
        expect_ramp(kinds[i].off);
    }
}

static void see_through_is_white(void **state) {
    struct picture *picture;
    struct frame frame;
    char command[200];
    (void)state;
    snprintf(command, sizeof command,
             "cd %s && convert -size 4x4 xc:none -fill black -draw 'point 1,1' PNG32:a", folder);
    assert_int_equal(system(command), 0);
    picture = picture_open(path, error);
    assert_non_null(picture);
    assert_int_equal(picture_next(picture, &frame, error), PICTURE_FRAME);
    for (int i = 0; i < 16; i++) {
        assert_int_equal(frame.pixels[i], i == 5 ? 0 : 255);
    }
    free(frame.pixels);
    picture_close(picture);
}

// A smooth ramp survives JPEG; ours jumps, so that only its flat copy is compared.
static void jpeg(void **state) {
    struct picture *picture;
    struct frame frame;
    char command[200];
    const char *const ways[] = {"", "-interlace JPEG", "-colorspace RGB -type TrueColor"};
    (void)state;
    for (size_t i = 0; i < COUNT(ways); i++) {
        snprintf(command, sizeof command, "cd %s && convert -size 40x24 xc:'gray(77)' %s JPG:a",
                 folder, ways[i]);
        assert_int_equal(system(command), 0);
        picture = picture_open(path, error);
        assert_non_null(picture);
        assert_int_equal(picture_next(picture, &frame, error), PICTURE_FRAME);
        assert_int_equal(frame.width, 40);
        assert_int_equal(frame.height, 24);
        for (int k = 0; k < 40 * 24; k++) {
            assert_in_range(frame.pixels[k], 76, 78);
        }
        free(frame.pixels);
        picture_close(picture);
    }
}

// A telephone's: larger than a frame, its left half dark.
static void a_large_jpeg_is_halved(void **state) {
    struct picture *picture;
    struct frame frame;
    char command[300];
    (void)state;
    snprintf(command, sizeof command,
             "cd %s && convert -size 2313x301 xc:'gray(40)' -size 2312x301 xc:'gray(200)' +append "
             "JPG:a",
             folder);
    assert_int_equal(system(command), 0);
    picture = picture_open(path, error);
    assert_non_null(picture);
    assert_int_equal(picture_next(picture, &frame, error), PICTURE_FRAME);
    assert_int_equal(frame.width, 2313);
    assert_int_equal(frame.height, 151);
    for (int y = 0; y < 151; y += 50) {
        for (int x = 0; x < 2313; x++) {
            int grey = frame.pixels[y * 2313 + x];
            assert_true(x < 1140 ? abs(grey - 40) < 3 : x < 1170 || abs(grey - 200) < 3);
        }
    }
    free(frame.pixels);
    picture_close(picture);
}

static void video(void **state) {
    static const struct {
        const char *colour;
        int more; // bytes behind the 4 x 2 grey ones
    } kinds[] = {{"Cmono", 0}, {"C420jpeg", 4}, {"C422", 8}, {"C444", 16}};
    (void)state;
    for (size_t i = 0; i < COUNT(kinds); i++) {
        uint8_t bytes[400];
        int size = sprintf((char *)bytes, "YUV4MPEG2 W4 H2 F25:1 %s\n", kinds[i].colour);
        for (int frame = 0; frame < 3; frame++) {
            size += sprintf((char *)bytes + size, "FRAME\n");
            memset(bytes + size, 10 * frame + 5, 8);
            memset(bytes + size + 8, 200, (size_t)kinds[i].more);
            size += 8 + kinds[i].more;
        }
        write_bytes(bytes, (size_t)size);
        struct picture *picture = picture_open(path, error);
        struct frame frame;
        assert_non_null(picture);
        for (int k = 0; k < 3; k++) {
            assert_int_equal(picture_next(picture, &frame, error), PICTURE_FRAME);
            assert_int_equal(frame.width, 4);
            assert_int_equal(frame.height, 2);
            assert_int_equal(frame.time_us, k * 40000);
            for (int dot = 0; dot < 8; dot++) {
                assert_int_equal(frame.pixels[dot], 10 * k + 5);
            }
            free(frame.pixels);
        }
        assert_int_equal(picture_next(picture, &frame, error), PICTURE_END);
        assert_int_equal(picture_next(picture, &frame, error), PICTURE_END);
        picture_close(picture);
    }
}

static void pgm_depths_are_stretched(void **state) {
    static const uint8_t bytes[] = "P5 # from an old camera\n#\n4\t1\n3\n\0\1\2\7";
    const uint8_t expected[] = {0, 85, 170, 255}; // 7 is above its own greatest value
    struct picture *picture;
    struct frame frame;
    (void)state;
    write_bytes(bytes, sizeof bytes - 1);
    picture = picture_open(path, error);
    assert_non_null(picture);
    assert_int_equal(picture_next(picture, &frame, error), PICTURE_FRAME);
    assert_memory_equal(frame.pixels, expected, 4);
    free(frame.pixels);
    picture_close(picture);
}

// Opens and reads to the end; the sentence of the first thing that is wrong.
static const char *fault(void) {
    struct picture *picture = picture_open(path, error);
    struct frame frame;
    enum picture_result result = PICTURE_FRAME;
    if (picture == NULL) {
        return error;
    }
    while (result == PICTURE_FRAME) {
        result = picture_next(picture, &frame, error);
        if (result == PICTURE_FRAME) {
            free(frame.pixels);
        }
    }
    if (result == PICTURE_BAD) {
        struct frame after;
        assert_int_equal(picture_next(picture, &after, error), PICTURE_END);
    }
    picture_close(picture);
    return result == PICTURE_END ? "none" : error;
}

static void bad_files_are_named(void **state) {
    static const struct {
        const char *bytes;
        size_t size;
        const char *fault;
    } files[] = {
#define FILE_OF(text) text, sizeof text - 1
        {FILE_OF(""), "it is empty"},
        {FILE_OF("GIF89a"), "it is neither PNG, JPEG, PGM (P5) nor Y4M"},
        {FILE_OF("P5"), "byte 2: its PGM header has no width, height or depth here"},
        {FILE_OF("P5\n4 x"), "byte 5: its PGM header has no width, height or depth here"},
        {FILE_OF("P5\n4 4\n255"), "byte 10: its PGM header has no width, height or depth here"},
        {FILE_OF("P5\n4 4\n65535\n"), "byte 12: it has more than 8 bits a pixel, or none"},
        {FILE_OF("P5\n4 4\n0\n"), "byte 8: it has more than 8 bits a pixel, or none"},
        {FILE_OF("P5\n4097 4\n255\n"), "byte 14: its size is not 1 to 4096 pixels a side"},
        {FILE_OF("P5\n4 0\n255\n"), "byte 11: its size is not 1 to 4096 pixels a side"},
        {FILE_OF("P5\n4 4\n255\n123456789012345"), "byte 26: it ends before its last row"},
        {FILE_OF("\xff\xd8\xff garbage"), "its JPEG header is damaged"},
        {FILE_OF("YUV4MPEG2 W4 H2\n"), "byte 16: it holds no frame"},
        {FILE_OF("YUV4MPEG2 W4 H2 Cmono\nFRAME\n1234567"),
         "byte 35: it ends in the middle of a frame"},
        {FILE_OF("YUV4MPEG2 W4 H2 Cmono\nFRAME\n12345678FRA"),
         "byte 39: it ends in the middle of a frame"},
        {FILE_OF("YUV4MPEG2 W4 H2 Cmono\nFRAME\n12345678junk"),
         "byte 37: a frame does not begin where it should"},
        {FILE_OF("YUV4MPEG2 W9999 H2\n"), "byte 19: its size is not 1 to 4096 pixels a side"},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(files); i++) {
        write_bytes(files[i].bytes, files[i].size);
        assert_string_equal(fault(), files[i].fault);
    }
}

static size_t read_whole(uint8_t *bytes, size_t most) {
    FILE *file = fopen(path, "rb");
    size_t size;
    assert_non_null(file);
    size = fread(bytes, 1, most, file);
    fclose(file);
    return size;
}

// Cut anywhere, a PNG or JPEG gives a sentence and no frame; with a byte changed anywhere, a
// sentence or a frame.
static void cut_and_damaged_anywhere(void **state) {
    static uint8_t whole[16384];
    static uint8_t damaged[16384];
    const char *const kinds[] = {"PNG", "JPG"};
    (void)state;
    for (size_t i = 0; i < COUNT(kinds); i++) {
        convert(kinds[i]);
        size_t size = read_whole(whole, sizeof whole);
        for (size_t cut = 0; cut < size - 2;
             cut++) { // without its last bytes a JPEG is still whole
            write_bytes(whole, cut);
            assert_string_not_equal(fault(), "none");
        }
        for (size_t at = 0; at < size; at++) {
            memcpy(damaged, whole, size);
            damaged[at] ^= 0x55;
            write_bytes(damaged, size);
            assert_true(strlen(fault()) > 0);
        }
    }
}

static void png_faults_say_where(void **state) {
    static uint8_t whole[16384];
    (void)state;
    convert("PNG");
    size_t size = read_whole(whole, sizeof whole);
    write_bytes(whole, size - 20);
    char expected[64];
    snprintf(expected, sizeof expected, "byte %zu: it ends too soon", size - 20);
    assert_string_equal(fault(), expected);
}

static void too_large_a_png_is_refused(void **state) {
    char command[200];
    (void)state;
    snprintf(command, sizeof command, "cd %s && convert -size 4097x2 xc:white PNG:a", folder);
    assert_int_equal(system(command), 0);
    assert_string_equal(strstr(fault(), "its size"), "its size is not 1 to 4096 pixels a side");
    snprintf(command, sizeof command, "cd %s && convert -size 2x8193 xc:white JPG:a", folder);
    assert_int_equal(system(command), 0);
    assert_string_equal(fault(), "its size is not 1 to 4096 pixels a side");
}

static void printers_colours_are_named(void **state) {
    char command[200];
    (void)state;
    snprintf(command, sizeof command,
             "cd %s && convert -size 40x24 xc:white -colorspace CMYK JPG:a", folder);
    assert_int_equal(system(command), 0);
    assert_string_equal(fault(), "it is a JPEG in printers' colours (CMYK)");
}

static void what_is_no_file(void **state) {
    (void)state;
    assert_string_equal(fault(), "No such file or directory");
    assert_int_equal(mkdir(path, 0700), 0);
    assert_string_equal(fault(), "Is a directory");
    strcpy(path, "/dev/zero");
    assert_string_equal(fault(), "it is neither PNG, JPEG, PGM (P5) nor Y4M");
}

static void an_endless_file_is_refused(void **state) {
    int file = open(path, O_WRONLY | O_CREAT, 0600);
    (void)state;
    assert_true(file >= 0);
    assert_int_equal(write(file, "P5\n4 4\n255\n", 11), 11);
    assert_int_equal(ftruncate(file, (off_t)PICTURE_BYTES_MAX + 1), 0);
    close(file);
    assert_string_equal(fault(), "it is larger than 64 MB");
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
        TEST(every_kind_gives_the_same_picture),
        TEST(see_through_is_white),
        TEST(jpeg),
        TEST(a_large_jpeg_is_halved),
        TEST(printers_colours_are_named),
        TEST(video),
        TEST(pgm_depths_are_stretched),
        TEST(bad_files_are_named),
        TEST(cut_and_damaged_anywhere),
        TEST(png_faults_say_where),
        TEST(too_large_a_png_is_refused),
        TEST(what_is_no_file),
        TEST(an_endless_file_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
