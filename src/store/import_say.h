#ifndef IMPORT_SAY_H
#define IMPORT_SAY_H

// What an import tells the person: `file.csv:LINE: column NAME: what is wrong, what to do`.
// Complaints stop the import, remarks do not. Private to src/store.

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#define IMPORT_COMPLAINTS_MAX 200 // printed; the rest is only counted

// Hears a complaint without its place, `column` NULL as below.
typedef void import_listener(void *ctx, const char *column, const char *text);

struct import_say {
    FILE *messages;            // NULL: nowhere
    import_listener *listener; // NULL: nobody
    void *ctx;                 // of the listener
    size_t complaints;
    size_t remarks;
};

// A row of a file. `file` outlives every place that names it.
struct import_at {
    const char *file;
    size_t line; // 0: the file as a whole
};

// `column` NULL: the row or the file as a whole.
void import_complain(struct import_say *say, struct import_at at, const char *column,
                     const char *format, ...) __attribute__((format(printf, 4, 5)));
void import_remark(struct import_say *say, struct import_at at, const char *column,
                   const char *format, ...) __attribute__((format(printf, 4, 5)));

// Whether a form hears it, where there is no file to name.
bool import_say_form(const struct import_say *say);

// Says how many complaints were not printed, if any.
void import_say_end(const struct import_say *say);

// `"text"` with control characters shown as `?` and long texts shortened, for a message.
#define IMPORT_QUOTED_MAX 160
const char *import_quote(const char *text, char buffer[IMPORT_QUOTED_MAX]);

#endif
