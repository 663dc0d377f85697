#ifndef STATEMENTS_WORK_H
#define STATEMENTS_WORK_H

// Parts, clubs, builds, and what an entry does to them.

#define WORK_CLUB_LINE                                                                             \
    "SELECT c.id, c.build, c.name, c.position, "                                                   \
    "(SELECT count(*) FROM club AS mate WHERE mate.build = c.build), "                             \
    "(SELECT ticket FROM head WHERE head.club = c.id), "                                           \
    "(SELECT ticket FROM shaft WHERE shaft.club = c.id), c.due, c.stage, c.bench, c.rank = 0 "     \
    "FROM club AS c "
#define WORK_SHAFT                                                                                 \
    "ticket, model, flex, raw_length, weight, rack, balance, raw_frequency, frequency_mass, "      \
    "tip_cut, from_shaft, lot"
#define WORK_BY_DUE "ORDER BY c.due = '', c.due, c.build, c.position LIMIT ?"
#define WORK_HALF_CUT "stage NOT IN ('pending', 'done') AND rank >= 0"

// clang-format off
#define WORK_STATEMENTS(X)                                                                         \
    X(PART_HEAD,                                                                                   \
      "SELECT h.ticket, h.model, '', 'raw', h.club, c.build, c.name FROM head AS h "               \
      "LEFT JOIN club AS c ON c.id = h.club WHERE h.ticket = ?")                                   \
    X(PART_SHAFT,                                                                                  \
      "SELECT s.ticket, s.model, s.rack, s.life, s.club, c.build, c.name FROM shaft AS s "         \
      "LEFT JOIN club AS c ON c.id = s.club WHERE s.ticket = ?")                                   \
    X(PART_SPARES,                                                                                 \
      "SELECT s.ticket, s.model, s.rack, s.life, NULL, '', '' FROM shaft AS this "                 \
      "CROSS JOIN shaft AS s INDEXED BY shaft_spare ON s.model = this.model "                      \
      "AND s.flex = this.flex WHERE this.ticket = ? AND s.life = 'raw' AND s.club IS NULL "        \
      "AND s.ticket <> this.ticket ORDER BY s.ticket LIMIT ?")                                     \
    X(CLUB,                                                                                        \
      "SELECT c.id, c.build, c.name, c.position, (SELECT count(*) FROM club AS mate "              \
      "WHERE mate.build = c.build), c.due, c.playing_length, c.grip_cap, c.grip_weight, "          \
      "c.swingweight, c.step, c.uniform_flex, c.picked_column, c.shim_consent, c.stage, "          \
      "c.attempt, c.tip_made, c.tip_seq, c.butt_seq, c.measure_seq, c.decision_seq, c.bench, "     \
      "c.wished_model, c.wished_flex, c.given_trim, c.trim_consent, c.extension, "                 \
      "c.extension_consent, c.loft, c.lie, c.cancelled, b.status, b.priority, b.changed_seq "      \
      "FROM club AS c JOIN build AS b ON b.name = c.build WHERE c.id = ?")                         \
    X(CLUB_HEAD,                                                                                   \
      "SELECT h.ticket, h.model, r.kind, r.engraved, h.weight, r.hosel_bore, r.insertion, "        \
      "h.bore_height, r.bore_height, r.bore, r.cg_beyond, r.inertia, r.loft, r.lie, h.lot "        \
      "FROM head AS h "                                                                            \
      "JOIN head_model_revision AS r ON r.model = h.model WHERE h.club = ? "                       \
      "ORDER BY r.revision DESC LIMIT 1")                                                          \
    X(CLUB_SHAFT, "SELECT " WORK_SHAFT " FROM shaft WHERE club = ?")                               \
    X(SHAFT_MODEL,                                                                                 \
      "SELECT model, material, tip, tip_diameter, butt_diameter, raw_length, weight, "             \
      "tip_section, max_tip_trim, max_butt_trim, bore_note, bore_reference, note_kinds, "          \
      "note_not_through, balance, tip_wall, butt_wall, revision FROM shaft_model_revision "        \
      "WHERE model = ? ORDER BY revision DESC LIMIT 1")                                            \
    X(STOCK,                                                                                       \
      "SELECT " WORK_SHAFT " FROM shaft INDEXED BY shaft_spare WHERE model = ? AND flex = ? "      \
      "AND life = 'raw' AND club IS NULL ORDER BY ticket LIMIT ?")                                 \
    X(CODE_MODEL,                                                                                  \
      "SELECT c.head_model IS NOT NULL, coalesce(c.head_model, c.shaft_model), c.flex, "           \
      "CASE WHEN c.head_model IS NOT NULL THEN (SELECT count(*) FROM head "                        \
      "INDEXED BY head_spare WHERE head.model = c.head_model AND head.club IS NULL) "              \
      "ELSE (SELECT count(*) FROM shaft INDEXED BY shaft_spare WHERE "                             \
      "shaft.model = c.shaft_model AND shaft.life = 'raw' AND shaft.club IS NULL "                 \
      "AND c.flex IN ('', shaft.flex)) END FROM supplier_code AS c WHERE c.gtin = ?")              \
    X(CHART,                                                                                       \
      "SELECT id, revision FROM chart WHERE model = ? AND flex = ? AND kind = ? "                  \
      "ORDER BY revision DESC LIMIT 1")                                                            \
    X(CHART_COLUMNS,                                                                               \
      "SELECT name, weight, tip_trim FROM chart_column WHERE chart = ? ORDER BY weight")           \
    X(PROFILE,                                                                                     \
      "SELECT from_tip, stiffness FROM shaft_profile WHERE model = ?1 AND flex = ?2 "              \
      "AND revision = (SELECT max(revision) FROM shaft_profile WHERE model = ?1 AND flex = ?2) "   \
      "ORDER BY from_tip")                                                                         \
    X(BUILD_BORES,                                                                                 \
      "SELECT r.kind, CASE r.bore WHEN 'through' THEN 0 ELSE h.bore_height END "                   \
      "FROM club AS c CROSS JOIN head AS h ON h.club = c.id "                                      \
      "LEFT JOIN shaft AS s ON s.club = c.id CROSS JOIN head_model_revision AS r "                 \
      "ON r.model = h.model AND r.revision = (SELECT max(revision) FROM head_model_revision "      \
      "WHERE model = h.model) WHERE c.build = ? "                                                  \
      "AND coalesce(s.model, nullif(c.wished_model, '')) = ?")                                     \
    X(CLUB_NAMED, "SELECT id FROM club WHERE build = ? AND name = ?")                              \
    X(CLUBS_NEXT,                                                                                  \
      WORK_CLUB_LINE "INDEXED BY club_next WHERE c.stage = 'pending' AND c.rank > 0 "              \
      "AND c.bench IN ('', ?) ORDER BY c.rank, c.due = '', c.due, c.build, c.position LIMIT ?")    \
    X(CLUBS_HALF_CUT,                                                                              \
      WORK_CLUB_LINE "INDEXED BY club_half WHERE " WORK_HALF_CUT " " WORK_BY_DUE)                  \
    X(CLUBS_DECISION,                                                                              \
      WORK_CLUB_LINE "INDEXED BY club_decision WHERE c.decision_seq IS NOT NULL " WORK_BY_DUE)     \
    X(CLUBS_CUT,                                                                                   \
      WORK_CLUB_LINE "WHERE c.bench = ? AND c.stage = 'done' ORDER BY c.measure_seq DESC LIMIT ?") \
    X(COUNT_CUT,                                                                                   \
      "SELECT coalesce(sum(clubs), 0) FROM club_count WHERE stage = 'done' AND bench = ?")         \
    X(CLUBS_ALL, WORK_CLUB_LINE "ORDER BY c.build, c.position LIMIT ?")                            \
    X(COUNT_NEXT,                                                                                  \
      "SELECT coalesce(sum(clubs), 0) FROM club_count WHERE stage = 'pending' "                    \
      "AND rank > 0 AND bench IN ('', ?)")                                                         \
    X(COUNT_HALF_CUT,                                                                              \
      "SELECT coalesce(sum(clubs), 0) FROM club_count WHERE " WORK_HALF_CUT)                       \
    X(COUNT_DECISION,                                                                              \
      "SELECT coalesce(sum(clubs), 0) FROM club_count WHERE stage = 'decision'")                   \
    X(COUNT_ALL, "SELECT coalesce(sum(clubs), 0) FROM club_count")                                 \
    X(WORK,                                                                                        \
      "SELECT c.stage, c.attempt, c.tip_made, c.tip_seq, c.butt_seq, c.measure_seq, "              \
      "c.decision_seq, c.bench, h.ticket, s.ticket, s.raw_length, c.rank, b.changed_seq "          \
      "FROM club AS c JOIN build AS b ON b.name = c.build "                                        \
      "LEFT JOIN head AS h ON h.club = c.id LEFT JOIN shaft AS s ON s.club = c.id "                \
      "WHERE c.id = ?")                                                                            \
    X(CLUB_SHOWN,                                                                                  \
      "SELECT planned FROM log INDEXED BY log_shaft WHERE shaft = ? AND shaft <> '' "              \
      "AND kind = ? AND club_id = ? ORDER BY seq DESC LIMIT 1")                                    \
    X(ORDER_BEGUN, "SELECT 1 FROM club WHERE build = ? AND stage <> 'pending' LIMIT 1")            \
    X(ORDER_CHANGED, "UPDATE build SET changed_seq = coalesce(changed_seq, ?) WHERE name = ?")     \
    X(ORDER_TOLD, "UPDATE build SET changed_seq = NULL WHERE name = ?")                            \
    X(ORDER_UNTOLD, "SELECT changed_seq FROM build WHERE name = ?")                                \
    X(ORDER_CHANGES,                                                                               \
      "SELECT seq, wall_ms, worker, club, head || shaft, plan FROM log INDEXED BY log_build "      \
      "WHERE build = ? AND build <> '' AND seq >= ? AND kind = 'change' ORDER BY seq")             \
    X(WORK_SET,                                                                                    \
      "UPDATE club SET stage = ?, attempt = ?, tip_made = ?, tip_seq = ?, butt_seq = ?, "          \
      "measure_seq = ?, decision_seq = ?, bench = ? WHERE id = ?")                                 \
    X(BUILD_BEFORE, "SELECT max(name) FROM build WHERE name < ?")                                  \
    X(BUILD_AFTER, "SELECT min(name) FROM build WHERE name > ?")                                   \
    X(BUILD_CLUBS, "SELECT id FROM club WHERE build = ? ORDER BY position")                        \
    X(FINALS,                                                                                      \
      "SELECT l.kind, l.made, l.note, l.cause, l.seq, "                                            \
      "(SELECT max(n.seq) FROM log AS n INDEXED BY log_refers WHERE n.refers IS NOT NULL "         \
      "AND n.refers = l.seq AND n.kind = 'note' AND n.cause = 'accepted') "                        \
      "FROM club AS c CROSS JOIN log AS l "                                                        \
      "INDEXED BY log_final ON l.club_id = c.id AND l.kind IN ('final_length', "                   \
      "'final_swingweight', 'final_frequency', 'final_loft', 'final_lie') "                        \
      "WHERE c.id = ? AND c.stage = 'done' AND l.seq > c.measure_seq ORDER BY l.seq")              \
    X(WORK_COLUMN, "UPDATE club SET picked_column = ? WHERE id = ?")                               \
    X(WORK_SHIM, "UPDATE club SET shim_consent = 1 WHERE id = ?")                                  \
    X(WORK_TRIM, "UPDATE club SET trim_consent = ? WHERE id = ?")                                  \
    X(WORK_EXTENSION, "UPDATE club SET extension_consent = 1 WHERE id = ?")                        \
    X(WORK_BORE,                                                                                   \
      "UPDATE head SET bore_height = ?, dry_fit_overall = ?, dry_fit_raw = ? WHERE ticket = ? "    \
      "RETURNING ticket")                                                                          \
    X(WORK_LEFT,                                                                                   \
      "UPDATE shaft SET remaining = ? WHERE ticket = ?")                                           \
    X(WORK_CUT,                                                                                    \
      "UPDATE shaft SET life = 'cut', remaining = ? WHERE ticket = ?")                             \
    X(WORK_SCRAP, "UPDATE shaft SET life = 'scrap', club = NULL WHERE ticket = ?")                 \
    X(WORK_NO_CONSENT,                                                                             \
      "UPDATE club SET picked_column = '', shim_consent = 0, trim_consent = NULL, "                \
      "extension_consent = 0 WHERE id = ?")                                                        \
    X(WORK_KIT,                                                                                    \
      "UPDATE shaft SET club = ?1 WHERE ticket = ?2 AND life = 'raw' AND club IS NULL "            \
      "AND (model, flex) = (SELECT wished_model, wished_flex FROM club WHERE id = ?1) "            \
      "RETURNING ticket")                                                                          \
    X(WORK_RECUT,                                                                                  \
      "UPDATE shaft SET club = ?1 WHERE ticket = ?2 AND life = 'raw' AND club IS NULL "            \
      "AND (model, flex) = (SELECT model, flex FROM shaft WHERE ticket = ?3) RETURNING ticket")
// clang-format on

#endif
