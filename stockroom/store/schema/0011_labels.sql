-- The studio's own sheets and rolls of labels, by how much its printers are off, and every label that was made.

CREATE TABLE label_stock (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL UNIQUE CHECK (name <> ''),
    label_width_um INTEGER NOT NULL CHECK (label_width_um > 0),
    label_height_um INTEGER NOT NULL CHECK (label_height_um > 0),
    page_width_um INTEGER NOT NULL CHECK (page_width_um > 0),
    page_height_um INTEGER NOT NULL CHECK (page_height_um > 0),
    columns INTEGER NOT NULL CHECK (columns > 0),
    rows INTEGER NOT NULL CHECK (rows > 0),
    left_um INTEGER NOT NULL CHECK (left_um >= 0),
    top_um INTEGER NOT NULL CHECK (top_um >= 0),
    across_um INTEGER NOT NULL CHECK (across_um >= 0),
    down_um INTEGER NOT NULL CHECK (down_um >= 0),
    retired_on TEXT
) STRICT;

-- What was measured on a printed calibration page: its rulers, and the frame's distance from the paper's edges.
CREATE TABLE printer (
    name TEXT PRIMARY KEY CHECK (name <> ''),
    ruler_across_um INTEGER NOT NULL CHECK (ruler_across_um > 0),
    ruler_down_um INTEGER NOT NULL CHECK (ruler_down_um > 0),
    measured_across_um INTEGER NOT NULL CHECK (measured_across_um > 0),
    measured_down_um INTEGER NOT NULL CHECK (measured_down_um > 0),
    from_left_um INTEGER NOT NULL CHECK (from_left_um >= 0),
    from_top_um INTEGER NOT NULL CHECK (from_top_um >= 0),
    measured_at TEXT NOT NULL
) STRICT;

CREATE TABLE label_made (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    lot_id INTEGER NOT NULL REFERENCES lot ON DELETE RESTRICT,
    at TEXT NOT NULL,
    day TEXT NOT NULL,
    booked_at TEXT NOT NULL,
    initials TEXT,
    -- the last action of the books at that time: what came later may have made the label out of date
    after_action INTEGER NOT NULL,
    copies INTEGER NOT NULL CHECK (copies > 0),
    way TEXT NOT NULL CHECK (way IN ('file', 'printer')),
    said TEXT NOT NULL
) STRICT;

CREATE INDEX label_made_by_lot ON label_made (lot_id);

CREATE TRIGGER label_made_never_changes BEFORE UPDATE ON label_made
BEGIN SELECT RAISE(ABORT, 'the label_made table is only added to'); END;
CREATE TRIGGER label_made_never_leaves BEFORE DELETE ON label_made
BEGIN SELECT RAISE(ABORT, 'the label_made table is only added to'); END;
CREATE TRIGGER label_made_never_replaced BEFORE INSERT ON label_made
WHEN EXISTS (SELECT 1 FROM label_made WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the label_made table is only added to'); END;

-- A bench card that was printed: which version of which recipe, scaled to how much.
CREATE TABLE card (
    code TEXT PRIMARY KEY,
    version_id INTEGER NOT NULL REFERENCES recipe_version ON DELETE RESTRICT,
    quantity TEXT,
    made_at TEXT NOT NULL,
    initials TEXT
) STRICT;
