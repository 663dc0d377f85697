-- The workshop of one station: catalogue, parts, orders, people, and the log of what was cut.
--
-- Lengths are nanometres, masses milligrams, angles thousandths of a degree, times Unix
-- milliseconds. NULL: not known. An empty text: none. What a maker says (models, charts) is kept
-- in revisions that never change; the newest one counts.

-- --- catalogue ----------------------------------------------------------------------------------

CREATE TABLE shaft_model (
    name TEXT PRIMARY KEY CHECK (length(CAST(name AS BLOB)) BETWEEN 1 AND 47)
) STRICT, WITHOUT ROWID;

CREATE TABLE shaft_model_revision (
    model TEXT NOT NULL REFERENCES shaft_model (name),
    revision INTEGER NOT NULL CHECK (revision > 0),
    material TEXT NOT NULL CHECK (material IN ('steel', 'graphite')),
    tip TEXT NOT NULL CHECK (tip IN ('parallel', 'taper')),
    tip_diameter INTEGER CHECK (tip_diameter > 0),
    butt_diameter INTEGER CHECK (butt_diameter > 0),
    raw_length INTEGER CHECK (raw_length > 0),
    weight INTEGER CHECK (weight > 0),
    tip_section INTEGER CHECK (tip_section >= 0),
    max_tip_trim INTEGER CHECK (max_tip_trim >= 0),
    max_butt_trim INTEGER CHECK (max_butt_trim >= 0),
    bore_note TEXT NOT NULL CHECK (bore_note IN ('none', 'add_height', 'above_reference')),
    bore_reference INTEGER,
    note_kinds INTEGER NOT NULL DEFAULT 0 CHECK (note_kinds BETWEEN 0 AND 63), -- bit 1 << head kind
    note_not_through INTEGER NOT NULL DEFAULT 0 CHECK (note_not_through IN (0, 1)),
    PRIMARY KEY (model, revision)
) STRICT, WITHOUT ROWID;

CREATE TABLE chart (
    id INTEGER PRIMARY KEY,
    model TEXT NOT NULL REFERENCES shaft_model (name),
    flex TEXT NOT NULL CHECK (length(CAST(flex AS BLOB)) BETWEEN 1 AND 15),
    kind TEXT NOT NULL CHECK (kind IN ('wood', 'hybrid', 'iron', 'wedge')),
    revision INTEGER NOT NULL CHECK (revision > 0),
    UNIQUE (model, flex, kind, revision)
) STRICT;

-- From the lightest to the heaviest head; no two columns are written for one weight.
CREATE TABLE chart_column (
    chart INTEGER NOT NULL REFERENCES chart (id),
    weight INTEGER NOT NULL CHECK (weight > 0),
    name TEXT NOT NULL CHECK (length(CAST(name AS BLOB)) BETWEEN 1 AND 15),
    tip_trim INTEGER CHECK (tip_trim >= 0), -- NULL: the maker does not offer it
    PRIMARY KEY (chart, weight),
    UNIQUE (chart, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE head_model (
    name TEXT PRIMARY KEY CHECK (length(CAST(name AS BLOB)) BETWEEN 1 AND 47)
) STRICT, WITHOUT ROWID;

CREATE TABLE head_model_revision (
    model TEXT NOT NULL REFERENCES head_model (name),
    revision INTEGER NOT NULL CHECK (revision > 0),
    kind TEXT NOT NULL
        CHECK (kind IN ('driver', 'fairway', 'hybrid', 'iron', 'wedge', 'putter')),
    engraved TEXT NOT NULL DEFAULT '' CHECK (length(CAST(engraved AS BLOB)) <= 15),
    weight INTEGER CHECK (weight > 0),
    hosel_bore INTEGER CHECK (hosel_bore > 0),
    insertion INTEGER CHECK (insertion > 0),
    bore_height INTEGER, -- the maker's figure: a hint for the dry fit, never planned with
    bore TEXT NOT NULL DEFAULT '' CHECK (bore IN ('', 'blind', 'through', 'short')),
    loft INTEGER,
    lie INTEGER,
    PRIMARY KEY (model, revision)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER shaft_model_revision_kept BEFORE UPDATE ON shaft_model_revision BEGIN
    SELECT RAISE(ABORT, 'a revision never changes: add a new one');
END;
CREATE TRIGGER shaft_model_revision_stays BEFORE DELETE ON shaft_model_revision BEGIN
    SELECT RAISE(ABORT, 'a revision is never removed');
END;
CREATE TRIGGER head_model_revision_kept BEFORE UPDATE ON head_model_revision BEGIN
    SELECT RAISE(ABORT, 'a revision never changes: add a new one');
END;
CREATE TRIGGER head_model_revision_stays BEFORE DELETE ON head_model_revision BEGIN
    SELECT RAISE(ABORT, 'a revision is never removed');
END;
CREATE TRIGGER chart_kept BEFORE UPDATE ON chart BEGIN
    SELECT RAISE(ABORT, 'a chart never changes: add a new revision');
END;
CREATE TRIGGER chart_stays BEFORE DELETE ON chart BEGIN
    SELECT RAISE(ABORT, 'a chart is never removed');
END;
CREATE TRIGGER chart_column_kept BEFORE UPDATE ON chart_column BEGIN
    SELECT RAISE(ABORT, 'a chart never changes: add a new revision');
END;
CREATE TRIGGER chart_column_stays BEFORE DELETE ON chart_column BEGIN
    SELECT RAISE(ABORT, 'a chart is never removed');
END;

-- --- orders -------------------------------------------------------------------------------------

CREATE TABLE build (
    name TEXT PRIMARY KEY CHECK (length(CAST(name AS BLOB)) BETWEEN 1 AND 15)
) STRICT, WITHOUT ROWID;

-- An order line, and how far it got at the saw (moved only by stage_advance, with its log entry).
CREATE TABLE club (
    id INTEGER PRIMARY KEY,
    build TEXT NOT NULL REFERENCES build (name),
    name TEXT NOT NULL CHECK (length(CAST(name AS BLOB)) BETWEEN 1 AND 15),
    position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 200),
    due TEXT NOT NULL DEFAULT ''
        CHECK (due = '' OR due GLOB '[0-9][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]'),
    playing_length INTEGER CHECK (playing_length > 0),
    grip_cap INTEGER CHECK (grip_cap >= 0),
    grip_weight INTEGER CHECK (grip_weight >= 0),
    swingweight TEXT NOT NULL DEFAULT '' CHECK (length(CAST(swingweight AS BLOB)) <= 7),
    step INTEGER NOT NULL DEFAULT 0 CHECK (step BETWEEN -99 AND 99),
    uniform_flex INTEGER NOT NULL DEFAULT 0 CHECK (uniform_flex IN (0, 1)),
    picked_column TEXT NOT NULL DEFAULT '' CHECK (length(CAST(picked_column AS BLOB)) <= 15),
    shim_consent INTEGER NOT NULL DEFAULT 0 CHECK (shim_consent IN (0, 1)),
    stage TEXT NOT NULL DEFAULT 'pending' CHECK (stage IN
        ('pending', 'tip_shown', 'tip_cut', 'butt_shown', 'butt_cut', 'decision', 'done')),
    attempt INTEGER NOT NULL DEFAULT 1 CHECK (attempt > 0),
    tip_made INTEGER CHECK (tip_made >= 0),
    tip_seq INTEGER REFERENCES log (seq),
    butt_seq INTEGER REFERENCES log (seq),
    measure_seq INTEGER REFERENCES log (seq),
    decision_seq INTEGER REFERENCES log (seq),
    bench TEXT NOT NULL DEFAULT '' CHECK (length(CAST(bench AS BLOB)) <= 23),
    UNIQUE (build, name),
    UNIQUE (build, position)
) STRICT;
CREATE INDEX club_next ON club (due = '', due, build, position) WHERE stage = 'pending';
CREATE INDEX club_half ON club (due = '', due, build, position)
    WHERE stage NOT IN ('pending', 'done');
CREATE INDEX club_decision ON club (decision_seq) WHERE decision_seq IS NOT NULL;

-- How many clubs stand where, so that nobody has to count them.
CREATE TABLE club_count (
    stage TEXT NOT NULL,
    bench TEXT NOT NULL,
    clubs INTEGER NOT NULL CHECK (clubs >= 0),
    PRIMARY KEY (stage, bench)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER club_counted AFTER INSERT ON club BEGIN
    INSERT INTO club_count (stage, bench, clubs) VALUES (NEW.stage, NEW.bench, 1)
        ON CONFLICT (stage, bench) DO UPDATE SET clubs = clubs + 1;
END;
CREATE TRIGGER club_recounted AFTER UPDATE OF stage, bench ON club
WHEN OLD.stage <> NEW.stage OR OLD.bench <> NEW.bench BEGIN
    UPDATE club_count SET clubs = clubs - 1 WHERE stage = OLD.stage AND bench = OLD.bench;
    INSERT INTO club_count (stage, bench, clubs) VALUES (NEW.stage, NEW.bench, 1)
        ON CONFLICT (stage, bench) DO UPDATE SET clubs = clubs + 1;
END;
CREATE TRIGGER club_uncounted AFTER DELETE ON club BEGIN
    UPDATE club_count SET clubs = clubs - 1 WHERE stage = OLD.stage AND bench = OLD.bench;
END;

-- --- parts --------------------------------------------------------------------------------------

CREATE TABLE head (
    ticket TEXT PRIMARY KEY
        CHECK (length(ticket) BETWEEN 4 AND 15 AND ticket GLOB 'H-*'
               AND NOT substr(ticket, 3) GLOB '*[^0-9A-Z]*'),
    model TEXT NOT NULL REFERENCES head_model (name),
    weight INTEGER CHECK (weight > 0),
    bore_height INTEGER CHECK (bore_height BETWEEN 0 AND 50800000),
    dry_fit_overall INTEGER,
    dry_fit_raw INTEGER,
    club INTEGER UNIQUE REFERENCES club (id) -- the club it is reserved for
) STRICT, WITHOUT ROWID;

CREATE TABLE shaft (
    ticket TEXT PRIMARY KEY
        CHECK (length(ticket) BETWEEN 4 AND 15 AND ticket GLOB 'S-*'
               AND NOT substr(ticket, 3) GLOB '*[^0-9A-Z]*'),
    model TEXT NOT NULL REFERENCES shaft_model (name),
    flex TEXT NOT NULL CHECK (length(CAST(flex AS BLOB)) BETWEEN 1 AND 15),
    raw_length INTEGER CHECK (raw_length > 0),
    weight INTEGER CHECK (weight > 0),
    rack TEXT NOT NULL DEFAULT '' CHECK (length(CAST(rack AS BLOB)) <= 23),
    life TEXT NOT NULL DEFAULT 'raw' CHECK (life IN ('raw', 'cut', 'scrap')),
    remaining INTEGER CHECK (remaining >= 0), -- NULL while raw, or when nobody knows
    club INTEGER UNIQUE REFERENCES club (id),
    CHECK (life <> 'scrap' OR club IS NULL)
) STRICT, WITHOUT ROWID;
CREATE INDEX shaft_spare ON shaft (model, flex, ticket) WHERE life = 'raw' AND club IS NULL;
CREATE TRIGGER shaft_one_life BEFORE UPDATE OF life ON shaft
WHEN (OLD.life = 'cut' AND NEW.life = 'raw') OR (OLD.life = 'scrap' AND NEW.life <> 'scrap') BEGIN
    SELECT RAISE(ABORT, 'a shaft once cut is never raw again');
END;

-- --- people -------------------------------------------------------------------------------------

CREATE TABLE worker (
    badge TEXT PRIMARY KEY
        CHECK (length(badge) BETWEEN 4 AND 15 AND badge GLOB 'W-*'
               AND NOT substr(badge, 3) GLOB '*[^0-9A-Z]*'),
    name TEXT NOT NULL CHECK (length(CAST(name AS BLOB)) BETWEEN 1 AND 47),
    role TEXT NOT NULL CHECK (role IN ('builder', 'supervisor'))
) STRICT, WITHOUT ROWID;

CREATE TABLE pin (
    badge TEXT PRIMARY KEY REFERENCES worker (badge),
    hash TEXT NOT NULL CHECK (hash GLOB '$argon2id$*')
) STRICT, WITHOUT ROWID;

-- Tries since the last right PIN. Badge '' stands for everybody who has none.
CREATE TABLE pin_try (
    badge TEXT PRIMARY KEY,
    tries INTEGER NOT NULL CHECK (tries >= 0),
    wait_ms INTEGER NOT NULL CHECK (wait_ms >= 0), -- that the last try earned
    until_ms INTEGER NOT NULL,                     -- its end, since boot
    boot TEXT NOT NULL                             -- the boot that until_ms counts from
) STRICT, WITHOUT ROWID;

-- --- log ----------------------------------------------------------------------------------------

-- Written once, never changed. hash: SHA-256 over the previous row's hash and all other columns
-- (entry_encode in src/core/entry.h). Ordered by seq, never by time.
CREATE TABLE log (
    seq INTEGER PRIMARY KEY,
    kind TEXT NOT NULL,
    wall_ms INTEGER NOT NULL,
    mono_ms INTEGER NOT NULL,
    boot TEXT NOT NULL CHECK (length(CAST(boot AS BLOB)) <= 39),
    bench TEXT NOT NULL CHECK (length(CAST(bench AS BLOB)) <= 23),
    worker TEXT NOT NULL CHECK (length(CAST(worker AS BLOB)) <= 15),
    club_id INTEGER REFERENCES club (id),
    build TEXT NOT NULL CHECK (length(CAST(build AS BLOB)) <= 15),
    club TEXT NOT NULL CHECK (length(CAST(club AS BLOB)) <= 15),
    head TEXT NOT NULL CHECK (length(CAST(head AS BLOB)) <= 15),
    shaft TEXT NOT NULL CHECK (length(CAST(shaft AS BLOB)) <= 15),
    confirm_id TEXT NOT NULL UNIQUE
        CHECK (length(confirm_id) = 32 AND NOT confirm_id GLOB '*[^0-9a-f]*'),
    attempt INTEGER NOT NULL CHECK (attempt >= 0),
    refers INTEGER REFERENCES log (seq) CHECK (refers < seq),
    planned INTEGER,
    made INTEGER,
    verdict TEXT NOT NULL CHECK (verdict IN ('', 'in', 'long', 'short')),
    cause TEXT NOT NULL CHECK (length(CAST(cause AS BLOB)) <= 23),
    note TEXT NOT NULL CHECK (length(CAST(note AS BLOB)) <= 399),
    chart_revision INTEGER NOT NULL,
    plan TEXT NOT NULL CHECK (length(CAST(plan AS BLOB)) <= 4095),
    hash BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;
-- One shaft, one tip cut, one butt cut; after a withdrawal the next attempt.
CREATE UNIQUE INDEX log_cut ON log (shaft, kind, attempt) WHERE kind IN ('tip_cut', 'butt_cut');
CREATE INDEX log_build ON log (build) WHERE build <> '';
CREATE INDEX log_head ON log (head) WHERE head <> '';
CREATE INDEX log_shaft ON log (shaft) WHERE shaft <> '';
CREATE INDEX log_worker ON log (worker) WHERE worker <> '';
CREATE INDEX log_off ON log (verdict) WHERE verdict IN ('long', 'short');
CREATE INDEX log_off_worker ON log (verdict, worker) WHERE verdict IN ('long', 'short');

CREATE TRIGGER log_in_order BEFORE INSERT ON log
WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM log) BEGIN
    SELECT RAISE(ABORT, 'a log entry takes the next number');
END;
CREATE TRIGGER log_kept BEFORE UPDATE ON log BEGIN
    SELECT RAISE(ABORT, 'a log entry never changes: write a new one that refers to it');
END;
CREATE TRIGGER log_stays BEFORE DELETE ON log BEGIN
    SELECT RAISE(ABORT, 'a log entry is never removed');
END;

-- Counts and first and last entry of each quarter of an hour (wall_ms / 900000) with entries.
CREATE TABLE log_quarter (
    quarter INTEGER PRIMARY KEY,
    first_seq INTEGER NOT NULL REFERENCES log (seq),
    last_seq INTEGER NOT NULL REFERENCES log (seq),
    clubs_done INTEGER NOT NULL DEFAULT 0,
    cuts INTEGER NOT NULL DEFAULT 0,
    out_of_tolerance INTEGER NOT NULL DEFAULT 0,
    holds INTEGER NOT NULL DEFAULT 0
) STRICT;
