#ifndef SHOP_H_TESTS
#define SHOP_H_TESTS

// The office over the workshop of fixture.h, filled in by hand: drafts as the desk would keep them.

#include "fixture.h"
#include "office.h"

struct shop {
    struct fixture fixture;
    struct station_settings settings;
    struct station_ops world;
    struct office office;
    struct desk_ops ops;
    struct worker who;
    int64_t now_ms;
};

// Somebody with a supervisor's rights stands at the desk.
void shop_open(struct shop *shop);
void shop_close(struct shop *shop);
// The same as setup and teardown of a test; *state is the shop.
int shop_opened(void **state);
int shop_closed(void **state);
// Of its log.
int64_t shop_entries(const struct shop *shop);

// A draft begun; fails the test when there is no such thing.
struct desk_draft shop_draft(struct shop *shop, enum desk_form form, const char *a, const char *b,
                             const char *c);
void shop_set(struct desk_draft *draft, const char *cell, const char *value);
struct desk_remarks shop_consider(struct shop *shop, struct desk_draft *draft);
// Fails the test when it is not saved; the entry's seq.
int64_t shop_save(struct shop *shop, struct desk_draft *draft);

// Note `at` has this text; there are `count` notes, no complaint.
void shop_expect_note(const struct desk_remarks *remarks, size_t at, enum view_tone tone,
                      const char *text);
void shop_expect_notes(const struct desk_remarks *remarks, size_t count);
// The first complaint is about `cell` and has `words` in it.
void shop_expect_complaint(const struct desk_remarks *remarks, const char *cell, const char *words);

#endif
