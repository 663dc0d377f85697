#ifndef CHECKPOINT_H
#define CHECKPOINT_H

// What the log was at one moment: how many entries, and the hash of the last one, which stands for
// them all. Signed and kept elsewhere it is a note that a later look at the log can be held
// against.
//
// The text is a checkpoint and signed note as C2SP writes them (c2sp.org/tlog-checkpoint,
// c2sp.org/signed-note), with a chain's head for a tree's root and the day as its one extra line:
//
//     kerfside/Bench%201/0123456789abcdef0123456789abcdef    bench and incarnation of genesis
//     1234                                                   entries covered
//     n4bQgYhMfWWaL+qgxVrQFaO/TxsrC4Is0V1sFbDwCgg=           hash of entry 1234
//     day 2026-11-25                                         the day that was signed
//
//     — kerfside/Bench%201/0123... b9YV...                   key id and signature, base64
//
// The signature is over everything up to and with the newline before the empty line. The name of
// the key is the origin, so one key may sign for several logs and no note passes for another's.
//
// Pure: parsed and written here, signed and verified by the store. Strict: there is one way to
// write each note, and nothing else parses.

#include "entry.h"

#define CHECKPOINT_DAY_MAX 11     // 2026-11-25
#define CHECKPOINT_ORIGIN_MAX 128 // every byte of the bench's name as %XX
#define CHECKPOINT_BODY_MAX 256   // what is signed
#define CHECKPOINT_SHORT_MAX 56   // the short form
#define CHECKPOINT_SIGNATURES_MAX 4
#define CHECKPOINT_KEY_ID_SIZE 4
#define CHECKPOINT_SIGNATURE_SIZE 64 // Ed25519
#define CHECKPOINT_TEXT_MAX (CHECKPOINT_BODY_MAX + CHECKPOINT_SIGNATURES_MAX * 240)

struct checkpoint {
    char bench[ENTRY_BENCH_MAX];
    char incarnation[CONFIRM_ID_MAX];
    int64_t size; // seq of the last entry covered, from 1
    uint8_t head[ENTRY_HASH_SIZE];
    char day[CHECKPOINT_DAY_MAX];
};

struct checkpoint_signature {
    uint8_t key_id[CHECKPOINT_KEY_ID_SIZE];
    uint8_t bytes[CHECKPOINT_SIGNATURE_SIZE];
};
struct checkpoint_note {
    struct checkpoint checkpoint;
    size_t signature_count; // 1 to CHECKPOINT_SIGNATURES_MAX
    struct checkpoint_signature signature[CHECKPOINT_SIGNATURES_MAX];
};

// Name, what a person reads.
#define CHECKPOINT_ERRORS(X)                                                                       \
    X(OK, "")                                                                                      \
    X(CUT, "the note ends in the middle")                                                          \
    X(ORIGIN, "that is no origin of a log: kerfside/BENCH/INCARNATION")                            \
    X(SIZE, "that is no number of entries")                                                        \
    X(HEAD, "that is no hash of an entry")                                                         \
    X(DAY, "that is no day: day 2026-11-25")                                                       \
    X(BLANK, "an empty line belongs before the signature")                                         \
    X(SIGNATURE, "that is no signature of this note")
enum checkpoint_error {
#define X(name, words) CHECKPOINT_##name,
    CHECKPOINT_ERRORS(X)
#undef X
        CHECKPOINT_ERROR_COUNT
};
const char *checkpoint_error_words(enum checkpoint_error error);

// A day of the calendar written as 2026-11-25.
bool checkpoint_is_day(const char *text);

// `kerfside/BENCH/INCARNATION`. What is no letter, digit, dot, hyphen or underscore in the bench's
// name is written as %XX.
void checkpoint_origin(const struct checkpoint *checkpoint, char origin[CHECKPOINT_ORIGIN_MAX]);

// The bytes that are signed, with a NUL after them; returns their number.
size_t checkpoint_body(const struct checkpoint *checkpoint, char body[CHECKPOINT_BODY_MAX]);

// The whole note, NUL-terminated; returns its size.
size_t checkpoint_write(const struct checkpoint_note *note, char text[CHECKPOINT_TEXT_MAX]);

// `2026-11-25 1234 9F86-D081-884C-7D65`: day, entries and the first 64 bits of the head, to be
// compared by eye. The whole note is what is signed, and what a printed code should hold.
void checkpoint_short(const struct checkpoint *checkpoint, char text[CHECKPOINT_SHORT_MAX]);

// Reads one note at the beginning of `text`, which need not end there and holds `size` bytes.
// *ret_used: bytes of the note. On an error *ret_note and *ret_used are untouched and *ret_line is
// the line, from 1, that is wrong. CHECKPOINT_CUT: what is there ends before the note does.
enum checkpoint_error checkpoint_parse(const char *text, size_t size,
                                       struct checkpoint_note *ret_note, size_t *ret_used,
                                       int *ret_line);

#endif
