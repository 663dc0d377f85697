#ifndef STATEMENTS_PEOPLE_H
#define STATEMENTS_PEOPLE_H

// Workers, their PINs, and the tries at them.

// clang-format off
#define PEOPLE_STATEMENTS(X)                                                                       \
    X(WORKER, "SELECT badge, name, role FROM worker WHERE badge = ?")                              \
    X(PIN, "SELECT hash FROM pin WHERE badge = ?")                                                 \
    X(PIN_SET,                                                                                     \
      "INSERT INTO pin (badge, hash) VALUES (?1, ?2) "                                             \
      "ON CONFLICT (badge) DO UPDATE SET hash = ?2")                                               \
    X(PIN_TRY, "SELECT tries, wait_ms, until_ms, boot FROM pin_try WHERE badge = ?")               \
    X(PIN_TRY_SET,                                                                                 \
      "INSERT INTO pin_try (badge, tries, wait_ms, until_ms, boot) VALUES (?1, ?2, ?3, ?4, ?5) "   \
      "ON CONFLICT (badge) DO UPDATE SET tries = ?2, wait_ms = ?3, until_ms = ?4, boot = ?5")
// clang-format on

#endif
