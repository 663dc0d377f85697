#include "days.h"

#include "tongue.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

static const char *const weekdays[] = {"Sunday",   "Monday", "Tuesday", "Wednesday",
                                       "Thursday", "Friday", "Saturday"};
static const char *const months[] = {"January",   "February", "March",    "April",
                                     "May",       "June",     "July",     "August",
                                     "September", "October",  "November", "December"};

bool days_midnight(const char *day, int after, int64_t *ret_ms) {
    struct tm date = {.tm_isdst = -1};
    if (!checkpoint_is_day(day) ||
        sscanf(day, "%4d-%2d-%2d", &date.tm_year, &date.tm_mon, &date.tm_mday) != 3) {
        return false;
    }
    date.tm_year -= 1900;
    date.tm_mon--;
    date.tm_mday += after;
    time_t seconds = mktime(&date);
    if (seconds == -1) {
        return false;
    }
    *ret_ms = (int64_t)seconds * 1000;
    return true;
}

bool days_take(const char *command, const char *option, const char *day, int after,
               int64_t *ret_ms) {
    if (day == NULL || days_midnight(day, after, ret_ms)) {
        return true;
    }
    fprintf(stderr, _("kerfside %s: %s %s is no day; write it as 2026-03-31.\n"), command, option,
            day);
    return false;
}

static struct tm local(int64_t wall_ms) {
    time_t seconds = (time_t)(wall_ms / 1000);
    struct tm date = {.tm_mday = 1};
    localtime_r(&seconds, &date);
    return date;
}

void days_text(int64_t wall_ms, char ret_day[CHECKPOINT_DAY_MAX]) {
    struct tm date = local(wall_ms);
    strftime(ret_day, CHECKPOINT_DAY_MAX, "%Y-%m-%d", &date);
}

void days_title(int64_t from_ms, int64_t to_ms, char ret_title[DAYS_TITLE_MAX]) {
    struct tm first = local(from_ms);
    struct tm last = local(to_ms - 1);
    if (first.tm_year == last.tm_year && first.tm_yday == last.tm_yday) {
        snprintf(ret_title, DAYS_TITLE_MAX, "%s %d %s %d", weekdays[first.tm_wday], first.tm_mday,
                 months[first.tm_mon], 1900 + first.tm_year);
    } else {
        snprintf(ret_title, DAYS_TITLE_MAX, "%d %s %d to %d %s %d", first.tm_mday,
                 months[first.tm_mon], 1900 + first.tm_year, last.tm_mday, months[last.tm_mon],
                 1900 + last.tm_year);
    }
}

void days_time(int64_t wall_ms, bool day, char *buffer, size_t size) {
    struct tm date = local(wall_ms);
    if (day) {
        snprintf(buffer, size, "%d %.3s %02d:%02d", date.tm_mday, months[date.tm_mon], date.tm_hour,
                 date.tm_min);
    } else {
        snprintf(buffer, size, "%02d:%02d", date.tm_hour, date.tm_min);
    }
}
