-- Sums of the portions that count, by blocks of 32 days since 1970: by dish,
-- cook and hour of the clock, and by tin. A line on which eight dishes and five
-- cooks take turns made nearly as many sums by run and half hour as it made
-- portions. Always to be had from the portions again; which blocks are to be
-- reckoned again stands in stale_block. 0 is no dish and no tin, '' no cook.
-- The hours are those of the zone that the setting tally_zone names. The sum of
-- squares is high * 2^40 + low.

DROP TRIGGER portion_makes_stale;
DROP TRIGGER correction_makes_stale;
DROP TRIGGER strike_makes_stale;
DROP TRIGGER lifting_makes_stale;
DROP TRIGGER first_cost_makes_stale;
DROP TRIGGER yield_makes_stale;
DROP TRIGGER yield_strike_makes_stale;
DROP TABLE stale_tally;
DROP TABLE tally;

CREATE TABLE tally (
    dish         INTEGER NOT NULL,
    cook         TEXT NOT NULL,
    hour         INTEGER NOT NULL,
    block        INTEGER NOT NULL,
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
    PRIMARY KEY (dish, cook, hour, block)
) STRICT, WITHOUT ROWID;
CREATE TABLE tally_of_tin (
    tin          INTEGER NOT NULL,
    dish         INTEGER NOT NULL,
    block        INTEGER NOT NULL,
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
    PRIMARY KEY (tin, dish, block)
) STRICT, WITHOUT ROWID;
CREATE TABLE stale_block (block INTEGER PRIMARY KEY) STRICT;
INSERT INTO stale_block SELECT DISTINCT time / 2764800000 FROM portion;

-- A portion of a purchase is part of what a gram of the rest of it costs.
CREATE TRIGGER correction_makes_stale AFTER UPDATE OF replaced_by ON portion
BEGIN
    INSERT OR IGNORE INTO stale_block VALUES (new.time / 2764800000);
    INSERT OR IGNORE INTO stale_block
    SELECT t.block FROM run r JOIN tally_of_tin t ON t.tin = r.tin WHERE r.seq = new.run;
END;
CREATE TRIGGER strike_makes_stale AFTER INSERT ON strike
BEGIN
    INSERT OR IGNORE INTO stale_block
    SELECT time / 2764800000 FROM portion
    WHERE seq = new.portion OR seq = (SELECT replaces FROM portion WHERE seq = new.portion);
    INSERT OR IGNORE INTO stale_block
    SELECT t.block FROM portion p JOIN run r ON r.seq = p.run JOIN tally_of_tin t ON t.tin = r.tin
    WHERE p.seq = new.portion;
END;
CREATE TRIGGER lifting_makes_stale AFTER UPDATE ON strike
BEGIN
    INSERT OR IGNORE INTO stale_block
    SELECT time / 2764800000 FROM portion
    WHERE seq = new.portion OR seq = (SELECT replaces FROM portion WHERE seq = new.portion);
    INSERT OR IGNORE INTO stale_block
    SELECT t.block FROM portion p JOIN run r ON r.seq = p.run JOIN tally_of_tin t ON t.tin = r.tin
    WHERE p.seq = new.portion;
END;
-- A dish's first known cost is also that of what was portioned before it.
CREATE TRIGGER first_cost_makes_stale AFTER INSERT ON dish_version
WHEN new.cost IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM dish_version WHERE dish = new.dish AND id <> new.id AND cost IS NOT NULL)
BEGIN
    INSERT OR IGNORE INTO stale_block SELECT block FROM tally WHERE dish = new.dish;
END;
-- What was given away of a purchase is valued at what a gram of it costs on a
-- plate, which every loss and what is left of it change.
CREATE TRIGGER yield_makes_stale AFTER INSERT ON yield_line
BEGIN
    INSERT OR IGNORE INTO stale_block SELECT block FROM tally_of_tin WHERE tin = new.tin;
END;
CREATE TRIGGER yield_strike_makes_stale AFTER UPDATE ON yield_line
BEGIN
    INSERT OR IGNORE INTO stale_block SELECT block FROM tally_of_tin WHERE tin = new.tin;
END;
CREATE TRIGGER run_change_makes_stale AFTER UPDATE OF dish, cook, tin ON run
BEGIN
    INSERT OR IGNORE INTO stale_block SELECT time / 2764800000 FROM portion WHERE run = new.seq;
END;

-- A weighing that was brought in before is known by what it says.
DROP TABLE imported;
