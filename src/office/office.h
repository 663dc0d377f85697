#ifndef OFFICE_H
#define OFFICE_H

// What the desk asks, answered from the store: what stands in its lists and forms, what follows
// from what was typed, and how a form becomes entries of the log.

#include "desk.h"
#include "station.h"
#include "store.h"

struct office {
    struct store *store;
    const struct station_ops *world; // clock, chance, and the one way entries are saved
    const struct station_settings *settings;
    // What makes files and prints; the office hands it on.
    enum desk_result (*deed)(void *ctx, const struct worker *who, enum desk_deed deed,
                             const struct desk_ref *of, const char *id, struct desk_said *ret_said);
    void *deed_ctx;
    // The local day of a moment, `2026-03-31`.
    void (*day_text)(int64_t wall_ms, char *buffer, size_t size);
    struct worker who; // whoever fills in the form now, for what would be if it were saved
};

// Everything a desk needs, with `office` as its ctx.
struct desk_ops office_ops(struct office *office);

// A drafted or held order goes to the bench.
enum desk_result office_release(struct office *office, const struct worker *who,
                                const struct desk_ref *of, const char *id, struct desk_said *said);

#endif
