// Keys and witness files: what is signed, what is refused, and what a power cut leaves.

#include "fixture.h"
#include "witness_file.h"

#include <fcntl.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define NOTES 3
#define NOTE_LINES 6

static struct fixture fixture;
static struct witness_key key;
static char path[128];
static char message[1200];
static char good[NOTES * CHECKPOINT_TEXT_MAX]; // a witness of NOTES notes
static size_t good_size;

static struct checkpoint_note signed_note(int64_t size) {
    struct checkpoint checkpoint = {.bench = BENCH,
                                    .incarnation = "0123456789abcdef0123456789abcdef",
                                    .size = size,
                                    .day = "2026-11-25"};
    struct checkpoint_note note;
    memset(checkpoint.head, (int)size, sizeof checkpoint.head);
    witness_key_sign(&key, &checkpoint, &note);
    return note;
}

static void put(const char *bytes, size_t size) {
    FILE *file = fopen(path, "we");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
}

static size_t get(char *bytes, size_t most) {
    FILE *file = fopen(path, "re");
    assert_non_null(file);
    size_t size = fread(bytes, 1, most, file);
    fclose(file);
    return size;
}

static int folder(void **state) {
    static const uint8_t seed[WITNESS_SEED_SIZE] = {7};
    (void)state;
    assert_true(sodium_init() >= 0);
    fixture_folder(&fixture);
    snprintf(path, sizeof path, "%s/witness", fixture.folder);
    witness_key_from_seed(seed, &key);
    good_size = 0;
    for (int64_t i = 1; i <= NOTES; i++) {
        struct checkpoint_note note = signed_note(i * 10);
        good_size += checkpoint_write(&note, good + good_size);
    }
    return 0;
}

static int away(void **state) {
    (void)state;
    fixture_close(&fixture);
    return 0;
}

// --- keys --------------------------------------------------------------------------------------

// RFC 8032, section 7.1: tests 1, 2 and 3.
static void signs_as_rfc_8032_does(void **state) {
    static const struct {
        const char *seed;
        const char *public;
        const char *bytes;
        const char *signature;
    } vectors[] = {
        {"9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
         "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
         "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701"
         "c"
         "f9b46bd25bf5f0595bbe24655141438e7a100b"},
        {"4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
         "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
         "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d"
         "0"
         "f11d8c387b2eaeb4302aeeb00d291612bb0c00"},
        {"c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
         "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
         "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f7609"
         "8"
         "4dc6594a7c15e9716ed28dc027beceea1ec40a"},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(vectors); i++) {
        uint8_t seed[WITNESS_SEED_SIZE];
        uint8_t bytes[2];
        uint8_t signature[CHECKPOINT_SIGNATURE_SIZE];
        char hex[2 * CHECKPOINT_SIGNATURE_SIZE + 1];
        size_t size;
        struct witness_key made;
        assert_int_equal(sodium_hex2bin(seed, sizeof seed, vectors[i].seed, 64, NULL, &size, NULL),
                         0);
        assert_int_equal(sodium_hex2bin(bytes, sizeof bytes, vectors[i].bytes,
                                        strlen(vectors[i].bytes), NULL, &size, NULL),
                         0);
        witness_key_from_seed(seed, &made);
        sodium_bin2hex(hex, sizeof hex, made.public, sizeof made.public);
        assert_string_equal(hex, vectors[i].public);
        witness_key_sign_bytes(&made, bytes, size, signature);
        sodium_bin2hex(hex, sizeof hex, signature, sizeof signature);
        assert_string_equal(hex, vectors[i].signature);
        assert_true(witness_key_verify_bytes(made.public, bytes, size, signature));
        signature[i] ^= 1;
        assert_false(witness_key_verify_bytes(made.public, bytes, size, signature));
    }
}

static void tells_whose_signature_it_is(void **state) {
    static const uint8_t seed[WITNESS_SEED_SIZE] = {8};
    struct checkpoint_note note = signed_note(10);
    struct checkpoint_note both = note;
    struct witness_key other;
    (void)state;
    witness_key_from_seed(seed, &other);
    assert_int_equal(witness_key_verify(key.public, &note), WITNESS_SIGNED);
    assert_int_equal(witness_key_verify(other.public, &note), WITNESS_OTHER_KEY);
    witness_key_sign(&other, &note.checkpoint, &both);
    both.signature[both.signature_count++] = note.signature[0];
    assert_int_equal(witness_key_verify(key.public, &both), WITNESS_SIGNED);
    assert_int_equal(witness_key_verify(other.public, &both), WITNESS_SIGNED);
    note.checkpoint.size++;
    assert_int_equal(witness_key_verify(key.public, &note), WITNESS_FORGED);
    note.checkpoint.bench[0] = 'C'; // and with the origin the name of the key
    assert_int_equal(witness_key_verify(key.public, &note), WITNESS_OTHER_KEY);
}

static void keeps_keys_in_files(void **state) {
    char line[WITNESS_PUBLIC_TEXT_MAX];
    char public_path[140];
    uint8_t public[WITNESS_PUBLIC_SIZE];
    struct witness_key read;
    struct stat stats;
    (void)state;
    snprintf(public_path, sizeof public_path, "%s.pub", path);
    assert_true(witness_key_make(path, line, message, sizeof message));
    assert_int_equal(stat(path, &stats), 0);
    assert_int_equal(stats.st_mode & 07777, 0400);
    assert_true(witness_key_read(path, &read, message, sizeof message));
    assert_true(witness_key_read_public(public_path, public, message, sizeof message));
    assert_memory_equal(read.public, public, sizeof public);
    FILE *file = fopen(public_path, "re");
    char kept[WITNESS_PUBLIC_TEXT_MAX + 1];
    assert_non_null(file);
    assert_non_null(fgets(kept, sizeof kept, file));
    fclose(file);
    kept[strcspn(kept, "\n")] = '\0';
    assert_string_equal(kept, line);
    // Neither half is ever overwritten, and one alone is not left behind.
    assert_false(witness_key_make(path, line, message, sizeof message));
    assert_non_null(strstr(message, "never overwritten"));
    assert_int_equal(unlink(path), 0);
    assert_false(witness_key_make(path, line, message, sizeof message));
    assert_int_equal(access(path, F_OK), -1);
}

static void refuses_keys(void **state) {
    static const struct {
        const char *line;
        mode_t mode;
        const char *words;
    } rows[] = {
        {"kerfside-secret-1 AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n", 0400, NULL},
        {"kerfside-secret-1 AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n", 0600, "rights 0600"},
        {"kerfside-secret-1 AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n", 0440, "rights 0440"},
        {"kerfside-secret-1 AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n", 0404, "rights 0404"},
        {"kerfside-secret-1 AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=", 0400, "wrong length"},
        {"kerfside-secret-1 AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n\n", 0400,
         "wrong length"},
        {"", 0400, "wrong length"},
        {"kerfside-secret-1 AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA.A=\n", 0400, "damaged"},
        {"kerfside-secret-2 AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n", 0400, "damaged"},
        {"kerfside-public-1 AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n", 0444, "public half"},
    };
    struct witness_key read;
    uint8_t public[WITNESS_PUBLIC_SIZE];
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        unlink(path);
        put(rows[i].line, strlen(rows[i].line));
        assert_int_equal(chmod(path, rows[i].mode), 0);
        bool got = witness_key_read(path, &read, message, sizeof message);
        if (got != (rows[i].words == NULL) || (!got && strstr(message, rows[i].words) == NULL)) {
            fail_msg("row %zu: %s", i, got ? "taken" : message);
        }
    }
    assert_true(witness_key_read_public(path, public, message, sizeof message)); // the last
    unlink(path);
    assert_false(witness_key_read(path, &read, message, sizeof message));
    assert_non_null(strstr(message, "kerfside key FILE"));
    put(rows[0].line, strlen(rows[0].line));
    assert_false(witness_key_read_public(path, public, message, sizeof message));
    assert_non_null(strstr(message, "secret half"));
    assert_false(witness_key_read(fixture.folder, &read, message, sizeof message));
    assert_non_null(strstr(message, "no file"));
}

// --- files -------------------------------------------------------------------------------------

static void reads_what_was_appended(void **state) {
    struct witness witness;
    char bytes[sizeof good];
    (void)state;
    for (int64_t i = 1; i <= NOTES; i++) {
        struct checkpoint_note note = signed_note(i * 10);
        assert_int_equal(witness_open(path, key.public, &witness, message, sizeof message),
                         WITNESS_OK);
        assert_int_equal(witness.count, i - 1);
        assert_true(witness_append(&witness, &note, message, sizeof message));
        witness_release(&witness);
    }
    assert_int_equal(get(bytes, sizeof bytes), good_size);
    assert_memory_equal(bytes, good, good_size);
    assert_int_equal(witness_read(path, key.public, &witness, message, sizeof message), WITNESS_OK);
    assert_int_equal(witness.count, NOTES);
    assert_int_equal(witness.torn_line, 0);
    for (int i = 0; i < NOTES; i++) {
        assert_int_equal(witness.mark[i].line, 1 + i * NOTE_LINES);
        assert_int_equal(witness.mark[i].note.checkpoint.size, (i + 1) * 10);
    }
    witness_release(&witness);
}

// Whoever put the notes together, they come by size.
static void reads_notes_in_any_order(void **state) {
    struct witness witness;
    char bytes[sizeof good];
    size_t one = good_size / NOTES;
    (void)state;
    for (size_t i = 0; i < NOTES; i++) {
        memcpy(bytes + i * one, good + (NOTES - 1 - i) * one, one);
    }
    put(bytes, good_size);
    assert_int_equal(witness_read(path, key.public, &witness, message, sizeof message), WITNESS_OK);
    for (int i = 0; i < NOTES; i++) {
        assert_int_equal(witness.mark[i].note.checkpoint.size, (i + 1) * 10);
        assert_int_equal(witness.mark[i].line, 1 + (NOTES - 1 - i) * NOTE_LINES);
    }
    witness_release(&witness);
}

static int line_of(size_t at) {
    int line = 1;
    for (size_t i = 0; i < at; i++) {
        line += good[i] == '\n' ? 1 : 0;
    }
    return line;
}

// Any byte changed is found, and the line or its note is named.
static void names_the_damaged_line(void **state) {
    (void)state;
    for (size_t at = 0; at < good_size; at++) {
        struct witness witness;
        char bytes[sizeof good];
        const char *named;
        int note = (line_of(at) - 1) / NOTE_LINES;
        memcpy(bytes, good, good_size);
        bytes[at] ^= 4;
        put(bytes, good_size);
        enum witness_result result =
            witness_read(path, key.public, &witness, message, sizeof message);
        if (at == good_size - 1) {
            assert_int_equal(result, WITNESS_OK); // no newline: cut short
            assert_int_equal(witness.torn_line, 1 + note * NOTE_LINES);
        } else if (result != WITNESS_DAMAGED || (named = strstr(message, ": line ")) == NULL) {
            fail_msg("byte %zu: result %d, %s", at, (int)result, message);
        } else {
            int line = atoi(named + 7);
            if (line < 1 + note * NOTE_LINES || line > 1 + (note + 1) * NOTE_LINES) {
                fail_msg("byte %zu is in line %d: %s", at, line_of(at), message);
            }
            assert_int_equal(witness.count, note); // the notes before it stand
        }
        witness_release(&witness);
    }
}

// Cut at any byte: the whole notes stand, and the next one is added behind them.
static void goes_on_after_a_power_cut(void **state) {
    (void)state;
    size_t one = good_size / NOTES;
    for (size_t size = 0; size <= good_size; size++) {
        struct witness witness;
        struct checkpoint_note note = signed_note(99);
        put(good, size);
        size_t whole = size / one;
        assert_int_equal(witness_open(path, key.public, &witness, message, sizeof message),
                         WITNESS_OK);
        assert_int_equal(witness.count, whole);
        assert_int_equal(witness.torn_line, size % one == 0 ? 0 : 1 + (int)whole * NOTE_LINES);
        assert_true(witness_append(&witness, &note, message, sizeof message));
        witness_release(&witness);
        assert_int_equal(witness_read(path, key.public, &witness, message, sizeof message),
                         WITNESS_OK);
        assert_int_equal(witness.count, whole + 1);
        assert_int_equal(witness.torn_line, 0);
        witness_release(&witness);
    }
}

// What a disk leaves of the last note may be nought.
static void goes_on_after_noughts(void **state) {
    struct witness witness;
    char bytes[sizeof good] = {0};
    (void)state;
    memcpy(bytes, good, good_size / NOTES);
    put(bytes, good_size / NOTES + 200);
    assert_int_equal(witness_open(path, key.public, &witness, message, sizeof message), WITNESS_OK);
    assert_int_equal(witness.torn_line, 1 + NOTE_LINES);
    witness_release(&witness);
}

static void leaves_other_files_alone(void **state) {
    static const char *const files[] = {"hello", "hello\n", "kerfsade/", "SQLite format 3", "\n"};
    (void)state;
    for (size_t i = 0; i < COUNT(files); i++) {
        struct witness witness;
        char bytes[64];
        put(files[i], strlen(files[i]));
        assert_int_equal(witness_open(path, key.public, &witness, message, sizeof message),
                         WITNESS_DAMAGED);
        assert_int_equal(get(bytes, sizeof bytes), strlen(files[i]));
        assert_memory_equal(bytes, files[i], strlen(files[i]));
    }
}

static void says_what_it_could_not_do(void **state) {
    struct witness witness;
    struct witness second;
    struct checkpoint_note note = signed_note(99);
    (void)state;
    assert_int_equal(witness_read(path, key.public, &witness, message, sizeof message),
                     WITNESS_FAILED);
    assert_non_null(strstr(message, "Could not read"));
    assert_int_equal(witness_read(fixture.folder, key.public, &witness, message, sizeof message),
                     WITNESS_FAILED);
    put(good, good_size);
    assert_int_equal(witness_open(path, key.public, &witness, message, sizeof message), WITNESS_OK);
    assert_int_equal(witness_open(path, key.public, &second, message, sizeof message),
                     WITNESS_FAILED);
    assert_non_null(strstr(message, "another program"));
    // A disk that takes no more: the file stays as it was.
    close(witness.fd);
    witness.fd = open(path, O_RDONLY | O_CLOEXEC);
    assert_true(witness.fd >= 0);
    assert_false(witness_append(&witness, &note, message, sizeof message));
    assert_non_null(strstr(message, "Could not write the witness"));
    witness_release(&witness);
    char bytes[sizeof good];
    assert_int_equal(get(bytes, sizeof bytes), good_size);
    assert_memory_equal(bytes, good, good_size);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, folder, away)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(signs_as_rfc_8032_does),    STEP(tells_whose_signature_it_is),
        STEP(keeps_keys_in_files),       STEP(refuses_keys),
        STEP(reads_what_was_appended),   STEP(reads_notes_in_any_order),
        STEP(names_the_damaged_line),    STEP(goes_on_after_a_power_cut),
        STEP(goes_on_after_noughts),     STEP(leaves_other_files_alone),
        STEP(says_what_it_could_not_do),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
