-- What every row of the record was when it was written, as a number: a bit that
-- turns or a figure that somebody changes by hand is found by `check`. Filled
-- by the program, which knows how it is reckoned.

ALTER TABLE portion ADD COLUMN checksum INTEGER;
ALTER TABLE strike ADD COLUMN checksum INTEGER;

DROP TRIGGER portion_is_not_rewritten;
UPDATE portion SET checksum = portion_checksum(start, number, run, mode, mass, target, below, above,
    uptime, time, time_source, temperature, doubts, uncertainty, left_on_pan, corrects, recorded);
UPDATE strike SET checksum = strike_checksum(portion, at, reason, undone);

CREATE TRIGGER portion_is_not_rewritten
BEFORE UPDATE OF start, number, run, mode, mass, target, below, above, uptime, time,
    time_source, temperature, doubts, uncertainty, left_on_pan, corrects, recorded, checksum ON portion
BEGIN SELECT RAISE(ABORT, 'a portion on record is never rewritten'); END;
CREATE TRIGGER strike_is_not_rewritten
BEFORE UPDATE OF portion, at, reason, undone, checksum ON strike
BEGIN SELECT RAISE(ABORT, 'a strike is lifted, never rewritten'); END;

-- A correction's whole family is found through what each says it corrects.
DROP INDEX portion_unresolved;
CREATE INDEX portion_correction ON portion (start, corrects) WHERE corrects IS NOT NULL;
