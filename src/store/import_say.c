#include "import_say.h"
#include "text.h"

#include <stdarg.h>

// Names of files and columns come from outside.
static void name(FILE *to, const char *text) {
    for (; *text != '\0'; text++) {
        fputc((unsigned char)*text < 0x20 || *text == 0x7F ? '?' : *text, to);
    }
}

static void place(FILE *to, struct import_at at, const char *column) {
    name(to, at.file);
    if (at.line > 0) {
        fprintf(to, ":%zu", at.line);
    }
    fputs(": ", to);
    if (column != NULL) {
        fputs("column ", to);
        name(to, column);
        fputs(": ", to);
    }
}

void import_complain(struct import_say *say, struct import_at at, const char *column,
                     const char *format, ...) {
    va_list arguments;
    say->complaints++;
    if (say->complaints > IMPORT_COMPLAINTS_MAX) {
        return;
    }
    place(say->messages, at, column);
    va_start(arguments, format);
    vfprintf(say->messages, format, arguments);
    va_end(arguments);
    fputc('\n', say->messages);
}

void import_remark(struct import_say *say, struct import_at at, const char *column,
                   const char *format, ...) {
    va_list arguments;
    say->remarks++;
    if (say->remarks > IMPORT_COMPLAINTS_MAX) {
        return;
    }
    place(say->messages, at, column);
    fputs("remark: ", say->messages);
    va_start(arguments, format);
    vfprintf(say->messages, format, arguments);
    va_end(arguments);
    fputc('\n', say->messages);
}

void import_say_end(const struct import_say *say) {
    if (say->complaints > IMPORT_COMPLAINTS_MAX) {
        fprintf(say->messages, "and %zu more like these\n",
                say->complaints - IMPORT_COMPLAINTS_MAX);
    }
}

const char *import_quote(const char *text, char buffer[IMPORT_QUOTED_MAX]) {
    struct text out = text_open(buffer, IMPORT_QUOTED_MAX);
    text_add_quoted(&out, text);
    return buffer;
}
