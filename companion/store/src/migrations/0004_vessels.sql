-- Vessels of known volume: each filling with water is kept, the latest counts.
-- Masses in micrograms, temperatures in thousandths of a degree Celsius,
-- uncertainties expanded with a coverage factor of 2.

CREATE TABLE vessel (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    name    TEXT NOT NULL,
    key     TEXT NOT NULL UNIQUE,
    retired INTEGER
) STRICT;

CREATE TABLE vessel_filling (
    id                 INTEGER PRIMARY KEY AUTOINCREMENT,
    vessel             INTEGER NOT NULL REFERENCES vessel (id),
    at                 INTEGER NOT NULL,
    water              INTEGER NOT NULL CHECK (water > 0),
    temperature        INTEGER NOT NULL,
    material           TEXT NOT NULL,
    mass_within        INTEGER NOT NULL CHECK (mass_within >= 0),
    level_within       INTEGER NOT NULL CHECK (level_within >= 0),
    temperature_within INTEGER NOT NULL CHECK (temperature_within >= 0),
    empty              INTEGER CHECK (empty > 0)
) STRICT;

CREATE INDEX vessel_filling_of ON vessel_filling (vessel);

CREATE TRIGGER vessel_filling_is_kept BEFORE DELETE ON vessel_filling
BEGIN SELECT RAISE(ABORT, 'a filling on record is never deleted'); END;
CREATE TRIGGER vessel_filling_is_not_rewritten BEFORE UPDATE ON vessel_filling
BEGIN SELECT RAISE(ABORT, 'a filling on record is never rewritten'); END;
