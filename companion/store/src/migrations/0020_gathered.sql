-- What several desktops gather into one record. Every row that a desktop puts down gets a
-- stamp: its moment in milliseconds since 1970-01-01T00:00:00Z times 2^20, plus the number of
-- the desktop. A desktop's stamps only rise, also above every stamp that it has gathered, so
-- that a stamp tells a row from every other and the later from the earlier, everywhere the
-- same. The moments end in the year 2109 (2^42 milliseconds), where they stay.

-- This desktop: its number, drawn anew where another has it, and its last moment.
CREATE TABLE desk (
    one    INTEGER PRIMARY KEY CHECK (one = 1),
    origin INTEGER NOT NULL CHECK (origin BETWEEN 1 AND 1048575),
    last   INTEGER NOT NULL
) STRICT;
INSERT INTO desk VALUES (1, 1 + (random() & 0x7fffffffffffffff) % 1048575, 0);

-- What this desktop put down or changed, in order; each once, by its last change. Portions
-- are in order by themselves and are not among it.
CREATE TABLE change (
    seq  INTEGER PRIMARY KEY AUTOINCREMENT,
    kind TEXT NOT NULL,
    key  ANY NOT NULL,
    UNIQUE (kind, key)
) STRICT;

-- Portions that another desktop recorded.
CREATE TABLE gathered_portion (seq INTEGER PRIMARY KEY REFERENCES portion (seq)) STRICT;

-- The journals of a shared folder: how far each was read, where the last line read begins
-- and its checksum, and how much of this record is in one of its own.
CREATE TABLE journal (
    name     TEXT PRIMARY KEY,
    own      INTEGER NOT NULL CHECK (own IN (0, 1)),
    bytes    INTEGER NOT NULL,
    last     INTEGER NOT NULL,
    check_of TEXT NOT NULL,
    changes  INTEGER NOT NULL,
    portions INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Lines of journals that speak of what has not come yet.
CREATE TABLE waiting (
    id   INTEGER PRIMARY KEY AUTOINCREMENT,
    line TEXT NOT NULL UNIQUE
) STRICT;

-- What two desktops said differently, where one saying counts: the other, kept.
CREATE TABLE overruled (
    id    INTEGER PRIMARY KEY AUTOINCREMENT,
    kind  TEXT NOT NULL,
    key   TEXT NOT NULL,
    said  TEXT NOT NULL,
    stamp INTEGER NOT NULL,
    UNIQUE (kind, key, stamp, said)
) STRICT;

-- There is a row while a record is gathered: nothing of it is this desktop's own change.
CREATE TABLE gathering (one INTEGER PRIMARY KEY CHECK (one = 1)) STRICT;

-- That a portion which was struck out counts again: each lifting by itself, since several
-- desktops may strike and lift at the same time.
CREATE TABLE lifting (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    portion INTEGER NOT NULL REFERENCES portion (seq),
    at      INTEGER NOT NULL
) STRICT;
CREATE INDEX lifting_of_portion ON lifting (portion);
INSERT INTO lifting (portion, at)
SELECT portion, lifted FROM strike WHERE lifted IS NOT NULL ORDER BY lifted, id;
CREATE TRIGGER lifting_is_kept BEFORE DELETE ON lifting
BEGIN SELECT RAISE(ABORT, 'a lifting on record is never deleted'); END;

-- The kitchen's plain files, as they were last seen here.
CREATE TABLE plain_file (
    name    TEXT PRIMARY KEY,
    text    TEXT NOT NULL,
    since   INTEGER NOT NULL,
    stamp   INTEGER
) STRICT, WITHOUT ROWID;

ALTER TABLE dish_version ADD COLUMN stamp INTEGER;
ALTER TABLE former_name ADD COLUMN stamp INTEGER;
ALTER TABLE tin ADD COLUMN stamp INTEGER;
ALTER TABLE strike ADD COLUMN stamp INTEGER;
ALTER TABLE lifting ADD COLUMN stamp INTEGER;
ALTER TABLE clock_step ADD COLUMN stamp INTEGER;
ALTER TABLE batch ADD COLUMN stamp INTEGER;
ALTER TABLE batch_line ADD COLUMN stamp INTEGER;
ALTER TABLE heat_marker ADD COLUMN stamp INTEGER;
ALTER TABLE heat_correction ADD COLUMN stamp INTEGER;
ALTER TABLE heat_aim ADD COLUMN stamp INTEGER;
ALTER TABLE heat_told ADD COLUMN stamp INTEGER;
ALTER TABLE heat_came ADD COLUMN stamp INTEGER;
ALTER TABLE vessel_filling ADD COLUMN stamp INTEGER;
ALTER TABLE yield_line ADD COLUMN stamp INTEGER;
ALTER TABLE prep_menu ADD COLUMN stamp INTEGER;
ALTER TABLE prep_event ADD COLUMN stamp INTEGER;
ALTER TABLE cover ADD COLUMN stamp INTEGER;
ALTER TABLE left_over ADD COLUMN stamp INTEGER;
ALTER TABLE melt_limit ADD COLUMN stamp INTEGER;
ALTER TABLE back_in_cold ADD COLUMN stamp INTEGER;
ALTER TABLE gone_out ADD COLUMN stamp INTEGER;
ALTER TABLE goods_list ADD COLUMN stamp INTEGER;
ALTER TABLE goods_event ADD COLUMN stamp INTEGER;
ALTER TABLE goods_taken_back ADD COLUMN stamp INTEGER;
ALTER TABLE picture ADD COLUMN stamp INTEGER;
ALTER TABLE picture_off ADD COLUMN stamp INTEGER;
ALTER TABLE batch_line ADD COLUMN about TEXT CHECK (json_valid(about)); -- the stamps of what its numbers mean
ALTER TABLE setting ADD COLUMN since INTEGER NOT NULL DEFAULT 0;
ALTER TABLE setting ADD COLUMN stamp INTEGER;
ALTER TABLE service ADD COLUMN first_stamp INTEGER;
ALTER TABLE service ADD COLUMN last_stamp INTEGER;
ALTER TABLE vessel ADD COLUMN retired_stamp INTEGER;
ALTER TABLE dish ADD COLUMN retired_stamp INTEGER;
ALTER TABLE dish ADD COLUMN born TEXT; -- the key that it was first put down under
ALTER TABLE dish ADD COLUMN said_name TEXT; -- the name given last; another dish may have it
ALTER TABLE dish ADD COLUMN name_stamp INTEGER;
ALTER TABLE run ADD COLUMN goal_stamp INTEGER;

DROP TRIGGER batch_line_is_not_rewritten;
DROP TRIGGER vessel_filling_is_not_rewritten;
DROP TRIGGER prep_event_is_not_rewritten;
DROP TRIGGER heat_told_is_not_rewritten;
DROP TRIGGER heat_came_is_not_rewritten;
DROP TRIGGER gone_out_is_not_rewritten;
DROP TRIGGER goods_event_is_not_rewritten;
DROP TRIGGER goods_taken_back_is_not_rewritten;
DROP TRIGGER picture_is_not_rewritten;
DROP TRIGGER picture_off_is_not_rewritten;

-- What is on record gets the stamp of its moment and its number: the same in every copy.
UPDATE dish_version SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(since) OVER (ORDER BY id)), 4398046511103) AS moment FROM dish_version) s
WHERE s.id = dish_version.id;
UPDATE former_name SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(until) OVER (ORDER BY id)), 4398046511103) AS moment FROM former_name) s
WHERE s.id = former_name.id;
UPDATE tin SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(opened) OVER (ORDER BY id)), 4398046511103) AS moment FROM tin) s
WHERE s.id = tin.id;
UPDATE strike SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(at) OVER (ORDER BY id)), 4398046511103) AS moment FROM strike) s
WHERE s.id = strike.id;
UPDATE lifting SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(at) OVER (ORDER BY id)), 4398046511103) AS moment FROM lifting) s
WHERE s.id = lifting.id;
UPDATE clock_step SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(at) OVER (ORDER BY id)), 4398046511103) AS moment FROM clock_step) s
WHERE s.id = clock_step.id;
UPDATE batch SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(begun) OVER (ORDER BY id)), 4398046511103) AS moment FROM batch) s
WHERE s.id = batch.id;
UPDATE batch_line SET stamp = ((s.moment + s.place) << 20) | (s.batch & 1048575)
FROM (SELECT batch, line, min(max(0, max(at) OVER (PARTITION BY batch ORDER BY line)), 4398046511103) AS moment,
             line AS place FROM batch_line) s
WHERE s.batch = batch_line.batch AND s.line = batch_line.line;
UPDATE heat_marker SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(recorded) OVER (ORDER BY id)), 4398046511103) AS moment FROM heat_marker) s
WHERE s.id = heat_marker.id;
UPDATE heat_correction SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(recorded) OVER (ORDER BY id)), 4398046511103) AS moment FROM heat_correction) s
WHERE s.id = heat_correction.id;
UPDATE heat_aim SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(since) OVER (ORDER BY id)), 4398046511103) AS moment FROM heat_aim) s
WHERE s.id = heat_aim.id;
UPDATE heat_told SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(at) OVER (ORDER BY id)), 4398046511103) AS moment FROM heat_told) s
WHERE s.id = heat_told.id;
UPDATE heat_came SET stamp = (min(max(0, at), 4398046511103) << 20) | (told & 1048575);
UPDATE vessel_filling SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(at) OVER (ORDER BY id)), 4398046511103) AS moment FROM vessel_filling) s
WHERE s.id = vessel_filling.id;
UPDATE yield_line SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(at) OVER (ORDER BY id)), 4398046511103) AS moment FROM yield_line) s
WHERE s.id = yield_line.id;
UPDATE prep_menu SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(since) OVER (ORDER BY id)), 4398046511103) AS moment FROM prep_menu) s
WHERE s.id = prep_menu.id;
UPDATE prep_event SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(recorded) OVER (ORDER BY id)), 4398046511103) AS moment FROM prep_event) s
WHERE s.id = prep_event.id;
UPDATE cover SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(recorded) OVER (ORDER BY id)), 4398046511103) AS moment FROM cover) s
WHERE s.id = cover.id;
UPDATE left_over SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(recorded) OVER (ORDER BY id)), 4398046511103) AS moment FROM left_over) s
WHERE s.id = left_over.id;
UPDATE melt_limit SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(since) OVER (ORDER BY id)), 4398046511103) AS moment FROM melt_limit) s
WHERE s.id = melt_limit.id;
UPDATE back_in_cold SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(at) OVER (ORDER BY id)), 4398046511103) AS moment FROM back_in_cold) s
WHERE s.id = back_in_cold.id;
UPDATE gone_out SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(at) OVER (ORDER BY id)), 4398046511103) AS moment FROM gone_out) s
WHERE s.id = gone_out.id;
UPDATE goods_list SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(since) OVER (ORDER BY id)), 4398046511103) AS moment FROM goods_list) s
WHERE s.id = goods_list.id;
UPDATE goods_event SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(recorded) OVER (ORDER BY id)), 4398046511103) AS moment FROM goods_event) s
WHERE s.id = goods_event.id;
UPDATE goods_taken_back SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(at) OVER (ORDER BY id)), 4398046511103) AS moment FROM goods_taken_back) s
WHERE s.id = goods_taken_back.id;
UPDATE picture SET stamp = (s.moment << 20) | (s.id & 1048575)
FROM (SELECT id, min(max(0, max(added) OVER (ORDER BY id)), 4398046511103) AS moment FROM picture) s
WHERE s.id = picture.id;
UPDATE picture_off SET stamp = (min(max(0, at), 4398046511103) << 20) | (picture & 1048575);
UPDATE setting SET stamp = 1;
UPDATE service SET first_stamp = CASE WHEN first_order IS NOT NULL THEN 1 END,
    last_stamp = CASE WHEN last_order IS NOT NULL THEN 1 END;
UPDATE vessel SET retired_stamp = min(max(0, retired), 4398046511103) << 20 WHERE retired IS NOT NULL;
UPDATE dish SET retired_stamp = min(max(0, retired), 4398046511103) << 20 WHERE retired IS NOT NULL;
UPDATE dish SET said_name = name,
    born = coalesce((SELECT key FROM former_name f WHERE f.dish = dish.id ORDER BY until, f.id LIMIT 1), key),
    name_stamp = (SELECT max(stamp) FROM former_name f WHERE f.dish = dish.id);
UPDATE dish SET born = born || char(31) || (SELECT count(*) FROM dish o WHERE o.born = dish.born AND o.id < dish.id)
WHERE EXISTS (SELECT 1 FROM dish o WHERE o.born = dish.born AND o.id < dish.id);

CREATE TRIGGER batch_line_is_not_rewritten BEFORE UPDATE OF batch, line, at, what ON batch_line
BEGIN SELECT RAISE(ABORT, 'a line of a batch is never rewritten'); END;
CREATE TRIGGER vessel_filling_is_not_rewritten BEFORE UPDATE OF vessel, at, water, temperature, material, mass_within, level_within, temperature_within, empty ON vessel_filling
BEGIN SELECT RAISE(ABORT, 'a filling on record is never rewritten'); END;
CREATE TRIGGER prep_event_is_not_rewritten BEFORE UPDATE OF day, step, at, what, recorded ON prep_event
BEGIN SELECT RAISE(ABORT, 'what happened to a step is never rewritten'); END;
CREATE TRIGGER heat_told_is_not_rewritten BEFORE UPDATE OF log, at, level, falling, early, likely, late, of_limit ON heat_told
BEGIN SELECT RAISE(ABORT, 'what was told is never rewritten'); END;
CREATE TRIGGER heat_came_is_not_rewritten BEFORE UPDATE OF told, came, at ON heat_came
BEGIN SELECT RAISE(ABORT, 'what came of it is never rewritten'); END;
CREATE TRIGGER gone_out_is_not_rewritten BEFORE UPDATE OF day, dish, portions, at ON gone_out
BEGIN SELECT RAISE(ABORT, 'what went out is never rewritten'); END;
CREATE TRIGGER goods_event_is_not_rewritten BEFORE UPDATE OF goods, at, what, recorded ON goods_event
BEGIN SELECT RAISE(ABORT, 'what was counted is never rewritten'); END;
CREATE TRIGGER goods_taken_back_is_not_rewritten BEFORE UPDATE OF event, at, reason ON goods_taken_back
BEGIN SELECT RAISE(ABORT, 'that an order was taken back is never rewritten'); END;
CREATE TRIGGER picture_is_not_rewritten BEFORE UPDATE OF of, key, caption, image, added, checksum ON picture
BEGIN SELECT RAISE(ABORT, 'a picture is never rewritten'); END;
CREATE TRIGGER picture_off_is_not_rewritten BEFORE UPDATE OF picture, at ON picture_off
BEGIN SELECT RAISE(ABORT, 'that a picture was taken off is never rewritten'); END;

CREATE UNIQUE INDEX dish_version_stamp ON dish_version (stamp);
CREATE UNIQUE INDEX former_name_stamp ON former_name (stamp);
CREATE UNIQUE INDEX tin_stamp ON tin (stamp);
CREATE UNIQUE INDEX strike_stamp ON strike (stamp);
CREATE UNIQUE INDEX lifting_stamp ON lifting (stamp);
CREATE UNIQUE INDEX clock_step_stamp ON clock_step (stamp);
CREATE UNIQUE INDEX batch_stamp ON batch (stamp);
CREATE UNIQUE INDEX batch_line_stamp ON batch_line (stamp);
CREATE UNIQUE INDEX heat_marker_stamp ON heat_marker (stamp);
CREATE UNIQUE INDEX heat_correction_stamp ON heat_correction (stamp);
CREATE UNIQUE INDEX heat_aim_stamp ON heat_aim (stamp);
CREATE UNIQUE INDEX heat_told_stamp ON heat_told (stamp);
CREATE UNIQUE INDEX heat_came_stamp ON heat_came (stamp);
CREATE UNIQUE INDEX vessel_filling_stamp ON vessel_filling (stamp);
CREATE UNIQUE INDEX yield_line_stamp ON yield_line (stamp);
CREATE UNIQUE INDEX prep_menu_stamp ON prep_menu (stamp);
CREATE UNIQUE INDEX prep_event_stamp ON prep_event (stamp);
CREATE UNIQUE INDEX cover_stamp ON cover (stamp);
CREATE UNIQUE INDEX left_over_stamp ON left_over (stamp);
CREATE UNIQUE INDEX melt_limit_stamp ON melt_limit (stamp);
CREATE UNIQUE INDEX back_in_cold_stamp ON back_in_cold (stamp);
CREATE UNIQUE INDEX gone_out_stamp ON gone_out (stamp);
CREATE UNIQUE INDEX goods_list_stamp ON goods_list (stamp);
CREATE UNIQUE INDEX goods_event_stamp ON goods_event (stamp);
CREATE UNIQUE INDEX goods_taken_back_stamp ON goods_taken_back (stamp);
CREATE UNIQUE INDEX picture_stamp ON picture (stamp);
CREATE UNIQUE INDEX picture_off_stamp ON picture_off (stamp);
CREATE UNIQUE INDEX dish_born ON dish (born);
CREATE INDEX heat_told_in_order ON heat_told (log, stamp);

-- All that is on record is to be told to the others.
INSERT INTO change (kind, key) SELECT 'instrument', device FROM instrument;
INSERT INTO change (kind, key) SELECT 'dish', id FROM dish;
INSERT INTO change (kind, key) SELECT 'vessel', id FROM vessel;
INSERT INTO change (kind, key) SELECT 'heat_log', id FROM heat_log;
INSERT INTO change (kind, key) SELECT 'dish_version', stamp FROM dish_version ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'former_name', stamp FROM former_name ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'tin', stamp FROM tin ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'run', seq FROM run;
INSERT INTO change (kind, key) SELECT 'strike', stamp FROM strike ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'lifting', stamp FROM lifting ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'clock_step', stamp FROM clock_step ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'batch', stamp FROM batch ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'batch_line', stamp FROM batch_line ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'heat_marker', stamp FROM heat_marker ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'heat_correction', stamp FROM heat_correction ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'heat_aim', stamp FROM heat_aim ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'heat_told', stamp FROM heat_told ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'heat_came', stamp FROM heat_came ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'vessel_filling', stamp FROM vessel_filling ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'yield_line', stamp FROM yield_line ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'prep_menu', stamp FROM prep_menu ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'prep_event', stamp FROM prep_event ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'cover', stamp FROM cover ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'left_over', stamp FROM left_over ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'melt_limit', stamp FROM melt_limit ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'back_in_cold', stamp FROM back_in_cold ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'gone_out', stamp FROM gone_out ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'goods_list', stamp FROM goods_list ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'goods_event', stamp FROM goods_event ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'goods_taken_back', stamp FROM goods_taken_back ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'picture', stamp FROM picture ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'picture_off', stamp FROM picture_off ORDER BY stamp;
INSERT INTO change (kind, key) SELECT 'setting', name FROM setting;
INSERT INTO change (kind, key) SELECT 'service', day FROM service;
INSERT INTO change (kind, key) SELECT 'scale_test', id FROM scale_test;
INSERT INTO change (kind, key) SELECT 'scale_calibration', id FROM scale_calibration;
INSERT INTO change (kind, key) SELECT 'refused', id FROM refused;
INSERT INTO change (kind, key) SELECT DISTINCT 'heat_reading', log || '/' || (at / 60000) FROM heat_reading;
UPDATE desk SET last = max(0, coalesce((SELECT max(stamp) >> 20 FROM dish_version), 0),
    coalesce((SELECT max(stamp) >> 20 FROM former_name), 0),
    coalesce((SELECT max(stamp) >> 20 FROM tin), 0),
    coalesce((SELECT max(stamp) >> 20 FROM strike), 0),
    coalesce((SELECT max(stamp) >> 20 FROM lifting), 0),
    coalesce((SELECT max(stamp) >> 20 FROM clock_step), 0),
    coalesce((SELECT max(stamp) >> 20 FROM batch), 0),
    coalesce((SELECT max(stamp) >> 20 FROM batch_line), 0),
    coalesce((SELECT max(stamp) >> 20 FROM heat_marker), 0),
    coalesce((SELECT max(stamp) >> 20 FROM heat_correction), 0),
    coalesce((SELECT max(stamp) >> 20 FROM heat_aim), 0),
    coalesce((SELECT max(stamp) >> 20 FROM heat_told), 0),
    coalesce((SELECT max(stamp) >> 20 FROM heat_came), 0),
    coalesce((SELECT max(stamp) >> 20 FROM vessel_filling), 0),
    coalesce((SELECT max(stamp) >> 20 FROM yield_line), 0),
    coalesce((SELECT max(stamp) >> 20 FROM prep_menu), 0),
    coalesce((SELECT max(stamp) >> 20 FROM prep_event), 0),
    coalesce((SELECT max(stamp) >> 20 FROM cover), 0),
    coalesce((SELECT max(stamp) >> 20 FROM left_over), 0),
    coalesce((SELECT max(stamp) >> 20 FROM melt_limit), 0),
    coalesce((SELECT max(stamp) >> 20 FROM back_in_cold), 0),
    coalesce((SELECT max(stamp) >> 20 FROM gone_out), 0),
    coalesce((SELECT max(stamp) >> 20 FROM goods_list), 0),
    coalesce((SELECT max(stamp) >> 20 FROM goods_event), 0),
    coalesce((SELECT max(stamp) >> 20 FROM goods_taken_back), 0),
    coalesce((SELECT max(stamp) >> 20 FROM picture), 0),
    coalesce((SELECT max(stamp) >> 20 FROM picture_off), 0));

CREATE TRIGGER dish_version_is_stamped AFTER INSERT ON dish_version WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.since, 0), 4398046511103));
    UPDATE dish_version SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'dish_version', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER former_name_is_stamped AFTER INSERT ON former_name WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.until, 0), 4398046511103));
    UPDATE former_name SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'former_name', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER tin_is_stamped AFTER INSERT ON tin WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.opened, 0), 4398046511103));
    UPDATE tin SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'tin', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER strike_is_stamped AFTER INSERT ON strike WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE strike SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'strike', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER lifting_is_stamped AFTER INSERT ON lifting WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE lifting SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'lifting', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER clock_step_is_stamped AFTER INSERT ON clock_step WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE clock_step SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'clock_step', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER batch_is_stamped AFTER INSERT ON batch WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.begun, 0), 4398046511103));
    UPDATE batch SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'batch', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER batch_line_is_stamped AFTER INSERT ON batch_line WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE batch_line SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE batch = new.batch AND line = new.line;
    INSERT INTO change (kind, key) SELECT 'batch_line', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER heat_marker_is_stamped AFTER INSERT ON heat_marker WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.recorded, 0), 4398046511103));
    UPDATE heat_marker SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'heat_marker', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER heat_correction_is_stamped AFTER INSERT ON heat_correction WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.recorded, 0), 4398046511103));
    UPDATE heat_correction SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'heat_correction', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER heat_aim_is_stamped AFTER INSERT ON heat_aim WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.since, 0), 4398046511103));
    UPDATE heat_aim SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'heat_aim', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER heat_told_is_stamped AFTER INSERT ON heat_told WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE heat_told SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'heat_told', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER heat_came_is_stamped AFTER INSERT ON heat_came WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE heat_came SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE told = new.told;
    INSERT INTO change (kind, key) SELECT 'heat_came', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER vessel_filling_is_stamped AFTER INSERT ON vessel_filling WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE vessel_filling SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'vessel_filling', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER yield_line_is_stamped AFTER INSERT ON yield_line WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE yield_line SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'yield_line', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER prep_menu_is_stamped AFTER INSERT ON prep_menu WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.since, 0), 4398046511103));
    UPDATE prep_menu SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'prep_menu', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER prep_event_is_stamped AFTER INSERT ON prep_event WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.recorded, 0), 4398046511103));
    UPDATE prep_event SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'prep_event', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER cover_is_stamped AFTER INSERT ON cover WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.recorded, 0), 4398046511103));
    UPDATE cover SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'cover', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER left_over_is_stamped AFTER INSERT ON left_over WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.recorded, 0), 4398046511103));
    UPDATE left_over SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'left_over', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER melt_limit_is_stamped AFTER INSERT ON melt_limit WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.since, 0), 4398046511103));
    UPDATE melt_limit SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'melt_limit', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER back_in_cold_is_stamped AFTER INSERT ON back_in_cold WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE back_in_cold SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'back_in_cold', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER gone_out_is_stamped AFTER INSERT ON gone_out WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE gone_out SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'gone_out', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER goods_list_is_stamped AFTER INSERT ON goods_list WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.since, 0), 4398046511103));
    UPDATE goods_list SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'goods_list', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER goods_event_is_stamped AFTER INSERT ON goods_event WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.recorded, 0), 4398046511103));
    UPDATE goods_event SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'goods_event', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER goods_taken_back_is_stamped AFTER INSERT ON goods_taken_back WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE goods_taken_back SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'goods_taken_back', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER picture_is_stamped AFTER INSERT ON picture WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.added, 0), 4398046511103));
    UPDATE picture SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    INSERT INTO change (kind, key) SELECT 'picture', (last << 20) | origin FROM desk;
END;
CREATE TRIGGER picture_off_is_stamped AFTER INSERT ON picture_off WHEN new.stamp IS NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.at, 0), 4398046511103));
    UPDATE picture_off SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE picture = new.picture;
    INSERT INTO change (kind, key) SELECT 'picture_off', (last << 20) | origin FROM desk;
END;

-- What is closed, struck out or lifted later.
CREATE TRIGGER tin_is_changed AFTER UPDATE OF closed ON tin WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'tin' AND key = new.stamp;
    INSERT INTO change (kind, key) VALUES ('tin', new.stamp);
END;
CREATE TRIGGER yield_line_is_changed AFTER UPDATE OF struck ON yield_line WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'yield_line' AND key = new.stamp;
    INSERT INTO change (kind, key) VALUES ('yield_line', new.stamp);
END;
CREATE TRIGGER heat_correction_is_changed AFTER UPDATE OF lifted ON heat_correction WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'heat_correction' AND key = new.stamp;
    INSERT INTO change (kind, key) VALUES ('heat_correction', new.stamp);
END;
CREATE TRIGGER strike_is_lifted AFTER UPDATE OF lifted ON strike
WHEN NOT EXISTS (SELECT 1 FROM gathering) AND new.lifted IS NOT NULL
BEGIN INSERT INTO lifting (portion, at) VALUES (new.portion, new.lifted); END;

-- What is known by a name or a number of its own.
CREATE TRIGGER instrument_is_new AFTER INSERT ON instrument WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'instrument' AND key = new.device;
    INSERT INTO change (kind, key) VALUES ('instrument', new.device);
END;
CREATE TRIGGER vessel_is_new AFTER INSERT ON vessel WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'vessel' AND key = new.id;
    INSERT INTO change (kind, key) VALUES ('vessel', new.id);
END;
CREATE TRIGGER heat_log_is_new AFTER INSERT ON heat_log WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'heat_log' AND key = new.id;
    INSERT INTO change (kind, key) VALUES ('heat_log', new.id);
END;
CREATE TRIGGER run_is_new AFTER INSERT ON run WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'run' AND key = new.seq;
    INSERT INTO change (kind, key) VALUES ('run', new.seq);
END;
CREATE TRIGGER scale_test_is_new AFTER INSERT ON scale_test WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'scale_test' AND key = new.id;
    INSERT INTO change (kind, key) VALUES ('scale_test', new.id);
END;
CREATE TRIGGER scale_calibration_is_new AFTER INSERT ON scale_calibration WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'scale_calibration' AND key = new.id;
    INSERT INTO change (kind, key) VALUES ('scale_calibration', new.id);
END;
CREATE TRIGGER refused_is_new AFTER INSERT ON refused WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'refused' AND key = new.id;
    INSERT INTO change (kind, key) VALUES ('refused', new.id);
END;
CREATE TRIGGER instrument_is_changed AFTER UPDATE ON instrument WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'instrument' AND key = new.device;
    INSERT INTO change (kind, key) VALUES ('instrument', new.device);
END;
CREATE TRIGGER run_is_changed AFTER UPDATE OF dish, cook, tin, started, ended ON run WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'run' AND key = new.seq;
    INSERT INTO change (kind, key) VALUES ('run', new.seq);
END;
CREATE TRIGGER run_goal_is_changed AFTER UPDATE OF target, below, above ON run WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(0, 0), 4398046511103));
    UPDATE run SET goal_stamp = (SELECT (last << 20) | origin FROM desk) WHERE seq = new.seq;
    DELETE FROM change WHERE kind = 'run' AND key = new.seq;
    INSERT INTO change (kind, key) VALUES ('run', new.seq);
END;
CREATE TRIGGER dish_is_new AFTER INSERT ON dish WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    UPDATE dish SET said_name = new.name, born = CASE
        WHEN EXISTS (SELECT 1 FROM dish o WHERE o.born = new.key)
        THEN new.key || char(31) || (SELECT count(*) FROM dish o WHERE o.born = new.key
            OR substr(o.born, 1, length(new.key) + 1) = new.key || char(31))
        ELSE new.key END
    WHERE id = new.id;
    DELETE FROM change WHERE kind = 'dish' AND key = new.id;
    INSERT INTO change (kind, key) VALUES ('dish', new.id);
END;
CREATE TRIGGER dish_is_renamed AFTER UPDATE OF name ON dish WHEN NOT EXISTS (SELECT 1 FROM gathering) AND new.born IS NOT NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(0, 0), 4398046511103));
    UPDATE dish SET said_name = new.name, name_stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    DELETE FROM change WHERE kind = 'dish' AND key = new.id;
    INSERT INTO change (kind, key) VALUES ('dish', new.id);
END;
CREATE TRIGGER dish_is_retired AFTER UPDATE OF retired ON dish WHEN NOT EXISTS (SELECT 1 FROM gathering) AND (new.retired IS NOT old.retired OR new.retired IS NULL)
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.retired, 0), 4398046511103));
    UPDATE dish SET retired_stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    DELETE FROM change WHERE kind = 'dish' AND key = new.id;
    INSERT INTO change (kind, key) VALUES ('dish', new.id);
END;
CREATE TRIGGER vessel_is_retired AFTER UPDATE OF retired ON vessel WHEN NOT EXISTS (SELECT 1 FROM gathering) AND (new.retired IS NOT old.retired OR new.retired IS NULL)
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.retired, 0), 4398046511103));
    UPDATE vessel SET retired_stamp = (SELECT (last << 20) | origin FROM desk) WHERE id = new.id;
    DELETE FROM change WHERE kind = 'vessel' AND key = new.id;
    INSERT INTO change (kind, key) VALUES ('vessel', new.id);
END;
CREATE TRIGGER heat_reading_is_new AFTER INSERT ON heat_reading WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    DELETE FROM change WHERE kind = 'heat_reading' AND key = new.log || '/' || (new.at / 60000);
    INSERT INTO change (kind, key) VALUES ('heat_reading', new.log || '/' || (new.at / 60000));
END;
CREATE TRIGGER setting_is_new AFTER INSERT ON setting WHEN NOT EXISTS (SELECT 1 FROM gathering) AND new.name NOT IN ('tally_zone', 'made_up_night', 'dishes_of_plates')
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.since, 0), 4398046511103));
    UPDATE setting SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE name = new.name;
    DELETE FROM change WHERE kind = 'setting' AND key = new.name;
    INSERT INTO change (kind, key) VALUES ('setting', new.name);
END;
CREATE TRIGGER setting_is_changed AFTER UPDATE OF value ON setting WHEN NOT EXISTS (SELECT 1 FROM gathering) AND new.name NOT IN ('tally_zone', 'made_up_night', 'dishes_of_plates')
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.since, 0), 4398046511103));
    UPDATE setting SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE name = new.name;
    DELETE FROM change WHERE kind = 'setting' AND key = new.name;
    INSERT INTO change (kind, key) VALUES ('setting', new.name);
END;
CREATE TRIGGER service_first_order_is_new AFTER INSERT ON service WHEN NOT EXISTS (SELECT 1 FROM gathering) AND new.first_order IS NOT NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.first_order, 0), 4398046511103));
    UPDATE service SET first_stamp = (SELECT (last << 20) | origin FROM desk) WHERE day = new.day;
    DELETE FROM change WHERE kind = 'service' AND key = new.day;
    INSERT INTO change (kind, key) VALUES ('service', new.day);
END;
CREATE TRIGGER service_first_order_is_changed AFTER UPDATE OF first_order ON service WHEN NOT EXISTS (SELECT 1 FROM gathering) AND new.first_order IS NOT old.first_order
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.first_order, 0), 4398046511103));
    UPDATE service SET first_stamp = (SELECT (last << 20) | origin FROM desk) WHERE day = new.day;
    DELETE FROM change WHERE kind = 'service' AND key = new.day;
    INSERT INTO change (kind, key) VALUES ('service', new.day);
END;
CREATE TRIGGER service_last_order_is_new AFTER INSERT ON service WHEN NOT EXISTS (SELECT 1 FROM gathering) AND new.last_order IS NOT NULL
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.last_order, 0), 4398046511103));
    UPDATE service SET last_stamp = (SELECT (last << 20) | origin FROM desk) WHERE day = new.day;
    DELETE FROM change WHERE kind = 'service' AND key = new.day;
    INSERT INTO change (kind, key) VALUES ('service', new.day);
END;
CREATE TRIGGER service_last_order_is_changed AFTER UPDATE OF last_order ON service WHEN NOT EXISTS (SELECT 1 FROM gathering) AND new.last_order IS NOT old.last_order
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.last_order, 0), 4398046511103));
    UPDATE service SET last_stamp = (SELECT (last << 20) | origin FROM desk) WHERE day = new.day;
    DELETE FROM change WHERE kind = 'service' AND key = new.day;
    INSERT INTO change (kind, key) VALUES ('service', new.day);
END;
CREATE TRIGGER plain_file_is_new AFTER INSERT ON plain_file WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.since, 0), 4398046511103));
    UPDATE plain_file SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE name = new.name;
    DELETE FROM change WHERE kind = 'plain_file' AND key = new.name;
    INSERT INTO change (kind, key) VALUES ('plain_file', new.name);
END;
CREATE TRIGGER plain_file_is_changed AFTER UPDATE OF text ON plain_file WHEN NOT EXISTS (SELECT 1 FROM gathering)
BEGIN
    UPDATE desk SET last = max(last + 1, min(coalesce(new.since, 0), 4398046511103));
    UPDATE plain_file SET stamp = (SELECT (last << 20) | origin FROM desk) WHERE name = new.name;
    DELETE FROM change WHERE kind = 'plain_file' AND key = new.name;
    INSERT INTO change (kind, key) VALUES ('plain_file', new.name);
END;
