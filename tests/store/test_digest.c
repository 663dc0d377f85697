// SHA-256, whoever takes it: the examples of the standard, and libsodium's for every length.

#include "check.h"
#include "digest.h"
#include "fixture.h"

#include <sodium.h>

// FIPS 180-4's examples, as NIST publishes them with intermediate values (SHA256.pdf: one block and
// two blocks), and the empty message of the CAVP vectors.
static const struct {
    const char *message;
    const char *hash;
} examples[] = {
    {"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
    {"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
    {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
     "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
};

static void the_examples(void **state) {
    (void)state;
    struct digest *digest = digest_open();
    assert_non_null(digest);
    for (int twice = 0; twice < 2; twice++) {
        for (size_t i = 0; i < COUNT(examples); i++) {
            uint8_t hash[DIGEST_SIZE];
            char words[2 * DIGEST_SIZE + 1];
            digest_run(twice == 0 ? digest : NULL, (const uint8_t *)examples[i].message,
                       strlen(examples[i].message), hash);
            sodium_bin2hex(words, sizeof words, hash, sizeof hash);
            assert_string_equal(words, examples[i].hash);
        }
    }
    digest_close(digest);
    digest_close(NULL);
}

static void every_length(void **state) {
    static uint8_t bytes[700];
    (void)state;
    struct digest *digest = digest_open();
    for (size_t size = 0; size <= sizeof bytes; size++) {
        uint8_t ours[DIGEST_SIZE];
        uint8_t other[DIGEST_SIZE];
        randombytes_buf(bytes, sizeof bytes);
        digest_run(digest, bytes, size, ours);
        crypto_hash_sha256(other, bytes, size);
        assert_memory_equal(ours, other, sizeof ours);
    }
    digest_close(digest);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_examples),
        cmocka_unit_test(every_length),
    };
    return sodium_init() < 0 ? 1 : cmocka_run_group_tests(tests, NULL, NULL);
}
