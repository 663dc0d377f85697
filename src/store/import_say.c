#include "import_say.h"
#include "text.h"
#include "tongue.h"

#include <stdarg.h>

#define IMPORT_TEXT_MAX 1024

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
        fputs(_("column"), to);
        fputs(" ", to);
        name(to, column);
        fputs(": ", to);
    }
}

static void print(FILE *to, struct import_at at, const char *column, const char *mark,
                  const char *text) {
    if (to != NULL) {
        place(to, at, column);
        fputs(mark, to);
        fputs(text, to);
        fputc('\n', to);
    }
}

void import_complain(struct import_say *say, struct import_at at, const char *column,
                     const char *format, ...) {
    char text[IMPORT_TEXT_MAX];
    va_list arguments;
    say->complaints++;
    if (say->complaints > IMPORT_COMPLAINTS_MAX) {
        return;
    }
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    print(say->messages, at, column, "", text);
    if (say->listener != NULL) {
        say->listener(say->ctx, column, text);
    }
}

void import_remark(struct import_say *say, struct import_at at, const char *column,
                   const char *format, ...) {
    char text[IMPORT_TEXT_MAX];
    va_list arguments;
    say->remarks++;
    if (say->remarks > IMPORT_COMPLAINTS_MAX) {
        return;
    }
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    print(say->messages, at, column, _("remark: "), text);
}

bool import_say_form(const struct import_say *say) {
    return say->messages == NULL;
}

void import_say_end(const struct import_say *say) {
    if (say->complaints > IMPORT_COMPLAINTS_MAX && say->messages != NULL) {
        fprintf(say->messages, _("and %zu more like these\n"),
                say->complaints - IMPORT_COMPLAINTS_MAX);
    }
}

const char *import_quote(const char *text, char buffer[IMPORT_QUOTED_MAX]) {
    struct text out = text_open(buffer, IMPORT_QUOTED_MAX);
    text_add_quoted(&out, text);
    return buffer;
}
