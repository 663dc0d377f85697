#include "statements.h"

const char *statement_sql(enum statement statement) {
    static const char *const texts[STATEMENT_COUNT] = {
#define X(name, sql) sql,
        STATEMENTS(X)
#undef X
    };
    return texts[statement];
}
