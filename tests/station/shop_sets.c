// Builds as sets in the workshop of the tests, and a kit list that the test itself lays down.

#include "shop.h"
#include "words.h"

#include <string.h>

enum station_lookup shop_set(void *ctx, const char *build, struct set *ret_set) {
    struct shop *shop = ctx;
    struct club clubs[SHOP_CLUBS];
    size_t count = 0;
    if (shop->lost > 0) {
        return STATION_LOOKUP_FAILED;
    }
    for (size_t i = 0; i < shop->catalogue->club_count; i++) {
        if (strcmp(shop->catalogue->club[i].order.build, build) == 0) {
            shop_ops.club(shop, shop->catalogue->club[i].id, &clubs[count++]);
        }
    }
    if (count == 0) {
        return STATION_ABSENT;
    }
    struct station_settings settings = shop_settings();
    set_make(clubs, shop->finals, count, &settings.rules, &settings.assembly, ret_set);
    return STATION_FOUND;
}

enum station_lookup shop_beside(void *ctx, const char *build, bool before,
                                char ret_build[PARTS_BUILD_MAX]) {
    struct shop *shop = ctx;
    const char *found = NULL;
    for (size_t i = 0; i < shop->catalogue->club_count; i++) {
        const char *name = shop->catalogue->club[i].order.build;
        int order = strcmp(name, build);
        if ((before ? order < 0 : order > 0) &&
            (found == NULL || (before ? strcmp(name, found) > 0 : strcmp(name, found) < 0))) {
            found = name;
        }
    }
    if (found == NULL) {
        return STATION_ABSENT;
    }
    words_copy(ret_build, PARTS_BUILD_MAX, found);
    return STATION_FOUND;
}

enum station_lookup shop_kit(void *ctx, const char *build, enum match_by by, struct kit *ret_kit) {
    struct shop *shop = ctx;
    if (shop->kit == NULL || strcmp(shop->kit->build, build) != 0) {
        return STATION_ABSENT;
    }
    *ret_kit = *shop->kit;
    ret_kit->by = by;
    return STATION_FOUND;
}

enum station_save shop_save_all(void *ctx, struct entry *entries, size_t count) {
    struct shop *shop = ctx;
    struct shop before = *shop;
    for (size_t i = 0; i < count; i++) {
        enum station_save saved = shop_ops.save(shop, &entries[i]);
        if (saved != STATION_SAVED) {
            before.fault = shop->fault; // it has hit
            *shop = before;
            return saved;
        }
    }
    return STATION_SAVED;
}

enum station_lookup shop_code_model(void *ctx, const char *gtin, struct station_model *ret_model) {
    (void)ctx;
    if (strcmp(gtin, "6291041500213") != 0) {
        return STATION_ABSENT;
    }
    *ret_model = (struct station_model){.model = "Reed 60", .flex = "R", .parts = 3};
    return STATION_FOUND;
}

enum station_lookup shop_stats(void *ctx, const struct review_filter *filter,
                               struct cut_stats *ret_stats) {
    struct shop *shop = ctx;
    (void)filter;
    if (shop->lost > 0) {
        return STATION_LOOKUP_FAILED;
    }
    for (int64_t seq = shop->seq > SHOP_LOG ? shop->seq - SHOP_LOG + 1 : 1; seq <= shop->seq;
         seq++) {
        const struct shop_entry *entry = shop_slot(shop, seq);
        struct cut_fact fact = {.kind = entry->kind,
                                .planned = entry->planned,
                                .made = entry->made,
                                .cause = entry->cause,
                                .hour = 10};
        cut_stats_add(ret_stats, &fact);
    }
    ret_stats->left_out_before_ms = shop->stats_from_ms;
    return STATION_FOUND;
}

bool shop_tickets(void *ctx, const char *build, char *ret_path, size_t size) {
    const struct shop *shop = ctx;
    if (shop->broken) {
        return false;
    }
    words_copy(ret_path, size, build);
    return true;
}
