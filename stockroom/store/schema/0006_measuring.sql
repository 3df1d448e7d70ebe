-- How far off the amount of a recipe's line may be, in millionths of it. A line without a row has the usual tolerance.
CREATE TABLE line_tolerance (
    version_id INTEGER NOT NULL,
    position INTEGER NOT NULL,
    millionths INTEGER NOT NULL CHECK (millionths > 0),
    PRIMARY KEY (version_id, position),
    FOREIGN KEY (version_id, position) REFERENCES recipe_line ON DELETE RESTRICT
) STRICT;

CREATE TRIGGER line_tolerance_never_changes BEFORE UPDATE ON line_tolerance
BEGIN SELECT RAISE(ABORT, 'the line_tolerance table is only added to'); END;
CREATE TRIGGER line_tolerance_never_leaves BEFORE DELETE ON line_tolerance
BEGIN SELECT RAISE(ABORT, 'the line_tolerance table is only added to'); END;
CREATE TRIGGER line_tolerance_never_replaced BEFORE INSERT ON line_tolerance
WHEN EXISTS (SELECT 1 FROM line_tolerance WHERE version_id = NEW.version_id AND position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'the line_tolerance table is only added to'); END;

-- As printed on a vessel, or of its class.
ALTER TABLE measure ADD COLUMN tolerance_ul INTEGER CHECK (tolerance_ul > 0);

-- What the studio's own spoon was found to hold of a powder: each weighing in micrograms, as JSON. The last row of a
-- spoon and a material counts.
CREATE TABLE weighed_spoon (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    measure_id INTEGER NOT NULL REFERENCES measure ON DELETE RESTRICT,
    material_id INTEGER NOT NULL REFERENCES material ON DELETE RESTRICT,
    masses TEXT NOT NULL CHECK (masses <> '[]'),
    day TEXT NOT NULL,
    initials TEXT NOT NULL,
    booked_at TEXT NOT NULL
) STRICT;

CREATE TRIGGER weighed_spoon_never_changes BEFORE UPDATE ON weighed_spoon
BEGIN SELECT RAISE(ABORT, 'the weighed_spoon table is only added to'); END;
CREATE TRIGGER weighed_spoon_never_leaves BEFORE DELETE ON weighed_spoon
BEGIN SELECT RAISE(ABORT, 'the weighed_spoon table is only added to'); END;
CREATE TRIGGER weighed_spoon_never_replaced BEFORE INSERT ON weighed_spoon
WHEN EXISTS (SELECT 1 FROM weighed_spoon WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the weighed_spoon table is only added to'); END;

-- What an empty container weighs with its lid. The last row of a lot counts.
CREATE TABLE tare (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    lot_id INTEGER NOT NULL REFERENCES lot ON DELETE RESTRICT,
    mass_ug INTEGER NOT NULL CHECK (mass_ug > 0),
    day TEXT NOT NULL,
    initials TEXT NOT NULL,
    booked_at TEXT NOT NULL
) STRICT;

CREATE INDEX tare_by_lot ON tare (lot_id);

CREATE TRIGGER tare_never_changes BEFORE UPDATE ON tare
BEGIN SELECT RAISE(ABORT, 'the tare table is only added to'); END;
CREATE TRIGGER tare_never_leaves BEFORE DELETE ON tare
BEGIN SELECT RAISE(ABORT, 'the tare table is only added to'); END;
CREATE TRIGGER tare_never_replaced BEFORE INSERT ON tare
WHEN EXISTS (SELECT 1 FROM tare WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the tare table is only added to'); END;
