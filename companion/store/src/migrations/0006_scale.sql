-- What was found with known weights: the mornings' tests, and calibrations.
-- Masses in micrograms, uptime in milliseconds since the instrument's start.

CREATE TABLE scale_test (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    device      INTEGER NOT NULL,
    epoch       INTEGER NOT NULL,
    uptime      INTEGER NOT NULL,
    time        INTEGER NOT NULL,
    known       INTEGER NOT NULL CHECK (known > 0),
    indicated   INTEGER NOT NULL,
    permissible INTEGER NOT NULL CHECK (permissible >= 0),
    uncertainty INTEGER NOT NULL CHECK (uncertainty >= 0),
    UNIQUE (device, epoch, uptime) -- told several times, recorded once
) STRICT;

CREATE TABLE scale_calibration (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    device       INTEGER NOT NULL,
    epoch        INTEGER NOT NULL,
    uptime       INTEGER NOT NULL,
    time         INTEGER NOT NULL,
    points       INTEGER NOT NULL CHECK (points >= 2),
    per_gram     INTEGER NOT NULL, -- thousandths of a count
    heaviest     INTEGER NOT NULL,
    nonlinearity INTEGER NOT NULL,
    residual     INTEGER NOT NULL,
    uncertainty  INTEGER NOT NULL CHECK (uncertainty >= 0),
    UNIQUE (device, epoch, uptime)
) STRICT;

-- What was measured stays as it was measured.
CREATE TRIGGER scale_test_is_kept BEFORE DELETE ON scale_test
BEGIN SELECT RAISE(ABORT, 'a test on record is never deleted'); END;
CREATE TRIGGER scale_test_is_not_rewritten BEFORE UPDATE ON scale_test
BEGIN SELECT RAISE(ABORT, 'a test on record is never rewritten'); END;
CREATE TRIGGER scale_calibration_is_kept BEFORE DELETE ON scale_calibration
BEGIN SELECT RAISE(ABORT, 'a calibration on record is never deleted'); END;
CREATE TRIGGER scale_calibration_is_not_rewritten BEFORE UPDATE ON scale_calibration
BEGIN SELECT RAISE(ABORT, 'a calibration on record is never rewritten'); END;
