#include "change.h"
#include "check.h"
#include "entry.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct document head(const char *weight, const char *rack) {
    struct document document = {.sheet = "heads"};
    assert_true(document_set(&document, "ticket", "H-0001A"));
    document.keys = document.count;
    assert_true(document_set(&document, "model", "Heron 3 wood"));
    assert_true(document_set(&document, "weight_g", weight));
    assert_true(document_set(&document, "rack", rack));
    return document;
}

static void test_change_names_what_differs(void **state) {
    (void)state;
    struct document before = head("203", "A1");
    struct document after = head("204.5", "A1");
    struct change change;
    char words[200];
    change_between(&before, &after, &change);
    assert_false(change.made || change.taken);
    assert_string_equal(change.sheet, "heads");
    assert_int_equal(change.keys, 1);
    assert_string_equal(change.key[0].value, "H-0001A");
    assert_int_equal(change.count, 1);
    assert_string_equal(change.cell[0].name, "weight_g");
    change_words(&change, words, sizeof words);
    assert_string_equal(words, "weight_g 203 to 204.5");
    change_between(&before, &before, &change);
    assert_true(change_empty(&change));
}

static void test_change_words(void **state) {
    (void)state;
    struct document before = head("203", "A1");
    struct document after = head("203", "");
    struct change change;
    char words[200];
    change_between(&before, &after, &change);
    change_words(&change, words, sizeof words);
    assert_string_equal(words, "rack A1 to none");
    change_between(NULL, &before, &change);
    change_words(&change, words, sizeof words);
    assert_string_equal(words, "model Heron 3 wood; weight_g 203; rack A1");
    change_between(&before, NULL, &change);
    change_words(&change, words, sizeof words);
    assert_string_equal(words, "model Heron 3 wood; weight_g 203; rack A1");
}

static void test_change_applies_to_what_it_found_only(void **state) {
    (void)state;
    struct document before = head("203", "A1");
    struct document after = head("204.5", "");
    struct document other = head("202", "A1");
    struct document result;
    struct change change, made;
    change_between(&before, &after, &change);
    assert_null(change_apply(&change, &before, &result));
    assert_memory_equal(&result, &after, sizeof result);
    assert_string_equal(change_apply(&change, &other, &result), "weight_g");
    assert_string_equal(change_apply(&change, NULL, &result), "ticket");
    change_between(NULL, &before, &made);
    assert_string_equal(change_apply(&made, &before, &result), "ticket");
    assert_null(change_apply(&made, NULL, &result));
    assert_memory_equal(&result, &before, sizeof result);
}

static void test_change_goes_back(void **state) {
    (void)state;
    struct document before = head("203", "A1");
    struct document after = head("204.5", "B2");
    struct document result = {0};
    struct document untouched = {0};
    struct change change, back;
    change_between(&before, &after, &change);
    change_back(&change, &back);
    assert_null(change_apply(&back, &after, &result));
    assert_memory_equal(&result, &before, sizeof result);
    change_between(NULL, &after, &change);
    change_back(&change, &back);
    assert_true(back.taken && !back.made);
    memset(&result, 0, sizeof result);
    assert_null(change_apply(&back, &after, &result));
    assert_memory_equal(&result, &untouched, sizeof result);
}

static void test_change_text(void **state) {
    (void)state;
    struct document before = head("203", "A1");
    struct document after = head("204.5", "");
    struct change change, read;
    char text[CHANGE_TEXT_MAX];
    change_between(&before, &after, &change);
    assert_true(change_write(&change, text, sizeof text));
    assert_string_equal(text, "kerfside-change\t1\nsheet\theads\nkey\tticket\tH-0001A\n"
                              "cell\tweight_g\t203\t204.5\ncell\track\tA1\t\n"
                              "end\tkerfside-change\n");
    assert_true(change_read(text, &read));
    assert_memory_equal(&read, &change, sizeof read);
    assert_false(change_write(&change, text, 40));
    assert_int_equal(CHANGE_TEXT_MAX, ENTRY_PLAN_MAX);
}

// Any byte of the text altered, or taken out: refused, or read as what it says now.
static void test_change_text_is_strict(void **state) {
    (void)state;
    struct document before = head("203", "A1");
    struct document after = head("204.5", "B\xC3\xA9");
    struct change change, read;
    char text[CHANGE_TEXT_MAX], again[CHANGE_TEXT_MAX];
    size_t size, taken = 0;
    change_between(&before, &after, &change);
    assert_true(change_write(&change, text, sizeof text));
    size = strlen(text);
    for (size_t i = 0; i < size; i++) {
        const char kept = text[i];
        for (int byte = 1; byte < 256; byte++) {
            text[i] = (char)byte;
            if (text[i] != kept && change_read(text, &read)) {
                taken++;
                assert_true(change_write(&read, again, sizeof again));
                assert_string_equal(again, text);
                assert_true((byte >= 0x20 && byte != 0x7F) || byte == '\t');
            }
        }
        text[i] = kept;
    }
    assert_true(taken > 0);
    assert_true(change_read(text, &read));
    for (size_t i = 0; i < size; i++) {
        char shorter[CHANGE_TEXT_MAX];
        memcpy(shorter, text, i);
        shorter[i] = '\0';
        assert_false(change_read(shorter, &read));
    }
}

static void test_document_takes_plain_texts_only(void **state) {
    (void)state;
    struct document document = {.sheet = "heads"};
    char longest[CHANGE_VALUE_MAX + 1];
    memset(longest, 'x', CHANGE_VALUE_MAX);
    longest[CHANGE_VALUE_MAX] = '\0';
    assert_false(document_set(&document, "a", longest));
    assert_false(document_set(&document, "a", "tab\there"));
    assert_false(document_set(&document, "a", "line\n"));
    assert_false(document_set(&document, "a", "\xC2\x85"));
    assert_false(document_set(&document, "a", "\xFF"));
    assert_false(document_set(&document, "", "x"));
    assert_int_equal(document.count, 0);
    longest[CHANGE_VALUE_MAX - 1] = '\0';
    assert_true(document_set(&document, "a", longest));
    assert_string_equal(document_value(&document, "b"), "");
    for (int i = 1; i < CHANGE_CELLS_MAX; i++) {
        char name[8];
        snprintf(name, sizeof name, "c%d", i);
        assert_true(document_set(&document, name, ""));
    }
    assert_false(document_set(&document, "one more", ""));
    assert_true(document_set(&document, "a", "1"));
    assert_string_equal(document_value(&document, "a"), "1");
}

// Random documents: applying what lies between gives the other, and back gives the one.
static void test_change_property(void **state) {
    (void)state;
    srand(20261125);
    for (int round = 0; round < 20000; round++) {
        struct document documents[2] = {{.sheet = "heads"}, {.sheet = "heads"}};
        struct document there = {0}, back_again = {0};
        struct change change, back, read;
        char text[CHANGE_TEXT_MAX];
        for (int i = 0; i < 2; i++) {
            assert_true(document_set(&documents[i], "ticket", "H-0001A"));
            documents[i].keys = 1;
            for (int cell = 0; cell < 6; cell++) {
                char name[2] = {(char)('a' + cell), '\0'};
                char value[2] = {(char)('0' + rand() % 3), '\0'};
                assert_true(document_set(&documents[i], name, rand() % 4 == 0 ? "" : value));
            }
        }
        change_between(&documents[0], &documents[1], &change);
        change_back(&change, &back);
        assert_true(change_write(&change, text, sizeof text));
        assert_true(change_read(text, &read));
        assert_memory_equal(&read, &change, sizeof read);
        assert_null(change_apply(&read, &documents[0], &there));
        assert_memory_equal(&there, &documents[1], sizeof there);
        assert_null(change_apply(&back, &there, &back_again));
        assert_memory_equal(&back_again, &documents[0], sizeof back_again);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_change_names_what_differs),
        cmocka_unit_test(test_change_words),
        cmocka_unit_test(test_change_applies_to_what_it_found_only),
        cmocka_unit_test(test_change_goes_back),
        cmocka_unit_test(test_change_text),
        cmocka_unit_test(test_change_text_is_strict),
        cmocka_unit_test(test_document_takes_plain_texts_only),
        cmocka_unit_test(test_change_property),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
