-- Orders as the desk keeps them: their status and priority, lines that were cancelled, what a bench
-- must be told of; lots, numbers of tickets, and how much of what should be in stock.

-- --- orders -------------------------------------------------------------------------------------

ALTER TABLE build ADD COLUMN status TEXT NOT NULL DEFAULT 'released'
    CHECK (status IN ('draft', 'released', 'held', 'cancelled'));
ALTER TABLE build ADD COLUMN priority INTEGER NOT NULL DEFAULT 3 -- 1 comes first
    CHECK (priority BETWEEN 1 AND 5);
ALTER TABLE build ADD COLUMN reference TEXT NOT NULL DEFAULT ''
    CHECK (length(CAST(reference AS BLOB)) <= 47);
ALTER TABLE build ADD COLUMN note TEXT NOT NULL DEFAULT ''
    CHECK (length(CAST(note AS BLOB)) <= 127);
-- The first change since something of it was begun that no bench was told of yet. Until one is,
-- nothing of it is cut.
ALTER TABLE build ADD COLUMN changed_seq INTEGER REFERENCES log (seq);
CREATE INDEX build_status ON build (status, name);

ALTER TABLE club ADD COLUMN cancelled INTEGER NOT NULL DEFAULT 0 CHECK (cancelled IN (0, 1));
-- What the bench goes by: the priority of a released order, 0 while it is a draft or held, -1 when
-- it or the line is cancelled. Kept by the triggers below, so that no writer can forget it.
ALTER TABLE club ADD COLUMN rank INTEGER NOT NULL DEFAULT 3 CHECK (rank BETWEEN -1 AND 5);

DROP INDEX club_next;
DROP INDEX club_half;
CREATE INDEX club_next ON club (rank, due = '', due, build, position)
    WHERE stage = 'pending' AND rank > 0;
CREATE INDEX club_half ON club (due = '', due, build, position)
    WHERE stage NOT IN ('pending', 'done');
CREATE INDEX club_waits ON club (id) WHERE stage = 'pending';
CREATE INDEX club_wish ON club (wished_model, wished_flex)
    WHERE stage = 'pending' AND rank > 0 AND wished_model <> '';
CREATE INDEX club_measured ON club (bench, measure_seq) WHERE stage = 'done';

DROP TRIGGER club_counted;
DROP TRIGGER club_recounted;
DROP TRIGGER club_uncounted;
DROP TABLE club_count;
CREATE TABLE club_count (
    stage TEXT NOT NULL,
    bench TEXT NOT NULL,
    rank INTEGER NOT NULL,
    clubs INTEGER NOT NULL CHECK (clubs >= 0),
    PRIMARY KEY (stage, bench, rank)
) STRICT, WITHOUT ROWID;
INSERT INTO club_count (stage, bench, rank, clubs)
    SELECT stage, bench, rank, count(*) FROM club GROUP BY stage, bench, rank;

CREATE VIEW club_rank (id, rank) AS
    SELECT c.id, CASE WHEN c.cancelled = 1 OR b.status = 'cancelled' THEN -1
                      WHEN b.status = 'released' THEN b.priority ELSE 0 END
    FROM club AS c JOIN build AS b ON b.name = c.build;

CREATE TRIGGER club_counted AFTER INSERT ON club BEGIN
    INSERT INTO club_count (stage, bench, rank, clubs) VALUES (NEW.stage, NEW.bench, NEW.rank, 1)
        ON CONFLICT (stage, bench, rank) DO UPDATE SET clubs = clubs + 1;
    UPDATE club SET rank = (SELECT r.rank FROM club_rank AS r WHERE r.id = NEW.id)
        WHERE id = NEW.id
          AND rank <> (SELECT r.rank FROM club_rank AS r WHERE r.id = NEW.id);
END;
CREATE TRIGGER club_recounted AFTER UPDATE OF stage, bench, rank ON club
WHEN OLD.stage <> NEW.stage OR OLD.bench <> NEW.bench OR OLD.rank <> NEW.rank BEGIN
    UPDATE club_count SET clubs = clubs - 1
        WHERE stage = OLD.stage AND bench = OLD.bench AND rank = OLD.rank;
    INSERT INTO club_count (stage, bench, rank, clubs) VALUES (NEW.stage, NEW.bench, NEW.rank, 1)
        ON CONFLICT (stage, bench, rank) DO UPDATE SET clubs = clubs + 1;
END;
CREATE TRIGGER club_uncounted AFTER DELETE ON club BEGIN
    UPDATE club_count SET clubs = clubs - 1
        WHERE stage = OLD.stage AND bench = OLD.bench AND rank = OLD.rank;
END;
CREATE TRIGGER club_ranked AFTER UPDATE OF cancelled, build ON club BEGIN
    UPDATE club SET rank = (SELECT r.rank FROM club_rank AS r WHERE r.id = NEW.id)
        WHERE id = NEW.id;
END;
CREATE TRIGGER build_ranked AFTER UPDATE OF status, priority ON build
WHEN OLD.status <> NEW.status OR OLD.priority <> NEW.priority BEGIN
    UPDATE club SET rank = (SELECT r.rank FROM club_rank AS r WHERE r.id = club.id)
        WHERE build = NEW.name;
END;

-- --- parts --------------------------------------------------------------------------------------

-- A delivery, by whatever name the shop gives it; the newest has the highest id.
CREATE TABLE lot (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE CHECK (length(CAST(name AS BLOB)) BETWEEN 1 AND 23),
    heads INTEGER NOT NULL DEFAULT 0 CHECK (heads >= 0),
    shafts INTEGER NOT NULL DEFAULT 0 CHECK (shafts >= 0)
) STRICT;
ALTER TABLE head ADD COLUMN lot TEXT NOT NULL DEFAULT ''
    CHECK (length(CAST(lot AS BLOB)) <= 23);
ALTER TABLE shaft ADD COLUMN lot TEXT NOT NULL DEFAULT ''
    CHECK (length(CAST(lot AS BLOB)) <= 23);
CREATE INDEX head_lot ON head (lot, ticket) WHERE lot <> '';
CREATE INDEX shaft_lot ON shaft (lot, ticket) WHERE lot <> '';

CREATE TRIGGER head_in_lot AFTER INSERT ON head WHEN NEW.lot <> '' BEGIN
    INSERT INTO lot (name, heads) VALUES (NEW.lot, 1)
        ON CONFLICT (name) DO UPDATE SET heads = heads + 1;
END;
CREATE TRIGGER head_to_lot AFTER UPDATE OF lot ON head WHEN OLD.lot <> NEW.lot BEGIN
    UPDATE lot SET heads = heads - 1 WHERE name = OLD.lot;
    INSERT INTO lot (name, heads) SELECT NEW.lot, 1 WHERE NEW.lot <> ''
        ON CONFLICT (name) DO UPDATE SET heads = heads + 1;
END;
CREATE TRIGGER head_off_lot AFTER DELETE ON head BEGIN
    UPDATE lot SET heads = heads - 1 WHERE name = OLD.lot;
END;
CREATE TRIGGER shaft_in_lot AFTER INSERT ON shaft WHEN NEW.lot <> '' BEGIN
    INSERT INTO lot (name, shafts) VALUES (NEW.lot, 1)
        ON CONFLICT (name) DO UPDATE SET shafts = shafts + 1;
END;
CREATE TRIGGER shaft_to_lot AFTER UPDATE OF lot ON shaft WHEN OLD.lot <> NEW.lot BEGIN
    UPDATE lot SET shafts = shafts - 1 WHERE name = OLD.lot;
    INSERT INTO lot (name, shafts) SELECT NEW.lot, 1 WHERE NEW.lot <> ''
        ON CONFLICT (name) DO UPDATE SET shafts = shafts + 1;
END;
CREATE TRIGGER shaft_off_lot AFTER DELETE ON shaft BEGIN
    UPDATE lot SET shafts = shafts - 1 WHERE name = OLD.lot;
END;

-- The highest number among the tickets of a kind whose body is digits alone: the next one follows.
CREATE TABLE ticket_number (
    kind TEXT PRIMARY KEY CHECK (kind IN ('B', 'H', 'S', 'W')),
    number INTEGER NOT NULL CHECK (number BETWEEN 0 AND 999999999999)
) STRICT, WITHOUT ROWID;
CREATE VIEW ticket_numbered (kind, number) AS
    SELECT substr(t, 1, 1), CAST(substr(t, 3, length(t) - 3) AS INTEGER) FROM (
        SELECT ticket AS t FROM head UNION ALL SELECT ticket FROM shaft
        UNION ALL SELECT badge FROM worker UNION ALL SELECT 'B-' || name || '-' FROM build)
    WHERE NOT substr(t, 3, length(t) - 3) GLOB '*[^0-9]*' AND length(t) <= 15;
INSERT INTO ticket_number (kind, number) VALUES ('B', 0), ('H', 0), ('S', 0), ('W', 0);
UPDATE ticket_number SET number = coalesce(
    (SELECT max(n.number) FROM ticket_numbered AS n WHERE n.kind = ticket_number.kind), 0);
DROP VIEW ticket_numbered;

CREATE TRIGGER head_numbered AFTER INSERT ON head
WHEN NOT substr(NEW.ticket, 3, length(NEW.ticket) - 3) GLOB '*[^0-9]*' BEGIN
    UPDATE ticket_number SET number =
        max(number, CAST(substr(NEW.ticket, 3, length(NEW.ticket) - 3) AS INTEGER))
        WHERE kind = 'H';
END;
CREATE TRIGGER shaft_numbered AFTER INSERT ON shaft
WHEN NOT substr(NEW.ticket, 3, length(NEW.ticket) - 3) GLOB '*[^0-9]*' BEGIN
    UPDATE ticket_number SET number =
        max(number, CAST(substr(NEW.ticket, 3, length(NEW.ticket) - 3) AS INTEGER))
        WHERE kind = 'S';
END;
CREATE TRIGGER worker_numbered AFTER INSERT ON worker
WHEN NOT substr(NEW.badge, 3, length(NEW.badge) - 3) GLOB '*[^0-9]*' BEGIN
    UPDATE ticket_number SET number =
        max(number, CAST(substr(NEW.badge, 3, length(NEW.badge) - 3) AS INTEGER))
        WHERE kind = 'W';
END;
CREATE TRIGGER build_numbered AFTER INSERT ON build
WHEN NOT NEW.name GLOB '*[^0-9]*' AND length(NEW.name) <= 12 BEGIN
    UPDATE ticket_number SET number = max(number, CAST(NEW.name AS INTEGER)) WHERE kind = 'B';
END;

-- --- stock --------------------------------------------------------------------------------------

-- What should lie there of a model, and of a shaft of one flex of it: below least, order up to
-- wanted.
CREATE TABLE stock_level (
    part TEXT NOT NULL CHECK (part IN ('head', 'shaft')),
    model TEXT NOT NULL CHECK (length(CAST(model AS BLOB)) BETWEEN 1 AND 47),
    flex TEXT NOT NULL DEFAULT ''
        CHECK (length(CAST(flex AS BLOB)) <= 15 AND (flex = '') = (part = 'head')),
    least INTEGER NOT NULL CHECK (least BETWEEN 0 AND 9999),
    wanted INTEGER NOT NULL CHECK (wanted BETWEEN least AND 9999),
    PRIMARY KEY (part, model, flex)
) STRICT, WITHOUT ROWID;

CREATE INDEX shaft_reserved ON shaft (model, flex) WHERE life = 'raw' AND club IS NOT NULL;
CREATE INDEX shaft_offcut ON shaft (model, flex, remaining, ticket)
    WHERE life <> 'raw' AND club IS NULL AND remaining IS NOT NULL;
