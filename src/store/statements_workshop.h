#ifndef STATEMENTS_WORKSHOP_H
#define STATEMENTS_WORKSHOP_H

// Lists of the desk: orders, lots, stock, what to fetch. Paged by key.

#define SHOP_ORDER                                                                                 \
    "SELECT b.name, b.status, b.priority, b.reference, b.note, coalesce((SELECT min(c.due) "       \
    "FROM club AS c WHERE c.build = b.name AND c.due <> '' AND c.cancelled = 0 "                   \
    "AND c.stage <> 'done'), ''), "                                                                \
    "(SELECT count(*) FROM club AS c WHERE c.build = b.name AND c.cancelled = 0), "                \
    "(SELECT count(*) FROM club AS c WHERE c.build = b.name AND c.cancelled = 0 "                  \
    "AND c.stage = 'done'), "                                                                      \
    "(SELECT count(*) FROM club AS c WHERE c.build = b.name AND c.cancelled = 0 "                  \
    "AND c.stage NOT IN ('pending', 'done')), "                                                    \
    "(SELECT count(*) FROM club AS c WHERE c.build = b.name AND c.cancelled = 0 "                  \
    "AND c.stage = 'pending' AND (NOT EXISTS (SELECT 1 FROM head WHERE head.club = c.id) "         \
    "OR NOT EXISTS (SELECT 1 FROM shaft WHERE shaft.club = c.id))), "                              \
    "b.changed_seq IS NOT NULL FROM build AS b "

// The parts of clubs not begun by rack and ticket, then what they lack.
#define SHOP_PICK(clubs)                                                                           \
    "WITH w AS (SELECT id, build, name, position, due, wished_model, wished_flex FROM club " clubs \
    " AND stage = 'pending') "                                                                     \
    "SELECT 0, '' AS rack, h.ticket AS ticket, h.model, '', w.build AS build, w.name, w.due, "     \
    "w.position AS place, 0 AS missing FROM w CROSS JOIN head AS h ON h.club = w.id UNION ALL "    \
    "SELECT 1, s.rack, s.ticket, s.model, s.flex, w.build, w.name, w.due, w.position, 0 "          \
    "FROM w CROSS JOIN shaft AS s ON s.club = w.id UNION ALL "                                     \
    "SELECT 2, '', '', '', '', build, name, due, position, 1 FROM w "                              \
    "WHERE NOT EXISTS (SELECT 1 FROM head WHERE head.club = w.id) UNION ALL "                      \
    "SELECT 3, '', '', wished_model, wished_flex, build, name, due, position, 1 FROM w "           \
    "WHERE NOT EXISTS (SELECT 1 FROM shaft WHERE shaft.club = w.id) "                              \
    "ORDER BY missing, rack, ticket, build, place"

// clang-format off
#define WORKSHOP_STATEMENTS(X)                                                                     \
    X(ORDERS, SHOP_ORDER "WHERE b.name > ? ORDER BY b.name LIMIT ?")                               \
    X(ORDERS_AT, SHOP_ORDER "INDEXED BY build_status WHERE b.status = ? AND b.name > ? "           \
      "ORDER BY b.name LIMIT ?")                                                                   \
    X(ORDER, SHOP_ORDER "WHERE b.name = ?")                                                        \
    X(ORDER_COUNT, "SELECT count(*) FROM build INDEXED BY build_status WHERE status = ?")          \
    X(PACE,                                                                                        \
      "SELECT l.mono_ms, l.boot FROM club AS c INDEXED BY club_measured CROSS JOIN log AS l "      \
      "ON l.seq = c.measure_seq WHERE c.bench = ? AND c.stage = 'done' "                           \
      "AND c.measure_seq IS NOT NULL ORDER BY c.measure_seq DESC LIMIT ?")                         \
    X(TICKET_NUMBER, "SELECT number FROM ticket_number WHERE kind = ?")                            \
    X(LOTS,                                                                                        \
      "SELECT id, name, heads, shafts FROM lot WHERE id < ? AND heads + shafts > 0 "               \
      "ORDER BY id DESC LIMIT ?")                                                                  \
    X(LOT_HEADS,                                                                                   \
      "SELECT h.ticket, h.model, '', h.weight, r.weight, h.bore_height, r.bore_height "            \
      "FROM head AS h INDEXED BY head_lot JOIN head_model_revision AS r ON r.model = h.model "     \
      "AND r.revision = (SELECT max(revision) FROM head_model_revision WHERE model = h.model) "    \
      "WHERE h.lot = ? AND h.lot <> '' AND h.ticket > ? ORDER BY h.ticket LIMIT ?")                \
    X(LOT_SHAFTS,                                                                                  \
      "SELECT s.ticket, s.model, s.flex, s.weight, r.weight, s.raw_length, r.raw_length "          \
      "FROM shaft AS s INDEXED BY shaft_lot JOIN shaft_model_revision AS r ON r.model = s.model "  \
      "AND r.revision = (SELECT max(revision) FROM shaft_model_revision WHERE model = s.model) "   \
      "WHERE s.lot = ? AND s.lot <> '' AND s.ticket > ? ORDER BY s.ticket LIMIT ?")                \
    X(STOCK_NEXT_HEAD, "SELECT name, '' FROM head_model WHERE name > ? ORDER BY name LIMIT 1")     \
    X(STOCK_NEXT_SHAFT,                                                                            \
      "SELECT model, flex FROM ("                                                                  \
      "SELECT * FROM (SELECT model, flex FROM shaft INDEXED BY shaft_spare WHERE life = 'raw' "    \
      "AND club IS NULL AND (model, flex) > (?1, ?2) ORDER BY model, flex LIMIT 1) UNION ALL "     \
      "SELECT * FROM (SELECT model, flex FROM shaft INDEXED BY shaft_reserved WHERE life = 'raw' " \
      "AND club IS NOT NULL AND (model, flex) > (?1, ?2) ORDER BY model, flex LIMIT 1) UNION ALL " \
      "SELECT * FROM (SELECT model, flex FROM stock_level WHERE part = 'shaft' "                   \
      "AND (model, flex) > (?1, ?2) ORDER BY model, flex LIMIT 1) UNION ALL "                      \
      "SELECT * FROM (SELECT wished_model, wished_flex FROM club INDEXED BY club_wish "            \
      "WHERE stage = 'pending' AND rank > 0 AND wished_model <> '' "                               \
      "AND (wished_model, wished_flex) > (?1, ?2) ORDER BY wished_model, wished_flex LIMIT 1)) "   \
      "AS n ORDER BY model, flex LIMIT 1")                                                         \
    X(STOCK_SHAFTS,                                                                                \
      "SELECT (SELECT count(*) FROM shaft INDEXED BY shaft_spare WHERE life = 'raw' "              \
      "AND club IS NULL AND model = ?1 AND flex = ?2), "                                           \
      "(SELECT count(*) FROM shaft INDEXED BY shaft_reserved WHERE life = 'raw' "                  \
      "AND club IS NOT NULL AND model = ?1 AND flex = ?2), "                                       \
      "(SELECT count(*) FROM club AS c INDEXED BY club_wish WHERE c.stage = 'pending' "            \
      "AND c.rank > 0 AND c.wished_model <> '' AND c.wished_model = ?1 AND c.wished_flex = ?2 "    \
      "AND NOT EXISTS (SELECT 1 FROM shaft WHERE shaft.club = c.id))")                             \
    X(STOCK_HEADS,                                                                                 \
      "SELECT (SELECT count(*) FROM head INDEXED BY head_spare WHERE club IS NULL "                \
      "AND model = ?), 0, 0")                                                                      \
    X(STOCK_RESERVED_HEADS,                                                                        \
      "SELECT h.model, count(*) FROM club AS c INDEXED BY club_waits CROSS JOIN head AS h "        \
      "ON h.club = c.id WHERE c.stage = 'pending' AND c.id > 0 GROUP BY h.model")                  \
    X(PICK_BUILD, SHOP_PICK("WHERE build = ? AND rank >= 0"))                                      \
    X(PICK_DUE,                                                                                    \
      SHOP_PICK("INDEXED BY club_next WHERE rank > 0 AND due <> '' AND due <= ?"))                 \
    X(OFFCUTS,                                                                                     \
      "SELECT ticket, rack, remaining, life FROM shaft AS s INDEXED BY shaft_offcut "              \
      "WHERE life <> 'raw' AND club IS NULL AND remaining IS NOT NULL AND model = ? AND flex = ? " \
      "AND (remaining, ticket) > (?, ?) "                                                          \
      "AND NOT EXISTS (SELECT 1 FROM shaft AS n INDEXED BY shaft_from "                            \
      "WHERE n.from_shaft = s.ticket AND n.from_shaft IS NOT NULL) "                               \
      "ORDER BY remaining, ticket LIMIT ?")
// clang-format on

#endif
