#ifndef OFFICE_ASSEMBLY_H
#define OFFICE_ASSEMBLY_H

// What the list and the form of measured clubs share. Only for them.

#include "office_inner.h"

struct assembly_field {
    const char *cell; // of the form
    const char *label;
    const char *wrong; // said of what cannot be read
    enum entry_kind entry;
};
extern const struct assembly_field assembly_fields[ASSEMBLY_VALUE_COUNT];

enum store_result assembly_load(struct office *office, const char *build, const char *name,
                                struct club *ret_club, struct final_values *ret_measured);
void assembly_check_club(const struct office *office, const struct club *club,
                         const struct final_values *measured, struct assembly_values *ret_planned,
                         struct assembly_check *ret_check);
// A line a value, and one more for what a supervisor accepted.
void assembly_notes(const struct office *office, const struct club *club,
                    const struct final_values *measured, struct desk_remarks *remarks);

#endif
