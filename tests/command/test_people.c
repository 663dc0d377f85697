// `kerfside people` and what belongs to PINs at the command line: lists, locks, key files,
// recovery.

#include "command.h"
#include "connection.h"
#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#define ADA "W-0001B"
#define BEN "W-00029"
#define CAL "W-00037"

static struct scratch scratch;
static struct ran ran;

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    scratch_import_workshop(&scratch);
    assert_int_equal(scratch_import_text(&scratch, "more-workers.csv",
                                         "badge,name,role\n" CAL ",\"Wren, Cal\",supervisor\n"),
                     STORE_OK);
    scratch_write(&scratch, "pin.txt", "271828\n");
    scratch_write(&scratch, "short.txt", "2718\r\n");
    scratch_write(&scratch, "wrong.txt", "000000\n");
    scratch_write_bytes(&scratch, "nul.txt", "271828\0 9\n", 10);
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static void refused(int status, const char *words) {
    assert_string_equal(ran.out, "");
    if (ran.status != status || strstr(ran.err, words) == NULL) {
        fail_msg("%d: %s", ran.status, ran.err);
    }
}

static void done(const char *out) {
    assert_string_equal(ran.err, "");
    assert_int_equal(ran.status, 0);
    assert_string_equal(ran.out, out);
}

static void lock_it(const char *badge) {
    char sql[160];
    snprintf(sql, sizeof sql,
             "INSERT OR REPLACE INTO pin_try (badge, tries, wait_ms, until_ms, boot) VALUES "
             "('%s', 10, 0, 0, '')",
             badge);
    assert_int_equal(sqlite3_exec(scratch.store->db, sql, NULL, NULL, NULL), SQLITE_OK);
}

static void lists(void **state) {
    (void)state;
    run(&scratch, &ran, "people");
    done("W-0001B          supervisor  no PIN     Ada Quill\n"
         "W-00029          builder                Ben Rusk\n"
         "W-00037          supervisor  no PIN     Wren, Cal\n");
    run(&scratch, &ran, "pin " ADA " <pin.txt");
    done("The PIN of W-0001B is set.\n");
    lock_it(ADA);
    run(&scratch, &ran, "people --csv");
    done("badge,name,role,locked,withdrawn\r\n"
         "W-0001B,Ada Quill,supervisor,yes,no\r\n"
         "W-00029,Ben Rusk,builder,no,no\r\n"
         "W-00037,\"Wren, Cal\",supervisor,no,no\r\n");
    run(&scratch, &ran, "people");
    assert_non_null(strstr(ran.out, "W-0001B          supervisor  locked     Ada Quill\n"));
    run(&scratch, &ran, "people --unlock " ADA);
    refused(2, "need --badge");
    run(&scratch, &ran, "people --badge " ADA);
    refused(2, "need --badge");
    run(&scratch, &ran, "people --csv --unlock " ADA " --badge " CAL);
    refused(2, "at most");
    run(&scratch, &ran, "people --unlock " ADA " --withdraw " ADA " --badge " CAL);
    refused(2, "at most");
    run(&scratch, &ran, "people --unlock W-0001C --badge " CAL);
    refused(1, "misread");
}

static void reads_a_line_and_nothing_else(void **state) {
    (void)state;
    run(&scratch, &ran, "pin " ADA " <nul.txt");
    refused(1, "no PIN was given");
    run(&scratch, &ran, "pin " ADA " <short.txt");
    done("The PIN of W-0001B is set. 6 digits are harder to guess.\n");
    run(&scratch, &ran, "people --unlock " CAL " --badge " ADA " <nul.txt");
    refused(1, "no PIN was given");
    assert_int_equal(scratch_ask(&scratch,
                                 "SELECT count(*) FROM log WHERE cause = 'set' AND worker = "
                                 "'" ADA "'"),
                     1);
}

static void another_supervisor_unlocks(void **state) {
    (void)state;
    run(&scratch, &ran, "pin " ADA " <pin.txt");
    run(&scratch, &ran, "pin " CAL " <short.txt");
    lock_it(ADA);
    run(&scratch, &ran, "people --withdraw " BEN " --badge " ADA " <pin.txt");
    refused(1, "W-0001B is locked after too many tries. Another supervisor unlocks it");
    run(&scratch, &ran, "pin " ADA " <pin.txt");
    refused(1, "W-0001B is locked.");
    run(&scratch, &ran, "people --unlock " ADA " --badge " BEN " <pin.txt");
    refused(1, "is no supervisor; one must unlock a PIN");
    run(&scratch, &ran, "people --unlock " ADA " --badge " CAL " <wrong.txt");
    refused(1, "that is not the PIN; nothing was changed.");
    run(&scratch, &ran, "people --unlock " ADA " --badge " CAL " <short.txt");
    done("W-0001B is unlocked.\n");
    run(&scratch, &ran, "people --unlock " ADA " --badge " CAL " <short.txt");
    refused(1, "W-0001B is not locked.");
    run(&scratch, &ran, "people --unlock " CAL " --badge " CAL " <short.txt");
    refused(1, "Another supervisor must do that");
    assert_int_equal(scratch_ask(&scratch,
                                 "SELECT count(*) FROM log WHERE cause = 'unlocked' AND worker "
                                 "= '" CAL "' AND note = '" ADA "'"),
                     1);
}

static void a_name_is_withdrawn(void **state) {
    (void)state;
    run(&scratch, &ran, "pin " ADA " <pin.txt");
    run(&scratch, &ran, "people --withdraw " BEN " --badge " ADA " <pin.txt");
    done("The name of W-00029 is withdrawn.\n");
    run(&scratch, &ran, "people --csv");
    assert_non_null(strstr(ran.out, "W-00029,withdrawn,builder,no,yes\r\n"));
    run(&scratch, &ran, "import workers.csv");
    refused(1, "once withdrawn stays so");
    run(&scratch, &ran, "people");
    assert_null(strstr(ran.out, "Ben Rusk"));
    run(&scratch, &ran, "check");
    assert_int_equal(ran.status, 0);
    run(&scratch, &ran, "people --withdraw " ADA " --badge " ADA " <pin.txt"); // the last one stays
    refused(1, "Another supervisor must do that");
}

static void a_key_file_goes_with_the_pins(void **state) {
    struct stat stat_of;
    (void)state;
    run(&scratch, &ran, "pin --new-pepper key");
    assert_int_equal(ran.status, 0);
    assert_non_null(strstr(ran.out, "key is made."));
    assert_int_equal(stat(scratch_path(&scratch, "key"), &stat_of), 0);
    assert_int_equal(stat_of.st_mode & 07777, 0400);
    run(&scratch, &ran, "pin --new-pepper key");
    refused(1, "Cannot make key: File exists.");
    run(&scratch, &ran, "pin --new-pepper other " ADA);
    refused(2, "--new-pepper goes alone");
    run(&scratch, &ran, "pin " ADA " --pepper key <pin.txt");
    done("The PIN of W-0001B is set.\n");
    run(&scratch, &ran, "people --withdraw " BEN " --badge " ADA " <pin.txt");
    refused(1, "was made with a key file");
    run(&scratch, &ran, "people --withdraw " BEN " --badge " ADA " --pepper nothing <pin.txt");
    refused(1, "Cannot open the key file of the PINs, nothing");
    run(&scratch, &ran, "people --withdraw " BEN " --badge " ADA " --pepper key <pin.txt");
    done("The name of W-00029 is withdrawn.\n");
    lock_it(ADA);
    run(&scratch, &ran, "pin " CAL " --pepper key <pin.txt");
    assert_int_equal(setenv("KERFSIDE_PEPPER", scratch_path(&scratch, "key"), 1), 0);
    run(&scratch, &ran, "people --unlock " ADA " --badge " CAL " <pin.txt");
    unsetenv("KERFSIDE_PEPPER");
    done("W-0001B is unlocked.\n");
}

// As somebody else, in this process; what it says goes to said.txt.
static int recover_as(uid_t user) {
    FILE *said = fopen(scratch_path(&scratch, "said.txt"), "we");
    int before = dup(STDERR_FILENO);
    assert_true(said != NULL && before >= 0 && dup2(fileno(said), STDERR_FILENO) >= 0);
    char db[] = "--db", path[96], command[] = "pin", option[] = "--recover", badge[] = ADA;
    char *arguments[] = {command, option, badge, db, path, NULL};
    strcpy(path, scratch.db);
    assert_int_equal(seteuid(user), 0);
    int status = command_pin(5, arguments);
    assert_int_equal(seteuid(0), 0);
    assert_true(dup2(before, STDERR_FILENO) >= 0);
    close(before);
    fclose(said);
    return status;
}

static void root_recovers(void **state) {
    struct stat stat_of;
    (void)state;
    run(&scratch, &ran, "pin " ADA " <pin.txt");
    lock_it(ADA);
    if (geteuid() != 0) {
        run(&scratch, &ran, "pin --recover " ADA " <short.txt");
        refused(1, "only root at the console may recover a PIN.");
        return;
    }
    char words[128] = "";
    assert_int_equal(recover_as(65534), COMMAND_REFUSED);
    FILE *said = fopen(scratch_path(&scratch, "said.txt"), "re");
    assert_non_null(said);
    assert_non_null(fgets(words, sizeof words, said));
    fclose(said);
    assert_string_equal(words, "kerfside pin: only root at the console may recover a PIN.\n");
    assert_int_equal(scratch_ask(&scratch, "SELECT count(*) FROM log WHERE cause = 'recovered'"),
                     0);
    run(&scratch, &ran, "pin --recover " ADA " <short.txt");
    done("The PIN of W-0001B is set. It is unlocked. 6 digits are harder to guess.\n");
    assert_int_equal(scratch_ask(&scratch,
                                 "SELECT count(*) FROM log WHERE cause = 'recovered' AND "
                                 "worker = '" ADA "' AND note = 'by root at the console'"),
                     1);
    // A database that is another user's stays so, with all that lies beside it.
    assert_int_equal(store_checkpoint(scratch.store), STORE_OK);
    store_close(scratch.store);
    scratch.store = NULL;
    static const char *const tails[] = {"", "-wal", "-shm", ".lock"};
    for (size_t i = 1; i < 4; i++) {
        char path[128];
        snprintf(path, sizeof path, "%s%s", scratch.db, tails[i]);
        unlink(path);
    }
    assert_int_equal(chown(scratch.folder, 65534, 65534) + chown(scratch.db, 65534, 65534), 0);
    // A process that changed its user may not be looked into, which is how leaks are found.
    assert_int_equal(setenv("ASAN_OPTIONS", "detect_leaks=0", 1), 0);
    run(&scratch, &ran, "pin --recover " ADA " <pin.txt");
    unsetenv("ASAN_OPTIONS");
    done("The PIN of W-0001B is set. It is unlocked.\n");
    for (size_t i = 0; i < 4; i++) {
        char path[128];
        snprintf(path, sizeof path, "%s%s", scratch.db, tails[i]);
        if (stat(path, &stat_of) == 0) {
            assert_int_equal(stat_of.st_uid, 65534);
        }
    }
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(lists),
        STEP(reads_a_line_and_nothing_else),
        STEP(another_supervisor_unlocks),
        STEP(a_name_is_withdrawn),
        STEP(a_key_file_goes_with_the_pins),
        STEP(root_recovers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
