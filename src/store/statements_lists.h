#ifndef STATEMENTS_LISTS_H
#define STATEMENTS_LISTS_H

// Lists of what the shop has, and of what was changed.

#define CHANGE_LINE                                                                                \
    "SELECT c.seq, l.wall_ms, l.worker, c.sheet, c.thing, c.revision, l.note, l.refers, "          \
    "(SELECT max(b.seq) FROM log AS b INDEXED BY log_refers WHERE b.refers IS NOT NULL "           \
    "AND b.refers = c.seq AND b.kind = 'change'), l.plan "                                         \
    "FROM change AS c JOIN log AS l ON l.seq = c.seq WHERE c.seq < ?1 "
#define CHANGE_NEWEST "ORDER BY c.seq DESC LIMIT ?2"

// Clubs that are neither done nor cancelled, drafts and held ones too.
#define OPEN_CLUBS                                                                                 \
    "SELECT c.id FROM (SELECT id FROM club INDEXED BY club_next WHERE stage = 'pending' "          \
    "AND rank > 0 UNION ALL SELECT d.id FROM build AS b INDEXED BY build_status "                  \
    "CROSS JOIN club AS d ON d.build = b.name WHERE b.status IN ('draft', 'held') "                \
    "AND d.stage = 'pending' AND d.cancelled = 0 UNION ALL SELECT id FROM club "                   \
    "INDEXED BY club_half WHERE stage NOT IN ('pending', 'done')) AS o "                           \
    "CROSS JOIN club AS c ON c.id = o.id CROSS JOIN head AS h ON h.club = c.id "                   \
    "CROSS JOIN shaft AS s ON s.club = c.id "
#define OPEN_FIRST "ORDER BY c.due = '', c.due, c.build, c.position LIMIT ?1"

// clang-format off
#define LISTS_STATEMENTS(X)                                                                        \
    X(LIST_HEADS,                                                                                  \
      "SELECT h.ticket, h.model, '', h.weight, h.bore_height, '', 'raw', c.build, c.name "         \
      "FROM head AS h LEFT JOIN club AS c ON c.id = h.club WHERE h.ticket > ? "                    \
      "AND instr(upper(h.ticket || ' ' || h.model), upper(?)) > 0 ORDER BY h.ticket LIMIT ?")      \
    X(LIST_SHAFTS,                                                                                 \
      "SELECT s.ticket, s.model, s.flex, s.weight, "                                               \
      "CASE WHEN s.life = 'raw' THEN s.raw_length ELSE s.remaining END, s.rack, s.life, c.build, " \
      "c.name FROM shaft AS s LEFT JOIN club AS c ON c.id = s.club WHERE s.ticket > ? "            \
      "AND instr(upper(s.ticket || ' ' || s.model || ' ' || s.flex), upper(?)) > 0 "               \
      "ORDER BY s.ticket LIMIT ?")                                                                 \
    X(LIST_HEAD_MODELS,                                                                            \
      "SELECT model, kind, engraved, weight, hosel_bore, revision FROM head_model_revision AS r "  \
      "WHERE model > ? AND instr(upper(model), upper(?)) > 0 AND revision = "                      \
      "(SELECT max(revision) FROM head_model_revision WHERE model = r.model) "                     \
      "ORDER BY model LIMIT ?")                                                                    \
    X(LIST_SHAFT_MODELS,                                                                           \
      "SELECT model, material, tip, weight, tip_diameter, revision FROM shaft_model_revision "     \
      "AS r WHERE model > ? AND instr(upper(model), upper(?)) > 0 AND revision = "                 \
      "(SELECT max(revision) FROM shaft_model_revision WHERE model = r.model) "                    \
      "ORDER BY model LIMIT ?")                                                                    \
    X(LIST_CHARTS,                                                                                 \
      "SELECT model, flex, kind, revision, "                                                       \
      "(SELECT count(*) FROM chart_column WHERE chart = c.id) FROM chart AS c "                    \
      "WHERE (model, flex, kind) > (?, ?, ?) "                                                     \
      "AND instr(upper(model || ' ' || flex || ' ' || kind), upper(?)) > 0 AND revision = "        \
      "(SELECT max(revision) FROM chart WHERE model = c.model AND flex = c.flex "                  \
      "AND kind = c.kind) ORDER BY model, flex, kind LIMIT ?")                                     \
    X(LIST_CHART_COLUMNS,                                                                          \
      "SELECT l.weight, l.name, l.tip_trim FROM chart AS c LEFT JOIN chart_column AS l "           \
      "ON l.chart = c.id WHERE c.model = ? AND c.flex = ? AND c.kind = ? AND c.revision = ? "      \
      "ORDER BY l.weight")                                                                         \
    X(OPEN_OF_SHAFT_MODEL,                                                                         \
      OPEN_CLUBS "WHERE s.model = ?2 AND (?3 = '' OR s.flex = ?3) " OPEN_FIRST)                    \
    X(OPEN_OF_HEAD_MODEL,                                                                          \
      OPEN_CLUBS "WHERE c.build IN (SELECT m.build FROM head AS g "                                \
                 "JOIN club AS m ON m.id = g.club WHERE g.model = ?2) " OPEN_FIRST)                \
    X(LIST_CHANGES, CHANGE_LINE CHANGE_NEWEST)                                                     \
    X(LIST_SHEET_CHANGES, CHANGE_LINE "AND c.sheet = ?3 " CHANGE_NEWEST)                           \
    X(LIST_THING_CHANGES,                                                                          \
      CHANGE_LINE "AND c.sheet = ?3 AND (c.thing = ?4 OR (c.thing > ?4 || char(9) "                \
                  "AND c.thing < ?4 || char(10))) " CHANGE_NEWEST)                                 \
    X(CHANGE_ADD,                                                                                  \
      "INSERT INTO change (seq, sheet, thing, revision) VALUES (?1, ?2, ?3, CASE ?2 "              \
      "WHEN 'charts' THEN (SELECT max(revision) FROM chart WHERE model = ?4 AND flex = ?5 "        \
      "AND kind = ?6) "                                                                            \
      "WHEN 'head_models' THEN (SELECT max(revision) FROM head_model_revision WHERE model = ?4) "  \
      "WHEN 'shaft_models' THEN (SELECT max(revision) FROM shaft_model_revision "                  \
      "WHERE model = ?4) END)")                                                                    \
    X(CHECK_CHANGES,                                                                               \
      "SELECT 'entry ' || seq FROM (SELECT seq, sheet, thing FROM change_said "                    \
      "UNION ALL SELECT seq, sheet, thing FROM change) GROUP BY seq, sheet, thing "                \
      "HAVING count(*) <> 2 UNION ALL SELECT 'entry ' || seq FROM change "                         \
      "WHERE revision IS NOT NULL AND (sheet, thing, revision) NOT IN "                            \
      "(SELECT sheet, thing, revision FROM revision_there) LIMIT 1")                               \
    X(LIST_FLEXES,                                                                                 \
      "SELECT flex FROM chart WHERE model = ? UNION SELECT flex FROM shaft_profile "               \
      "WHERE model = ? UNION SELECT flex FROM shaft WHERE model = ? ORDER BY 1 LIMIT ?")
// clang-format on

#endif
