#ifndef STATEMENTS_IMPORT_H
#define STATEMENTS_IMPORT_H

// Statements of the import. X(name, "SQL").

// clang-format off
#define IMPORT_STATEMENTS(X)
// clang-format on

#endif
