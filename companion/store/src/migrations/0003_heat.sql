-- Heat logs: named probes' readings, words at moments, corrections, and what a
-- log is watched for. Temperatures are thousandths of a degree Celsius, times
-- milliseconds since 1970-01-01T00:00:00Z, lengths milliseconds.

CREATE TABLE heat_log (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    name         TEXT NOT NULL,
    key          TEXT NOT NULL UNIQUE,
    longest_step INTEGER NOT NULL CHECK (longest_step > 0), -- more is a gap
    begun        INTEGER NOT NULL
) STRICT;

CREATE TABLE heat_reading (
    log         INTEGER NOT NULL REFERENCES heat_log (id),
    at          INTEGER NOT NULL,
    temperature INTEGER NOT NULL,
    after_gap   INTEGER NOT NULL CHECK (after_gap IN (0, 1)),
    PRIMARY KEY (log, at)
) STRICT, WITHOUT ROWID;

CREATE TABLE heat_marker (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    log      INTEGER NOT NULL REFERENCES heat_log (id),
    at       INTEGER NOT NULL,
    words    TEXT NOT NULL CHECK (words <> ''),
    recorded INTEGER NOT NULL
) STRICT;
CREATE INDEX heat_marker_of_log ON heat_marker (log, at);

-- Beside the record, never over it.
CREATE TABLE heat_correction (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    log        INTEGER NOT NULL REFERENCES heat_log (id),
    since      INTEGER NOT NULL,
    until      INTEGER NOT NULL CHECK (until >= since),
    difference INTEGER, -- to add; none where the stretch is left out
    reason     TEXT NOT NULL CHECK (reason <> ''),
    recorded   INTEGER NOT NULL,
    lifted     INTEGER
) STRICT;
CREATE INDEX heat_correction_of_log ON heat_correction (log);

-- The last one counts.
CREATE TABLE heat_aim (
    id    INTEGER PRIMARY KEY AUTOINCREMENT,
    log   INTEGER NOT NULL REFERENCES heat_log (id),
    since INTEGER NOT NULL,
    aim   TEXT NOT NULL CHECK (json_valid(aim))
) STRICT;
CREATE INDEX heat_aim_of_log ON heat_aim (log, id);

CREATE TRIGGER heat_reading_is_kept BEFORE DELETE ON heat_reading
BEGIN SELECT RAISE(ABORT, 'a reading on record is corrected beside it, never deleted'); END;
CREATE TRIGGER heat_reading_is_not_rewritten BEFORE UPDATE ON heat_reading
BEGIN SELECT RAISE(ABORT, 'a reading on record is corrected beside it, never rewritten'); END;
CREATE TRIGGER heat_marker_is_kept BEFORE DELETE ON heat_marker
BEGIN SELECT RAISE(ABORT, 'a marker on record is never deleted'); END;
CREATE TRIGGER heat_correction_is_kept BEFORE DELETE ON heat_correction
BEGIN SELECT RAISE(ABORT, 'a correction is lifted, never deleted'); END;
CREATE TRIGGER heat_correction_is_not_rewritten
BEFORE UPDATE OF log, since, until, difference, reason, recorded ON heat_correction
BEGIN SELECT RAISE(ABORT, 'a correction is lifted, never rewritten'); END;
