#ifndef STATEMENTS_LOG_H
#define STATEMENTS_LOG_H

// The log: appending, reading back, filtering, counting.

// In the order of struct entry; chain_read relies on it.
#define LOG_COLUMNS                                                                                \
    "seq, kind, wall_ms, mono_ms, boot, bench, worker, club_id, build, club, head, shaft, "        \
    "confirm_id, attempt, refers, planned, made, verdict, cause, note, chart_revision, plan"

// Parameters 1 to 11, bound by log_filter_bind.
#define LOG_FILTER                                                                                 \
    "seq BETWEEN ?1 AND ?2 AND wall_ms >= ?3 AND wall_ms < ?4 AND (?5 = '' OR build = ?5) "        \
    "AND (?6 = '' OR worker = ?6) AND (?7 = '' OR head = ?7 OR shaft = ?7) "                       \
    "AND (?8 = '' OR verdict = ?8) AND (?9 = '' OR bench = ?9) AND (?10 = 0 OR " LOG_OPEN ") "     \
    "AND (?11 = '' OR EXISTS (SELECT 1 FROM facet AS f JOIN log_facet AS e ON e.facet = f.id "     \
    "WHERE f.bench = log.bench AND f.worker = log.worker AND f.material = ?11 "                    \
    "AND f.verdict = log.verdict AND e.seq = log.seq)) "
#define LOG_OPEN                                                                                   \
    "EXISTS (SELECT 1 FROM club AS c WHERE c.id = log.club_id AND c.decision_seq = log.seq)"
#define LOG_LINE                                                                                   \
    "SELECT seq, kind, wall_ms, worker, build, club, shaft, planned, made, verdict, cause, "       \
    "refers, " LOG_OPEN " FROM log "
#define LOG_SIGNED                                                                                 \
    "SELECT seq, wall_ms, worker, note, hash FROM log INDEXED BY log_signed "                      \
    "WHERE kind = 'day_signed' "
#define LOG_NEWEST "AND " LOG_FILTER "ORDER BY seq DESC LIMIT ?12"

// A sorted list of seqs under a key ?1, from ?2 to ?3, both ways round.
#define LOG_LIST(X, name, select)                                                                  \
    X(LIST_##name##_NEWEST, select " BETWEEN ?2 AND ?3 ORDER BY seq DESC LIMIT ?4")                \
    X(LIST_##name##_OLDEST, select " BETWEEN ?2 AND ?3 ORDER BY seq LIMIT ?4")

// clang-format off
#define LOG_STATEMENTS(X)                                                                          \
    X(LOG_LAST, "SELECT seq, hash FROM log ORDER BY seq DESC LIMIT 1")                             \
    X(LOG_INSERT,                                                                                  \
      "INSERT INTO log (" LOG_COLUMNS ", hash) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, " \
      "?, ?, ?, ?, ?, ?, ?, ?, ?)")                                                                \
    X(LOG_CONFIRMED, "SELECT seq FROM log WHERE confirm_id = ?")                                   \
    X(LOG_ENTRY, "SELECT " LOG_COLUMNS " FROM log WHERE seq = ?")                                  \
    X(LOG_SPAN,                                                                                    \
      "SELECT " LOG_COLUMNS ", hash FROM log WHERE seq > ? AND seq <= ? ORDER BY seq")             \
    X(LOG_HASH, "SELECT hash FROM log WHERE seq = ?")                                              \
    X(LOG_BY_SEQ, LOG_LINE "WHERE seq > 0 " LOG_NEWEST)                                            \
    X(LOG_LINE_OF, LOG_LINE "WHERE seq = ?12 AND " LOG_FILTER)                                     \
    X(LOG_ENTRY_OF, "SELECT " LOG_COLUMNS " FROM log WHERE seq = ?12 AND " LOG_FILTER)             \
    X(FACET_FIND,                                                                                  \
      "SELECT id FROM facet WHERE (?1 = '' OR bench = ?1) AND (?2 = '' OR worker = ?2) "           \
      "AND (?3 = '' OR material = ?3) AND (?4 = '' OR verdict = ?4) LIMIT ?5")                     \
    X(FACET_BENCHES, "SELECT DISTINCT bench FROM facet WHERE bench <> '' ORDER BY bench LIMIT ?")  \
    X(FACET_WORKERS,                                                                               \
      "SELECT DISTINCT worker FROM facet WHERE worker <> '' ORDER BY worker LIMIT ?")              \
    X(FACET_MATERIALS,                                                                             \
      "SELECT DISTINCT material FROM facet WHERE material <> '' ORDER BY material LIMIT ?")        \
    LOG_LIST(X, FACET, "SELECT seq FROM log_facet WHERE facet = ?1 AND seq")                       \
    LOG_LIST(X, BUILD, "SELECT seq FROM log INDEXED BY log_build WHERE build = ?1 "                \
      "AND build <> '' AND seq")                                                                   \
    LOG_LIST(X, HEAD, "SELECT seq FROM log INDEXED BY log_head WHERE head = ?1 "                   \
      "AND head <> '' AND seq")                                                                    \
    LOG_LIST(X, SHAFT, "SELECT seq FROM log INDEXED BY log_shaft WHERE shaft = ?1 "                \
      "AND shaft <> '' AND seq")                                                                   \
    LOG_LIST(X, DECISION, "SELECT decision_seq AS seq FROM club INDEXED BY club_decision "         \
      "WHERE decision_seq IS NOT NULL AND decision_seq")                                           \
    X(LOG_EXPORT, "SELECT " LOG_COLUMNS " FROM log WHERE " LOG_FILTER "ORDER BY seq")              \
    X(LOG_ABOUT,                                                                                   \
      "SELECT " LOG_COLUMNS " FROM log INDEXED BY log_refers WHERE refers IS NOT NULL "            \
      "AND refers BETWEEN ? AND ? ORDER BY seq")                                                   \
    X(SIGNED_DAY,                                                                                  \
      LOG_SIGNED "AND substr(note, 1, 10) BETWEEN ? AND ? ORDER BY seq DESC LIMIT 1")              \
    X(SIGNED_LAST, LOG_SIGNED "ORDER BY seq DESC LIMIT 1")                                         \
    X(SIGNED_OVER, LOG_SIGNED "AND seq > ? ORDER BY seq LIMIT 1")                                  \
    X(QUARTER_ADD,                                                                                 \
      "INSERT INTO log_quarter (quarter, clubs_done, cuts, out_of_tolerance, holds) "              \
      "VALUES (?1, ?2, ?3, ?4, ?5) ON CONFLICT (quarter) DO UPDATE SET "                           \
      "clubs_done = clubs_done + ?2, cuts = cuts + ?3, "                                           \
      "out_of_tolerance = out_of_tolerance + ?4, holds = holds + ?5")                              \
    X(SPAN_ADD,                                                                                    \
      "INSERT INTO log_span (run, quarter, first_seq, last_seq) SELECT coalesce((SELECT "          \
      "run + (quarter > ?1) FROM log_span ORDER BY run DESC, quarter DESC LIMIT 1), 1), "          \
      "?1, ?2, ?2 WHERE true ON CONFLICT (run, quarter) DO UPDATE SET last_seq = ?2")              \
    X(SPAN_FIND,                                                                                   \
      "SELECT first_seq, last_seq FROM (WITH RECURSIVE r (run) AS (SELECT max(run) FROM log_span " \
      "UNION ALL SELECT run - 1 FROM r WHERE run > 1) SELECT (SELECT s.first_seq FROM log_span "   \
      "AS s WHERE s.run = r.run AND s.quarter >= ?1 ORDER BY s.quarter LIMIT 1) AS first_seq, "    \
      "(SELECT s.last_seq FROM log_span AS s WHERE s.run = r.run AND s.quarter <= ?2 "             \
      "ORDER BY s.quarter DESC LIMIT 1) AS last_seq FROM r) WHERE first_seq <= last_seq "          \
      "ORDER BY first_seq DESC")                                                                   \
    X(QUARTER_SUM,                                                                                 \
      "SELECT coalesce(sum(clubs_done), 0), coalesce(sum(cuts), 0), "                              \
      "coalesce(sum(out_of_tolerance), 0), coalesce(sum(holds), 0), "                              \
      "(SELECT coalesce(sum(clubs), 0) FROM club_count WHERE stage = 'decision') "                 \
      "FROM log_quarter WHERE quarter >= ? AND quarter < ?")                                       \
    X(CHECK_INTEGRITY, "PRAGMA integrity_check(1)")                                                \
    X(CHECK_FOREIGN_KEYS, "PRAGMA foreign_key_check")                                              \
    X(CHECK_WISHES,                                                                                \
      "SELECT build || ' ' || name FROM club WHERE wished_model <> '' "                            \
      "AND wished_model NOT IN (SELECT name FROM shaft_model) LIMIT 1")                            \
    X(CHECK_PROFILES,                                                                              \
      "SELECT model || ' ' || flex FROM shaft_profile GROUP BY model, flex, revision "             \
      "HAVING count(*) NOT BETWEEN 2 AND 32 LIMIT 1")                                              \
    X(CHECK_CLUBS,                                                                                 \
      "SELECT c.id, c.stage, c.attempt, c.tip_made, c.tip_seq, c.butt_seq, c.measure_seq, "        \
      "c.decision_seq, c.bench, h.ticket, s.ticket, c.picked_column, c.shim_consent, "             \
      "c.build || ' ' || c.name, c.trim_consent, c.extension_consent FROM club AS c "              \
      "LEFT JOIN head AS h ON h.club = c.id LEFT JOIN shaft AS s ON s.club = c.id ORDER BY c.id")  \
    X(CHECK_SHAFTS, "SELECT ticket, life, remaining, raw_length FROM shaft")                       \
    X(CHECK_HEADS, "SELECT ticket, bore_height, dry_fit_overall, dry_fit_raw FROM head")           \
    X(CHECK_QUARTERS,                                                                              \
      "SELECT quarter, clubs_done, cuts, out_of_tolerance, holds FROM log_quarter")                \
    X(CHECK_SPANS, "SELECT run, quarter, first_seq, last_seq FROM log_span")                       \
    X(CHECK_ORDERS, "SELECT name, changed_seq FROM build")                                         \
    X(CHECK_CHANGED, "SELECT seq FROM change WHERE seq < ? AND seq > ? ORDER BY seq DESC LIMIT 1") \
    X(CHECK_RANKS,                                                                                 \
      "SELECT c.build || ' ' || c.name FROM club AS c JOIN club_rank AS r ON r.id = c.id "         \
      "WHERE r.rank <> c.rank LIMIT 1")                                                            \
    X(CHECK_LOTS,                                                                                  \
      "SELECT lot FROM (SELECT lot, count(*) AS parts FROM (SELECT lot FROM head UNION ALL "       \
      "SELECT lot FROM shaft) WHERE lot <> '' GROUP BY lot UNION ALL SELECT name, heads + shafts " \
      "FROM lot WHERE heads + shafts > 0) GROUP BY lot, parts HAVING count(*) <> 2 LIMIT 1")       \
    X(CHECK_COUNTS,                                                                                \
      "SELECT stage || ' ' || bench FROM (SELECT stage, bench, rank, count(*) AS clubs FROM club " \
      "GROUP BY stage, bench, rank UNION ALL SELECT stage, bench, rank, clubs FROM club_count "    \
      "WHERE clubs <> 0) GROUP BY stage, bench, rank, clubs HAVING count(*) <> 2 LIMIT 1")         \
    X(CHECK_FACETS,                                                                                \
      "SELECT (SELECT count(*) FROM log_facet), coalesce((SELECT e.seq FROM log_facet AS e "       \
      "LEFT JOIN facet AS f ON f.id = e.facet LEFT JOIN log AS l ON l.seq = e.seq "                \
      "WHERE (f.bench = l.bench AND f.worker = l.worker AND f.verdict = l.verdict) IS NOT TRUE "   \
      "LIMIT 1), 0)")                                                                              \
    X(CHECK_TAIL,                                                                                  \
      "SELECT coalesce((SELECT last_seq FROM log_span ORDER BY run DESC, quarter DESC LIMIT 1), "  \
      "0)")                                                                                        \
    X(CHECK_HAS_SPANS, "SELECT count(*) FROM sqlite_schema WHERE name = 'log_span'")               \
    X(CHECK_TAIL_BEFORE_SPANS, "SELECT coalesce(max(last_seq), 0) FROM log_quarter")               \
    X(QUARTER_CHANGE,                                                                              \
      "UPDATE log_quarter SET clubs_done = clubs_done + ?2, cuts = cuts + ?3, "                    \
      "out_of_tolerance = out_of_tolerance + ?4 WHERE quarter = ?1")
// clang-format on

#endif
