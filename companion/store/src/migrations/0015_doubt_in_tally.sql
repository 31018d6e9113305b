-- Sums apart for portions that the instrument doubted: 0 for none, 2 that may be two,
-- 3 taken off the pan, 4 touched or restless, 5 so near a limit that the verdict could be
-- either. What a failed test of the scale casts doubt on changes with later tests and is
-- counted from the portions. All are reckoned again.

DROP TABLE tally;
DROP TABLE tally_of_tin;

CREATE TABLE tally (
    dish         INTEGER NOT NULL,
    cook         TEXT NOT NULL,
    hour         INTEGER NOT NULL,
    block        INTEGER NOT NULL,
    doubt        INTEGER NOT NULL,
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
    PRIMARY KEY (dish, cook, hour, block, doubt)
) STRICT, WITHOUT ROWID;
CREATE TABLE tally_of_tin (
    tin          INTEGER NOT NULL,
    dish         INTEGER NOT NULL,
    block        INTEGER NOT NULL,
    doubt        INTEGER NOT NULL,
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
    PRIMARY KEY (tin, dish, block, doubt)
) STRICT, WITHOUT ROWID;
INSERT OR IGNORE INTO stale_block SELECT DISTINCT time / 2764800000 FROM portion;
