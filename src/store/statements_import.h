#ifndef STATEMENTS_IMPORT_H
#define STATEMENTS_IMPORT_H

// What an import looks up and writes.

// clang-format off
#define IMPORT_STATEMENTS(X)                                                                       \
    X(IMPORT_HAS_SHAFT_MODEL, "SELECT name FROM shaft_model WHERE name = ?")                       \
    X(IMPORT_HAS_HEAD_MODEL, "SELECT name FROM head_model WHERE name = ?")                         \
    X(IMPORT_HAS_HEAD, "SELECT ticket FROM head WHERE ticket = ?")                                 \
    X(IMPORT_HAS_SHAFT, "SELECT ticket FROM shaft WHERE ticket = ?")                               \
    X(IMPORT_ADD_SHAFT_MODEL, "INSERT INTO shaft_model (name) VALUES (?)")                         \
    X(IMPORT_ADD_SHAFT_REVISION,                                                                   \
      "INSERT INTO shaft_model_revision (model, revision, material, tip, tip_diameter, "           \
      "butt_diameter, raw_length, weight, tip_section, max_tip_trim, max_butt_trim, bore_note, "   \
      "bore_reference, note_kinds, note_not_through, balance, tip_wall, butt_wall) "               \
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")                             \
    X(IMPORT_HEAD_MODEL,                                                                           \
      "SELECT revision, kind, engraved, weight, hosel_bore, insertion, bore_height, bore, loft, "  \
      "lie, cg_beyond, inertia FROM head_model_revision WHERE model = ? "                          \
      "ORDER BY revision DESC LIMIT 1")                                                            \
    X(IMPORT_ADD_HEAD_MODEL, "INSERT INTO head_model (name) VALUES (?)")                           \
    X(IMPORT_ADD_HEAD_REVISION,                                                                    \
      "INSERT INTO head_model_revision (model, revision, kind, engraved, weight, hosel_bore, "     \
      "insertion, bore_height, bore, loft, lie, cg_beyond, inertia) "                              \
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")                                            \
    X(IMPORT_ADD_CHART,                                                                            \
      "INSERT INTO chart (model, flex, kind, revision) VALUES (?, ?, ?, ?) RETURNING id")          \
    X(IMPORT_ADD_COLUMN,                                                                           \
      "INSERT INTO chart_column (chart, weight, name, tip_trim) VALUES (?, ?, ?, ?)")              \
    X(IMPORT_PROFILE, "SELECT max(revision) FROM shaft_profile WHERE model = ? AND flex = ?")      \
    X(IMPORT_ADD_POINT,                                                                            \
      "INSERT INTO shaft_profile (model, flex, revision, from_tip, stiffness) "                    \
      "VALUES (?, ?, ?, ?, ?)")                                                                    \
    X(IMPORT_HEAD,                                                                                 \
      "SELECT h.model, h.weight, h.dry_fit_overall, h.dry_fit_raw, h.bore_height, h.lot, h.club, " \
      "c.build, c.name, c.stage, EXISTS (SELECT 1 FROM log WHERE log.head = h.ticket "             \
      "AND log.head <> '' AND log.kind = 'dry_fit') FROM head AS h "                               \
      "LEFT JOIN club AS c ON c.id = h.club WHERE h.ticket = ?")                                   \
    X(IMPORT_ADD_HEAD,                                                                             \
      "INSERT INTO head (model, weight, dry_fit_overall, dry_fit_raw, bore_height, lot, ticket) "  \
      "VALUES (?, ?, ?, ?, ?, ?, ?)")                                                              \
    X(IMPORT_SET_HEAD,                                                                             \
      "UPDATE head SET model = ?, weight = ?, dry_fit_overall = ?, dry_fit_raw = ?, "              \
      "bore_height = ?, lot = ? WHERE ticket = ?")                                                 \
    X(IMPORT_SHAFT,                                                                                \
      "SELECT s.ticket, s.model, s.flex, s.raw_length, s.weight, s.rack, s.balance, "              \
      "s.raw_frequency, s.frequency_mass, s.tip_cut, s.from_shaft, s.lot, s.life, s.club, "        \
      "c.build, c.name, c.stage "                                                                  \
      "FROM shaft AS s LEFT JOIN club AS c ON c.id = s.club WHERE s.ticket = ?")                   \
    X(IMPORT_ADD_SHAFT,                                                                            \
      "INSERT INTO shaft (model, flex, raw_length, weight, rack, balance, raw_frequency, "         \
      "frequency_mass, tip_cut, from_shaft, lot, ticket) "                                         \
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, nullif(?, ''), ?, ?)")                                   \
    X(IMPORT_SET_SHAFT,                                                                            \
      "UPDATE shaft SET model = ?, flex = ?, raw_length = ?, weight = ?, rack = ?, balance = ?, "  \
      "raw_frequency = ?, frequency_mass = ?, tip_cut = ?, from_shaft = nullif(?, ''), lot = ? "   \
      "WHERE ticket = ?")                                                                          \
    X(IMPORT_ADD_BUILD, "INSERT INTO build (name) VALUES (?) ON CONFLICT DO NOTHING")              \
    X(IMPORT_CLUB,                                                                                 \
      "SELECT c.id, c.due, c.playing_length, c.grip_cap, c.grip_weight, c.swingweight, c.step, "   \
      "c.uniform_flex, c.stage, h.ticket, s.ticket, s.life, c.wished_model, c.wished_flex, "       \
      "s.model, s.flex, c.given_trim, c.extension, c.loft, c.lie, c.cancelled, b.status "          \
      "FROM club AS c JOIN build AS b ON b.name = c.build "                                        \
      "LEFT JOIN head AS h ON h.club = c.id LEFT JOIN shaft AS s ON s.club = c.id "                \
      "WHERE c.build = ? AND c.name = ?")                                                          \
    X(IMPORT_CLUBS, "SELECT coalesce(max(position), 0) FROM club WHERE build = ?")                 \
    X(IMPORT_ADD_CLUB,                                                                             \
      "INSERT INTO club (due, playing_length, grip_cap, grip_weight, swingweight, step, "          \
      "uniform_flex, wished_model, wished_flex, given_trim, extension, loft, lie, cancelled, "     \
      "build, name, position) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")         \
    X(IMPORT_SET_CLUB,                                                                             \
      "UPDATE club SET due = ?, playing_length = ?, grip_cap = ?, grip_weight = ?, "               \
      "swingweight = ?, step = ?, uniform_flex = ?, wished_model = ?, wished_flex = ?, "           \
      "given_trim = ?, extension = ?, loft = ?, lie = ?, cancelled = ? WHERE id = ?")              \
    X(IMPORT_RELEASE_HEAD, "UPDATE head SET club = NULL WHERE club = ?")                           \
    X(IMPORT_RELEASE_SHAFT, "UPDATE shaft SET club = NULL WHERE club = ?")                         \
    X(IMPORT_RESERVE_HEAD, "UPDATE head SET club = ? WHERE ticket = ?")                            \
    X(IMPORT_RESERVE_SHAFT, "UPDATE shaft SET club = ? WHERE ticket = ?")                          \
    X(IMPORT_ORDER,                                                                                \
      "SELECT status, priority, reference, note FROM build WHERE name = ?")                        \
    X(IMPORT_ADD_ORDER,                                                                            \
      "INSERT INTO build (status, priority, reference, note, name) VALUES (?, ?, ?, ?, ?)")        \
    X(IMPORT_SET_ORDER,                                                                            \
      "UPDATE build SET status = ?, priority = ?, reference = ?, note = ? WHERE name = ?")         \
    X(ORDER_BEGUN_CLUB,                                                                            \
      "SELECT c.name FROM club AS c LEFT JOIN shaft AS s ON s.club = c.id WHERE c.build = ? "      \
      "AND (c.stage NOT IN ('pending', 'done') OR (c.stage = 'pending' AND s.life = 'cut')) "      \
      "ORDER BY c.position LIMIT 1")                                                               \
    X(ORDER_FREE_HEADS,                                                                            \
      "UPDATE head SET club = NULL WHERE club IN "                                                 \
      "(SELECT id FROM club WHERE build = ? AND stage = 'pending')")                               \
    X(ORDER_FREE_SHAFTS,                                                                           \
      "UPDATE shaft SET club = NULL WHERE club IN "                                                \
      "(SELECT id FROM club WHERE build = ? AND stage = 'pending')")                               \
    X(ORDER_NO_CONSENT,                                                                            \
      "UPDATE club SET picked_column = '', shim_consent = 0 WHERE build = ? "                      \
      "AND stage = 'pending'")                                                                     \
    X(ORDER_TAKE,                                                                                  \
      "DELETE FROM build WHERE name = ?1 AND NOT EXISTS (SELECT 1 FROM club WHERE build = ?1) "    \
      "RETURNING name")                                                                            \
    X(STOCK_LEVEL,                                                                                 \
      "SELECT least, wanted FROM stock_level WHERE part = ? AND model = ? AND flex = ?")           \
    X(STOCK_LEVEL_SET,                                                                             \
      "INSERT INTO stock_level (part, model, flex, least, wanted) VALUES (?, ?, ?, ?, ?) "         \
      "ON CONFLICT (part, model, flex) DO UPDATE SET least = excluded.least, "                     \
      "wanted = excluded.wanted")                                                                  \
    X(STOCK_LEVEL_TAKE, "DELETE FROM stock_level WHERE part = ? AND model = ? AND flex = ?")       \
    X(SHEET_HEAD_USED,                                                                             \
      "SELECT 1 FROM head WHERE ticket = ?1 AND club IS NOT NULL UNION ALL "                       \
      "SELECT 1 FROM log WHERE head = ?1 AND head <> '' AND kind <> 'change' LIMIT 1")             \
    X(SHEET_SHAFT_USED,                                                                            \
      "SELECT 1 FROM shaft WHERE ticket = ?1 AND (club IS NOT NULL OR life <> 'raw') UNION ALL "   \
      "SELECT 1 FROM log WHERE shaft = ?1 AND shaft <> '' AND kind <> 'change' LIMIT 1")           \
    X(SHEET_TAKE_HEAD, "DELETE FROM head WHERE ticket = ?")                                        \
    X(SHEET_TAKE_SHAFT, "DELETE FROM shaft WHERE ticket = ?")                                      \
    X(IMPORT_WORKER, "SELECT name, role FROM worker WHERE badge = ?")                              \
    X(IMPORT_ADD_WORKER, "INSERT INTO worker (name, role, badge) VALUES (?, ?, ?)")                \
    X(IMPORT_SET_WORKER, "UPDATE worker SET name = ?, role = ? WHERE badge = ?")                   \
    X(IMPORT_CODE,                                                                                 \
      "SELECT head_model, shaft_model, flex FROM supplier_code WHERE gtin = ?")                    \
    X(IMPORT_SET_CODE,                                                                             \
      "INSERT INTO supplier_code (gtin, head_model, shaft_model, flex) "                           \
      "VALUES (?, nullif(?, ''), nullif(?, ''), ?) ON CONFLICT (gtin) DO UPDATE SET "              \
      "head_model = excluded.head_model, shaft_model = excluded.shaft_model, flex = excluded.flex")
// clang-format on

#endif
