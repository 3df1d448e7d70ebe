-- Quotes: what materials are expected to cost, as it was given to a client or department.

-- An estimate that was given to a client or department, frozen as it was given.
CREATE TABLE quote (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    code TEXT NOT NULL UNIQUE,
    job_id INTEGER NOT NULL REFERENCES job ON DELETE RESTRICT,
    day TEXT NOT NULL,
    valid_until TEXT NOT NULL CHECK (valid_until >= day),
    state TEXT NOT NULL DEFAULT 'given' CHECK (state IN ('given', 'accepted', 'replaced', 'withdrawn')),
    shows TEXT NOT NULL CHECK (shows IN ('total', 'treatments', 'materials', 'prices')),
    -- percent, as typed
    waste TEXT,
    -- percent or a sum, as typed
    handling TEXT,
    note TEXT,
    initials TEXT NOT NULL,
    booked_at TEXT NOT NULL,
    accepted_on TEXT
) STRICT;

CREATE TABLE quote_line (
    quote_id INTEGER NOT NULL REFERENCES quote ON DELETE RESTRICT,
    position INTEGER NOT NULL CHECK (position > 0),
    booking TEXT NOT NULL,
    version_id INTEGER NOT NULL REFERENCES recipe_version ON DELETE RESTRICT,
    fills_low INTEGER NOT NULL CHECK (fills_low > 0),
    fills INTEGER NOT NULL CHECK (fills >= fills_low),
    fills_high INTEGER NOT NULL CHECK (fills_high >= fills),
    material_id INTEGER NOT NULL REFERENCES material ON DELETE RESTRICT,
    quantity_low INTEGER NOT NULL CHECK (quantity_low >= 0),
    quantity INTEGER NOT NULL CHECK (quantity >= 0),
    quantity_high INTEGER NOT NULL CHECK (quantity_high >= 0),
    value_low INTEGER NOT NULL CHECK (value_low >= 0),
    value INTEGER NOT NULL CHECK (value >= 0),
    value_high INTEGER NOT NULL CHECK (value_high >= 0),
    cost_known TEXT NOT NULL CHECK (cost_known IN ('known', 'unknown')),
    priced_by TEXT NOT NULL,
    PRIMARY KEY (quote_id, position)
) STRICT;

CREATE INDEX quote_by_job ON quote (job_id);

CREATE TRIGGER quote_stays_as_given
BEFORE UPDATE OF id, code, job_id, day, valid_until, shows, waste, handling, note, initials, booked_at ON quote
BEGIN SELECT RAISE(ABORT, 'a quote stays as it was given'); END;
CREATE TRIGGER quote_never_leaves BEFORE DELETE ON quote
BEGIN SELECT RAISE(ABORT, 'a quote is never removed'); END;
CREATE TRIGGER quote_line_never_changes BEFORE UPDATE ON quote_line
BEGIN SELECT RAISE(ABORT, 'a quote stays as it was given'); END;
CREATE TRIGGER quote_line_never_leaves BEFORE DELETE ON quote_line
BEGIN SELECT RAISE(ABORT, 'a quote stays as it was given'); END;
