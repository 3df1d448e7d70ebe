-- What a material is whatever it is sold as, its safety sheet, and whether the studio keeps a register of it.
ALTER TABLE material ADD COLUMN identity TEXT;
ALTER TABLE material ADD COLUMN safety_sheet TEXT;
ALTER TABLE material ADD COLUMN safety_sheet_date TEXT;
ALTER TABLE material ADD COLUMN register TEXT NOT NULL DEFAULT 'no register'
    CHECK (register IN ('no register', 'under a register'));

-- Why a count found less of a material under a register, where it was said later.
CREATE TABLE explained_loss (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    action_number INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    reason TEXT NOT NULL CHECK (reason <> ''),
    initials TEXT NOT NULL,
    booked_at TEXT NOT NULL
) STRICT;

CREATE TRIGGER explained_loss_never_changes BEFORE UPDATE ON explained_loss
BEGIN SELECT RAISE(ABORT, 'the explained_loss table is only added to'); END;
CREATE TRIGGER explained_loss_never_leaves BEFORE DELETE ON explained_loss
BEGIN SELECT RAISE(ABORT, 'the explained_loss table is only added to'); END;
CREATE TRIGGER explained_loss_never_replaced BEFORE INSERT ON explained_loss
WHEN EXISTS (SELECT 1 FROM explained_loss WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the explained_loss table is only added to'); END;
