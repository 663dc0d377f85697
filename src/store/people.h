#ifndef PEOPLE_H
#define PEOPLE_H

#include "query.h"

// Whether the badge is a supervisor's. Private to src/store.
enum store_result people_supervisor(struct store *store, const char *badge, bool *ret_yes);

#endif
