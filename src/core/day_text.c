#include "day_text.h"

#include "text.h"
#include "tongue.h"

#include <stdio.h>

void day_text(const struct day *day, char *buffer, size_t size) {
    switch (tongue_now()->dates) {
    case TONGUE_DATES_ISO:
        snprintf(buffer, size, "%04d-%02d-%02d", day->year, day->month, day->day);
        break;
    case TONGUE_DATES_POINTS:
        snprintf(buffer, size, "%02d.%02d.%04d", day->day, day->month, day->year);
        break;
    case TONGUE_DATES_SLASHES:
        snprintf(buffer, size, "%02d/%02d/%04d", day->day, day->month, day->year);
        break;
    case TONGUE_DATES_JAPANESE:
        snprintf(buffer, size, "%04d\u5E74%02d\u6708%02d\u65E5", day->year, day->month, day->day);
        break;
    }
}

void day_text_short(const struct day *day, char *buffer, size_t size) {
    static const char *const months[] = {
        NT_("month", "Jan"), NT_("month", "Feb"), NT_("month", "Mar"), NT_("month", "Apr"),
        NT_("month", "May"), NT_("month", "Jun"), NT_("month", "Jul"), NT_("month", "Aug"),
        NT_("month", "Sep"), NT_("month", "Oct"), NT_("month", "Nov"), NT_("month", "Dec")};
    struct text text = text_open(buffer, size);
    // TRANSLATORS: %1 the day of the month, %2 its month, as `30 Nov`.
    text_say(&text, T_("day and month", "%1 %2"), text_number(day->day).digits,
             _(months[day->month - 1]));
}

void day_text_iso(const char *iso, char *buffer, size_t size) {
    struct day day;
    int used = 0;
    struct text text = text_open(buffer, size);
    if (sscanf(iso, "%4d-%2d-%2d%n", &day.year, &day.month, &day.day, &used) == 3 &&
        iso[used] == '\0' && used == 10 && day.month >= 1 && day.month <= 12) {
        day_text(&day, buffer, size);
    } else {
        text_add(&text, iso);
    }
}
