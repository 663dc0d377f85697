#ifndef TABLE_H
#define TABLE_H

// Items found by a key of 16 bytes with which each begins. Making one may move the others of the
// same table. Private to src/store.

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define TABLE_KEY_SIZE 16

struct table {
    size_t item_size;
    size_t count;
    size_t room; // items
    unsigned char *items;
    uint32_t *slot; // 1 + number of an item, 0: free
    size_t slots;   // a power of two, or 0
    uint8_t secret[16];
};

struct table table_init(size_t item_size);
void table_release(struct table *table);

void *table_at(const struct table *table, size_t number); // in the order they were made
void *table_find(const struct table *table, const uint8_t key[TABLE_KEY_SIZE]); // NULL: none
// Finds it or makes it, all zero behind the key; then *ret_new is true. NULL: no memory.
void *table_take(struct table *table, const uint8_t key[TABLE_KEY_SIZE], bool *ret_new);

#endif
