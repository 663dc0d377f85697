#ifndef CATALOGUE_H
#define CATALOGUE_H

// What the makers say, newest revisions: models, charts, profiles. Private to src/store.

#include "query.h"

// STORE_NONE: no such model, and nothing known of it.
enum store_result catalogue_model(struct store *store, const char *name,
                                  struct shaft_model *ret_model);

// STORE_NONE: the maker has none; *chart then still says which was looked for, count 0.
enum store_result catalogue_chart(struct store *store, const char *model, const char *flex,
                                  enum chart_kind kind, struct chart *chart);

// STORE_NONE: not known, *profile is left alone (count 0 if it was).
enum store_result catalogue_profile(struct store *store, const char *model, const char *flex,
                                    struct profile *profile);

// The row of WORK_SHAFT the query stands on; all unknown without one.
void catalogue_shaft(struct query *query, struct shaft *ret_shaft);

#endif
