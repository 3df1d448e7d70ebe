-- What a stockroom is made of. Quantities are integers: micrograms, microlitres, square millimetres, micrometres,
-- thousandths of a piece or of a use. Times are UTC (ISO 8601), days are local dates. Answers are words, never 0 and 1.

CREATE TABLE setting (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT;

-- The last number given out for each kind of code. It never goes back.
CREATE TABLE counter (
    prefix TEXT PRIMARY KEY,
    last INTEGER NOT NULL CHECK (last >= 0)
) STRICT;

CREATE TABLE person (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    initials TEXT NOT NULL UNIQUE CHECK (initials <> ''),
    name TEXT NOT NULL,
    retired_on TEXT
) STRICT;

CREATE TABLE place (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL UNIQUE CHECK (name <> ''),
    note TEXT,
    retired_on TEXT
) STRICT;

CREATE TABLE measure (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL UNIQUE CHECK (name <> ''),
    kind TEXT NOT NULL CHECK (kind IN ('spoon', 'beaker', 'cylinder', 'pipette', 'tray', 'balance')),
    capacity_ul INTEGER CHECK (capacity_ul > 0),
    graduation_ul INTEGER CHECK (graduation_ul > 0),
    length_um INTEGER CHECK (length_um > 0),
    width_um INTEGER CHECK (width_um > 0),
    resolution_ug INTEGER CHECK (resolution_ug > 0),
    retired_on TEXT
) STRICT;

CREATE TABLE material (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    name TEXT NOT NULL,
    folded TEXT NOT NULL,
    kind TEXT NOT NULL,
    dimension TEXT NOT NULL CHECK (dimension IN ('mass', 'volume', 'area', 'length', 'pieces', 'uses')),
    metered TEXT NOT NULL DEFAULT 'metered' CHECK (metered IN ('metered', 'not metered')),
    vented TEXT NOT NULL DEFAULT 'closed' CHECK (vented IN ('closed', 'vented')),
    grade TEXT,
    density TEXT,
    purity TEXT,
    molar_mass TEXT,
    pack_word TEXT,
    pack_quanta INTEGER CHECK (pack_quanta > 0),
    sheet_length_um INTEGER CHECK (sheet_length_um > 0),
    sheet_width_um INTEGER CHECK (sheet_width_um > 0),
    grain TEXT CHECK (grain IN ('along', 'across', 'none')),
    life_closed TEXT,
    life_opened TEXT,
    low_quanta INTEGER CHECK (low_quanta >= 0),
    storage TEXT,
    signal_word TEXT CHECK (signal_word IN ('Danger', 'Warning')),
    hazards TEXT NOT NULL DEFAULT '[]',
    precautions TEXT NOT NULL DEFAULT '[]',
    pictograms TEXT NOT NULL DEFAULT '[]',
    hazard_ground TEXT,
    source TEXT,
    retired_on TEXT
) STRICT;

CREATE TABLE supplier (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    name TEXT NOT NULL,
    lead_days INTEGER CHECK (lead_days >= 0),
    note TEXT,
    retired_on TEXT
) STRICT;

CREATE TABLE offer (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    supplier_id INTEGER NOT NULL REFERENCES supplier ON DELETE RESTRICT,
    material_id INTEGER NOT NULL REFERENCES material ON DELETE RESTRICT,
    pack_quanta INTEGER NOT NULL CHECK (pack_quanta > 0),
    price INTEGER NOT NULL CHECK (price >= 0),
    minimum_packs INTEGER NOT NULL DEFAULT 1 CHECK (minimum_packs > 0),
    catalogue_number TEXT,
    seen_on TEXT NOT NULL
) STRICT;

CREATE TABLE purchase_order (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    code TEXT NOT NULL UNIQUE,
    supplier_id INTEGER NOT NULL REFERENCES supplier ON DELETE RESTRICT,
    state TEXT NOT NULL CHECK (state IN ('drafted', 'placed', 'partly delivered', 'closed')),
    placed_on TEXT,
    expected_on TEXT,
    note TEXT
) STRICT;

CREATE TABLE order_line (
    order_id INTEGER NOT NULL REFERENCES purchase_order ON DELETE RESTRICT,
    position INTEGER NOT NULL CHECK (position > 0),
    offer_id INTEGER NOT NULL REFERENCES offer ON DELETE RESTRICT,
    packs INTEGER NOT NULL CHECK (packs > 0),
    price INTEGER NOT NULL CHECK (price >= 0),
    PRIMARY KEY (order_id, position)
) STRICT;

CREATE TABLE recipe (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    name TEXT NOT NULL,
    folded TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('stock', 'bath', 'treatment')),
    makes_id INTEGER REFERENCES material ON DELETE RESTRICT,
    retired_on TEXT,
    CHECK ((kind = 'stock') = (makes_id IS NOT NULL))
) STRICT;

-- A version never changes; editing a recipe adds the next one.
CREATE TABLE recipe_version (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    recipe_id INTEGER NOT NULL REFERENCES recipe ON DELETE RESTRICT,
    number INTEGER NOT NULL CHECK (number > 0),
    batch_quanta INTEGER CHECK (batch_quanta > 0),
    fills INTEGER NOT NULL DEFAULT 1 CHECK (fills > 0),
    life TEXT,
    life_opened TEXT,
    ready_after TEXT,
    check_every TEXT,
    strength TEXT,
    strength_line INTEGER,
    over_solid TEXT NOT NULL DEFAULT 'no solid' CHECK (over_solid IN ('no solid', 'over solid')),
    dates_from TEXT NOT NULL DEFAULT 'own life' CHECK (dates_from IN ('own life', 'ingredients too')),
    leftover TEXT,
    storage TEXT,
    note TEXT,
    source TEXT,
    made_by TEXT NOT NULL,
    made_at TEXT NOT NULL,
    UNIQUE (recipe_id, number)
) STRICT;

CREATE TABLE recipe_line (
    version_id INTEGER NOT NULL REFERENCES recipe_version ON DELETE RESTRICT,
    position INTEGER NOT NULL CHECK (position > 0),
    material_id INTEGER REFERENCES material ON DELETE RESTRICT,
    recipe_id INTEGER REFERENCES recipe ON DELETE RESTRICT,
    kind TEXT NOT NULL CHECK (kind IN ('share', 'strength', 'make up', 'each', 'area', 'fixed', 'reading', 'bath')),
    amount TEXT NOT NULL,
    first_dose TEXT,
    stand_ins TEXT NOT NULL DEFAULT '[]',
    note TEXT,
    PRIMARY KEY (version_id, position),
    CHECK ((material_id IS NULL) <> (recipe_id IS NULL))
) STRICT;

CREATE TABLE recipe_step (
    version_id INTEGER NOT NULL REFERENCES recipe_version ON DELETE RESTRICT,
    position INTEGER NOT NULL CHECK (position > 0),
    words TEXT NOT NULL CHECK (words <> ''),
    wait TEXT,
    caution TEXT NOT NULL DEFAULT 'step' CHECK (caution IN ('step', 'caution')),
    PRIMARY KEY (version_id, position)
) STRICT;

CREATE TABLE job (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    code TEXT NOT NULL UNIQUE,
    title TEXT NOT NULL CHECK (title <> ''),
    folded TEXT NOT NULL,
    client TEXT,
    state TEXT NOT NULL DEFAULT 'open' CHECK (state IN ('open', 'closed')),
    opened_on TEXT NOT NULL,
    closed_on TEXT
) STRICT;

CREATE TABLE job_object (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job_id INTEGER NOT NULL REFERENCES job ON DELETE RESTRICT,
    position INTEGER NOT NULL CHECK (position > 0),
    name TEXT NOT NULL CHECK (name <> ''),
    length_um INTEGER CHECK (length_um > 0),
    width_um INTEGER CHECK (width_um > 0),
    UNIQUE (job_id, position),
    CHECK ((length_um IS NULL) = (width_um IS NULL))
) STRICT;

CREATE TABLE booking (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    code TEXT NOT NULL UNIQUE,
    job_id INTEGER NOT NULL REFERENCES job ON DELETE RESTRICT,
    recipe_id INTEGER NOT NULL REFERENCES recipe ON DELETE RESTRICT,
    for_day TEXT NOT NULL,
    fill_quanta INTEGER CHECK (fill_quanta > 0),
    fills INTEGER CHECK (fills > 0),
    state TEXT NOT NULL DEFAULT 'booked' CHECK (state IN ('booked', 'done', 'cancelled')),
    done_by INTEGER,
    note TEXT
) STRICT;

-- Every edit of a material, recipe, place, measure, person or setting: who, when, what it said before.
CREATE TABLE edit (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    noun TEXT NOT NULL,
    named TEXT NOT NULL,
    field TEXT NOT NULL,
    was TEXT,
    became TEXT,
    initials TEXT NOT NULL,
    booked_at TEXT NOT NULL,
    reason TEXT
) STRICT;

CREATE INDEX offer_by_material ON offer (material_id);
CREATE INDEX job_object_by_job ON job_object (job_id);
CREATE INDEX booking_by_state ON booking (state, for_day);
