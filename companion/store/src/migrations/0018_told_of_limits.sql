-- What was told of a limit has a record of its own: that a level will be there in time or late,
-- or within an interval. What was told before is of bands.
ALTER TABLE heat_told ADD COLUMN of_limit INTEGER NOT NULL DEFAULT 0 CHECK (of_limit IN (0, 1));
CREATE INDEX heat_told_of_kind ON heat_told (log, of_limit, level, id);
