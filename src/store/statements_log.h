#ifndef STATEMENTS_LOG_H
#define STATEMENTS_LOG_H

// The log: appending, reading back, filtering, counting.

// In the order of struct entry; chain_read relies on it.
#define LOG_COLUMNS                                                                                \
    "seq, kind, wall_ms, mono_ms, boot, bench, worker, club_id, build, club, head, shaft, "        \
    "confirm_id, attempt, refers, planned, made, verdict, cause, note, chart_revision, plan"

// clang-format off
#define LOG_STATEMENTS(X)                                                                          \
    X(LOG_LAST, "SELECT seq, hash FROM log ORDER BY seq DESC LIMIT 1")                             \
    X(LOG_INSERT,                                                                                  \
      "INSERT INTO log (" LOG_COLUMNS ", hash) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, " \
      "?, ?, ?, ?, ?, ?, ?, ?, ?)")                                                                \
    X(LOG_CONFIRMED, "SELECT seq FROM log WHERE confirm_id = ?")                                   \
    X(LOG_ENTRY, "SELECT " LOG_COLUMNS " FROM log WHERE seq = ?")                                  \
    X(LOG_WALK, "SELECT " LOG_COLUMNS ", hash FROM log ORDER BY seq")                              \
    X(QUARTER_ADD,                                                                                 \
      "INSERT INTO log_quarter (quarter, first_seq, last_seq, clubs_done, cuts, "                  \
      "out_of_tolerance, holds) VALUES (?1, ?2, ?2, ?3, ?4, ?5, ?6) "                              \
      "ON CONFLICT (quarter) DO UPDATE SET last_seq = ?2, clubs_done = clubs_done + ?3, "          \
      "cuts = cuts + ?4, out_of_tolerance = out_of_tolerance + ?5, holds = holds + ?6")            \
    X(QUARTER_SUM,                                                                                 \
      "SELECT coalesce(sum(clubs_done), 0), coalesce(sum(cuts), 0), "                              \
      "coalesce(sum(out_of_tolerance), 0), coalesce(sum(holds), 0), "                              \
      "(SELECT coalesce(sum(clubs), 0) FROM club_count WHERE stage = 'decision') "                 \
      "FROM log_quarter WHERE quarter >= ? AND quarter < ?")                                       \
    X(QUARTER_CHANGE,                                                                              \
      "UPDATE log_quarter SET clubs_done = clubs_done + ?2, cuts = cuts + ?3, "                    \
      "out_of_tolerance = out_of_tolerance + ?4 WHERE quarter = ?1")
// clang-format on

#endif
