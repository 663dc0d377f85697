-- What the review filters by. A facet is one bench, worker, material and verdict that occur
-- together; log_facet has the entries of each. Any choice of them is then a few rows of facet and as
-- many sorted lists, whether it meets every entry or none. Kept by a trigger, so that no writer can
-- forget it. The material is that of the entry's shaft as the catalogue has it when it is written;
-- of a confirmed care list, the one it was about.

CREATE TABLE facet (
    id INTEGER PRIMARY KEY,
    bench TEXT NOT NULL,
    worker TEXT NOT NULL,
    material TEXT NOT NULL CHECK (material IN ('', 'steel', 'graphite')),
    verdict TEXT NOT NULL,
    UNIQUE (bench, worker, material, verdict)
) STRICT;
CREATE TABLE log_facet (
    facet INTEGER NOT NULL,
    seq INTEGER NOT NULL,
    PRIMARY KEY (facet, seq)
) STRICT, WITHOUT ROWID;

CREATE VIEW shaft_material (ticket, material) AS
    SELECT s.ticket, r.material FROM shaft AS s JOIN shaft_model_revision AS r ON r.model = s.model
    WHERE r.revision = (SELECT max(revision) FROM shaft_model_revision WHERE model = s.model);

INSERT INTO facet (bench, worker, material, verdict)
    SELECT DISTINCT l.bench, l.worker, coalesce(m.material, iif(l.kind = 'care', l.cause, '')),
        l.verdict
    FROM log AS l LEFT JOIN shaft_material AS m ON m.ticket = l.shaft;
INSERT INTO log_facet (facet, seq)
    SELECT f.id, l.seq FROM log AS l LEFT JOIN shaft_material AS m ON m.ticket = l.shaft
    JOIN facet AS f ON f.bench = l.bench AND f.worker = l.worker AND f.verdict = l.verdict
        AND f.material = coalesce(m.material, iif(l.kind = 'care', l.cause, ''))
    ORDER BY f.id, l.seq;

CREATE TRIGGER log_faceted AFTER INSERT ON log BEGIN
    INSERT INTO facet (bench, worker, material, verdict)
        SELECT NEW.bench, NEW.worker, n.material, NEW.verdict
        FROM (SELECT coalesce((SELECT material FROM shaft_material WHERE ticket = NEW.shaft),
                              iif(NEW.kind = 'care', NEW.cause, '')) AS material) AS n
        WHERE NOT EXISTS (SELECT 1 FROM facet AS f WHERE f.bench = NEW.bench
            AND f.worker = NEW.worker AND f.material = n.material AND f.verdict = NEW.verdict);
    INSERT INTO log_facet (facet, seq)
        SELECT f.id, NEW.seq FROM facet AS f WHERE f.bench = NEW.bench AND f.worker = NEW.worker
            AND f.material = coalesce(
                (SELECT material FROM shaft_material WHERE ticket = NEW.shaft),
                iif(NEW.kind = 'care', NEW.cause, ''))
            AND f.verdict = NEW.verdict;
END;

DROP INDEX log_worker;
DROP INDEX log_off;
DROP INDEX log_off_worker;
