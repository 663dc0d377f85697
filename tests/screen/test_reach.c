// How large texts and targets come out: what must be read from where the worker stands, measured as
// drawn, at distances and on screens of sizes that shops have.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "opened.h"
#include "pen.h"
#include "views.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const int sizes[][2] = {{1920, 1080}, {1280, 720},  {1024, 600}, {1080, 1920},
                               {3840, 2160}, {1280, 1024}, {600, 1024}};

struct reach {
    int problems;
    int common;      // views whose words are not of the longest
    int full;        // of them hold the whole angle
    double least;    // minutes of arc of the smallest text of them that must be read
    double smallest; // millimetres of their smallest target
};

static double mm_per_pixel(const struct screen *screen) {
    return screen->diagonal_mm / hypot(screen->width, screen->height);
}

// Minutes of arc that `caps` pixels subtend.
static double angle_of(const struct screen *screen, int caps) {
    return atan(caps * mm_per_pixel(screen) / screen->distance_mm) * 180.0 / acos(-1.0) * 60.0;
}

static void look(struct screen *screen, const char *name, struct reach *reach) {
    double least = 1000.0;
    for (size_t i = 0; i < screen->text_count; i++) {
        if (screen->text[i].must) {
            least = fmin(least, angle_of(screen, screen->text[i].caps));
        }
    }
    if (least > 999.0) {
        fail_msg("%s has nothing that must be read", name);
    }
    reach->common++;
    reach->full += least >= SCREEN_ANGLE ? 1 : 0;
    reach->least = fmin(reach->least, least);
    if (screen->body == VIEW_SELFCHECK) {
        return; // for whoever looks after the machine: on a small screen its rows need the room
    }
    for (size_t i = 0; i < screen->hit_count; i++) {
        double side = fmin(screen->hit[i].box.w, screen->hit[i].box.h) * mm_per_pixel(screen);
        reach->smallest = fmin(reach->smallest, side);
    }
}

static struct reach reach_of(struct screen_options options) {
    static struct view view;
    struct reach reach = {.least = 1000.0, .smallest = 1000.0};
    struct screen *screen = opened_screen(options);
    char problems[4096];
    size_t count;
    const struct fixture *fixtures = views_all(&count);
    for (size_t i = 0; i < count; i++) {
        fixtures[i].fill(&view);
        if (seated_view(view.body)) {
            continue;
        }
        lay_out(screen, &view);
        if (screen_problems(screen, problems, sizeof problems) != 0) {
            print_error("%s at %dx%d, %d mm: %s\n", fixtures[i].name, screen->width, screen->height,
                        screen->distance_mm, problems);
            reach.problems++;
        }
        // A lesson stands over the view that it is about, and is read from close by.
        if (fixtures[i].use != FIXTURE_LONGEST && view.lesson.title[0] == '\0') {
            look(screen, fixtures[i].name, &reach);
        }
    }
    screen_close(screen);
    return reach;
}

// What a view cannot hold at this distance it holds up to the reach of the screen.
static void holds(struct screen_options options, double target) {
    int far = screen_reach_mm(options.width, options.height, options.diagonal_mm);
    struct reach reach = reach_of(options);
    double wanted = fmin(SCREEN_ANGLE, (double)SCREEN_ANGLE * far / options.distance_mm);
    print_message("%4dx%-4d %4.1f in at %.1f m, good for %.2f: %d of %d views hold %d', least "
                  "%.1f', targets %.1f mm\n",
                  options.width, options.height, options.diagonal_mm / 25.4,
                  options.distance_mm / 1000.0, far / 1000.0, reach.full, reach.common,
                  SCREEN_ANGLE, reach.least, reach.smallest);
    assert_int_equal(reach.problems, 0);
    assert_true(reach.least >= 0.95 * wanted); // a pixel is a pixel
    assert_true(reach.smallest >= target);
}

static void reads_from_afar(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        for (int distance = 1000; distance <= 3000; distance += 1000) {
            holds((struct screen_options){.width = sizes[i][0],
                                          .height = sizes[i][1],
                                          .distance_mm = distance,
                                          .diagonal_mm = 610},
                  distance < 3000 ? 22.0 : 20.0);
        }
    }
}

// A small screen cannot give every target 22 mm; it gives 15. A large one reads from further off.
static void knows_the_size_of_the_screen(void **state) {
    static const struct {
        int width;
        int height;
        int diagonal_mm;
        int distance_mm;
        double target;
    } screens[] = {{1024, 600, 257, 600, 15.0},    {1024, 600, 257, 1000, 15.0},
                   {600, 1024, 257, 600, 15.0},    {1280, 800, 257, 800, 15.0},
                   {1920, 1080, 396, 1300, 15.0},  {1920, 1080, 813, 2700, 22.0},
                   {1920, 1080, 1092, 3000, 22.0}, {1920, 1080, 1651, 500, 22.0},
                   {1024, 600, 178, 3000, 6.5},    {600, 1024, 178, 500, 7.0}};
    (void)state;
    for (size_t i = 0; i < sizeof screens / sizeof screens[0]; i++) {
        holds((struct screen_options){.width = screens[i].width,
                                      .height = screens[i].height,
                                      .diagonal_mm = screens[i].diagonal_mm,
                                      .distance_mm = screens[i].distance_mm},
              screens[i].target);
    }
}

// 20 minutes of arc at 2 m are 2 x 2000 x tan(10') = 11.64 mm, worked out by hand.
static void measures_angles(void **state) {
    struct screen *screen = opened_screen((struct screen_options){
        .width = 1280, .height = 720, .distance_mm = 2000, .diagonal_mm = 610});
    static struct view view;
    (void)state;
    views_fill("tip-cut", &view);
    lay_out(screen, &view);
    assert_true(fonts_caps(screen, FACE_BOLD, screen->must) * mm_per_pixel(screen) >= 11.64);
    assert_true(fonts_caps(screen, FACE_BOLD, screen->must - 1) * mm_per_pixel(screen) < 11.64);
    screen_close(screen);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(measures_angles),
        cmocka_unit_test(reads_from_afar),
        cmocka_unit_test(knows_the_size_of_the_screen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
