#include "fuzz.h"
#include "length.h"

static void try_length(const char *text, enum length_unit unit) {
    length_nm length = LENGTH_UNKNOWN;
    struct length_error error = {0};
    char words[LENGTH_TEXT_MAX];
    char sentence[160];
    if (length_parse(text, unit, &length, &error) != LENGTH_OK) {
        HOLDS(length == LENGTH_UNKNOWN);
        HOLDS(error.code != LENGTH_OK);
        HOLDS(error.offset + error.size <= strlen(text));
        length_error_text(text, &error, sentence, sizeof sentence);
        HOLDS(strlen(sentence) > 0);
        return;
    }
    length_nm back;
    HOLDS(length >= -LENGTH_LIMIT && length <= LENGTH_LIMIT);
    length_text_exact(length, words);
    HOLDS(length_parse(words, LENGTH_UNIT_INCH, &back, NULL) == LENGTH_OK && back == length);
    length_text_mm(length, 6, words);
    HOLDS(length_parse(words, LENGTH_UNIT_MM, &back, NULL) == LENGTH_OK && back == length);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char *text = fuzz_string(data, size);
    mass_mg mass;
    char words[LENGTH_TEXT_MAX];
    try_length(text, LENGTH_UNIT_INCH);
    try_length(text, LENGTH_UNIT_MM);
    if (mass_parse(text, &mass)) {
        mass_mg back;
        mass_text(mass, words);
        HOLDS(mass >= 0 && mass <= 5000 * MASS_GRAM);
        HOLDS(mass_parse(words, &back) && back == mass);
    }
    free(text);
    return 0;
}
