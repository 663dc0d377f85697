-- The codes suppliers print on their goods. A GTIN names a model, and of a shaft perhaps its flex;
-- never a part. What an import says of one replaces what was known: it is no history.

-- GTIN-8, -12 and -13 with zeros in front, so that one number is one row. GS1 General
-- Specifications 7.9: weights 3, 1, 3 ... from the right, the check digit itself counting once.
CREATE TABLE supplier_code (
    gtin TEXT PRIMARY KEY
        CHECK (length(gtin) = 14 AND NOT gtin GLOB '*[^0-9]*'
               AND (3 * (substr(gtin, 1, 1) + substr(gtin, 3, 1) + substr(gtin, 5, 1)
                         + substr(gtin, 7, 1) + substr(gtin, 9, 1) + substr(gtin, 11, 1)
                         + substr(gtin, 13, 1))
                    + substr(gtin, 2, 1) + substr(gtin, 4, 1) + substr(gtin, 6, 1)
                    + substr(gtin, 8, 1) + substr(gtin, 10, 1) + substr(gtin, 12, 1)
                    + substr(gtin, 14, 1)) % 10 = 0),
    head_model TEXT REFERENCES head_model (name),
    shaft_model TEXT REFERENCES shaft_model (name),
    flex TEXT NOT NULL DEFAULT '' -- empty: the code is the same for all of them
        CHECK (length(CAST(flex AS BLOB)) <= 15 AND (flex = '' OR shaft_model IS NOT NULL)),
    CHECK ((head_model IS NULL) <> (shaft_model IS NULL))
) STRICT, WITHOUT ROWID;

CREATE INDEX head_spare ON head (model) WHERE club IS NULL;
