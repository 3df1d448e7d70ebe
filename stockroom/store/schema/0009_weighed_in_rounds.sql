-- What a gross weight said of a lot that was seen in a round, as JSON; nothing where it was not weighed.
ALTER TABLE round_line ADD COLUMN weighed TEXT;
