#ifndef STATEMENTS_H
#define STATEMENTS_H

// Every statement this layer runs, in one table. Private to src/store.

#include "statements_import.h"
#include "statements_lists.h"
#include "statements_log.h"
#include "statements_people.h"
#include "statements_work.h"
#include "statements_workshop.h"

// clang-format off
#define CONNECTION_STATEMENTS(X)                                                                   \
    X(BEGIN_WRITE, "BEGIN IMMEDIATE")                                                              \
    X(BEGIN_READ, "BEGIN")                                                                         \
    X(COMMIT, "COMMIT")                                                                            \
    X(ROLLBACK, "ROLLBACK")

#define STATEMENTS(X)                                                                              \
    CONNECTION_STATEMENTS(X) WORK_STATEMENTS(X) LOG_STATEMENTS(X) PEOPLE_STATEMENTS(X)             \
    IMPORT_STATEMENTS(X) LISTS_STATEMENTS(X) WORKSHOP_STATEMENTS(X)
// clang-format on

enum statement {
#define X(name, sql) STATEMENT_##name,
    STATEMENTS(X)
#undef X
        STATEMENT_COUNT
};

const char *statement_sql(enum statement statement);

#endif
