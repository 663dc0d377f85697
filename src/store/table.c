#include "table.h"

#include <sodium.h>
#include <stdlib.h>
#include <string.h>

struct table table_init(size_t item_size) {
    struct table table = {.item_size = item_size};
    randombytes_buf(table.secret, sizeof table.secret);
    return table;
}

void table_release(struct table *table) {
    free(table->items);
    free(table->slot);
    *table = (struct table){0};
}

void *table_at(const struct table *table, size_t number) {
    return table->items + number * table->item_size;
}

// The slot that holds the key, or the free one it belongs into. A keyed hash: tickets come from a
// file that may be made to collide.
static size_t slot_of(const struct table *table, const uint8_t key[TABLE_KEY_SIZE]) {
    uint64_t hash;
    _Static_assert(sizeof hash == crypto_shorthash_BYTES, "SipHash gives 8 bytes");
    _Static_assert(sizeof table->secret == crypto_shorthash_KEYBYTES, "and takes a key of 16");
    crypto_shorthash((unsigned char *)&hash, key, TABLE_KEY_SIZE, table->secret);
    size_t at = (size_t)hash & (table->slots - 1);
    while (table->slot[at] != 0 &&
           memcmp(table_at(table, table->slot[at] - 1), key, TABLE_KEY_SIZE) != 0) {
        at = (at + 1) & (table->slots - 1);
    }
    return at;
}

void *table_find(const struct table *table, const uint8_t key[TABLE_KEY_SIZE]) {
    if (table->slots == 0) {
        return NULL;
    }
    uint32_t number = table->slot[slot_of(table, key)];
    return number == 0 ? NULL : table_at(table, number - 1);
}

// At most half of the slots are taken.
static bool grow_slots(struct table *table) {
    struct table larger = *table;
    larger.slots = table->slots == 0 ? 256 : 2 * table->slots;
    larger.slot = calloc(larger.slots, sizeof *larger.slot);
    if (larger.slot == NULL) {
        return false;
    }
    for (size_t i = 0; i < table->count; i++) {
        larger.slot[slot_of(&larger, table_at(table, i))] = (uint32_t)i + 1;
    }
    uint32_t *old = table->slot;
    table->slot = larger.slot;
    table->slots = larger.slots;
    free(old);
    return true;
}

static bool grow_items(struct table *table) {
    size_t room = table->room == 0 ? 256 : 2 * table->room;
    unsigned char *items = realloc(table->items, room * table->item_size);
    if (items == NULL) {
        return false;
    }
    table->items = items;
    table->room = room;
    return true;
}

void *table_take(struct table *table, const uint8_t key[TABLE_KEY_SIZE], bool *ret_new) {
    void *item = table_find(table, key);
    if (item != NULL) {
        *ret_new = false;
        return item;
    }
    if (table->count == UINT32_MAX - 1 ||
        (2 * (table->count + 1) > table->slots && !grow_slots(table)) ||
        (table->count == table->room && !grow_items(table))) {
        return NULL;
    }
    table->slot[slot_of(table, key)] = (uint32_t)table->count + 1;
    item = table_at(table, table->count++);
    memset(item, 0, table->item_size);
    memcpy(item, key, TABLE_KEY_SIZE);
    *ret_new = true;
    return item;
}
