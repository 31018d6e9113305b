-- Portions of a dish that went out to guests during a service. Counts add up; one below
-- nothing takes back what was counted too much.
CREATE TABLE gone_out (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    day      TEXT NOT NULL,
    dish     INTEGER NOT NULL REFERENCES dish (id),
    portions INTEGER NOT NULL CHECK (portions <> 0),
    at       INTEGER NOT NULL
) STRICT;
CREATE INDEX gone_out_of_day ON gone_out (day, dish);

CREATE TRIGGER gone_out_is_kept BEFORE DELETE ON gone_out
BEGIN SELECT RAISE(ABORT, 'what went out is taken back by a later line, never deleted'); END;
CREATE TRIGGER gone_out_is_not_rewritten BEFORE UPDATE ON gone_out
BEGIN SELECT RAISE(ABORT, 'what went out is never rewritten'); END;
