-- What a waste can is: the words on it, how much it takes, and whether its closure lets gas out. What is in it follows
-- from the entries of the actions that poured something in.
CREATE TABLE waste_can (
    lot_id INTEGER PRIMARY KEY REFERENCES lot ON DELETE RESTRICT,
    title TEXT NOT NULL CHECK (title <> ''),
    capacity_ul INTEGER NOT NULL CHECK (capacity_ul > 0),
    vented TEXT NOT NULL CHECK (vented IN ('closed', 'vented'))
) STRICT;

CREATE TRIGGER waste_can_never_changes BEFORE UPDATE ON waste_can
BEGIN SELECT RAISE(ABORT, 'what a waste can is never changes'); END;
CREATE TRIGGER waste_can_never_leaves BEFORE DELETE ON waste_can
BEGIN SELECT RAISE(ABORT, 'a waste can is never removed'); END;
