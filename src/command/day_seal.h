#ifndef DAY_SEAL_H
#define DAY_SEAL_H

// What stands at the end of a day report: the signature of its days, or that there is none.

#include "day_facts.h"
#include "day_papers.h"

// False: `message` says why; a witness that was named must be there and of this key.
bool day_seal_make(struct store *store, const struct day_papers *papers,
                   const struct day_facts *facts, struct day_report_seal *ret_seal, char *message,
                   size_t size);

// `Jonas Ekholm, W-0001B`, or the badge alone when the name is not known any more.
void day_seal_who(struct store *store, const char *badge, char *buffer, size_t size);

#endif
