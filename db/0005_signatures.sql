-- The ways to the entries that say a day is signed, and to those that refer to another.

CREATE INDEX log_signed ON log (seq) WHERE kind = 'day_signed';
CREATE INDEX log_refers ON log (refers) WHERE refers IS NOT NULL;
