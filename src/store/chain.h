#ifndef CHAIN_H
#define CHAIN_H

// The log as a chain: each entry carries SHA-256 over the hash before it and its own fields.
// Private to src/store.

#include "query.h"

// The end of the chain as it stands in this transaction.
struct chain_end {
    int64_t seq; // 0: the log is empty
    uint8_t hash[ENTRY_HASH_SIZE];
};
enum store_result chain_find_end(struct store *store, struct chain_end *ret_end);

// Writes *entry, whose seq is end->seq + 1, behind `end`. Inside a write transaction.
enum store_result chain_insert(struct store *store, const struct chain_end *end,
                               const struct entry *entry);

// Writes the genesis entry, with a new random incarnation, if the log is empty.
enum store_result chain_begin(struct store *store);

// A row of LOG_COLUMNS. What no entry can hold makes the query odd.
void chain_read(struct query *query, struct entry *ret_entry);
// The same over an entry that one of these two has read, or one of zero bytes.
void chain_read_over(struct query *query, struct entry *entry);

// The hash of an entry behind one with the hash `previous`. `digest` may be NULL.
struct digest;
void chain_digest(struct digest *digest, const struct entry *entry,
                  const uint8_t previous[ENTRY_HASH_SIZE], uint8_t ret_hash[ENTRY_HASH_SIZE]);

// The verdict of a stored word. False for any other word.
bool chain_verdict(const char *text, enum verdict *ret_verdict);

// Walks the whole chain, holds it against a witness and gathers what it says of clubs and parts,
// unless those are NULL. STORE_REFUSED: *check names the first bad entry.
struct witness_compare;
struct replay;
enum store_result chain_check(struct store *store, struct store_check *check,
                              struct witness_compare *compare, struct replay *replay);

// Times, boot, bench and a fresh confirm id into an entry that the store makes by itself.
void chain_stamp(const struct store *store, struct entry *entry);

// 128 random bits, as every confirm id.
void chain_random_id(char ret_id[CONFIRM_ID_MAX]);

#endif
