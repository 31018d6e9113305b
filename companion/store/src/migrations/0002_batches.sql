-- Batches: what was weighed, planned, done and tasted, line by line. What a
-- line says is JSON, as evenhand-kitchen's batch module writes it, with masses
-- in whole micrograms and temperatures in thousandths of a degree Celsius.

CREATE TABLE batch (
    id    INTEGER PRIMARY KEY AUTOINCREMENT,
    begun INTEGER NOT NULL
) STRICT;

CREATE TABLE batch_line (
    batch INTEGER NOT NULL REFERENCES batch (id),
    line  INTEGER NOT NULL CHECK (line >= 0),
    at    INTEGER NOT NULL,
    what  TEXT NOT NULL CHECK (json_valid(what)),
    PRIMARY KEY (batch, line)
) STRICT, WITHOUT ROWID;

-- What was written down stays; what was wrong is struck out by a later line.
CREATE TRIGGER batch_is_kept BEFORE DELETE ON batch
BEGIN SELECT RAISE(ABORT, 'a batch on record is never deleted'); END;
CREATE TRIGGER batch_line_is_kept BEFORE DELETE ON batch_line
BEGIN SELECT RAISE(ABORT, 'a line of a batch is struck out, never deleted'); END;
CREATE TRIGGER batch_line_is_not_rewritten BEFORE UPDATE ON batch_line
BEGIN SELECT RAISE(ABORT, 'a line of a batch is never rewritten'); END;
