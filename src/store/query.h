#ifndef QUERY_H
#define QUERY_H

// One run of a statement of the table: open, bind in order, step, read columns, close.
// Every bind and column is checked; the first failure sticks, and query_step and query_end tell.
//
//     struct query query = query_open(store, STATEMENT_PART_HEAD);
//     query_bind_text(&query, ticket);
//     if (query_step(&query)) { query_text(&query, 0, part.model, sizeof part.model); }
//     result = query_end(&query, N_("look up a head"));

#include "connection.h"

struct query {
    struct store *store;
    sqlite3_stmt *statement; // NULL: could not be prepared
    int bound;
    bool misbound; // not as many values as the statement takes
    bool row;      // stands on a row
    bool found;    // stood on one
    bool failed;   // SQLite's error is the connection's last
    bool odd;      // a column holds what the schema does not allow
    bool no_null;  // NULL is not allowed from here on
};

struct query query_open(struct store *store, enum statement statement);

// Texts and blobs must outlive the query.
void query_bind_text(struct query *query, const char *text);
void query_bind_blob(struct query *query, const void *bytes, size_t size);
void query_bind_number(struct query *query, int64_t number);
void query_bind_id(struct query *query, int64_t id);           // 0: NULL
void query_bind_length(struct query *query, length_nm length); // LENGTH_UNKNOWN: NULL

// True while there is a row.
bool query_step(struct query *query);

int64_t query_number(struct query *query, int column);   // NULL: 0
int64_t query_id(struct query *query, int column);       // NULL: 0, and 0 itself is odd
length_nm query_length(struct query *query, int column); // NULL: LENGTH_UNKNOWN
int query_int(struct query *query, int column);          // odd outside int
void query_text(struct query *query, int column, char *buffer, size_t size);
// The same into a buffer that is zero behind its text, and cheaper when it is large.
void query_text_over(struct query *query, int column, char *buffer, size_t size);
void query_blob(struct query *query, int column, void *buffer, size_t size);

// Resets the statement. STORE_OK when a row was there or none was asked for, STORE_NONE when it
// stepped and found none, else what went wrong in `doing` (and the message is set).
enum store_result query_end(struct query *query, const char *doing);

// Takes the result of a step over which a row may be missing: STORE_NONE counts as STORE_OK. True
// to go on.
bool query_passes(enum store_result *result, enum store_result step);

// Steps a statement that gives no rows, and ends it: STORE_OK or what went wrong.
enum store_result query_run(struct query *query, const char *doing);

#endif
