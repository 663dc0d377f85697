// A database file from who knows where: opened for reading, checked, and read as the review does.
//
// The bytes are edits of a small whole database: three bytes say where (big endian, beyond its end:
// the file ends there), one how many, then those. So a few bytes reach any page. When the first
// three are "raw" the rest is the file itself.

#include "fixture.h"
#include "fuzz.h"

#include <sys/stat.h>
#include <unistd.h>

#define IMAGE_MAX (1 << 20)
#define ENTRIES_MAX 32

static char folder[] = "/tmp/kerfside-fuzz-XXXXXX";
static char path[sizeof folder + 16];
static uint8_t whole[IMAGE_MAX]; // the database as it was made
static size_t whole_size;
static struct store_check found_whole;

static void take_away(void) {
    char beside[sizeof path + 8];
    unlink(path);
    snprintf(beside, sizeof beside, "%s-wal", path);
    unlink(beside);
    snprintf(beside, sizeof beside, "%s-shm", path);
    unlink(beside);
}

static void clean(void) {
    take_away();
    rmdir(folder);
}

// A day at the bench, in pages of 512 bytes, so that the file is small.
static void make_whole(void) {
    struct fixture fixture;
    fixture_open(&fixture);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    fixture_bring(&fixture, 3, STAGE_DONE);
    fixture_bring(&fixture, 4, STAGE_DECISION);
    HOLDS(store_check(fixture.store, &found_whole) == STORE_OK);
    store_close(fixture.store);
    fixture.store = NULL;
    sqlite3 *raw = fixture_raw(fixture.path);
    fixture_exec(raw, "PRAGMA journal_mode = DELETE; PRAGMA page_size = 512; VACUUM;"
                      "PRAGMA journal_mode = WAL");
    HOLDS(sqlite3_close(raw) == SQLITE_OK);
    FILE *file = fopen(fixture.path, "rbe");
    HOLDS(file != NULL);
    whole_size = fread(whole, 1, sizeof whole, file);
    HOLDS(whole_size > 0 && whole_size < sizeof whole);
    fclose(file);
    fixture_close(&fixture);
    HOLDS(mkdtemp(folder) != NULL);
    snprintf(path, sizeof path, "%s/shop.db", folder);
    atexit(clean);
}

static size_t edit(const uint8_t *data, size_t size, uint8_t *image) {
    size_t used = whole_size;
    memcpy(image, whole, whole_size);
    while (size >= 4) {
        size_t at = (size_t)data[0] << 16 | (size_t)data[1] << 8 | data[2];
        size_t count = data[3] < size - 4 ? data[3] : size - 4;
        data += 4;
        if (at >= used) {
            used = at % (used + 1);
        } else {
            size_t fits = count < used - at ? count : used - at;
            memcpy(image + at, data, fits);
        }
        data += count;
        size -= 4 + count;
    }
    return used;
}

static void put_file(const uint8_t *bytes, size_t size) {
    take_away();
    FILE *file = fopen(path, "wbe");
    HOLDS(file != NULL && fwrite(bytes, 1, size, file) == size && fclose(file) == 0);
}

static bool count_entry(void *context, const struct entry *entry) {
    int64_t *count = context;
    HOLDS(entry->seq > 0 && entry->kind < ENTRY_KIND_COUNT && entry->verdict < VERDICT_COUNT);
    return ++*count < ENTRIES_MAX;
}

// Whatever is asked of it, an answer or words.
static void read_all(struct store *store) {
    static const struct log_filter filters[] = {{.ticket = "S-0003O"},
                                                {.build = "2042", .verdict = VERDICT_SHORT},
                                                {.worker = BUILDER, .material = "steel"},
                                                {.needs_decision = true},
                                                {.from_ms = 1}};
    struct log_line lines[ENTRIES_MAX];
    struct day_count day;
    struct club club;
    int64_t count = 0;
    for (size_t i = 0; i < sizeof filters / sizeof filters[0]; i++) {
        HOLDS(store_log(store, &filters[i], 0, lines, ENTRIES_MAX) >= 0 ||
              store_message(store)[0] != '\0');
        store_log_each(store, &filters[i], count_entry, &count);
        count = 0;
    }
    store_log_about(store, 1, ENTRIES_MAX, count_entry, &count);
    for (int64_t id = 1; id <= 5; id++) {
        store_club(store, id, &club);
    }
    store_day(store, 1772323200000, 1772496000000, &day);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    static uint8_t image[IMAGE_MAX];
    struct store *store = NULL;
    struct store_check check = {0};
    char message[STORE_MESSAGE_MAX] = "";
    if (whole_size == 0) {
        make_whole();
    }
    if (size >= 3 && memcmp(data, "raw", 3) == 0) {
        put_file(data + 3, size - 3);
    } else {
        put_file(image, edit(data, size, image));
    }
    enum store_result result = store_open(path, STORE_READ, BENCH, &store, message, sizeof message);
    if (result != STORE_OK) {
        HOLDS(message[0] != '\0');
        return 0;
    }
    result = store_check(store, &check);
    HOLDS(result != STORE_REFUSED || check.problem[0] != '\0');
    // Whole means the very log that was written: nobody finds another one with its hash.
    HOLDS(result != STORE_OK || (check.entries == found_whole.entries &&
                                 memcmp(check.head, found_whole.head, sizeof check.head) == 0));
    read_all(store);
    store_close(store);
    return 0;
}
