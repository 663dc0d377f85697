-- What happened in a span of time is found by the first and last entry of its quarters. Where the
-- clock was set back, what lies between those is of other days. So the entries of each quarter of an
-- hour (wall_ms / 900000) are kept by runs of the clock: a run ends where an entry is of an earlier
-- quarter than the one before it, and within a run the quarters of the entries only rise.

CREATE TABLE log_span (
    run INTEGER NOT NULL,
    quarter INTEGER NOT NULL,
    first_seq INTEGER NOT NULL REFERENCES log (seq),
    last_seq INTEGER NOT NULL REFERENCES log (seq),
    PRIMARY KEY (run, quarter)
) STRICT, WITHOUT ROWID;

INSERT INTO log_span (run, quarter, first_seq, last_seq)
    WITH timed (seq, quarter) AS (
        SELECT seq, wall_ms / 900000 - (wall_ms % 900000 < 0) FROM log
    ), turned (seq, quarter, back) AS (
        SELECT seq, quarter, quarter < lag(quarter) OVER (ORDER BY seq) FROM timed
    ), running (seq, quarter, run) AS (
        SELECT seq, quarter, 1 + sum(coalesce(back, 0)) OVER (ORDER BY seq) FROM turned
    )
    SELECT run, quarter, min(seq), max(seq) FROM running GROUP BY run, quarter;

-- The counts alone.
CREATE TABLE quarter_count (
    quarter INTEGER PRIMARY KEY,
    clubs_done INTEGER NOT NULL DEFAULT 0,
    cuts INTEGER NOT NULL DEFAULT 0,
    out_of_tolerance INTEGER NOT NULL DEFAULT 0,
    holds INTEGER NOT NULL DEFAULT 0
) STRICT;
INSERT INTO quarter_count (quarter, clubs_done, cuts, out_of_tolerance, holds)
    SELECT quarter, clubs_done, cuts, out_of_tolerance, holds FROM log_quarter;
DROP TABLE log_quarter;
ALTER TABLE quarter_count RENAME TO log_quarter;
