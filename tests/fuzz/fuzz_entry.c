#include "entry.h"
#include "fuzz.h"

// The bytes are an entry and the hash before it, field by field: a byte of length, then as many
// bytes, over and over. What is encoded can be read back field by field, so nothing of an entry can
// pass for another one.

struct bytes {
    const uint8_t *at;
    size_t left;
};

static void take(struct bytes *bytes, void *target, size_t size) {
    size_t count = bytes->left > 0 ? *bytes->at : 0;
    bytes->at += bytes->left > 0 ? 1 : 0;
    bytes->left -= bytes->left > 0 ? 1 : 0;
    memset(target, 0, size);
    count = count > bytes->left ? bytes->left : count;
    memcpy(target, bytes->at, count > size ? size : count);
    bytes->at += count;
    bytes->left -= count;
}

static int64_t number(struct bytes *bytes) {
    int64_t value;
    take(bytes, &value, sizeof value);
    return value;
}

#define TEXT(field) take(bytes, entry->field, sizeof entry->field - 1)

static void make(struct bytes *bytes, struct entry *entry) {
    memset(entry, 0, sizeof *entry);
    entry->kind = (enum entry_kind)((uint64_t)number(bytes) % ENTRY_KIND_COUNT);
    entry->verdict = (enum verdict)((uint64_t)number(bytes) % VERDICT_COUNT);
    entry->seq = number(bytes);
    entry->wall_ms = number(bytes);
    entry->mono_ms = number(bytes);
    entry->club_id = number(bytes);
    entry->attempt = (int)(number(bytes) & INT32_MAX);
    entry->refers = number(bytes);
    entry->planned = number(bytes);
    entry->made = number(bytes);
    entry->chart_revision = number(bytes);
    TEXT(boot);
    TEXT(bench);
    TEXT(worker);
    TEXT(build);
    TEXT(club);
    TEXT(head);
    TEXT(shaft);
    TEXT(confirm_id);
    TEXT(cause);
    TEXT(note);
    TEXT(plan);
}

// --- reading back, by the words of entry.h alone ------------------------------------------------

static const uint8_t *next;
static size_t left;

static uint64_t big_endian(void) {
    uint64_t value = 0;
    HOLDS(left >= 8);
    for (int i = 0; i < 8; i++) {
        value = value << 8 | next[i];
    }
    next += 8;
    left -= 8;
    return value;
}

static void expect_number(int64_t expected) {
    HOLDS(big_endian() == 8);
    HOLDS(big_endian() == (uint64_t)expected);
}

static void expect_text(const char *expected) {
    size_t size = strlen(expected);
    HOLDS(big_endian() == size && left >= size);
    HOLDS(memcmp(next, expected, size) == 0);
    next += size;
    left -= size;
}

static void expect_encoded(const struct entry *entry, const uint8_t *previous,
                           const uint8_t *encoded, size_t size) {
    static const char tag[] = "kerfside/log/1";
    next = encoded;
    left = size;
    HOLDS(left > sizeof tag + ENTRY_HASH_SIZE && memcmp(next, tag, sizeof tag) == 0);
    HOLDS(memcmp(next + sizeof tag, previous, ENTRY_HASH_SIZE) == 0);
    next += sizeof tag + ENTRY_HASH_SIZE;
    left -= sizeof tag + ENTRY_HASH_SIZE;
    expect_number(entry->seq);
    expect_text(entry_kind_text(entry->kind));
    expect_number(entry->wall_ms);
    expect_number(entry->mono_ms);
    expect_text(entry->boot);
    expect_text(entry->bench);
    expect_text(entry->worker);
    expect_number(entry->club_id);
    expect_text(entry->build);
    expect_text(entry->club);
    expect_text(entry->head);
    expect_text(entry->shaft);
    expect_text(entry->confirm_id);
    expect_number(entry->attempt);
    expect_number(entry->refers);
    expect_number(entry->planned);
    expect_number(entry->made);
    expect_text(verdict_text(entry->verdict));
    expect_text(entry->cause);
    expect_text(entry->note);
    expect_number(entry->chart_revision);
    expect_text(entry->plan);
    HOLDS(left == 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct bytes bytes = {data, size};
    uint8_t previous[ENTRY_HASH_SIZE];
    struct entry entry;
    take(&bytes, previous, sizeof previous);
    make(&bytes, &entry);
    uint8_t *encoded = malloc(ENTRY_ENCODED_MAX);
    HOLDS(encoded != NULL);
    size_t used = entry_encode(&entry, previous, encoded);
    HOLDS(used <= ENTRY_ENCODED_MAX);
    expect_encoded(&entry, previous, encoded, used);
    free(encoded);
    // Moving a club by whatever entry never leaves what a club can be.
    struct progress progress = {.stage = (enum stage)((uint64_t)entry.seq % STAGE_COUNT),
                                .attempt = 1,
                                .tip_made = LENGTH_UNKNOWN,
                                .tip_seq = entry.refers,
                                .decision_seq = entry.refers};
    struct progress before = progress;
    if (!stage_advance(&progress, &entry)) {
        HOLDS(memcmp(&before, &progress, sizeof before) == 0);
    }
    HOLDS(progress.stage < STAGE_COUNT && progress.attempt >= 1);
    return 0;
}
