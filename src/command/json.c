#include "json.h"
#include "text.h"

void json_string(FILE *to, const char *text) {
    fputc('"', to);
    for (const unsigned char *at = (const unsigned char *)text; *at != '\0'; at++) {
        if (*at == '"' || *at == '\\') {
            fprintf(to, "\\%c", *at);
        } else if (*at < 0x20 || *at == 0x7F) {
            fprintf(to, "\\u%04x", *at);
        } else {
            fputc(*at, to);
        }
    }
    fputc('"', to);
}

void json_text(FILE *to, const char *key, const char *text) {
    fprintf(to, ",\"%s\":", key);
    json_string(to, text);
}

void json_length(FILE *to, const char *key, length_nm length) {
    char text[LENGTH_TEXT_MAX] = "null";
    if (length != LENGTH_UNKNOWN) {
        length_text_exact(length, text);
    }
    fprintf(to, ",\"%s\":%s", key, text);
}

void json_decimal(FILE *to, const char *key, double value, int decimals) {
    char words[32];
    struct text text = text_open(words, sizeof words);
    text.source = true;
    text_add_decimal(&text, value, decimals);
    fprintf(to, ",\"%s\":%s", key, words);
}

void json_null(FILE *to, const char *key) {
    fprintf(to, ",\"%s\":null", key);
}
