// Which codes count, frame by frame. The check characters are checked in test_ticket;
// the check digits are GS1's (General Specifications 7.9), in the range for use within a company.

#include "accept.h"
#include "check.h"

#include <stdio.h>

static struct accept accept;

static int set_up(void **state) {
    (void)state;
    accept_init(&accept);
    return 0;
}

static struct code code(enum code_symbology symbology, const char *text, int quality) {
    struct code made = {.symbology = symbology, .quality = quality};
    snprintf(made.text, sizeof made.text, "%s", text);
    return made;
}

static enum accept_news take(enum code_symbology symbology, const char *text, int quality,
                             int64_t time_ms) {
    struct code seen = code(symbology, text, quality);
    return accept_take(&accept, &seen, time_ms * 1000);
}

static void verdicts(void **state) {
    static const struct {
        enum code_symbology symbology;
        const char *text;
        enum accept_verdict verdict;
    } rows[] = {
        {CODE_128, "H-0001A", ACCEPT_TICKET},
        {CODE_QR, "H-0001A", ACCEPT_TICKET},
        {CODE_128, "S-0001S", ACCEPT_TICKET},
        {CODE_128, "W-0001B", ACCEPT_TICKET},
        {CODE_128, "H-0001B", ACCEPT_DAMAGED},
        {CODE_128, "H-0010A", ACCEPT_DAMAGED},
        {CODE_QR, "S-0001A", ACCEPT_DAMAGED},
        {CODE_128, "h-0001a", ACCEPT_FOREIGN}, // ours are printed in capitals
        {CODE_128, " H-0001A", ACCEPT_FOREIGN},
        {CODE_128, "H-0001A ", ACCEPT_FOREIGN},
        {CODE_128, "H-", ACCEPT_FOREIGN},
        {CODE_128, "H-0001A0001A0001A", ACCEPT_FOREIGN},
        {CODE_128, "X-0001A", ACCEPT_FOREIGN},
        {CODE_128, "https://example.org/H-0001A", ACCEPT_FOREIGN},
        {CODE_EAN13, "2123456789010", ACCEPT_MODEL},
        {CODE_EAN13, "0012345678905", ACCEPT_MODEL}, // a UPC-A as 13 digits
        {CODE_EAN13, "2123456789011", ACCEPT_FOREIGN},
        {CODE_EAN13, "12345670", ACCEPT_FOREIGN}, // a right GTIN-8, yet no EAN-13
        {CODE_EAN13, "H-0001A", ACCEPT_FOREIGN},
        {CODE_128, "2123456789010", ACCEPT_FOREIGN},
        {CODE_QR, "2123456789010", ACCEPT_FOREIGN},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        if (accept_judge(rows[i].symbology, rows[i].text) != rows[i].verdict) {
            fail_msg("row %zu: %s", i, rows[i].text);
        }
    }
}

// One frame after the other: what is seen, and what is made of it.
static void frames(void **state) {
    static const struct {
        const char *text;
        enum code_symbology symbology;
        int quality;
        int64_t time_ms;
        enum accept_news news;
    } rows[] = {
        // Enough lines in one frame.
        {"H-0001A", CODE_128, 3, 0, ACCEPT_NEW},
        {"H-0001A", CODE_128, 3, 40, ACCEPT_OLD},
        {"H-0001A", CODE_128, 1, 1539, ACCEPT_OLD},
        {"H-0001A", CODE_128, 3, 3038, ACCEPT_OLD}, // 1499 ms later
        {"H-0001A", CODE_128, 3, 4538, ACCEPT_NEW}, // 1500 ms later
        // Too few lines: a second frame within a second.
        {"S-0001S", CODE_128, 2, 5000, ACCEPT_WAIT},
        {"S-0001S", CODE_128, 2, 6000, ACCEPT_NEW},
        {"S-0001S", CODE_128, 2, 6040, ACCEPT_OLD},
        {"W-0001B", CODE_128, 2, 7000, ACCEPT_WAIT},
        {"W-0001B", CODE_128, 2, 8001, ACCEPT_WAIT},
        {"W-0001B", CODE_128, 1, 9001, ACCEPT_NEW},
        // A QR symbol: two readings of the frame.
        {"B-0001H", CODE_QR, 1, 10000, ACCEPT_WAIT},
        {"K-0001P", CODE_QR, 2, 10000, ACCEPT_NEW},
        // Bars and QR beside each other agree, and are one ticket.
        {"H-00028", CODE_128, 1, 11000, ACCEPT_WAIT},
        {"H-00028", CODE_QR, 1, 11000, ACCEPT_NEW},
        {"H-00028", CODE_128, 9, 11040, ACCEPT_OLD},
        // Whatever is no ticket is told of after two frames, however clear.
        {"H-0001B", CODE_128, 400, 12000, ACCEPT_WAIT},
        {"H-0001B", CODE_128, 400, 12040, ACCEPT_NEW},
        {"H-0001B", CODE_128, 400, 12080, ACCEPT_OLD},
        // Half a code, differently in each frame, is never told of.
        {"H-000", CODE_128, 9, 13000, ACCEPT_WAIT},
        {"H-0001", CODE_128, 9, 13040, ACCEPT_WAIT},
        {"0001B", CODE_128, 9, 13080, ACCEPT_WAIT},
        // A maker's code.
        {"2123456789010", CODE_EAN13, 3, 14000, ACCEPT_NEW},
        {"0012345678905", CODE_EAN13, 2, 14000, ACCEPT_WAIT},
        {"0012345678905", CODE_EAN13, 2, 14100, ACCEPT_NEW},
        // The same digits as text of a QR symbol are something else.
        {"2123456789010", CODE_QR, 9, 14100, ACCEPT_WAIT},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        if (take(rows[i].symbology, rows[i].text, rows[i].quality, rows[i].time_ms) !=
            rows[i].news) {
            fail_msg("row %zu: %s at %d ms", i, rows[i].text, (int)rows[i].time_ms);
        }
    }
}

// Two misreads that differ never make a part; the second sight of one must be of the same text.
static void only_the_same_text_agrees(void **state) {
    (void)state;
    assert_int_equal(take(CODE_128, "H-0001A", 2, 0), ACCEPT_WAIT);
    assert_int_equal(take(CODE_128, "S-0001S", 2, 10), ACCEPT_WAIT);
    assert_int_equal(take(CODE_128, "H-0001A", 2, 20), ACCEPT_NEW);
}

static int readings(const char *text) {
    struct code seen = code(CODE_128, text, 1);
    return accept_readings(&accept, &seen);
}

static void tells_how_many_readings_agreed(void **state) {
    (void)state;
    assert_int_equal(readings("H-0001A"), 0);
    take(CODE_128, "H-0001A", 2, 0);
    assert_int_equal(readings("H-0001A"), 0);
    take(CODE_128, "H-0001A", 2, 1001); // too late to agree
    take(CODE_128, "H-0001A", 2, 1040);
    assert_int_equal(readings("H-0001A"), 2);
    take(CODE_128, "H-0001A", 9, 1080);
    assert_int_equal(readings("H-0001A"), 2);
    take(CODE_128, "H-0001A", 3, 9000);
    assert_int_equal(readings("H-0001A"), 1);
}

// A crowd of other codes pushes out what was seen longest ago, and nothing newer.
static void the_longest_unseen_is_forgotten(void **state) {
    char text[16];
    (void)state;
    assert_int_equal(take(CODE_128, "H-0001A", 3, 0), ACCEPT_NEW);
    assert_int_equal(take(CODE_128, "S-0001S", 3, 1), ACCEPT_NEW);
    for (int i = 0; i < ACCEPT_SEEN_MAX - 2; i++) {
        snprintf(text, sizeof text, "parcel %d", i);
        take(CODE_QR, text, 1, 2 + i);
    }
    assert_int_equal(take(CODE_128, "H-0001A", 3, 50), ACCEPT_OLD);
    take(CODE_QR, "one more", 1, 51); // in the place of S-0001S
    assert_int_equal(take(CODE_128, "H-0001A", 3, 52), ACCEPT_OLD);
    assert_int_equal(take(CODE_128, "S-0001S", 3, 53), ACCEPT_NEW);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(verdicts),
        cmocka_unit_test_setup(frames, set_up),
        cmocka_unit_test_setup(only_the_same_text_agrees, set_up),
        cmocka_unit_test_setup(tells_how_many_readings_agreed, set_up),
        cmocka_unit_test_setup(the_longest_unseen_is_forgotten, set_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
