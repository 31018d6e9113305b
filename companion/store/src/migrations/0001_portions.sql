-- Masses are whole micrograms, temperatures thousandths of a degree Celsius,
-- times milliseconds since 1970-01-01T00:00:00Z, money millionths of the
-- currency's unit. Unsigned 64-bit device numbers are kept as the signed
-- integer of the same bits.

CREATE TABLE dish (
    id      INTEGER PRIMARY KEY,
    name    TEXT NOT NULL,
    key     TEXT NOT NULL UNIQUE,
    retired INTEGER
) STRICT;

CREATE TABLE dish_version (
    id       INTEGER PRIMARY KEY,
    dish     INTEGER NOT NULL REFERENCES dish (id),
    since    INTEGER NOT NULL,
    target   INTEGER NOT NULL CHECK (target > 0),
    below    INTEGER NOT NULL CHECK (below >= 0),
    above    INTEGER NOT NULL CHECK (above >= 0),
    mode     INTEGER NOT NULL CHECK (mode IN (0, 1)),
    cost     INTEGER, -- for a kilogram
    currency TEXT,
    CHECK ((cost IS NULL) = (currency IS NULL))
) STRICT;
CREATE INDEX dish_version_of_dish ON dish_version (dish, since, id);

CREATE TABLE tin (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    dish     INTEGER NOT NULL REFERENCES dish (id),
    label    TEXT NOT NULL,
    net      INTEGER NOT NULL CHECK (net > 0),
    price    INTEGER,
    currency TEXT,
    opened   INTEGER NOT NULL,
    closed   INTEGER,
    CHECK ((price IS NULL) = (currency IS NULL))
) STRICT;

CREATE TABLE instrument (
    device       INTEGER PRIMARY KEY,
    first_seen   INTEGER NOT NULL,
    last_seen    INTEGER NOT NULL,
    capabilities INTEGER NOT NULL,
    capacity     INTEGER NOT NULL,
    interval     INTEGER NOT NULL
) STRICT;

-- One start of an instrument, in the order this store met them. Portions are
-- ordered by start and number, never by the wall's clock.
CREATE TABLE start (
    id     INTEGER PRIMARY KEY AUTOINCREMENT,
    device INTEGER NOT NULL,
    epoch  INTEGER NOT NULL,
    UNIQUE (device, epoch)
) STRICT;

CREATE TABLE run (
    seq     INTEGER PRIMARY KEY AUTOINCREMENT,
    id      INTEGER NOT NULL UNIQUE, -- what the instrument calls it
    dish    INTEGER REFERENCES dish (id),
    target  INTEGER NOT NULL,
    below   INTEGER NOT NULL,
    above   INTEGER NOT NULL,
    mode    INTEGER NOT NULL CHECK (mode IN (0, 1)),
    cook    TEXT,
    tin     INTEGER REFERENCES tin (id),
    started INTEGER NOT NULL,
    ended   INTEGER
) STRICT;
CREATE INDEX run_of_dish ON run (dish);
CREATE INDEX run_of_tin ON run (tin);

CREATE TABLE portion (
    seq         INTEGER PRIMARY KEY AUTOINCREMENT,
    start       INTEGER NOT NULL REFERENCES start (id),
    number      INTEGER NOT NULL,
    run         INTEGER NOT NULL REFERENCES run (seq),
    mode        INTEGER NOT NULL CHECK (mode IN (0, 1)),
    mass        INTEGER NOT NULL,
    target      INTEGER NOT NULL,
    below       INTEGER NOT NULL,
    above       INTEGER NOT NULL,
    uptime      INTEGER NOT NULL,
    time        INTEGER NOT NULL,
    time_source INTEGER NOT NULL CHECK (time_source IN (0, 1, 2)),
    temperature INTEGER,
    doubts      INTEGER NOT NULL,
    uncertainty INTEGER,
    left_on_pan INTEGER,
    corrects    INTEGER, -- the number, in the same start, it was said to correct
    replaces    INTEGER REFERENCES portion (seq), -- the portion that comes to
    replaced_by INTEGER REFERENCES portion (seq),
    recorded    INTEGER NOT NULL,
    UNIQUE (start, number) -- a portion is recorded once, however often it comes
) STRICT;
CREATE INDEX portion_unresolved ON portion (start, corrects)
    WHERE corrects IS NOT NULL AND replaces IS NULL;
CREATE INDEX portion_of_run ON portion (run, start, number);
CREATE INDEX portion_by_time ON portion (time);

CREATE TABLE strike (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    portion INTEGER NOT NULL REFERENCES portion (seq),
    at      INTEGER NOT NULL,
    reason  TEXT NOT NULL,
    undone  INTEGER NOT NULL CHECK (undone IN (0, 1)), -- as if it had not been made
    lifted  INTEGER
) STRICT;
CREATE UNIQUE INDEX strike_in_force ON strike (portion) WHERE lifted IS NULL;

-- Something that came as a portion and could not be taken for one: kept as
-- evidence, counted as nothing.
CREATE TABLE refused (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    came     TEXT NOT NULL UNIQUE,
    why      TEXT NOT NULL,
    recorded INTEGER NOT NULL
) STRICT;

-- The wall's clock stepped: at which (new) time, by how many milliseconds.
CREATE TABLE clock_step (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    at INTEGER NOT NULL,
    by INTEGER NOT NULL
) STRICT;

-- What was measured stays as it was measured.
CREATE TRIGGER portion_is_kept BEFORE DELETE ON portion
BEGIN SELECT RAISE(ABORT, 'a portion on record is never deleted'); END;
CREATE TRIGGER portion_is_not_rewritten
BEFORE UPDATE OF start, number, run, mode, mass, target, below, above, uptime, time,
    time_source, temperature, doubts, uncertainty, left_on_pan, corrects, recorded ON portion
BEGIN SELECT RAISE(ABORT, 'a portion on record is never rewritten'); END;
CREATE TRIGGER strike_is_kept BEFORE DELETE ON strike
BEGIN SELECT RAISE(ABORT, 'a strike is lifted, never deleted'); END;
