-- Pictures of dishes and formulas, for whoever takes one over: upright and small, as JPEG, by
-- the name of what they are of. One that was taken off stays on record and is shown no more.
CREATE TABLE picture (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    of       TEXT NOT NULL,
    key      TEXT NOT NULL, -- the name in lower case
    caption  TEXT NOT NULL,
    image    BLOB NOT NULL,
    added    INTEGER NOT NULL,
    checksum INTEGER NOT NULL
) STRICT;
CREATE INDEX picture_of_key ON picture (key, id);

CREATE TABLE picture_off (
    picture INTEGER PRIMARY KEY REFERENCES picture (id),
    at      INTEGER NOT NULL
) STRICT;

CREATE TRIGGER picture_is_kept BEFORE DELETE ON picture
BEGIN SELECT RAISE(ABORT, 'a picture is taken off, never deleted'); END;
CREATE TRIGGER picture_is_not_rewritten BEFORE UPDATE ON picture
BEGIN SELECT RAISE(ABORT, 'a picture is never rewritten'); END;
CREATE TRIGGER picture_off_is_kept BEFORE DELETE ON picture_off
BEGIN SELECT RAISE(ABORT, 'that a picture was taken off is never deleted'); END;
CREATE TRIGGER picture_off_is_not_rewritten BEFORE UPDATE ON picture_off
BEGIN SELECT RAISE(ABORT, 'that a picture was taken off is never rewritten'); END;
