// A profile is taken whole, as a chart is: when any point differs from the newest revision, it is a
// new one.

#include "catalogue.h"
#include "import_write.h"

static enum store_result newest_revision(struct store *store,
                                         const struct import_profile_point *point,
                                         int64_t *ret_revision) {
    int64_t revision = 0;
    struct query query = query_open(store, STATEMENT_IMPORT_PROFILE);
    query_bind_text(&query, point->model);
    query_bind_text(&query, point->flex);
    if (query_step(&query)) {
        revision = query_number(&query, 0); // NULL, and so 0, when there is none
    }
    enum store_result result = query_end(&query, N_("look up a profile"));
    if (result == STORE_OK) {
        *ret_revision = revision;
    }
    return result;
}

static bool same_points(const struct profile *profile, const void *const *points, size_t count) {
    for (size_t i = 0; i < count && i < profile->count; i++) {
        const struct profile_point *wanted =
            &((const struct import_profile_point *)points[i])->point;
        if (wanted->from_tip != profile->point[i].from_tip ||
            wanted->stiffness != profile->point[i].stiffness) {
            return false;
        }
    }
    return profile->count == count;
}

static enum store_result add_point(struct store *store, const struct import_profile_point *point,
                                   int64_t revision) {
    struct query query = query_open(store, STATEMENT_IMPORT_ADD_POINT);
    query_bind_text(&query, point->model);
    query_bind_text(&query, point->flex);
    query_bind_number(&query, revision);
    query_bind_length(&query, point->point.from_tip);
    query_bind_number(&query, point->point.stiffness);
    return query_run(&query, N_("save a profile"));
}

enum store_result import_write_profile(struct import_write *write, const void *const *points,
                                       size_t count) {
    const struct import_profile_point *first = points[0];
    struct profile newest = {0};
    int64_t revision = 0;
    enum store_result result = catalogue_profile(write->store, first->model, first->flex, &newest);
    if (result == STORE_OK && same_points(&newest, points, count)) {
        return STORE_OK;
    }
    if (result == STORE_OK || result == STORE_NONE) {
        result = newest_revision(write->store, first, &revision);
    }
    for (size_t i = 0; result == STORE_OK && i < count; i++) {
        result = add_point(write->store, points[i], revision + 1);
    }
    write->count[IMPORT_PROFILES].added += revision == 0 ? 1 : 0;
    write->count[IMPORT_PROFILES].changed += revision == 0 ? 0 : 1;
    return result;
}
