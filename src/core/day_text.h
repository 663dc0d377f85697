#ifndef DAY_TEXT_H
#define DAY_TEXT_H

// A day of the calendar as the shop's language writes it, on screens and papers. Files have
// `2026-11-30` whatever the language. Pure.

#include <stddef.h>

#define DAY_TEXT_MAX 32

struct day {
    int year;
    int month; // 1 to 12
    int day;
};

// `2026-11-30`, `30.11.2026`, `30/11/2026`.
void day_text(const struct day *day, char *buffer, size_t size);
// The same without its year, `30 Nov`.
void day_text_short(const struct day *day, char *buffer, size_t size);

// Of `2026-11-30`; what is no such day is copied as it is.
void day_text_iso(const char *iso, char *buffer, size_t size);

#endif
