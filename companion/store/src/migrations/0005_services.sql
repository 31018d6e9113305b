-- Services and what a review of them stands on: what a dish was called before,
-- what became of a purchase, what was brought in from elsewhere, and tallies.

-- A service by its day, which begins some hours after midnight.
CREATE TABLE service (
    day         TEXT PRIMARY KEY CHECK (day IS date(day)),
    first_order INTEGER,
    last_order  INTEGER,
    CHECK (first_order IS NULL OR last_order IS NULL OR first_order <= last_order)
) STRICT;

CREATE TABLE setting (
    name  TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- What a dish was called until when.
CREATE TABLE former_name (
    id    INTEGER PRIMARY KEY,
    dish  INTEGER NOT NULL REFERENCES dish (id),
    name  TEXT NOT NULL,
    key   TEXT NOT NULL,
    until INTEGER NOT NULL
) STRICT;
CREATE INDEX former_name_by_key ON former_name (key, until);

-- What was bought: 0 a tin, 1 a whole fish, 2 a cut, 3 a batch made here.
ALTER TABLE tin ADD COLUMN kind INTEGER NOT NULL DEFAULT 0 CHECK (kind IN (0, 1, 2, 3));

-- What was weighed of a purchase apart from its portions: a named loss (0 trim,
-- 1 cook, 2 press, 3 spill, 4 tasting), or what is left (5).
CREATE TABLE yield_line (
    id     INTEGER PRIMARY KEY AUTOINCREMENT,
    tin    INTEGER NOT NULL REFERENCES tin (id),
    what   INTEGER NOT NULL CHECK (what BETWEEN 0 AND 5),
    mass   INTEGER NOT NULL CHECK (mass >= 0),
    at     INTEGER NOT NULL,
    struck INTEGER
) STRICT;
CREATE INDEX yield_line_of_tin ON yield_line (tin);
CREATE TRIGGER yield_line_is_kept BEFORE DELETE ON yield_line
BEGIN SELECT RAISE(ABORT, 'a line of a yield is struck out, never deleted'); END;

-- Weighings brought in from a file, each by a digest of what its line says and
-- of how many lines before it said the same.
CREATE TABLE imported (
    digest  BLOB PRIMARY KEY,
    portion INTEGER NOT NULL REFERENCES portion (seq)
) STRICT, WITHOUT ROWID;

-- Sums of the portions that count, by run and half hour since 1970, so that a
-- year can be told at once. Always to be had from the portions again; which
-- ones are to be reckoned again stands in stale_tally. The sum of squares is
-- high * 2^62 + low.
CREATE TABLE tally (
    run          INTEGER NOT NULL,
    half_hour    INTEGER NOT NULL,
    n            INTEGER NOT NULL,
    sum          INTEGER NOT NULL,
    squares_high INTEGER NOT NULL,
    squares_low  INTEGER NOT NULL,
    short        INTEGER NOT NULL,
    on_target    INTEGER NOT NULL,
    heavy        INTEGER NOT NULL,
    lightest     INTEGER NOT NULL,
    heaviest     INTEGER NOT NULL,
    given_away   INTEGER NOT NULL,
    costed       INTEGER NOT NULL,
    lost         INTEGER,
    currency     TEXT,
    PRIMARY KEY (run, half_hour)
) STRICT, WITHOUT ROWID;
CREATE TABLE stale_tally (
    run       INTEGER NOT NULL,
    half_hour INTEGER NOT NULL,
    PRIMARY KEY (run, half_hour)
) STRICT, WITHOUT ROWID;
INSERT INTO stale_tally SELECT DISTINCT run, time / 1800000 FROM portion;

CREATE TRIGGER portion_makes_stale AFTER INSERT ON portion
BEGIN INSERT OR IGNORE INTO stale_tally VALUES (new.run, new.time / 1800000); END;
CREATE TRIGGER correction_makes_stale AFTER UPDATE OF replaced_by ON portion
BEGIN INSERT OR IGNORE INTO stale_tally VALUES (new.run, new.time / 1800000); END;
CREATE TRIGGER strike_makes_stale AFTER INSERT ON strike
BEGIN
    INSERT OR IGNORE INTO stale_tally
    SELECT run, time / 1800000 FROM portion
    WHERE seq = new.portion OR seq = (SELECT replaces FROM portion WHERE seq = new.portion);
END;
CREATE TRIGGER lifting_makes_stale AFTER UPDATE ON strike
BEGIN
    INSERT OR IGNORE INTO stale_tally
    SELECT run, time / 1800000 FROM portion
    WHERE seq = new.portion OR seq = (SELECT replaces FROM portion WHERE seq = new.portion);
END;
-- A dish's first known cost is also that of what was portioned before it.
CREATE TRIGGER first_cost_makes_stale AFTER INSERT ON dish_version
WHEN new.cost IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM dish_version WHERE dish = new.dish AND id <> new.id AND cost IS NOT NULL)
BEGIN
    INSERT OR IGNORE INTO stale_tally
    SELECT t.run, t.half_hour FROM tally t JOIN run r ON r.seq = t.run WHERE r.dish = new.dish;
END;
