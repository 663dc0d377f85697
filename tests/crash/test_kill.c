// Real processes: one is killed with SIGKILL at a random moment, over and over; two write at once.
// This shows that locks and the write-ahead log outlive a process. It says nothing about power:
// that is test_powercut.c.

#include "fixture.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define ROUNDS 200

static uint32_t seed = 7;

static uint32_t pick(uint32_t below) {
    seed = seed * 1664525u + 1013904223u;
    return (seed >> 8) % below;
}

static void make_id(char ret_id[CONFIRM_ID_MAX], uint32_t who, uint32_t number) {
    snprintf(ret_id, CONFIRM_ID_MAX, "%016x%016x", who, number);
}

static struct entry hold(uint32_t who, uint32_t number) {
    struct entry entry = entry_init(ENTRY_HOLD);
    strcpy(entry.bench, BENCH);
    make_id(entry.confirm_id, who, number);
    memset(entry.plan, 'p', 1500);
    return entry;
}

// Appends until `most` or until it is killed; each number goes down the pipe once it is logged.
static void work(const char *path, uint32_t who, uint32_t most, int pipe) {
    char message[STORE_MESSAGE_MAX];
    struct store *store = NULL;
    if (store_open(path, STORE_WRITE, BENCH, &store, message, sizeof message) != STORE_OK) {
        _exit(2);
    }
    for (uint32_t i = 0; i < most; i++) {
        struct entry entry = hold(who, i);
        if (store_append(store, &entry) != STORE_OK ||
            write(pipe, &i, sizeof i) != (ssize_t)sizeof i) {
            _exit(3);
        }
        if (i % 7 == 6 && store_checkpoint(store) == STORE_FAILED) {
            _exit(4);
        }
    }
    store_close(store);
    _exit(0);
}

static pid_t begin(const char *path, uint32_t who, uint32_t most, int *ret_pipe) {
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        close(ends[0]);
        work(path, who, most, ends[1]);
    }
    close(ends[1]);
    *ret_pipe = ends[0];
    return child;
}

// Reads what was said to be logged until the writer is gone; how many.
static uint32_t said(int pipe) {
    uint32_t number;
    uint32_t count = 0;
    while (read(pipe, &number, sizeof number) == (ssize_t)sizeof number) {
        assert_int_equal(number, count);
        count++;
    }
    close(pipe);
    return count;
}

static void outlives_kills(void **state) {
    struct fixture fixture;
    int64_t before = 1; // genesis
    uint32_t total = 0;
    int in_flight = 0;
    (void)state;
    fixture_open(&fixture);
    for (uint32_t round = 0; round < ROUNDS; round++) {
        int pipe;
        int status;
        int64_t seq;
        char id[CONFIRM_ID_MAX];
        pid_t child = begin(fixture.path, round, UINT32_MAX, &pipe);
        struct timespec moment = {.tv_nsec = pick(20000) * 1000L};
        nanosleep(&moment, NULL);
        assert_int_equal(kill(child, SIGKILL), 0);
        uint32_t count = said(pipe);
        assert_int_equal(waitpid(child, &status, 0), child);
        assert_true(WIFSIGNALED(status));
        total += count;
        fixture_restart(&fixture);
        for (uint32_t i = 0; i < count; i++) {
            make_id(id, round, i);
            assert_int_equal(store_confirmed(fixture.store, id, &seq), STORE_OK);
            assert_int_equal(seq, before + 1 + i);
        }
        int64_t now = fixture_number(fixture.store->db, "SELECT max(seq) FROM log");
        assert_true(now == before + count || now == before + count + 1);
        in_flight += now == before + count + 1;
        before = now;
    }
    print_message("%d kills, %u entries logged, %d in flight were there\n", ROUNDS, total,
                  in_flight);
    // How many come through in the moments given is the machine's affair; some must, both ways.
    assert_true(total > 0 && in_flight > 0);
    fixture_expect_check(fixture.store);
    fixture_close(&fixture);
}

static void works_beside_others(void **state) {
    struct fixture fixture;
    struct store_check check = {0};
    int pipes[3];
    pid_t children[3];
    (void)state;
    fixture_open(&fixture);
    for (uint32_t i = 0; i < 3; i++) {
        children[i] = begin(fixture.path, i, 120, &pipes[i]);
    }
    for (uint32_t i = 0; i < 3; i++) {
        int status;
        assert_int_equal(said(pipes[i]), 120);
        assert_int_equal(waitpid(children[i], &status, 0), children[i]);
        assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    }
    assert_int_equal(store_check(fixture.store, &check), STORE_OK);
    assert_int_equal(check.entries, 1 + 3 * 120);
    fixture_close(&fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(outlives_kills),
                                       cmocka_unit_test(works_beside_others)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
