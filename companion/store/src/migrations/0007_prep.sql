-- The prep clock: menus, what happened to their steps, covers and what a
-- service left. And how long a dish's scoops may be out of the cold. Days are
-- services' dates (2026-05-08), times milliseconds since
-- 1970-01-01T00:00:00Z.

-- The last one for a day counts, else the last for every day.
CREATE TABLE prep_menu (
    id    INTEGER PRIMARY KEY AUTOINCREMENT,
    day   TEXT,
    since INTEGER NOT NULL,
    menu  TEXT NOT NULL -- TOML, as the cook wrote it
) STRICT;

CREATE TABLE prep_event (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    day      TEXT NOT NULL,
    step     TEXT NOT NULL,
    at       INTEGER NOT NULL,
    what     TEXT NOT NULL CHECK (json_valid(what)),
    recorded INTEGER NOT NULL
) STRICT;
CREATE INDEX prep_event_of_day ON prep_event (day, id);

-- Guests of a service; the last saying counts.
CREATE TABLE cover (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    day      TEXT NOT NULL,
    covers   INTEGER NOT NULL CHECK (covers >= 0),
    recorded INTEGER NOT NULL
) STRICT;
CREATE INDEX cover_of_day ON cover (day, id);

-- Portions of a dish that a service left, still to be served by the kitchen's
-- own rules; the last saying counts.
CREATE TABLE left_over (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    day      TEXT NOT NULL,
    dish     INTEGER NOT NULL REFERENCES dish (id),
    portions INTEGER NOT NULL CHECK (portions >= 0),
    recorded INTEGER NOT NULL
) STRICT;
CREATE INDEX left_over_of_day ON left_over (dish, day, id);

-- Seconds that a dish's scoops may be out of the cold; none where the cook took
-- the limit off. The last one counts.
CREATE TABLE melt_limit (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    dish    INTEGER NOT NULL REFERENCES dish (id),
    since   INTEGER NOT NULL,
    seconds INTEGER CHECK (seconds > 0)
) STRICT;
CREATE INDEX melt_limit_of_dish ON melt_limit (dish, id);

-- The scoops of a run so far went back into the cold.
CREATE TABLE back_in_cold (
    id  INTEGER PRIMARY KEY AUTOINCREMENT,
    run INTEGER NOT NULL, -- what the instrument calls it
    at  INTEGER NOT NULL
) STRICT;
CREATE INDEX back_in_cold_of_run ON back_in_cold (run, at);

CREATE TRIGGER prep_event_is_kept BEFORE DELETE ON prep_event
BEGIN SELECT RAISE(ABORT, 'what happened to a step is undone by a later line, never deleted'); END;
CREATE TRIGGER prep_event_is_not_rewritten BEFORE UPDATE ON prep_event
BEGIN SELECT RAISE(ABORT, 'what happened to a step is never rewritten'); END;
