// `kerfside read` on made-up pictures, by the real program and its real child.

#include "run.h"

#include "scene.h"

#include <stdio.h>
#include <stdlib.h>

static struct scratch scratch;
static struct ran ran;

static int set_up(void **state) {
    (void)state;
    scratch_init(&scratch);
    return 0;
}

static int release(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static struct frame draw(enum scene_symbol symbol, const char *text, double blur) {
    struct scene scene = SCENE_DEFAULT;
    struct frame frame;
    scene.width = 480;
    scene.height = 270;
    scene.seed = 3;
    scene.noise = 3;
    scene.blur = blur;
    scene.symbol = symbol;
    scene.module = symbol == SCENE_QR ? 4 : 2.5;
    snprintf(scene.text, sizeof scene.text, "%s", text);
    assert_true(scene_draw(&scene, &frame, NULL));
    return frame;
}

static void write_pgm(const char *name, enum scene_symbol symbol, const char *text) {
    struct frame frame = draw(symbol, text, 0.5);
    FILE *file = fopen(scratch_path(&scratch, name), "wb");
    assert_non_null(file);
    fprintf(file, "P5\n%d %d\n255\n", frame.width, frame.height);
    fwrite(frame.pixels, 1, (size_t)frame.width * (size_t)frame.height, file);
    assert_int_equal(fclose(file), 0);
    free(frame.pixels);
}

// A video of 25 frames a second, a frame for each text; an empty one shows a blank label.
static void write_y4m(const char *name, const char *const *texts, size_t count) {
    FILE *file = fopen(scratch_path(&scratch, name), "wb");
    assert_non_null(file);
    fprintf(file, "YUV4MPEG2 W480 H270 F25:1 Cmono\n");
    for (size_t i = 0; i < count; i++) {
        struct frame frame =
            draw(texts[i][0] == '\0' ? SCENE_NOTHING : SCENE_CODE128, texts[i], 0.5);
        fprintf(file, "FRAME\n");
        fwrite(frame.pixels, 1, (size_t)frame.width * (size_t)frame.height, file);
        free(frame.pixels);
    }
    assert_int_equal(fclose(file), 0);
}

static void one_line_a_code(void **state) {
    (void)state;
    write_pgm("head.pgm", SCENE_CODE128, "H-0001A");
    write_pgm("shaft.pgm", SCENE_QR, "S-0001S");
    write_pgm("box.pgm", SCENE_EAN13, "2123456789010"); // prefix 21: for use within a company
    run(&scratch, &ran, "read head.pgm shaft.pgm box.pgm");
    assert_string_equal(ran.err, "");
    assert_string_equal(ran.out, "head.pgm\tCode 128\tH-0001A\n"
                                 "shaft.pgm\tQR\tS-0001S\n"
                                 "box.pgm\tEAN-13\t2123456789010\n");
    assert_int_equal(ran.status, 0);
}

static void what_does_not_count_is_told_on_request_only(void **state) {
    (void)state;
    write_pgm("bad.pgm", SCENE_CODE128, "H-0001B");
    write_pgm("other.pgm", SCENE_QR, "2123456789010");
    write_pgm("blank.pgm", SCENE_NOTHING, "");
    write_pgm("head.pgm", SCENE_CODE128, "H-0001A");
    run(&scratch, &ran, "read bad.pgm other.pgm blank.pgm head.pgm");
    assert_string_equal(ran.out, "head.pgm\tCode 128\tH-0001A\n");
    assert_string_equal(ran.err, "kerfside read: bad.pgm: no code that counts. See --raw.\n"
                                 "kerfside read: other.pgm: no code that counts. See --raw.\n"
                                 "kerfside read: blank.pgm: no code that counts. See --raw.\n");
    assert_int_equal(ran.status, 1);
    run(&scratch, &ran, "read --raw bad.pgm other.pgm blank.pgm head.pgm");
    assert_string_equal(ran.out, "bad.pgm\tCode 128\tH-0001B\tanother check character\n"
                                 "other.pgm\tQR\t2123456789010\tno ticket and no maker's code\n"
                                 "head.pgm\tCode 128\tH-0001A\tcounts\n");
    assert_int_equal(ran.status, 1);
}

static void a_video_says_a_code_once(void **state) {
    const char *texts[60] = {0};
    (void)state;
    for (size_t i = 0; i < 60; i++) {
        texts[i] = i >= 10 && i < 50 ? "" : "H-0001A"; // away for 40 frames, 1.6 s
    }
    texts[30] = "S-0001S";
    write_y4m("shift.y4m", texts, 60);
    run(&scratch, &ran, "read shift.y4m");
    assert_string_equal(ran.out, "shift.y4m\tCode 128\tH-0001A\n"
                                 "shift.y4m\tCode 128\tS-0001S\n"
                                 "shift.y4m\tCode 128\tH-0001A\n");
    assert_int_equal(ran.status, 0);
}

static void the_same_file_twice_is_two_pictures(void **state) {
    (void)state;
    write_pgm("head.pgm", SCENE_CODE128, "H-0001A");
    run(&scratch, &ran, "read head.pgm head.pgm");
    assert_string_equal(ran.out, "head.pgm\tCode 128\tH-0001A\nhead.pgm\tCode 128\tH-0001A\n");
    assert_int_equal(ran.status, 0);
}

static void what_is_wrong_with_a_file_is_said(void **state) {
    const char *texts[] = {"H-0001A", "H-0001A"};
    (void)state;
    write_pgm("head.pgm", SCENE_CODE128, "H-0001A");
    write_y4m("cut.y4m", texts, 2);
    scratch_write(&scratch, "notes.txt", "not a picture\n");
    run(&scratch, &ran, "read head.pgm; truncate -s 100 head.pgm; truncate -s -1 cut.y4m");
    assert_int_equal(ran.status, 0);
    run(&scratch, &ran, "read head.pgm cut.y4m notes.txt none.png");
    assert_string_equal(
        ran.err,
        "kerfside read: head.pgm: byte 100: it ends before its last row. Take or copy the "
        "picture again.\n"
        "kerfside read: cut.y4m: byte 259243: it ends in the middle of a frame. Take or copy the "
        "picture again.\n"
        "kerfside read: notes.txt: it is neither PNG, JPEG, PGM (P5) nor Y4M. Give a PNG, JPEG, "
        "PGM or Y4M file.\n"
        "kerfside read: none.png: No such file or directory. Give a PNG, JPEG, PGM or Y4M "
        "file.\n");
    assert_string_equal(ran.out, "cut.y4m\tCode 128\tH-0001A\n"); // of its whole frame
    assert_int_equal(ran.status, 1);
}

static void usage(void **state) {
    (void)state;
    run(&scratch, &ran, "read");
    assert_int_equal(ran.status, 2);
    run(&scratch, &ran, "read --quick a.png");
    assert_int_equal(ran.status, 2);
    run(&scratch, &ran, "read --help");
    assert_int_equal(ran.status, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(one_line_a_code, set_up, release),
        cmocka_unit_test_setup_teardown(what_does_not_count_is_told_on_request_only, set_up,
                                        release),
        cmocka_unit_test_setup_teardown(a_video_says_a_code_once, set_up, release),
        cmocka_unit_test_setup_teardown(the_same_file_twice_is_two_pictures, set_up, release),
        cmocka_unit_test_setup_teardown(what_is_wrong_with_a_file_is_said, set_up, release),
        cmocka_unit_test_setup_teardown(usage, set_up, release),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
