-- PINs made with a pepper, badges locked after too many tries, names taken out of view.

-- Which key file the hash was made with (a fingerprint of it); empty: none.
ALTER TABLE pin ADD COLUMN pepper TEXT NOT NULL DEFAULT ''
    CHECK (pepper = '' OR (length(pepper) = 16 AND NOT pepper GLOB '*[^0-9a-f]*'));

-- The entry that says the badge is locked. Badge '*' of this table is the wait of the whole
-- station; its tries are those of all supervisors together.
ALTER TABLE pin_try ADD COLUMN locked INTEGER REFERENCES log (seq);

-- The entry that says who took the name out of view. The badge and the role stay.
ALTER TABLE worker ADD COLUMN withdrawn INTEGER REFERENCES log (seq)
    CHECK (withdrawn IS NULL OR name = 'withdrawn');
CREATE TRIGGER worker_stays_withdrawn BEFORE UPDATE ON worker WHEN OLD.withdrawn IS NOT NULL BEGIN
    SELECT RAISE(ABORT, 'the name of a badge once withdrawn stays so: take it out of the file');
END;
CREATE TRIGGER worker_kept_withdrawn BEFORE DELETE ON worker WHEN OLD.withdrawn IS NOT NULL BEGIN
    SELECT RAISE(ABORT, 'a badge whose name was withdrawn stays');
END;
