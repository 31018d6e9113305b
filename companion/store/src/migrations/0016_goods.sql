-- What the kitchen buys, as the cook wrote it; the last list counts.
CREATE TABLE goods_list (
    id    INTEGER PRIMARY KEY AUTOINCREMENT,
    since INTEGER NOT NULL,
    list  TEXT NOT NULL -- TOML
) STRICT;

-- What was counted of goods, and what was ordered.
CREATE TABLE goods_event (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    goods    TEXT NOT NULL, -- the name in small letters
    at       INTEGER NOT NULL,
    what     TEXT NOT NULL CHECK (json_valid(what)),
    recorded INTEGER NOT NULL
) STRICT;
CREATE INDEX goods_event_of ON goods_event (goods, at);

CREATE TRIGGER goods_event_is_kept BEFORE DELETE ON goods_event
BEGIN SELECT RAISE(ABORT, 'what was counted is counted again, never deleted'); END;
CREATE TRIGGER goods_event_is_not_rewritten BEFORE UPDATE ON goods_event
BEGIN SELECT RAISE(ABORT, 'what was counted is never rewritten'); END;
