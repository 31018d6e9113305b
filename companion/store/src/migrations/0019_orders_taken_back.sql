-- An order that was put down by mistake, or did not come about: it stays on record, and counts no
-- more from when it was taken back, with the reason, until it is put back.
CREATE TABLE goods_taken_back (
    id     INTEGER PRIMARY KEY AUTOINCREMENT,
    event  INTEGER NOT NULL REFERENCES goods_event (id),
    at     INTEGER NOT NULL,
    reason TEXT -- none where it was put back
) STRICT;
CREATE INDEX goods_taken_back_of ON goods_taken_back (event, id);

CREATE TRIGGER goods_taken_back_is_kept BEFORE DELETE ON goods_taken_back
BEGIN SELECT RAISE(ABORT, 'that an order was taken back is never deleted'); END;
CREATE TRIGGER goods_taken_back_is_not_rewritten BEFORE UPDATE ON goods_taken_back
BEGIN SELECT RAISE(ABORT, 'that an order was taken back is never rewritten'); END;
