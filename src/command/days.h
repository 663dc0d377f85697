#ifndef DAYS_H
#define DAYS_H

// Local days of the calendar, as options and titles write them.

#include "checkpoint.h"

// Local midnight that begins `day` (2026-03-31), `after` days later. False: no day of the calendar.
bool days_midnight(const char *day, int after, int64_t *ret_ms);

// The same of an option's value, NULL for one not given (*ret_ms stays). False: said on stderr.
bool days_take(const char *command, const char *option, const char *day, int after,
               int64_t *ret_ms);

// The day that holds a time.
void days_text(int64_t wall_ms, char ret_day[CHECKPOINT_DAY_MAX]);

// `Wednesday 25 November 2026`, or `24 November 2026 to 26 November 2026`; to_ms is the midnight
// after the last.
#define DAYS_TITLE_MAX 64
void days_title(int64_t from_ms, int64_t to_ms, char ret_title[DAYS_TITLE_MAX]);

// `10:42`, with `25 Nov ` before it if wanted.
void days_time(int64_t wall_ms, bool day, char *buffer, size_t size);

#endif
