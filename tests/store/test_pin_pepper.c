// The key file of the PINs, with the real Argon2id: known answers, files that are refused, PINs
// made anew, and how long a look takes.

#include "fixture.h"
#include "pin_hash.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define PIN "271828"
#define KEY "000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f"

#define ENCODED                                                                                    \
    "$argon2id$v=19$m=65536,t=3,p=1$a2VyZnNpZGVzYWx0MTIzNA$"                                       \
    "gancII/jjl5IQyZT1JbXXlQraMnqHUALQziOsoUdPBc"

static struct fixture fixture;

static int opened(void **state) {
    (void)state;
    fixture_open(&fixture);
    return 0;
}

static int closed(void **state) {
    (void)state;
    fixture_close(&fixture);
    return 0;
}

static const char *beside(const char *name) {
    static char path[160];
    snprintf(path, sizeof path, "%s/%s", fixture.folder, name);
    return path;
}

static const char *key_file(const char *name, const char *text, mode_t mode) {
    const char *path = beside(name);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
    assert_int_equal(chmod(path, mode), 0);
    return path;
}

static enum pin_result try_pin(const char *pin) {
    int wait = 0;
    return store_pin_check(fixture.store, SUPERVISOR, pin, &wait);
}

static int64_t peppered(void) {
    return fixture_number(fixture.store->db, "SELECT count(*) FROM pin WHERE pepper <> ''");
}

static enum pin_result look(const char *pin, const char *text, const char *pepper) {
    struct pin_hash hash = {0};
    strcpy(hash.text, text);
    strcpy(hash.pepper, pepper);
    return pin_hash_look(fixture.store, SUPERVISOR, pin, &hash);
}

// BLAKE2b (RFC 7693) by Python 3.11's hashlib, Argon2id by Debian's command argon2 (0~20171227):
//   hashlib.blake2b(b'kerfside/pin/1\0W-2H\0' + b'271828', key=bytes(range(32)), digest_size=32)
//   hashlib.blake2b(b'kerfside/pepper/1\0', key=bytes(range(32)), digest_size=32), first 8 bytes
//   echo -n <the first> | argon2 kerfsidesalt1234 -id -t 3 -m 16 -p 1 -e
static void agrees_with_other_programs(void **state) {
    char mixed[PIN_PEPPER_MIXED_MAX];
    (void)state;
    assert_int_equal(store_set_pepper(fixture.store, key_file("key", KEY "\n", 0400)), STORE_OK);
    pin_pepper_mix(fixture.store, SUPERVISOR, PIN, mixed);
    assert_string_equal(mixed, "947c1b08253c90179c2f6c63b328db95e10199cd00b5651bce989e9f55fb69a7");
    assert_string_equal(pin_pepper_id(fixture.store), "6d99141df908395a");
    assert_int_equal(look(PIN, ENCODED, "6d99141df908395a"), PIN_RIGHT);
    assert_int_equal(look("271829", ENCODED, "6d99141df908395a"), PIN_WRONG);
}

// Published by others: echo -n password | argon2 somesalt -id -t 2 -m 16 -p 1 -l 32, and -k 19456
// (argon2's own test.c has the first with 64 MiB, version 0x13).
static void knows_published_hashes(void **state) {
    static const char *const hashes[] = {
        "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
        "$argon2id$v=19$m=19456,t=2,p=1$c29tZXNhbHQ$PL01amPyeUuxG7H0vIr5X+qHkZvWnHmGBGXFYvh8z2E"};
    (void)state;
    for (size_t i = 0; i < COUNT(hashes); i++) {
        struct pin_hash hash = {0};
        strcpy(hash.text, hashes[i]);
        assert_int_equal(look("password", hashes[i], ""), PIN_RIGHT);
        assert_int_equal(look("passwore", hashes[i], ""), PIN_WRONG);
        assert_true(pin_hash_old(fixture.store, &hash)); // cheaper than ours
    }
}

// What is made is RFC 9106's second recommendation, but for the lanes: t = 3, 64 MiB, 128 bits of
// salt, 256 bits of tag (22 and 43 digits of base64).
static void makes_what_the_rfc_recommends(void **state) {
    struct pin_hash a, b;
    (void)state;
    assert_true(pin_hash_make(fixture.store, SUPERVISOR, PIN, &a));
    assert_true(pin_hash_make(fixture.store, SUPERVISOR, PIN, &b));
    assert_memory_equal(a.text, "$argon2id$v=19$m=65536,t=3,p=1$", 31);
    assert_int_equal(strcspn(a.text + 31, "$"), 22);
    assert_int_equal(strlen(a.text + 31 + 23), 43);
    assert_string_not_equal(a.text, b.text);
    assert_false(pin_hash_old(fixture.store, &a));
}

static void makes_pins_anew(void **state) {
    char key[160];
    struct pin_hash hash = {0};
    (void)state;
    assert_int_equal(store_pin_set(fixture.store, SUPERVISOR, PIN), STORE_OK);
    assert_int_equal(peppered(), 0);
    strcpy(key, key_file("key", KEY "\n", 0400));
    assert_int_equal(store_set_pepper(fixture.store, key), STORE_OK);
    assert_int_equal(try_pin("271829"), PIN_WRONG);
    assert_int_equal(peppered(), 0);
    assert_int_equal(try_pin(PIN), PIN_RIGHT);
    assert_int_equal(peppered(), 1);
    assert_int_equal(try_pin(PIN), PIN_RIGHT);
    assert_int_equal(try_pin("271829"), PIN_WRONG);
    assert_int_equal(store_reopen(fixture.store), STORE_OK);
    assert_int_equal(try_pin(PIN), PIN_RIGHT); // the key is kept
    // The hash of one badge is no good for another.
    assert_true(pin_hash_make(fixture.store, SUPERVISOR, PIN, &hash));
    assert_int_equal(pin_hash_look(fixture.store, SUPERVISOR, PIN, &hash), PIN_RIGHT);
    assert_int_equal(pin_hash_look(fixture.store, "W-30", PIN, &hash), PIN_WRONG);
    // An older kind of hash is made anew too.
    fixture_exec(fixture.store->db,
                 "UPDATE pin SET pepper = '', hash = '$argon2id$v=19$m=19456,t=2,p=1$c29tZXNhbHQ$"
                 "PL01amPyeUuxG7H0vIr5X+qHkZvWnHmGBGXFYvh8z2E'");
    assert_int_equal(try_pin("password"), PIN_RIGHT);
    assert_int_equal(fixture_number(fixture.store->db, "SELECT count(*) FROM pin WHERE hash GLOB "
                                                       "'*m=65536,t=3*' AND pepper <> ''"),
                     1);
    assert_int_equal(try_pin("password"), PIN_RIGHT);
}

// The database alone is no use: without the key file, or with another one, nothing is looked at.
static void refuses_without_its_key(void **state) {
    (void)state;
    assert_int_equal(store_set_pepper(fixture.store, key_file("key", KEY "\n", 0400)), STORE_OK);
    assert_int_equal(store_pin_set(fixture.store, SUPERVISOR, PIN), STORE_OK);
    fixture_restart(&fixture);
    assert_false(store_has_pepper(fixture.store));
    assert_int_equal(try_pin(PIN), PIN_NO_PEPPER);
    assert_non_null(strstr(store_message(fixture.store), "W-2H was made with a key file"));
    assert_int_equal(store_pin_set(fixture.store, SUPERVISOR, PIN), STORE_REFUSED);
    assert_int_equal(store_new_pepper(beside("other"), (char[160]){0}, 160), STORE_OK);
    assert_int_equal(store_set_pepper(fixture.store, beside("other")), STORE_OK);
    assert_int_equal(try_pin(PIN), PIN_NO_PEPPER);
    assert_non_null(strstr(store_message(fixture.store), "another key file"));
    assert_int_equal(
        fixture_number(fixture.store->db, "SELECT coalesce(sum(tries), 0) FROM pin_try"),
        0); // which are no tries
    assert_int_equal(store_pin_recover(fixture.store, SUPERVISOR, "314159"), STORE_OK);
    assert_int_equal(try_pin("314159"), PIN_RIGHT); // the way out when the file is lost
    assert_int_equal(store_set_pepper(fixture.store, beside("key")), STORE_OK);
    assert_int_equal(try_pin("314159"), PIN_NO_PEPPER);
}

static void refuses_bad_files(void **state) {
    static const struct {
        const char *text;
        mode_t mode;
        const char *words;
    } bad[] = {
        {"", 0400, "is no key file"},      {"00", 0400, "is no key file"},
        {KEY "0", 0400, "is no key file"}, {KEY "\n\n", 0400, "is no key file"},
        {"g" KEY, 0400, "is no key file"}, {KEY "\n", 0404, "chmod 400"},
        {KEY "\n", 0420, "chmod 400"},     {KEY "\n", 0402, "chmod 400"},
    };
    char message[200] = "";
    struct stat stat_of;
    (void)state;
    for (size_t i = 0; i < COUNT(bad); i++) {
        unlink(beside("key"));
        assert_int_equal(store_set_pepper(fixture.store, key_file("key", bad[i].text, bad[i].mode)),
                         STORE_REFUSED);
        assert_non_null(strstr(store_message(fixture.store), bad[i].words));
        assert_false(store_has_pepper(fixture.store));
    }
    assert_int_equal(store_set_pepper(fixture.store, fixture.folder), STORE_REFUSED);
    assert_int_equal(store_set_pepper(fixture.store, beside("nothing")), STORE_REFUSED);
    unlink(beside("key"));
    assert_int_equal(store_set_pepper(fixture.store, key_file("key", KEY, 0440)), STORE_OK);
    // A new one: the owner's alone, never over another file, no two alike.
    assert_int_equal(store_new_pepper(beside("a"), message, sizeof message), STORE_OK);
    assert_int_equal(stat(beside("a"), &stat_of), 0);
    assert_int_equal(stat_of.st_mode & 07777, 0400);
    assert_int_equal(stat_of.st_size, 65);
    assert_int_equal(store_new_pepper(beside("a"), message, sizeof message), STORE_REFUSED);
    assert_non_null(strstr(message, "Name a new file."));
    assert_int_equal(store_new_pepper(beside("no/where"), message, sizeof message), STORE_REFUSED);
    assert_int_equal(store_new_pepper(beside("b"), message, sizeof message), STORE_OK);
    assert_int_equal(store_set_pepper(fixture.store, beside("a")), STORE_OK);
    char first[PIN_PEPPER_ID_MAX];
    strcpy(first, pin_pepper_id(fixture.store));
    assert_int_equal(store_set_pepper(fixture.store, beside("b")), STORE_OK);
    assert_string_not_equal(first, pin_pepper_id(fixture.store));
}

static double least_ms(const char *badge, const char *pin) {
    double least = 1e9;
    for (int i = 0; i < 5; i++) {
        struct timespec from, to;
        int wait = 0;
        fixture_exec(fixture.store->db, "DELETE FROM pin_try");
        clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &from);
        (void)store_pin_check(fixture.store, badge, pin, &wait);
        clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &to);
        double ms =
            (double)(to.tv_sec - from.tv_sec) * 1e3 + (double)(to.tv_nsec - from.tv_nsec) / 1e6;
        least = ms < least ? ms : least;
    }
    return least;
}

// The least of five looks each, in the processor's time, which a busy machine does not change: it
// does not tell who has a PIN.
static void takes_as_long_for_a_stranger(void **state) {
    (void)state;
    assert_int_equal(store_pin_set(fixture.store, SUPERVISOR, PIN), STORE_OK);
    double right = least_ms(SUPERVISOR, PIN), wrong = least_ms(SUPERVISOR, "000000");
    double unknown = least_ms("W-9Z", PIN), builder = least_ms(BUILDER, "000000");
    print_message("right %.0f, wrong %.0f, unknown badge %.0f, builder %.0f ms\n", right, wrong,
                  unknown, builder);
    // Without a hash it would take next to nothing; four times either way is other work's noise.
    assert_true(right > 5 && wrong > right / 4 && wrong < 4 * right);
    assert_true(unknown > wrong / 4 && unknown < 4 * wrong);
    assert_true(builder > wrong / 4 && builder < 4 * wrong);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(agrees_with_other_programs),    STEP(knows_published_hashes),
        STEP(makes_what_the_rfc_recommends), STEP(makes_pins_anew),
        STEP(refuses_without_its_key),       STEP(refuses_bad_files),
        STEP(takes_as_long_for_a_stranger),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
