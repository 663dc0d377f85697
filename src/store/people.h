#ifndef PEOPLE_H
#define PEOPLE_H

#include "query.h"

// Whether the badge is a supervisor's. False too when the store fails. Private to src/store.
bool people_supervisor(struct store *store, const char *badge);

#endif
