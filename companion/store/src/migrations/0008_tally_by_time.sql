-- A night is looked for among years of sums.
CREATE INDEX tally_by_half_hour ON tally (half_hour);
