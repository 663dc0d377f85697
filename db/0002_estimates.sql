-- What estimates of balance and flex need to know of parts, the shafts that are still to be chosen
-- from stock, and what is measured on the assembled club.
--
-- Stiffness is thousandths of a newton square metre, frequency tenths of a cycle a minute, inertia
-- g cm2; all else is as in 0001.

ALTER TABLE shaft_model_revision ADD COLUMN balance INTEGER -- from the tip end, uncut
    CHECK (balance > 0 AND (raw_length IS NULL OR balance < raw_length));
ALTER TABLE shaft_model_revision ADD COLUMN tip_wall INTEGER
    CHECK (tip_wall > 0 AND (tip_diameter IS NULL OR 2 * tip_wall <= tip_diameter));
ALTER TABLE shaft_model_revision ADD COLUMN butt_wall INTEGER
    CHECK (butt_wall > 0 AND (butt_diameter IS NULL OR 2 * butt_wall <= butt_diameter));

ALTER TABLE head_model_revision ADD COLUMN cg_beyond INTEGER -- beyond the shaft's end
    CHECK (cg_beyond BETWEEN -101600000 AND 101600000);
ALTER TABLE head_model_revision ADD COLUMN inertia INTEGER
    CHECK (inertia BETWEEN 1 AND 100000);

ALTER TABLE shaft ADD COLUMN balance INTEGER
    CHECK (balance > 0 AND (raw_length IS NULL OR balance < raw_length));
ALTER TABLE shaft ADD COLUMN raw_frequency INTEGER CHECK (raw_frequency BETWEEN 500 AND 6000);
ALTER TABLE shaft ADD COLUMN frequency_mass INTEGER -- on the tip while it was measured
    CHECK (frequency_mass > 0 AND (raw_frequency IS NULL) = (frequency_mass IS NULL));

-- The shaft to be chosen from stock; kept as the order's words when one is reserved.
ALTER TABLE club ADD COLUMN wished_model TEXT NOT NULL DEFAULT ''
    CHECK (length(CAST(wished_model AS BLOB)) <= 47);
ALTER TABLE club ADD COLUMN wished_flex TEXT NOT NULL DEFAULT ''
    CHECK (length(CAST(wished_flex AS BLOB)) <= 15 AND (wished_flex = '') = (wished_model = ''));

-- Bending stiffness along the uncut shaft: points at rising distances from the tip end.
CREATE TABLE shaft_profile (
    model TEXT NOT NULL REFERENCES shaft_model (name),
    flex TEXT NOT NULL CHECK (length(CAST(flex AS BLOB)) BETWEEN 1 AND 15),
    revision INTEGER NOT NULL CHECK (revision > 0),
    from_tip INTEGER NOT NULL CHECK (from_tip BETWEEN 0 AND 2032000000),
    stiffness INTEGER NOT NULL CHECK (stiffness BETWEEN 1 AND 5000000),
    PRIMARY KEY (model, flex, revision, from_tip)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER shaft_profile_kept BEFORE UPDATE ON shaft_profile BEGIN
    SELECT RAISE(ABORT, 'a profile never changes: add a new revision');
END;
CREATE TRIGGER shaft_profile_stays BEFORE DELETE ON shaft_profile BEGIN
    SELECT RAISE(ABORT, 'a profile is never removed');
END;

CREATE INDEX log_final ON log (club_id, kind)
    WHERE kind IN ('final_length', 'final_swingweight', 'final_frequency');
