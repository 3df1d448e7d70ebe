PRAGMA application_id = 1398033234;
PRAGMA user_version = 19;
BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'stockroom','0001_nouns.sql','2026-11-26 00:18:36.561110+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'stockroom','0002_ledger.sql','2026-11-26 00:18:36.593578+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'stockroom','0003_only_added_to.sql','2026-11-26 00:18:36.604765+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'stockroom','0004_waste_cans.sql','2026-11-26 00:18:36.608649+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'stockroom','0005_buying.sql','2026-11-26 00:18:36.620494+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'stockroom','0006_measuring.sql','2026-11-26 00:18:36.627191+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'stockroom','0007_recipe_checks.sql','2026-11-26 00:18:36.629041+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'stockroom','0008_recipe_care.sql','2026-11-26 00:18:36.630332+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'stockroom','0009_weighed_in_rounds.sql','2026-11-26 00:18:36.631411+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'stockroom','0010_open_days.sql','2026-11-26 00:18:36.632656+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'stockroom','0011_labels.sql','2026-11-26 00:18:36.638379+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'stockroom','0012_estimates.sql','2026-11-26 00:18:36.639893+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'stockroom','0013_never_replaced.sql','2026-11-26 00:18:36.640617+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'stockroom','0014_quotes.sql','2026-11-26 00:18:36.650996+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'stockroom','0015_material_records.sql','2026-11-26 00:18:36.656383+00:00');
INSERT INTO "_sqlite_migrations" VALUES(16,'stockroom','0016_views.sql','2026-11-26 00:18:36.678898+00:00');
INSERT INTO "_sqlite_migrations" VALUES(17,'stockroom','0017_quotes_never_replaced.sql','2026-11-26 00:18:36.679718+00:00');
INSERT INTO "_sqlite_migrations" VALUES(18,'stockroom','0018_ways_to_actions_and_lots.sql','2026-11-26 00:18:36.680241+00:00');
INSERT INTO "_sqlite_migrations" VALUES(19,'stockroom','0019_loss_of_lot.sql','2026-11-26 00:18:36.682043+00:00');
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
INSERT INTO "action" VALUES(1,'A001N','receive','2026-03-01','2026-03-01T11:00:00Z','2026-11-26T00:18:38Z','AB',NULL,NULL,NULL,NULL,NULL,NULL,'{"material": "lime", "typed": "500 g"}');
INSERT INTO "action" VALUES(2,'A002L','receive','2026-03-01','2026-03-01T11:00:00Z','2026-11-26T00:18:39Z','AB',NULL,NULL,NULL,NULL,NULL,NULL,'{"material": "blotter", "typed": "10 sheets"}');
INSERT INTO "action" VALUES(3,'A003J','make','2026-03-02','2026-03-02T11:00:00Z','2026-11-26T00:18:39Z','AB',NULL,NULL,1,NULL,NULL,NULL,'{"lines": {"lime": {"density": null, "planned": 6316000, "purity": "95 % w/w", "taken": 6316000}, "water": {"density": null, "planned": 2000000, "purity": null, "taken": 2000000}}, "recipe": "lime-water", "total": 2000000, "typed": "2 L"}');
INSERT INTO "action" VALUES(4,'A004H','use','2026-03-04','2026-03-04T11:00:00Z','2026-11-26T00:18:40Z','AB',NULL,1,2,NULL,NULL,NULL,'{"fill": 500000, "fills": 2, "lines": {"lime-water": 250000, "water": 750000}, "media": {"bath": "alkaline", "by": null, "not_tested": null}, "recipe": "lime-bath", "strength": null, "typed": "500 mL"}');
INSERT INTO "action" VALUES(5,'A005F','take','2026-03-04','2026-03-04T11:00:00Z','2026-11-26T00:18:40Z','AB',NULL,1,NULL,NULL,NULL,NULL,'{"typed": "2 sheets"}');
INSERT INTO "action" VALUES(6,'A006D','take','2026-03-05','2026-03-05T11:00:00Z','2026-11-26T00:18:41Z','AB','spilled',NULL,NULL,NULL,NULL,NULL,'{"typed": "30 mL"}');
INSERT INTO "action" VALUES(8,'A0089','count','2026-03-05','2026-03-05T11:00:00Z','2026-11-26T00:18:41Z','AB',NULL,NULL,NULL,NULL,NULL,NULL,'{"method": "measured", "typed": "700 mL"}');
INSERT INTO "action" VALUES(9,'A0097','take','2026-03-06','2026-03-06T11:00:00Z','2026-11-26T00:18:42Z','AB','lent',NULL,NULL,NULL,NULL,NULL,'{"typed": "100 mL"}');
INSERT INTO "action" VALUES(10,'A00A5','discard','2026-03-06','2026-03-06T11:00:00Z','2026-11-26T00:18:43Z','AB','torn',NULL,NULL,NULL,NULL,NULL,'{}');
INSERT INTO "action" VALUES(11,'A00C1','take','2026-03-07','2026-03-07T11:00:00Z','2026-11-26T00:18:43Z','AB','test',NULL,NULL,NULL,NULL,NULL,'{"typed": "5 g"}');
INSERT INTO "action" VALUES(12,'A00D0','undo','2026-03-08','2026-03-08T11:00:00Z','2026-11-26T00:18:44Z','AB','mistyped',NULL,NULL,NULL,NULL,11,'{}');
CREATE TABLE action_object (
    action_number INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    object_id INTEGER NOT NULL REFERENCES job_object ON DELETE RESTRICT,
    PRIMARY KEY (action_number, object_id)
) STRICT;
CREATE TABLE balance (
    lot_id INTEGER PRIMARY KEY REFERENCES lot ON DELETE RESTRICT,
    quantity INTEGER NOT NULL DEFAULT 0 CHECK (quantity >= 0),
    value INTEGER NOT NULL DEFAULT 0 CHECK (value >= 0),
    base_quantity INTEGER NOT NULL DEFAULT 0,
    base_value INTEGER NOT NULL DEFAULT 0
) STRICT;
INSERT INTO "balance" VALUES(1,493684000,1234,493684000,1234);
INSERT INTO "balance" VALUES(2,2979200,2065,4256000,2950);
INSERT INTO "balance" VALUES(3,700000,6,1000000,8);
INSERT INTO "balance" VALUES(4,900000,7,1000000,8);
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
INSERT INTO "booking" VALUES(1,'K0029',1,2,'2026-04-01',1000000,NULL,'booked',NULL,NULL);
CREATE TABLE booking_estimate (
    booking_id INTEGER NOT NULL REFERENCES booking ON DELETE RESTRICT,
    position INTEGER NOT NULL CHECK (position > 0),
    material_id INTEGER NOT NULL REFERENCES material ON DELETE RESTRICT,
    lot_id INTEGER REFERENCES lot ON DELETE RESTRICT,
    quantity INTEGER NOT NULL CHECK (quantity >= 0),
    value INTEGER CHECK (value >= 0),
    cost_known TEXT NOT NULL CHECK (cost_known IN ('known', 'unknown')),
    priced_by TEXT NOT NULL,
    PRIMARY KEY (booking_id, position)
) STRICT;
INSERT INTO "booking_estimate" VALUES(1,1,3,3,250000,2,'known','L006M');
CREATE TABLE card (
    code TEXT PRIMARY KEY,
    version_id INTEGER NOT NULL REFERENCES recipe_version ON DELETE RESTRICT,
    quantity TEXT,
    made_at TEXT NOT NULL,
    initials TEXT
) STRICT;
CREATE TABLE closed_time (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    supplier_id INTEGER REFERENCES supplier ON DELETE RESTRICT,
    first_day TEXT NOT NULL,
    last_day TEXT NOT NULL,
    note TEXT,
    CHECK (first_day <= last_day)
) STRICT;
CREATE TABLE closed_weekday (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    supplier_id INTEGER REFERENCES supplier ON DELETE RESTRICT,
    weekday INTEGER NOT NULL CHECK (weekday BETWEEN 0 AND 6)
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
INSERT INTO "counted" VALUES(8,3,'2026-03-05T11:00:00Z','2026-03-05',700000,720000,'measured','waste',NULL);
CREATE TABLE counter (
    prefix TEXT PRIMARY KEY,
    last INTEGER NOT NULL CHECK (last >= 0)
) STRICT;
INSERT INTO "counter" VALUES('A',12);
INSERT INTO "counter" VALUES('L',7);
INSERT INTO "counter" VALUES('J',1);
INSERT INTO "counter" VALUES('K',2);
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
INSERT INTO "entry" VALUES(1,1,1,500000000,1250,'supplier',NULL,NULL,NULL,'base','2026-03-01','2026-03-01T11:00:00Z',1,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(2,1,2,4256000,2950,'supplier',NULL,NULL,NULL,'base','2026-03-01','2026-03-01T11:00:00Z',2,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(3,1,3,1000000,8,'lot',1,NULL,NULL,'base','2026-03-02','2026-03-02T11:00:00Z',3,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(3,2,4,1000000,8,'lot',1,NULL,NULL,'base','2026-03-02','2026-03-02T11:00:00Z',3,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(3,3,1,-3158000,-8,'lot',3,NULL,NULL,'draw','2026-03-02','2026-03-02T11:00:00Z',3,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(3,4,1,-3158000,-8,'lot',4,NULL,NULL,'draw','2026-03-02','2026-03-02T11:00:00Z',3,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(4,1,3,-250000,-2,'job',NULL,1,NULL,'draw','2026-03-04','2026-03-04T11:00:00Z',4,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(5,1,2,-851200,-590,'job',NULL,1,NULL,'draw','2026-03-04','2026-03-04T11:00:00Z',5,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(6,1,3,-30000,0,'waste',NULL,NULL,'spilled','draw','2026-03-05','2026-03-05T11:00:00Z',6,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(8,1,3,-20000,0,'waste',NULL,NULL,NULL,'draw','2026-03-05','2026-03-05T11:00:00Z',8,NULL,NULL,NULL,NULL,8);
INSERT INTO "entry" VALUES(9,1,4,-100000,-1,'studio',NULL,NULL,'lent','draw','2026-03-06','2026-03-06T11:00:00Z',9,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(10,1,2,-425600,-295,'waste',NULL,NULL,'torn','draw','2026-03-06','2026-03-06T11:00:00Z',10,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(11,1,1,-5000000,-12,'studio',NULL,NULL,'test','draw','2026-03-07','2026-03-07T11:00:00Z',11,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "entry" VALUES(12,1,1,5000000,12,'studio',NULL,NULL,'test','base','2026-03-07','2026-03-07T11:00:00Z',11,11,1,11,1,NULL);
CREATE TABLE explained_loss (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    action_number INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    reason TEXT NOT NULL CHECK (reason <> ''),
    initials TEXT NOT NULL,
    booked_at TEXT NOT NULL
, lot_id INTEGER REFERENCES lot ON DELETE RESTRICT) STRICT;
CREATE TABLE fact (
    action_number INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    position INTEGER NOT NULL CHECK (position > 0),
    lot_id INTEGER NOT NULL REFERENCES lot ON DELETE RESTRICT,
    field TEXT NOT NULL,
    was TEXT,
    became TEXT,
    PRIMARY KEY (action_number, position)
) STRICT;
INSERT INTO "fact" VALUES(1,1,1,'place_id',NULL,'1');
INSERT INTO "fact" VALUES(3,1,3,'place_id',NULL,'1');
INSERT INTO "fact" VALUES(3,2,3,'use_by',NULL,'2026-09-02');
INSERT INTO "fact" VALUES(3,3,3,'use_by_rule',NULL,'keeps: 6 months');
INSERT INTO "fact" VALUES(3,4,3,'strength',NULL,'about 1.6 g/L (saturated)');
INSERT INTO "fact" VALUES(3,5,4,'place_id',NULL,'1');
INSERT INTO "fact" VALUES(3,6,4,'use_by',NULL,'2026-09-02');
INSERT INTO "fact" VALUES(3,7,4,'use_by_rule',NULL,'keeps: 6 months');
INSERT INTO "fact" VALUES(3,8,4,'strength',NULL,'about 1.6 g/L (saturated)');
CREATE TABLE jar_check (
    action_number INTEGER NOT NULL REFERENCES action ON DELETE RESTRICT,
    lot_id INTEGER NOT NULL REFERENCES lot ON DELETE RESTRICT,
    method TEXT NOT NULL,
    readings TEXT NOT NULL,
    verdict TEXT NOT NULL,
    why TEXT NOT NULL,
    PRIMARY KEY (action_number, lot_id)
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
INSERT INTO "job" VALUES(1,'J001R','Sea chart','j001r sea chart the harbour archive','The harbour archive','open','2026-03-02',NULL);
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
INSERT INTO "job_object" VALUES(1,1,1,'Chart',600000,400000);
CREATE TABLE kept_in (
    recipe_id INTEGER PRIMARY KEY REFERENCES recipe ON DELETE RESTRICT,
    jar_quanta INTEGER NOT NULL CHECK (jar_quanta > 0),
    left_behind INTEGER NOT NULL DEFAULT 0 CHECK (left_behind >= 0 AND left_behind < jar_quanta)
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
CREATE TABLE line_tolerance (
    version_id INTEGER NOT NULL,
    position INTEGER NOT NULL,
    millionths INTEGER NOT NULL CHECK (millionths > 0),
    PRIMARY KEY (version_id, position),
    FOREIGN KEY (version_id, position) REFERENCES recipe_line ON DELETE RESTRICT
) STRICT;
CREATE TABLE loan (
    action_number INTEGER PRIMARY KEY REFERENCES action ON DELETE RESTRICT,
    to_whom TEXT NOT NULL,
    back_on TEXT
) STRICT;
INSERT INTO "loan" VALUES(9,'the framer','2026-03-20');
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
INSERT INTO "lot" VALUES(1,'L001W',1,'bought',1,NULL,NULL,'7731',NULL,NULL,'2026-03-01','95 % w/w','known','measured','no solid',NULL,NULL,NULL,NULL,NULL,NULL,'AB',1,NULL,NULL,NULL,NULL,NULL,NULL,'on the shelf',NULL,NULL,NULL,NULL);
INSERT INTO "lot" VALUES(2,'L002U',4,'bought',2,NULL,NULL,NULL,NULL,NULL,'2026-03-01',NULL,'known','measured','no solid',760000,560000,NULL,NULL,NULL,NULL,'AB',NULL,NULL,NULL,NULL,NULL,NULL,NULL,'on the shelf',NULL,NULL,NULL,NULL);
INSERT INTO "lot" VALUES(3,'L006M',3,'jar',3,NULL,NULL,NULL,NULL,'2026-03-02T12:00',NULL,NULL,'known','measured','over solid',NULL,NULL,NULL,NULL,NULL,'2026-09-02','AB',1,NULL,'2026-09-02','keeps: 6 months',NULL,NULL,'about 1.6 g/L (saturated)','on the shelf',NULL,NULL,NULL,NULL);
INSERT INTO "lot" VALUES(4,'L007K',3,'jar',3,NULL,NULL,NULL,NULL,'2026-03-02T12:00',NULL,NULL,'known','measured','over solid',NULL,NULL,NULL,NULL,NULL,'2026-09-02','AB',1,NULL,'2026-09-02','keeps: 6 months',NULL,NULL,'about 1.6 g/L (saturated)','on the shelf',NULL,NULL,NULL,NULL);
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
, identity TEXT, safety_sheet TEXT, safety_sheet_date TEXT, register TEXT NOT NULL DEFAULT 'no register'
    CHECK (register IN ('no register', 'under a register'))) STRICT;
INSERT INTO "material" VALUES(1,'lime','Lime','lime lime other','other','mass','metered','closed',NULL,NULL,'95 % w/w',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'[]','[]','[]',NULL,NULL,NULL,NULL,NULL,NULL,'no register');
INSERT INTO "material" VALUES(2,'water','Water','water water other','other','volume','not metered','closed',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'[]','[]','[]',NULL,NULL,NULL,NULL,NULL,NULL,'no register');
INSERT INTO "material" VALUES(3,'lime-water','Lime water','lime-water lime water other','other','volume','metered','closed',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'[]','[]','[]',NULL,NULL,NULL,NULL,NULL,NULL,'no register');
INSERT INTO "material" VALUES(4,'blotter','Blotter','blotter blotter other','other','area','metered','closed',NULL,NULL,NULL,NULL,NULL,NULL,760000,560000,NULL,NULL,NULL,NULL,NULL,NULL,'[]','[]','[]',NULL,NULL,NULL,NULL,NULL,NULL,'no register');
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
, tolerance_ul INTEGER CHECK (tolerance_ul > 0)) STRICT;
CREATE TABLE offer (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    supplier_id INTEGER NOT NULL REFERENCES supplier ON DELETE RESTRICT,
    material_id INTEGER NOT NULL REFERENCES material ON DELETE RESTRICT,
    pack_quanta INTEGER NOT NULL CHECK (pack_quanta > 0),
    price INTEGER NOT NULL CHECK (price >= 0),
    minimum_packs INTEGER NOT NULL DEFAULT 1 CHECK (minimum_packs > 0),
    catalogue_number TEXT,
    seen_on TEXT NOT NULL
, currency TEXT, rate TEXT, tax_percent TEXT, initials TEXT, ended_on TEXT) STRICT;
CREATE TABLE order_line (
    order_id INTEGER NOT NULL REFERENCES purchase_order ON DELETE RESTRICT,
    position INTEGER NOT NULL CHECK (position > 0),
    offer_id INTEGER NOT NULL REFERENCES offer ON DELETE RESTRICT,
    packs INTEGER NOT NULL CHECK (packs > 0),
    price INTEGER NOT NULL CHECK (price >= 0),
    PRIMARY KEY (order_id, position)
) STRICT;
CREATE TABLE person (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    initials TEXT NOT NULL UNIQUE CHECK (initials <> ''),
    name TEXT NOT NULL,
    retired_on TEXT
) STRICT;
INSERT INTO "person" VALUES(1,'AB','the keeper',NULL);
CREATE TABLE place (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL UNIQUE CHECK (name <> ''),
    note TEXT,
    retired_on TEXT
) STRICT;
INSERT INTO "place" VALUES(1,'Shelf',NULL,NULL);
CREATE TABLE price_break (
    offer_id INTEGER NOT NULL REFERENCES offer ON DELETE RESTRICT,
    packs INTEGER NOT NULL CHECK (packs > 1),
    price INTEGER NOT NULL CHECK (price >= 0),
    PRIMARY KEY (offer_id, packs)
) STRICT;
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
CREATE TABLE purchase_order (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    code TEXT NOT NULL UNIQUE,
    supplier_id INTEGER NOT NULL REFERENCES supplier ON DELETE RESTRICT,
    state TEXT NOT NULL CHECK (state IN ('drafted', 'placed', 'partly delivered', 'closed')),
    placed_on TEXT,
    expected_on TEXT,
    note TEXT
, drafted_on TEXT, ended_on TEXT, ended_why TEXT) STRICT;
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
INSERT INTO "recipe" VALUES(1,'lime-water','Lime water','lime-water lime water','stock',3,NULL);
INSERT INTO "recipe" VALUES(2,'lime-bath','Lime bath, 1 in 4','lime-bath lime bath, 1 in 4','bath',NULL,NULL);
CREATE TABLE recipe_check (
    version_id INTEGER PRIMARY KEY REFERENCES recipe_version ON DELETE RESTRICT,
    method TEXT,
    low TEXT,
    high TEXT,
    unit TEXT,
    error TEXT,
    spoilt TEXT NOT NULL DEFAULT '[]',
    extends TEXT NOT NULL CHECK (extends IN ('moves its day', 'moves nothing')),
    source TEXT,
    CHECK ((method IS NULL) = (low IS NULL AND high IS NULL)),
    CHECK ((method IS NULL) = (unit IS NULL))
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
INSERT INTO "recipe_line" VALUES(1,1,1,NULL,'strength','["3", "g/L"]',NULL,'[]',NULL);
INSERT INTO "recipe_line" VALUES(1,2,2,NULL,'make up','{}',NULL,'[]',NULL);
INSERT INTO "recipe_line" VALUES(2,1,3,NULL,'share','[1, 4]',NULL,'[]',NULL);
INSERT INTO "recipe_line" VALUES(2,2,2,NULL,'make up','{}',NULL,'[]',NULL);
CREATE TABLE recipe_step (
    version_id INTEGER NOT NULL REFERENCES recipe_version ON DELETE RESTRICT,
    position INTEGER NOT NULL CHECK (position > 0),
    words TEXT NOT NULL CHECK (words <> ''),
    wait TEXT,
    caution TEXT NOT NULL DEFAULT 'step' CHECK (caution IN ('step', 'caution')),
    PRIMARY KEY (version_id, position)
) STRICT;
INSERT INTO "recipe_step" VALUES(1,1,'Shake, and let it settle.',NULL,'step');
INSERT INTO "recipe_step" VALUES(2,1,'Pour.',NULL,'step');
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
INSERT INTO "recipe_version" VALUES(1,1,1,1000000,1,'6 months',NULL,NULL,NULL,'about 1.6 g/L (saturated)',NULL,'over solid','own life',NULL,NULL,NULL,'a recipe of the tests','AB','2026-11-26T00:18:38Z');
INSERT INTO "recipe_version" VALUES(2,2,1,1000000,1,NULL,NULL,NULL,NULL,NULL,NULL,'no solid','own life',NULL,NULL,NULL,'a recipe of the tests','AB','2026-11-26T00:18:38Z');
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
    at TEXT NOT NULL, weighed TEXT,
    PRIMARY KEY (round_id, lot_id)
) STRICT;
CREATE TABLE seal (
    action_number INTEGER PRIMARY KEY REFERENCES action ON DELETE RESTRICT,
    form INTEGER NOT NULL,
    previous TEXT NOT NULL,
    hash TEXT NOT NULL
) STRICT;
INSERT INTO "seal" VALUES(1,1,'0000000000000000000000000000000000000000000000000000000000000000','c0a4b0cd7107a94a712111167d098e2798858374a961879db5e943e170cde1cf');
INSERT INTO "seal" VALUES(2,1,'c0a4b0cd7107a94a712111167d098e2798858374a961879db5e943e170cde1cf','49968745e8f04f2232b6b4f11564a0be817b73dc899d7958f3d2d8ef260ef52e');
INSERT INTO "seal" VALUES(3,1,'49968745e8f04f2232b6b4f11564a0be817b73dc899d7958f3d2d8ef260ef52e','ebd7a7be3adac23a89282b0ff9e71a4b7aab7eb83e36d8a752b3fb591ba3a665');
INSERT INTO "seal" VALUES(4,1,'ebd7a7be3adac23a89282b0ff9e71a4b7aab7eb83e36d8a752b3fb591ba3a665','c964e4e14ad4e1fbc0f00ce41d974ab4b63f9b5ca93d5a0c5a115ea4b791a9d0');
INSERT INTO "seal" VALUES(5,1,'c964e4e14ad4e1fbc0f00ce41d974ab4b63f9b5ca93d5a0c5a115ea4b791a9d0','621573acc8db8989f185a5cfb4a2f84bfd56edf0b30f83bb3e50b871f17d2000');
INSERT INTO "seal" VALUES(6,1,'621573acc8db8989f185a5cfb4a2f84bfd56edf0b30f83bb3e50b871f17d2000','c6f707f5c186eadcd9588d778738239b724a6e5e349a93ba699489dbb7419407');
INSERT INTO "seal" VALUES(8,1,'c6f707f5c186eadcd9588d778738239b724a6e5e349a93ba699489dbb7419407','fb1b146ccceca6562360729b48eefa306e095eb03883295908b893d83beaa4ff');
INSERT INTO "seal" VALUES(9,1,'fb1b146ccceca6562360729b48eefa306e095eb03883295908b893d83beaa4ff','438e4a30024d6ea17795d76ac64c5c3d95607decb460f158eaf1a965504ab9ff');
INSERT INTO "seal" VALUES(10,1,'438e4a30024d6ea17795d76ac64c5c3d95607decb460f158eaf1a965504ab9ff','b0b9bf5e0b90db1ba35554145f6ead91978ddc44d46abff44af13e9f43ba1dd8');
INSERT INTO "seal" VALUES(11,1,'b0b9bf5e0b90db1ba35554145f6ead91978ddc44d46abff44af13e9f43ba1dd8','733187c840200935d256ab1240292f9033bcf9a4bd80ffae0759d5aee5239e2f');
INSERT INTO "seal" VALUES(12,1,'733187c840200935d256ab1240292f9033bcf9a4bd80ffae0759d5aee5239e2f','d20187bccefae939e7aefe1ef060c3c1933ddf35dee6161c7af7ef55489fb750');
CREATE TABLE setting (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT;
INSERT INTO "setting" VALUES('currency','EUR');
INSERT INTO "setting" VALUES('time_zone','Europe/Berlin');
INSERT INTO "setting" VALUES('costs','net');
CREATE TABLE supplier (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    name TEXT NOT NULL,
    lead_days INTEGER CHECK (lead_days >= 0),
    note TEXT,
    retired_on TEXT
, minimum_order INTEGER CHECK (minimum_order > 0)) STRICT;
CREATE TABLE tare (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    lot_id INTEGER NOT NULL REFERENCES lot ON DELETE RESTRICT,
    mass_ug INTEGER NOT NULL CHECK (mass_ug > 0),
    day TEXT NOT NULL,
    initials TEXT NOT NULL,
    booked_at TEXT NOT NULL
) STRICT;
CREATE TABLE undone (
    action_number INTEGER PRIMARY KEY REFERENCES action ON DELETE RESTRICT
) STRICT;
INSERT INTO "undone" VALUES(11);
CREATE TABLE version_care (
    version_id INTEGER PRIMARY KEY REFERENCES recipe_version ON DELETE RESTRICT,
    media_test TEXT CHECK (media_test IN ('required', 'asked', 'not asked')),
    evaporation TEXT CHECK (evaporation IN ('mass balance'))
) STRICT;
CREATE TABLE waste_can (
    lot_id INTEGER PRIMARY KEY REFERENCES lot ON DELETE RESTRICT,
    title TEXT NOT NULL CHECK (title <> ''),
    capacity_ul INTEGER NOT NULL CHECK (capacity_ul > 0),
    vented TEXT NOT NULL CHECK (vented IN ('closed', 'vented'))
) STRICT;
CREATE TABLE weighed_spoon (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    measure_id INTEGER NOT NULL REFERENCES measure ON DELETE RESTRICT,
    material_id INTEGER NOT NULL REFERENCES material ON DELETE RESTRICT,
    masses TEXT NOT NULL CHECK (masses <> '[]'),
    day TEXT NOT NULL,
    initials TEXT NOT NULL,
    booked_at TEXT NOT NULL
) STRICT;
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE INDEX offer_by_material ON offer (material_id);
CREATE INDEX job_object_by_job ON job_object (job_id);
CREATE INDEX booking_by_state ON booking (state, for_day);
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
CREATE TRIGGER action_never_changes BEFORE UPDATE ON action
BEGIN SELECT RAISE(ABORT, 'the action table is only added to'); END;
CREATE TRIGGER action_never_leaves BEFORE DELETE ON action
BEGIN SELECT RAISE(ABORT, 'the action table is only added to'); END;
CREATE TRIGGER action_never_replaced BEFORE INSERT ON action
WHEN EXISTS (SELECT 1 FROM action WHERE number = NEW.number OR code = NEW.code)
BEGIN SELECT RAISE(ABORT, 'the action table is only added to'); END;
CREATE TRIGGER action_object_never_changes BEFORE UPDATE ON action_object
BEGIN SELECT RAISE(ABORT, 'the action_object table is only added to'); END;
CREATE TRIGGER action_object_never_leaves BEFORE DELETE ON action_object
BEGIN SELECT RAISE(ABORT, 'the action_object table is only added to'); END;
CREATE TRIGGER action_object_never_replaced BEFORE INSERT ON action_object
WHEN EXISTS (SELECT 1 FROM action_object WHERE action_number = NEW.action_number AND object_id = NEW.object_id)
BEGIN SELECT RAISE(ABORT, 'the action_object table is only added to'); END;
CREATE TRIGGER fact_never_changes BEFORE UPDATE ON fact
BEGIN SELECT RAISE(ABORT, 'the fact table is only added to'); END;
CREATE TRIGGER fact_never_leaves BEFORE DELETE ON fact
BEGIN SELECT RAISE(ABORT, 'the fact table is only added to'); END;
CREATE TRIGGER fact_never_replaced BEFORE INSERT ON fact
WHEN EXISTS (SELECT 1 FROM fact WHERE action_number = NEW.action_number AND position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'the fact table is only added to'); END;
CREATE TRIGGER entry_never_changes BEFORE UPDATE ON entry
BEGIN SELECT RAISE(ABORT, 'the entry table is only added to'); END;
CREATE TRIGGER entry_never_leaves BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'the entry table is only added to'); END;
CREATE TRIGGER entry_never_replaced BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE action_number = NEW.action_number AND position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'the entry table is only added to'); END;
CREATE TRIGGER counted_never_changes BEFORE UPDATE ON counted
BEGIN SELECT RAISE(ABORT, 'the counted table is only added to'); END;
CREATE TRIGGER counted_never_leaves BEFORE DELETE ON counted
BEGIN SELECT RAISE(ABORT, 'the counted table is only added to'); END;
CREATE TRIGGER counted_never_replaced BEFORE INSERT ON counted
WHEN EXISTS (SELECT 1 FROM counted WHERE action_number = NEW.action_number AND lot_id = NEW.lot_id)
BEGIN SELECT RAISE(ABORT, 'the counted table is only added to'); END;
CREATE TRIGGER jar_check_never_changes BEFORE UPDATE ON jar_check
BEGIN SELECT RAISE(ABORT, 'the jar_check table is only added to'); END;
CREATE TRIGGER jar_check_never_leaves BEFORE DELETE ON jar_check
BEGIN SELECT RAISE(ABORT, 'the jar_check table is only added to'); END;
CREATE TRIGGER jar_check_never_replaced BEFORE INSERT ON jar_check
WHEN EXISTS (SELECT 1 FROM jar_check WHERE action_number = NEW.action_number AND lot_id = NEW.lot_id)
BEGIN SELECT RAISE(ABORT, 'the jar_check table is only added to'); END;
CREATE TRIGGER loan_never_changes BEFORE UPDATE ON loan
BEGIN SELECT RAISE(ABORT, 'the loan table is only added to'); END;
CREATE TRIGGER loan_never_leaves BEFORE DELETE ON loan
BEGIN SELECT RAISE(ABORT, 'the loan table is only added to'); END;
CREATE TRIGGER loan_never_replaced BEFORE INSERT ON loan
WHEN EXISTS (SELECT 1 FROM loan WHERE action_number = NEW.action_number)
BEGIN SELECT RAISE(ABORT, 'the loan table is only added to'); END;
CREATE TRIGGER seal_never_changes BEFORE UPDATE ON seal
BEGIN SELECT RAISE(ABORT, 'the seal table is only added to'); END;
CREATE TRIGGER seal_never_leaves BEFORE DELETE ON seal
BEGIN SELECT RAISE(ABORT, 'the seal table is only added to'); END;
CREATE TRIGGER seal_never_replaced BEFORE INSERT ON seal
WHEN EXISTS (SELECT 1 FROM seal WHERE action_number = NEW.action_number)
BEGIN SELECT RAISE(ABORT, 'the seal table is only added to'); END;
CREATE TRIGGER recipe_version_never_changes BEFORE UPDATE ON recipe_version
BEGIN SELECT RAISE(ABORT, 'the recipe_version table is only added to'); END;
CREATE TRIGGER recipe_version_never_leaves BEFORE DELETE ON recipe_version
BEGIN SELECT RAISE(ABORT, 'the recipe_version table is only added to'); END;
CREATE TRIGGER recipe_version_never_replaced BEFORE INSERT ON recipe_version
WHEN EXISTS (SELECT 1 FROM recipe_version
    WHERE id = NEW.id OR (recipe_id = NEW.recipe_id AND number = NEW.number))
BEGIN SELECT RAISE(ABORT, 'the recipe_version table is only added to'); END;
CREATE TRIGGER recipe_line_never_changes BEFORE UPDATE ON recipe_line
BEGIN SELECT RAISE(ABORT, 'the recipe_line table is only added to'); END;
CREATE TRIGGER recipe_line_never_leaves BEFORE DELETE ON recipe_line
BEGIN SELECT RAISE(ABORT, 'the recipe_line table is only added to'); END;
CREATE TRIGGER recipe_line_never_replaced BEFORE INSERT ON recipe_line
WHEN EXISTS (SELECT 1 FROM recipe_line WHERE version_id = NEW.version_id AND position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'the recipe_line table is only added to'); END;
CREATE TRIGGER recipe_step_never_changes BEFORE UPDATE ON recipe_step
BEGIN SELECT RAISE(ABORT, 'the recipe_step table is only added to'); END;
CREATE TRIGGER recipe_step_never_leaves BEFORE DELETE ON recipe_step
BEGIN SELECT RAISE(ABORT, 'the recipe_step table is only added to'); END;
CREATE TRIGGER recipe_step_never_replaced BEFORE INSERT ON recipe_step
WHEN EXISTS (SELECT 1 FROM recipe_step WHERE version_id = NEW.version_id AND position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'the recipe_step table is only added to'); END;
CREATE TRIGGER edit_never_changes BEFORE UPDATE ON edit
BEGIN SELECT RAISE(ABORT, 'the edit table is only added to'); END;
CREATE TRIGGER edit_never_leaves BEFORE DELETE ON edit
BEGIN SELECT RAISE(ABORT, 'the edit table is only added to'); END;
CREATE TRIGGER edit_never_replaced BEFORE INSERT ON edit
WHEN EXISTS (SELECT 1 FROM edit WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the edit table is only added to'); END;
CREATE TRIGGER entry_before_the_seal BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM seal WHERE action_number = NEW.action_number)
BEGIN SELECT RAISE(ABORT, 'this action is sealed'); END;
CREATE TRIGGER fact_before_the_seal BEFORE INSERT ON fact
WHEN EXISTS (SELECT 1 FROM seal WHERE action_number = NEW.action_number)
BEGIN SELECT RAISE(ABORT, 'this action is sealed'); END;
CREATE TRIGGER counted_before_the_seal BEFORE INSERT ON counted
WHEN EXISTS (SELECT 1 FROM seal WHERE action_number = NEW.action_number)
BEGIN SELECT RAISE(ABORT, 'this action is sealed'); END;
CREATE TRIGGER action_object_before_the_seal BEFORE INSERT ON action_object
WHEN EXISTS (SELECT 1 FROM seal WHERE action_number = NEW.action_number)
BEGIN SELECT RAISE(ABORT, 'this action is sealed'); END;
CREATE TRIGGER jar_check_before_the_seal BEFORE INSERT ON jar_check
WHEN EXISTS (SELECT 1 FROM seal WHERE action_number = NEW.action_number)
BEGIN SELECT RAISE(ABORT, 'this action is sealed'); END;
CREATE TRIGGER loan_before_the_seal BEFORE INSERT ON loan
WHEN EXISTS (SELECT 1 FROM seal WHERE action_number = NEW.action_number)
BEGIN SELECT RAISE(ABORT, 'this action is sealed'); END;
CREATE TRIGGER lot_never_leaves BEFORE DELETE ON lot
BEGIN SELECT RAISE(ABORT, 'a lot is never removed'); END;
CREATE TRIGGER lot_never_replaced BEFORE INSERT ON lot
WHEN EXISTS (SELECT 1 FROM lot WHERE id = NEW.id OR code = NEW.code)
BEGIN SELECT RAISE(ABORT, 'a lot is never replaced'); END;
CREATE TRIGGER lot_keeps_its_origin
BEFORE UPDATE OF id, code, material_id, kind, begun_by, supplier_id, job_id, maker_lot, maker_use_by, made_at,
    received_on, purity, cost_known, about, over_solid, length_um, width_um, grain, life_closed, life_opened,
    own_use_by, initials ON lot
BEGIN SELECT RAISE(ABORT, 'where a lot came from never changes'); END;
CREATE TRIGGER counter_never_goes_back BEFORE UPDATE ON counter WHEN NEW.last < OLD.last
BEGIN SELECT RAISE(ABORT, 'a code is never given out twice'); END;
CREATE TRIGGER lot_begins_empty AFTER INSERT ON lot
BEGIN INSERT INTO balance (lot_id) VALUES (NEW.id); END;
CREATE TRIGGER entry_moves_the_balance AFTER INSERT ON entry
BEGIN
    UPDATE balance
    SET quantity = quantity + NEW.quantity,
        value = value + NEW.value,
        base_quantity = CASE WHEN NEW.effect = 'draw' THEN base_quantity ELSE quantity + NEW.quantity END,
        base_value = CASE WHEN NEW.effect = 'draw' THEN base_value ELSE value + NEW.value END
    WHERE lot_id = NEW.lot_id;
END;
CREATE TRIGGER action_undoes_another AFTER INSERT ON action WHEN NEW.undoes IS NOT NULL
BEGIN
    INSERT INTO undone (action_number) VALUES (NEW.undoes);
    -- undoing an undoing puts the first action back in effect
    DELETE FROM undone WHERE action_number = (SELECT undoes FROM action WHERE number = NEW.undoes);
END;
CREATE TRIGGER waste_can_never_changes BEFORE UPDATE ON waste_can
BEGIN SELECT RAISE(ABORT, 'what a waste can is never changes'); END;
CREATE TRIGGER waste_can_never_leaves BEFORE DELETE ON waste_can
BEGIN SELECT RAISE(ABORT, 'a waste can is never removed'); END;
CREATE INDEX purchase_order_by_state ON purchase_order (state);
CREATE INDEX action_by_order ON action (order_id);
CREATE TRIGGER offer_never_changes
BEFORE UPDATE OF id, supplier_id, material_id, pack_quanta, price, minimum_packs, catalogue_number, seen_on, currency,
    rate, tax_percent, initials ON offer
BEGIN SELECT RAISE(ABORT, 'a price that was seen never changes'); END;
CREATE TRIGGER offer_never_leaves BEFORE DELETE ON offer
BEGIN SELECT RAISE(ABORT, 'a price that was seen never leaves'); END;
CREATE TRIGGER price_break_never_changes BEFORE UPDATE ON price_break
BEGIN SELECT RAISE(ABORT, 'a price that was seen never changes'); END;
CREATE TRIGGER price_break_never_leaves BEFORE DELETE ON price_break
BEGIN SELECT RAISE(ABORT, 'a price that was seen never leaves'); END;
CREATE TRIGGER order_line_fixed_against_change BEFORE UPDATE ON order_line
WHEN (SELECT state FROM purchase_order WHERE id = OLD.order_id) <> 'drafted'
BEGIN SELECT RAISE(ABORT, 'the lines of a placed order are fixed'); END;
CREATE TRIGGER order_line_fixed_against_leaving BEFORE DELETE ON order_line
WHEN (SELECT state FROM purchase_order WHERE id = OLD.order_id) <> 'drafted'
BEGIN SELECT RAISE(ABORT, 'the lines of a placed order are fixed'); END;
CREATE TRIGGER order_line_fixed_against_more BEFORE INSERT ON order_line
WHEN (SELECT state FROM purchase_order WHERE id = NEW.order_id) <> 'drafted'
BEGIN SELECT RAISE(ABORT, 'the lines of a placed order are fixed'); END;
CREATE TRIGGER line_tolerance_never_changes BEFORE UPDATE ON line_tolerance
BEGIN SELECT RAISE(ABORT, 'the line_tolerance table is only added to'); END;
CREATE TRIGGER line_tolerance_never_leaves BEFORE DELETE ON line_tolerance
BEGIN SELECT RAISE(ABORT, 'the line_tolerance table is only added to'); END;
CREATE TRIGGER line_tolerance_never_replaced BEFORE INSERT ON line_tolerance
WHEN EXISTS (SELECT 1 FROM line_tolerance WHERE version_id = NEW.version_id AND position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'the line_tolerance table is only added to'); END;
CREATE TRIGGER weighed_spoon_never_changes BEFORE UPDATE ON weighed_spoon
BEGIN SELECT RAISE(ABORT, 'the weighed_spoon table is only added to'); END;
CREATE TRIGGER weighed_spoon_never_leaves BEFORE DELETE ON weighed_spoon
BEGIN SELECT RAISE(ABORT, 'the weighed_spoon table is only added to'); END;
CREATE TRIGGER weighed_spoon_never_replaced BEFORE INSERT ON weighed_spoon
WHEN EXISTS (SELECT 1 FROM weighed_spoon WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the weighed_spoon table is only added to'); END;
CREATE INDEX tare_by_lot ON tare (lot_id);
CREATE TRIGGER tare_never_changes BEFORE UPDATE ON tare
BEGIN SELECT RAISE(ABORT, 'the tare table is only added to'); END;
CREATE TRIGGER tare_never_leaves BEFORE DELETE ON tare
BEGIN SELECT RAISE(ABORT, 'the tare table is only added to'); END;
CREATE TRIGGER tare_never_replaced BEFORE INSERT ON tare
WHEN EXISTS (SELECT 1 FROM tare WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the tare table is only added to'); END;
CREATE TRIGGER recipe_check_never_changes BEFORE UPDATE ON recipe_check
BEGIN SELECT RAISE(ABORT, 'the recipe_check table is only added to'); END;
CREATE TRIGGER recipe_check_never_leaves BEFORE DELETE ON recipe_check
BEGIN SELECT RAISE(ABORT, 'the recipe_check table is only added to'); END;
CREATE TRIGGER recipe_check_never_replaced BEFORE INSERT ON recipe_check
WHEN EXISTS (SELECT 1 FROM recipe_check WHERE version_id = NEW.version_id)
BEGIN SELECT RAISE(ABORT, 'the recipe_check table is only added to'); END;
CREATE TRIGGER version_care_never_changes BEFORE UPDATE ON version_care
BEGIN SELECT RAISE(ABORT, 'the version_care table is only added to'); END;
CREATE TRIGGER version_care_never_leaves BEFORE DELETE ON version_care
BEGIN SELECT RAISE(ABORT, 'the version_care table is only added to'); END;
CREATE INDEX label_made_by_lot ON label_made (lot_id);
CREATE TRIGGER label_made_never_changes BEFORE UPDATE ON label_made
BEGIN SELECT RAISE(ABORT, 'the label_made table is only added to'); END;
CREATE TRIGGER label_made_never_leaves BEFORE DELETE ON label_made
BEGIN SELECT RAISE(ABORT, 'the label_made table is only added to'); END;
CREATE TRIGGER label_made_never_replaced BEFORE INSERT ON label_made
WHEN EXISTS (SELECT 1 FROM label_made WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the label_made table is only added to'); END;
CREATE TRIGGER version_care_never_replaced BEFORE INSERT ON version_care
WHEN EXISTS (SELECT 1 FROM version_care WHERE version_id = NEW.version_id)
BEGIN SELECT RAISE(ABORT, 'the version_care table is only added to'); END;
CREATE TRIGGER waste_can_never_replaced BEFORE INSERT ON waste_can
WHEN EXISTS (SELECT 1 FROM waste_can WHERE lot_id = NEW.lot_id)
BEGIN SELECT RAISE(ABORT, 'the waste_can table is only added to'); END;
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
CREATE TRIGGER explained_loss_never_changes BEFORE UPDATE ON explained_loss
BEGIN SELECT RAISE(ABORT, 'the explained_loss table is only added to'); END;
CREATE TRIGGER explained_loss_never_leaves BEFORE DELETE ON explained_loss
BEGIN SELECT RAISE(ABORT, 'the explained_loss table is only added to'); END;
CREATE TRIGGER explained_loss_never_replaced BEFORE INSERT ON explained_loss
WHEN EXISTS (SELECT 1 FROM explained_loss WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the explained_loss table is only added to'); END;
CREATE VIEW unit_of AS
SELECT 'mass' AS dimension, 'g' AS unit, 1000000 AS quanta
UNION ALL SELECT 'volume', 'mL', 1000
UNION ALL SELECT 'area', 'cm2', 100
UNION ALL SELECT 'length', 'mm', 1000
UNION ALL SELECT 'pieces', 'pieces', 1000
UNION ALL SELECT 'uses', 'uses', 1000;
CREATE VIEW on_hand AS
SELECT
    lot.code AS lot,
    material.key AS material,
    coalesce(waste_can.title, material.name) AS name,
    lot.kind AS kind,
    place.name AS place,
    balance.quantity AS quantity,
    1.0 * balance.quantity / unit_of.quanta AS amount,
    unit_of.unit AS unit,
    balance.value AS value_minor,
    currency.value AS currency,
    lot.cost_known AS cost_known,
    lot.strength AS strength,
    lot.maker_lot AS maker_lot,
    lot.received_on AS received_on,
    lot.made_at AS made_at,
    lot.opened_on AS opened_on,
    lot.use_by AS use_by,
    lot.check_by AS check_by,
    lot.ready_on AS ready_on,
    lot.state AS state,
    lot.unfit AS unfit
FROM lot
JOIN material ON material.id = lot.material_id
JOIN unit_of ON unit_of.dimension = material.dimension
JOIN balance ON balance.lot_id = lot.id
JOIN setting AS currency ON currency.name = 'currency'
LEFT JOIN place ON place.id = lot.place_id
LEFT JOIN waste_can ON waste_can.lot_id = lot.id
WHERE lot.state <> 'ended';
CREATE VIEW job_costs AS
SELECT
    job.code AS job,
    job.title AS title,
    job.client AS client,
    job.state AS state,
    material.key AS material,
    material.name AS name,
    lot.code AS lot,
    -sum(entry.quantity) AS quantity,
    -1.0 * sum(entry.quantity) / unit_of.quanta AS amount,
    unit_of.unit AS unit,
    -sum(entry.value) AS value_minor,
    currency.value AS currency,
    lot.cost_known AS cost_known
FROM entry
JOIN job ON job.id = entry.job_id
JOIN lot ON lot.id = entry.lot_id
JOIN material ON material.id = lot.material_id
JOIN unit_of ON unit_of.dimension = material.dimension
JOIN setting AS currency ON currency.name = 'currency'
GROUP BY job.code, job.title, job.client, job.state, material.key, material.name, lot.code, unit_of.quanta,
    unit_of.unit, currency.value, lot.cost_known
HAVING sum(entry.quantity) <> 0 OR sum(entry.value) <> 0;
CREATE VIEW lot_history AS
SELECT
    lot.code AS lot,
    material.key AS material,
    action.code AS action,
    action.kind AS kind,
    action.day AS day,
    action.at AS at,
    action.booked_at AS booked_at,
    action.initials AS initials,
    action.reason AS reason,
    job.code AS job,
    coalesce(moved.quantity, 0) AS quantity,
    1.0 * coalesce(moved.quantity, 0) / unit_of.quanta AS amount,
    unit_of.unit AS unit,
    coalesce(moved.value, 0) AS value_minor,
    currency.value AS currency,
    CASE WHEN undone.action_number IS NULL THEN 'yes' ELSE 'no' END AS in_effect
FROM (
    SELECT action_number, lot_id FROM entry
    UNION SELECT action_number, lot_id FROM fact
    UNION SELECT action_number, lot_id FROM counted
    UNION SELECT action_number, lot_id FROM jar_check
    UNION SELECT begun_by, id FROM lot
) AS touched
JOIN action ON action.number = touched.action_number
JOIN lot ON lot.id = touched.lot_id
JOIN material ON material.id = lot.material_id
JOIN unit_of ON unit_of.dimension = material.dimension
JOIN setting AS currency ON currency.name = 'currency'
LEFT JOIN job ON job.id = action.job_id
LEFT JOIN undone ON undone.action_number = action.number
LEFT JOIN (
    SELECT action_number, lot_id, sum(quantity) AS quantity, sum(value) AS value
    FROM entry GROUP BY action_number, lot_id
) AS moved ON moved.action_number = touched.action_number AND moved.lot_id = touched.lot_id;
CREATE VIEW checks AS
SELECT
    lot.code AS lot,
    material.key AS material,
    material.name AS name,
    action.code AS action,
    action.day AS day,
    action.at AS at,
    action.initials AS initials,
    jar_check.method AS method,
    jar_check.readings AS readings,
    json_extract(action.details, '$.strength.low') AS strength_low,
    json_extract(action.details, '$.strength.best') AS strength_best,
    json_extract(action.details, '$.strength.high') AS strength_high,
    json_extract(action.details, '$.strength.unit') AS strength_unit,
    jar_check.verdict AS verdict,
    jar_check.why AS why,
    CASE WHEN undone.action_number IS NULL THEN 'yes' ELSE 'no' END AS in_effect
FROM jar_check
JOIN action ON action.number = jar_check.action_number
JOIN lot ON lot.id = jar_check.lot_id
JOIN material ON material.id = lot.material_id
LEFT JOIN undone ON undone.action_number = action.number;
CREATE TRIGGER quote_never_replaced BEFORE INSERT ON quote
WHEN EXISTS (SELECT 1 FROM quote WHERE id = NEW.id OR code = NEW.code)
BEGIN SELECT RAISE(ABORT, 'a quote is never removed'); END;
CREATE TRIGGER quote_line_never_replaced BEFORE INSERT ON quote_line
WHEN EXISTS (SELECT 1 FROM quote_line WHERE quote_id = NEW.quote_id AND position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'a quote stays as it was given'); END;
CREATE INDEX action_by_kind ON action (kind);
CREATE INDEX lot_by_begun ON lot (begun_by);
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('person',1);
INSERT INTO "sqlite_sequence" VALUES('material',4);
INSERT INTO "sqlite_sequence" VALUES('place',1);
INSERT INTO "sqlite_sequence" VALUES('recipe',2);
INSERT INTO "sqlite_sequence" VALUES('recipe_version',2);
INSERT INTO "sqlite_sequence" VALUES('lot',4);
INSERT INTO "sqlite_sequence" VALUES('job',1);
INSERT INTO "sqlite_sequence" VALUES('job_object',1);
INSERT INTO "sqlite_sequence" VALUES('booking',1);
COMMIT;
