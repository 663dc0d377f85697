-- Which entry of the log changed what, so that the changes of one thing are found without reading
-- the log.

-- `thing`: its key cells joined by tabs. `revision`: the one it made; NULL: none is kept of such a
-- thing, or nobody knows which.
CREATE TABLE change (
    seq INTEGER PRIMARY KEY REFERENCES log (seq),
    sheet TEXT NOT NULL,
    thing TEXT NOT NULL,
    revision INTEGER CHECK (revision > 0)
) STRICT;
CREATE INDEX change_thing ON change (sheet, thing, seq);
CREATE INDEX change_sheet ON change (sheet, seq);

-- The same as the log says it, line by line of each change: a sheet, then key cells.
CREATE VIEW change_said (seq, sheet, thing) AS
    WITH RECURSIVE step (seq, sheet, thing, line, rest) AS (
        SELECT seq, '', '', '', plan FROM log WHERE kind = 'change'
        UNION ALL
        SELECT seq, iif(line LIKE 'sheet' || char(9) || '%', substr(line, 7), sheet),
            iif(line LIKE 'key' || char(9) || '%',
                iif(thing = '', '', thing || char(9)) ||
                substr(line, 5 + instr(substr(line, 5), char(9))),
                thing),
            substr(rest, 1, instr(rest, char(10)) - 1), substr(rest, instr(rest, char(10)) + 1)
        FROM step WHERE rest <> '' AND line NOT LIKE 'cell' || char(9) || '%'
    )
    SELECT seq, sheet, thing FROM step
    WHERE line LIKE 'cell' || char(9) || '%' OR (rest = '' AND line <> '');

CREATE VIEW revision_there (sheet, thing, revision) AS
    SELECT 'charts', model || char(9) || flex || char(9) || kind, revision FROM chart
    UNION ALL SELECT 'head_models', model, revision FROM head_model_revision
    UNION ALL SELECT 'shaft_models', model, revision FROM shaft_model_revision;

INSERT INTO change (seq, sheet, thing) SELECT seq, sheet, thing FROM change_said;
