// What the bench makes of its camera and of what was read. Camera, reader and station are fakes:
// their functions are defined here, so the linker does not take the real ones.

#include "bench_camera.h"
#include "check.h"

#include <stdio.h>
#include <stdlib.h>

static struct bench_settings settings;
static struct bench bench;
static struct bench_camera camera;
static bool reader_starts;
static bool camera_starts;
static int running; // threads

static struct camera_event camera_event;
static bool camera_event_waits;
static struct reader_event reader_event;
static bool reader_event_waits;
static struct reader_sight sight;
static bool sight_waits;
static struct frame frame;
static int offered;

static char scanned[EVENT_TEXT_MAX];
static int scans;
static struct scan_report reported;
static int reports;
static int presence; // last told, -1: nothing was
static int presences;

struct camera *camera_init(const struct camera_options *options) {
    assert_string_equal(options->path, "/dev/v4l/by-id");
    assert_int_equal(options->width, 640);
    assert_int_equal(options->height, 480);
    return malloc(1);
}
bool camera_start(struct camera *c) {
    assert_non_null(c);
    running += camera_starts;
    return camera_starts;
}
void camera_stop(struct camera *c) {
    assert_non_null(c);
}
void camera_join(struct camera *c) {
    assert_non_null(c);
    running--;
}
void camera_destroy(struct camera *c) {
    free(c);
}
bool camera_next(struct camera *c, struct camera_event *ret_event) {
    bool waits = camera_event_waits;
    assert_non_null(c);
    *ret_event = camera_event;
    camera_event_waits = false;
    return waits;
}
bool camera_take(struct camera *c, struct frame *ret_frame) {
    bool waits = frame.pixels != NULL;
    assert_non_null(c);
    *ret_frame = frame;
    frame.pixels = NULL;
    return waits;
}
struct reader *reader_init(const struct reader_options *options) {
    assert_null(options->program);
    return malloc(1);
}
bool reader_start(struct reader *r) {
    assert_non_null(r);
    running += reader_starts;
    return reader_starts;
}
void reader_stop(struct reader *r) {
    assert_non_null(r);
}
void reader_join(struct reader *r) {
    assert_non_null(r);
    running--;
}
void reader_destroy(struct reader *r) {
    free(r);
}
void reader_offer(struct reader *r, const struct frame *f) {
    assert_non_null(r);
    assert_non_null(f->pixels);
    offered++;
}
bool reader_next(struct reader *r, struct reader_event *ret_event) {
    bool waits = reader_event_waits;
    assert_non_null(r);
    *ret_event = reader_event;
    reader_event_waits = false;
    return waits;
}
bool reader_sight(struct reader *r, struct reader_sight *ret_sight) {
    bool waits = sight_waits;
    assert_non_null(r);
    *ret_sight = sight;
    sight_waits = false;
    return waits;
}
void bench_event(struct bench *b, const struct event *event) {
    assert_ptr_equal(b, &bench);
    assert_int_equal(event->kind, EVENT_SCAN);
    snprintf(scanned, sizeof scanned, "%s", event->text);
    scans++;
}
void bench_device(struct bench *b, enum station_device device, bool present) {
    assert_ptr_equal(b, &bench);
    assert_int_equal(device, DEVICE_CAMERA);
    presence = present;
    presences++;
}
void screen_wake(struct screen *screen) {
    assert_null(screen);
}

void bench_report(struct bench *b, const struct scan_report *r) {
    assert_ptr_equal(b, &bench);
    reported = *r;
    reports++;
}

static int set_up(void **state) {
    (void)state;
    settings = (struct bench_settings){
        .camera = "/dev/v4l/by-id", .camera_width = 640, .camera_height = 480};
    bench = (struct bench){.settings = &settings, .station = {.state = STATION_READY}};
    reader_starts = camera_starts = true;
    camera_event_waits = reader_event_waits = sight_waits = false;
    running = offered = scans = reports = presences = 0;
    presence = -1;
    scanned[0] = '\0';
    assert_true(bench_camera_start(&camera, &bench));
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    bench_camera_stop(&camera);
    assert_int_equal(running, 0);
    return 0;
}

static void read_code(enum reader_kind kind, enum accept_verdict verdict, const char *text) {
    reader_event = (struct reader_event){.kind = kind, .verdict = verdict};
    snprintf(reader_event.code.text, sizeof reader_event.code.text, "%s", text);
    reader_event_waits = true;
    bench_camera_take(&camera);
}

static void see(int64_t time_us) {
    frame =
        (struct frame){.width = 640, .height = 480, .pixels = calloc(640, 480), .time_us = time_us};
    bench_camera_take(&camera);
}

static void test_none_is_set_up(void **state) {
    (void)state;
    struct view_preview view;
    tear_down(NULL);
    settings.camera[0] = '\0';
    assert_true(bench_camera_start(&camera, &bench));
    assert_int_equal(running, 0);
    bench_camera_take(&camera);
    assert_false(bench_camera_preview(&camera, &view));
}

static void test_cannot_start(void **state) {
    (void)state;
    tear_down(NULL);
    reader_starts = false;
    assert_false(bench_camera_start(&camera, &bench));
    reader_starts = true;
    camera_starts = false;
    assert_false(bench_camera_start(&camera, &bench));
    assert_int_equal(running, 0);
}

static void test_tickets_are_scans(void **state) {
    (void)state;
    static const enum station_state states[] = {STATION_SIGNED_OUT, STATION_READY, STATION_PAIR,
                                                STATION_TIP_CUT, STATION_HOLD};
    for (size_t i = 0; i < COUNT(states); i++) {
        bench.station.state = states[i];
        read_code(READER_CODE, ACCEPT_TICKET, "H-0001A");
        assert_int_equal(scans, i + 1);
        assert_string_equal(scanned, "H-0001A");
    }
}

// A box beside the saw stops no cut.
static void test_other_codes(void **state) {
    (void)state;
    struct ticket ticket;
    assert_true(ticket_make(TICKET_HEAD, "0001", &ticket));
    read_code(READER_CODE, ACCEPT_MODEL, "2000000000008");
    assert_int_equal(scans, 1);
    read_code(READER_UNREADABLE, ACCEPT_FOREIGN, "http://example.org");
    assert_int_equal(scans, 2);
    assert_string_equal(scanned, "http://example.org");
    read_code(READER_UNREADABLE, ACCEPT_FOREIGN, ticket.text); // however it came to be refused
    assert_int_equal(scans, 2);
    bench.station.state = STATION_TIP_CUT;
    read_code(READER_CODE, ACCEPT_MODEL, "2000000000008");
    read_code(READER_UNREADABLE, ACCEPT_DAMAGED, "H-0001A");
    assert_int_equal(scans, 2);
}

// A scanner check is told of everything, and nothing is hidden from it.
static void test_check(void **state) {
    (void)state;
    bench.station.state = STATION_CHECK;
    read_code(READER_CODE, ACCEPT_TICKET, "H-0001A");
    assert_int_equal(scans, 1);
    assert_int_equal(reports, 1);
    assert_string_equal(reported.source, "Camera");
    assert_string_equal(reported.text, "H-0001A");
    assert_int_equal(reported.verdict, REPORT_GOOD);
    read_code(READER_UNREADABLE, ACCEPT_FOREIGN, "H-0001A"); // in some other symbology
    assert_int_equal(scans, 2);
    assert_int_equal(reports, 2);
    assert_int_equal(reported.verdict, REPORT_BAD);
    read_code(READER_GONE, ACCEPT_TICKET, "");
    assert_int_equal(reports, 2);
    // The card that opens the check is told of too: it is open by then.
    bench.station.state = STATION_READY;
    read_code(READER_CODE, ACCEPT_TICKET, REPORT_CARD);
    assert_int_equal(reports, 3);
}

static void camera_says(enum camera_kind kind) {
    camera_event = (struct camera_event){.kind = kind, .text = "test"};
    camera_event_waits = true;
    bench_camera_take(&camera);
}

// One device to the station: there when both are.
static void test_presence(void **state) {
    (void)state;
    struct view_preview view;
    see(1000000);
    assert_true(bench_camera_preview(&camera, &view));
    camera_says(CAMERA_GONE);
    assert_int_equal(presence, false);
    assert_false(bench_camera_preview(&camera, &view)); // no picture of before
    read_code(READER_GONE, ACCEPT_TICKET, "");
    camera_says(CAMERA_BACK);
    assert_int_equal(presences, 1);
    read_code(READER_BACK, ACCEPT_TICKET, "");
    assert_int_equal(presence, true);
    assert_int_equal(presences, 2);
    assert_int_equal(scans, 0);
}

static void test_pictures(void **state) {
    (void)state;
    struct view_preview view;
    see(1000000);
    assert_true(bench.dirty);
    assert_true(bench_camera_preview(&camera, &view));
    assert_int_equal(view.width, 320);
    assert_int_equal(view.height, 240);
    bench.dirty = false;
    see(1099000); // read, but not drawn so soon
    assert_int_equal(offered, 2);
    assert_false(bench.dirty);
    see(1100000);
    assert_true(bench.dirty);
    bench.dirty = false;
    bench.station.state = STATION_TIP_CUT; // where it is not shown
    see(1300000);
    assert_int_equal(offered, 4);
    assert_false(bench.dirty);
}

static void test_outline(void **state) {
    (void)state;
    struct view_preview view;
    see(1000000);
    sight = (struct reader_sight){.time_us = 1000000, .width = 640, .height = 480, .count = 1};
    sight.code[0].corner[2] = (struct code_point){100, 60};
    sight_waits = true;
    bench_camera_take(&camera);
    assert_true(bench_camera_preview(&camera, &view));
    assert_true(view.found);
    assert_true(view.corner[2].x == 50 && view.corner[2].y == 30);
    see(1700000);
    bench_camera_preview(&camera, &view);
    assert_true(view.found);
    sight.count = 0; // nothing in this one
    sight_waits = true;
    see(1801000);
    bench_camera_preview(&camera, &view);
    assert_false(view.found);
}

int main(void) {
#define T(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        T(test_none_is_set_up), T(test_cannot_start), T(test_tickets_are_scans), T(test_check),
        T(test_other_codes),    T(test_presence),     T(test_pictures),          T(test_outline),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
