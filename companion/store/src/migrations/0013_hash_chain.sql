-- Where a portion stands in its instrument's hash chain, and the digest that it
-- carries of the one before: see `check`. Neither is there of a portion from an
-- instrument, or a program, from before there was one. The digest is an unsigned
-- number, kept as the signed integer of the same bits.

ALTER TABLE portion ADD COLUMN chain_position INTEGER;
ALTER TABLE portion ADD COLUMN chain_previous INTEGER;

DROP TRIGGER portion_is_not_rewritten;
CREATE TRIGGER portion_is_not_rewritten
BEFORE UPDATE OF start, number, run, mode, mass, target, below, above, uptime, time,
    time_source, temperature, doubts, uncertainty, left_on_pan, corrects, recorded, checksum,
    chain_position, chain_previous ON portion
BEGIN SELECT RAISE(ABORT, 'a portion on record is never rewritten'); END;
