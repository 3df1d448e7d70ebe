-- The ledger: actions, their entries and facts, and what is derived from them.

CREATE TABLE action (
    number INTEGER PRIMARY KEY CHECK (number > 0),
    code TEXT NOT NULL UNIQUE,
    kind TEXT NOT NULL,
    day TEXT NOT NULL,
    at TEXT NOT NULL,
    booked_at TEXT NOT NULL,
    initials TEXT NOT NULL REFERENCES person (initials) ON DELETE RESTRICT,
    reason TEXT,
    job_id INTEGER REFERENCES job ON DELETE RESTRICT,
    version_id INTEGER REFERENCES recipe_version ON DELETE RESTRICT,
    booking_id INTEGER REFERENCES booking ON DELETE RESTRICT,
    order_id INTEGER REFERENCES purchase_order ON DELETE RESTRICT,
    undoes INTEGER REFERENCES action ON DELETE RESTRICT,
    details TEXT NOT NULL DEFAULT '{}'
) STRICT;

CREATE TABLE action_object (
    action_number INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    object_id INTEGER NOT NULL REFERENCES job_object ON DELETE RESTRICT,
    PRIMARY KEY (action_number, object_id)
) STRICT;

CREATE TABLE lot (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    code TEXT NOT NULL UNIQUE,
    material_id INTEGER NOT NULL REFERENCES material ON DELETE RESTRICT,
    kind TEXT NOT NULL CHECK (kind IN ('bought', 'found', 'jar', 'remainder', 'used bath', 'waste can', 'offcut')),
    begun_by INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    supplier_id INTEGER REFERENCES supplier ON DELETE RESTRICT,
    job_id INTEGER REFERENCES job ON DELETE RESTRICT,
    maker_lot TEXT,
    maker_use_by TEXT,
    made_at TEXT,
    received_on TEXT,
    purity TEXT,
    cost_known TEXT NOT NULL DEFAULT 'known' CHECK (cost_known IN ('known', 'unknown')),
    about TEXT NOT NULL DEFAULT 'measured' CHECK (about IN ('measured', 'about')),
    over_solid TEXT NOT NULL DEFAULT 'no solid' CHECK (over_solid IN ('no solid', 'over solid')),
    length_um INTEGER CHECK (length_um > 0),
    width_um INTEGER CHECK (width_um > 0),
    grain TEXT CHECK (grain IN ('along', 'across', 'none')),
    life_closed TEXT,
    life_opened TEXT,
    own_use_by TEXT,
    initials TEXT NOT NULL,
    -- what changes, each change a fact of an action:
    place_id INTEGER REFERENCES place ON DELETE RESTRICT,
    opened_on TEXT,
    use_by TEXT,
    use_by_rule TEXT,
    check_by TEXT,
    ready_on TEXT,
    strength TEXT,
    state TEXT NOT NULL DEFAULT 'on the shelf'
        CHECK (state IN ('on the shelf', 'solid only', 'ended')),
    ended_on TEXT,
    ended_why TEXT,
    unfit TEXT,
    look_for TEXT
) STRICT;

-- One change of one lot: the field, what it said and what it says now.
CREATE TABLE fact (
    action_number INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    position INTEGER NOT NULL CHECK (position > 0),
    lot_id INTEGER NOT NULL REFERENCES lot ON DELETE RESTRICT,
    field TEXT NOT NULL,
    was TEXT,
    became TEXT,
    PRIMARY KEY (action_number, position)
) STRICT;

CREATE TABLE entry (
    action_number INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    position INTEGER NOT NULL CHECK (position > 0),
    lot_id INTEGER NOT NULL REFERENCES lot ON DELETE RESTRICT,
    quantity INTEGER NOT NULL,
    value INTEGER NOT NULL,
    -- the other end of the value
    other_end TEXT NOT NULL CHECK (other_end IN
        ('supplier', 'lot', 'job', 'studio', 'waste', 'difference', 'found', 'evaporated')),
    other_lot_id INTEGER REFERENCES lot ON DELETE RESTRICT,
    job_id INTEGER REFERENCES job ON DELETE RESTRICT,
    reason TEXT,
    effect TEXT NOT NULL CHECK (effect IN ('draw', 'base')),
    day TEXT NOT NULL,
    at TEXT NOT NULL,
    -- among entries of one moment, the action in whose order this one stands: its own; for a reversal, a count's
    -- difference and a draw put right, that of what it belongs to
    standing INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    reverses_action INTEGER,
    reverses_position INTEGER,
    refers_action INTEGER,
    refers_position INTEGER,
    count_action INTEGER REFERENCES action ON DELETE RESTRICT,
    PRIMARY KEY (action_number, position),
    FOREIGN KEY (reverses_action, reverses_position) REFERENCES entry (action_number, position),
    FOREIGN KEY (refers_action, refers_position) REFERENCES entry (action_number, position),
    CHECK ((other_end = 'lot') = (other_lot_id IS NOT NULL)),
    CHECK ((other_end = 'job') = (job_id IS NOT NULL)),
    CHECK (other_end NOT IN ('found', 'evaporated') OR value = 0),
    CHECK (effect = 'base' OR (quantity < 0 AND value <= 0))
) STRICT;

CREATE TABLE counted (
    action_number INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    lot_id INTEGER NOT NULL REFERENCES lot ON DELETE RESTRICT,
    at TEXT NOT NULL,
    day TEXT NOT NULL,
    quantity INTEGER NOT NULL CHECK (quantity >= 0),
    books_said INTEGER NOT NULL CHECK (books_said >= 0),
    method TEXT NOT NULL,
    other_end TEXT NOT NULL,
    reason TEXT,
    PRIMARY KEY (action_number, lot_id)
) STRICT;

CREATE TABLE jar_check (
    action_number INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    lot_id INTEGER NOT NULL REFERENCES lot ON DELETE RESTRICT,
    method TEXT NOT NULL,
    readings TEXT NOT NULL,
    verdict TEXT NOT NULL,
    why TEXT NOT NULL,
    PRIMARY KEY (action_number, lot_id)
) STRICT;

CREATE TABLE loan (
    action_number INTEGER PRIMARY KEY REFERENCES action ON DELETE RESTRICT,
    to_whom TEXT NOT NULL,
    back_on TEXT
) STRICT;

-- One row an action: a hash over the seal before it and a text form of the action. See store/seals.py.
CREATE TABLE seal (
    action_number INTEGER PRIMARY KEY REFERENCES action ON DELETE RESTRICT,
    form INTEGER NOT NULL,
    previous TEXT NOT NULL,
    hash TEXT NOT NULL
) STRICT;

-- Derived: what each lot holds, and what it held at its base (its last entry that was not a draw).
CREATE TABLE balance (
    lot_id INTEGER PRIMARY KEY REFERENCES lot ON DELETE RESTRICT,
    quantity INTEGER NOT NULL DEFAULT 0 CHECK (quantity >= 0),
    value INTEGER NOT NULL DEFAULT 0 CHECK (value >= 0),
    base_quantity INTEGER NOT NULL DEFAULT 0,
    base_value INTEGER NOT NULL DEFAULT 0
) STRICT;

-- Derived: the actions that are not in effect because another one undoes them.
CREATE TABLE undone (
    action_number INTEGER PRIMARY KEY REFERENCES action ON DELETE RESTRICT
) STRICT;

-- A round of counting in progress; it becomes one action when it is confirmed.
CREATE TABLE round (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    code TEXT NOT NULL UNIQUE,
    place_id INTEGER NOT NULL REFERENCES place ON DELETE RESTRICT,
    begun_at TEXT NOT NULL,
    initials TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('open', 'confirmed', 'dropped')),
    action_number INTEGER REFERENCES action ON DELETE RESTRICT
) STRICT;

CREATE TABLE round_line (
    round_id INTEGER NOT NULL REFERENCES round ON DELETE RESTRICT,
    lot_id INTEGER NOT NULL REFERENCES lot ON DELETE RESTRICT,
    quantity INTEGER NOT NULL CHECK (quantity >= 0),
    at TEXT NOT NULL,
    PRIMARY KEY (round_id, lot_id)
) STRICT;

CREATE INDEX lot_by_material ON lot (material_id, state);
CREATE INDEX lot_by_state ON lot (state);
CREATE INDEX lot_by_place ON lot (place_id);
CREATE INDEX lot_by_maker_lot ON lot (maker_lot);
CREATE INDEX entry_by_lot ON entry (lot_id, day);
CREATE INDEX entry_by_other_lot ON entry (other_lot_id);
CREATE INDEX entry_by_job ON entry (job_id);
CREATE INDEX entry_reversed ON entry (reverses_action, reverses_position);
CREATE INDEX entry_referred ON entry (refers_action, refers_position);
CREATE INDEX action_by_job ON action (job_id);
CREATE INDEX action_by_initials ON action (initials, number);
CREATE INDEX action_undoes ON action (undoes);
CREATE INDEX counted_by_lot ON counted (lot_id, at);
CREATE INDEX fact_by_lot ON fact (lot_id);
