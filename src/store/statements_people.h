#ifndef STATEMENTS_PEOPLE_H
#define STATEMENTS_PEOPLE_H

// Workers, their PINs, and the tries at them.

// clang-format off
#define PEOPLE_STATEMENTS(X)                                                                       \
    X(WORKER, "SELECT badge, name, role FROM worker WHERE badge = ? AND withdrawn IS NULL")        \
    X(PEOPLE,                                                                                      \
      "SELECT w.badge, w.name, w.role, p.hash IS NOT NULL, coalesce(t.tries, 0), "                 \
      "w.withdrawn IS NOT NULL FROM worker AS w LEFT JOIN pin AS p ON p.badge = w.badge "          \
      "LEFT JOIN pin_try AS t ON t.badge = w.badge ORDER BY w.badge")                              \
    X(WITHDRAW, "UPDATE worker SET name = 'withdrawn', withdrawn = ?2 WHERE badge = ?1")           \
    X(WITHDRAW_PIN, "DELETE FROM pin WHERE badge = ?")                                             \
    X(WITHDRAW_TRIES, "DELETE FROM pin_try WHERE badge = ?")                                       \
    X(PIN, "SELECT hash, pepper FROM pin WHERE badge = ?")                                         \
    X(PIN_SET,                                                                                     \
      "INSERT INTO pin (badge, hash, pepper) VALUES (?1, ?2, ?3) "                                 \
      "ON CONFLICT (badge) DO UPDATE SET hash = ?2, pepper = ?3")                                  \
    X(PIN_OTHER_PEPPER, "SELECT 1 FROM pin WHERE pepper <> '' AND pepper <> ? LIMIT 1")            \
    X(PIN_TRY, "SELECT tries, wait_ms, until_ms, boot, locked FROM pin_try WHERE badge = ?")       \
    X(PIN_TRY_SET,                                                                                 \
      "INSERT INTO pin_try (badge, tries, wait_ms, until_ms, boot, locked) "                       \
      "VALUES (?1, ?2, ?3, ?4, ?5, ?6) ON CONFLICT (badge) DO UPDATE "                             \
      "SET tries = ?2, wait_ms = ?3, until_ms = ?4, boot = ?5, locked = ?6")                       \
    X(PIN_TRY_ALL,                                                                                 \
      "SELECT coalesce(sum(t.tries), 0) FROM pin_try AS t JOIN worker AS w ON w.badge = t.badge "  \
      "WHERE w.role = 'supervisor' AND t.tries < ?")
// clang-format on

#endif
