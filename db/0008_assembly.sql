-- What repairs need to know of an order and of a shaft, and what is measured after assembly.

-- By a supervisor, instead of the chart's; the consent is to this head and shaft alone.
ALTER TABLE club ADD COLUMN given_trim INTEGER CHECK (given_trim BETWEEN 0 AND 2032000000);
ALTER TABLE club ADD COLUMN trim_consent INTEGER CHECK (trim_consent BETWEEN 0 AND 2032000000);
ALTER TABLE club ADD COLUMN extension INTEGER NOT NULL DEFAULT 0 CHECK (extension IN (0, 1));
ALTER TABLE club ADD COLUMN extension_consent INTEGER NOT NULL DEFAULT 0
    CHECK (extension_consent IN (0, 1));
-- To be made, thousandths of a degree; NULL: the head model's.
ALTER TABLE club ADD COLUMN loft INTEGER CHECK (loft BETWEEN 0 AND 90000);
ALTER TABLE club ADD COLUMN lie INTEGER CHECK (lie BETWEEN 0 AND 90000);

-- An offcut used again: what is off its tip already, and the ticket it had before it was cut.
ALTER TABLE shaft ADD COLUMN tip_cut INTEGER CHECK (tip_cut BETWEEN 0 AND 2032000000);
ALTER TABLE shaft ADD COLUMN from_shaft TEXT REFERENCES shaft (ticket)
    CHECK (from_shaft <> ticket);
CREATE INDEX shaft_from ON shaft (from_shaft) WHERE from_shaft IS NOT NULL;

DROP INDEX log_final;
CREATE INDEX log_final ON log (club_id, kind)
    WHERE kind IN ('final_length', 'final_swingweight', 'final_frequency', 'final_loft',
                   'final_lie');
