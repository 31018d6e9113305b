-- Intervals that were told of a heat log, and what came of each: a forecast
-- shows how often it was right.

CREATE TABLE heat_told (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    log     INTEGER NOT NULL REFERENCES heat_log (id),
    at      INTEGER NOT NULL,
    level   INTEGER NOT NULL,
    falling INTEGER NOT NULL CHECK (falling IN (0, 1)),
    early   INTEGER NOT NULL,
    likely  INTEGER NOT NULL CHECK (likely >= early),
    late    INTEGER CHECK (late >= likely) -- none where it may never come
) STRICT;
CREATE INDEX heat_told_of_log ON heat_told (log, id);

CREATE TABLE heat_came (
    told INTEGER PRIMARY KEY REFERENCES heat_told (id),
    came INTEGER NOT NULL CHECK (came IN (0, 1, 2)), -- missed, held, not counted
    at   INTEGER NOT NULL
) STRICT;

CREATE TRIGGER heat_told_is_kept BEFORE DELETE ON heat_told
BEGIN SELECT RAISE(ABORT, 'what was told is never deleted'); END;
CREATE TRIGGER heat_told_is_not_rewritten BEFORE UPDATE ON heat_told
BEGIN SELECT RAISE(ABORT, 'what was told is never rewritten'); END;
CREATE TRIGGER heat_came_is_kept BEFORE DELETE ON heat_came
BEGIN SELECT RAISE(ABORT, 'what came of it is never deleted'); END;
CREATE TRIGGER heat_came_is_not_rewritten BEFORE UPDATE ON heat_came
BEGIN SELECT RAISE(ABORT, 'what came of it is never rewritten'); END;
