// A disk that really fills up: a small file system in memory, where the machine lets us mount one.

#include "fixture.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/mount.h>
#include <sys/stat.h>
#include <unistd.h>

#define SIZE "size=4m"

static struct fixture fixture;
static bool mounted;

static int set_up(void **state) {
    (void)state;
    fixture_folder(&fixture);
    mounted = mount("tmpfs", fixture.folder, "tmpfs", 0, SIZE) == 0;
    setenv("KERFSIDE_ROOM_MB", "1", 1);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    store_close(fixture.store);
    fixture.store = NULL;
    if (mounted) {
        umount2(fixture.folder, MNT_DETACH);
    }
    fixture_close(&fixture);
    return 0;
}

static bool ballast_there(void) {
    char path[128];
    struct stat file;
    snprintf(path, sizeof path, "%s.ballast", fixture.path);
    return stat(path, &file) == 0;
}

static void fill(void) {
    static char bytes[4096];
    char path[128];
    snprintf(path, sizeof path, "%s/filler", fixture.folder);
    int fd = open(path, O_WRONLY | O_CREAT | O_APPEND, 0600);
    assert_true(fd >= 0);
    while (write(fd, bytes, sizeof bytes) > 0) {
    }
    assert_int_equal(errno, ENOSPC);
    close(fd);
}

static void empty(void) {
    char path[128];
    snprintf(path, sizeof path, "%s/filler", fixture.folder);
    assert_int_equal(unlink(path), 0);
}

static enum store_result hold(struct entry *ret_entry) {
    *ret_entry = fixture_entry(&fixture, ENTRY_HOLD, 3);
    memset(ret_entry->plan, 'p', 3000);
    return store_append(fixture.store, ret_entry);
}

static void lasts_through_a_full_disk(void **state) {
    struct entry entry;
    struct log_filter filter = {0};
    struct log_line line;
    char message[STORE_MESSAGE_MAX];
    int64_t seq;
    (void)state;
    if (!mounted) {
        print_message("no small disk can be mounted here\n");
        skip();
    }
    if (store_open(fixture.path, STORE_CREATE, BENCH, &fixture.store, message, sizeof message) !=
        STORE_OK) {
        fail_msg("%s", message);
    }
    fixture_seed(fixture.store);
    fixture_bring(&fixture, 3, STAGE_TIP_SHOWN);
    assert_true(store_room(fixture.store));
    assert_true(ballast_there());

    fill();
    assert_false(store_room(fixture.store)); // no mark is shown from here on
    // The cut that was under way is logged all the same, at the ballast's expense.
    fixture_append(&fixture, ENTRY_TIP_CUT, 3);
    int given_up = -1;
    int logged = 0;
    while (hold(&entry) == STORE_OK) {
        logged++;
        if (given_up < 0 && !ballast_there()) {
            given_up = logged;
        }
        assert_true(logged < 10000);
    }
    print_message("ballast given up at entry %d, full after %d\n", given_up, logged);
    assert_true(given_up >= 0 && logged > given_up + 10); // the ballast was worth something
    assert_non_null(strstr(store_message(fixture.store), "no room"));
    assert_int_equal(entry.seq, 0);

    // Full: reading goes on, what was logged is there, and what was refused is not.
    assert_int_equal(store_log(fixture.store, &filter, 0, &line, 1), 1);
    assert_int_equal(line.seq, 4 + logged - 1);
    assert_int_equal(store_confirmed(fixture.store, entry.confirm_id, &seq), STORE_NONE);
    fixture_expect_check(fixture.store);
    assert_int_not_equal(store_checkpoint(fixture.store), STORE_OK);
    assert_int_equal(store_reopen(fixture.store), STORE_OK);
    assert_int_equal(store_append(fixture.store, &entry), STORE_FULL);
    assert_int_equal(store_log(fixture.store, &filter, 0, &line, 1), 1);
    assert_int_equal(line.seq, 4 + logged - 1);

    // Room again: the same entry goes in, and the ballast comes back when there is room for it.
    empty();
    assert_int_equal(store_append(fixture.store, &entry), STORE_OK);
    assert_int_equal(entry.seq, 4 + logged);
    assert_int_equal(store_checkpoint(fixture.store), STORE_OK);
    fixture_expect_check(fixture.store);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(lasts_through_a_full_disk, set_up, tear_down)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
