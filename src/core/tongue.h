#ifndef TONGUE_H
#define TONGUE_H

// Texts that a person reads, in the language of the shop. The English ones stand where they are
// used and are the keys: _ gives what is shown for one, N_ marks one in a table, which _ takes out
// of it later. What goes into the log, a CSV file or JSON never passes here.
//
// One tongue for the whole program, set once before there are threads; until then, and where a
// translation is missing, texts are English. No files here: whoever sets it brings the texts.

enum tongue_dates {
    TONGUE_DATES_ISO,     // 2026-11-30
    TONGUE_DATES_POINTS,  // 30.11.2026
    TONGUE_DATES_SLASHES, // 30/11/2026
    TONGUE_DATES_JAPANESE // 2026年11月30日
};

struct tongue {
    // What is shown for an English text; the text itself when there is nothing. NULL: English.
    const char *(*text)(const char *english);
    // The same for a sentence about `count` things; both texts have the same placeholders.
    const char *(*plural)(const char *one, const char *many, unsigned long count);
    char decimal_point; // '.' or ','
    enum tongue_dates dates;
};

// English, decimal point, ISO dates.
extern const struct tongue tongue_english;

// NULL: English. The struct must stay.
void tongue_use(const struct tongue *tongue);
const struct tongue *tongue_now(void);

// "" gives "". What stands before a \004 is a context (T_) and never shown.
const char *tongue_text(const char *english) __attribute__((format_arg(1)));
const char *tongue_plural(const char *one, const char *many, unsigned long count)
    __attribute__((format_arg(1), format_arg(2)));

#define _(text) tongue_text(text)
#define N_(text) text

// A short text that means different things at different places: the context tells them apart.
#define NT_(context, text) context "\004" text
#define T_(context, text) tongue_text(context "\004" text)

#endif
