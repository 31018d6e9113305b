-- What was given away of a purchase is valued at what a gram of it costs on a
-- plate, which every loss and what is left of it change.
CREATE TRIGGER yield_makes_stale AFTER INSERT ON yield_line
BEGIN
    INSERT OR IGNORE INTO stale_tally
    SELECT t.run, t.half_hour FROM tally t JOIN run r ON r.seq = t.run WHERE r.tin = new.tin;
END;
CREATE TRIGGER yield_strike_makes_stale AFTER UPDATE ON yield_line
BEGIN
    INSERT OR IGNORE INTO stale_tally
    SELECT t.run, t.half_hour FROM tally t JOIN run r ON r.seq = t.run WHERE r.tin = new.tin;
END;
INSERT OR IGNORE INTO stale_tally
SELECT t.run, t.half_hour FROM tally t JOIN run r ON r.seq = t.run WHERE r.tin IS NOT NULL;
