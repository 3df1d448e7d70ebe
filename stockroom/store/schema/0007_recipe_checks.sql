-- How what a version of a recipe makes is checked. Figures are decimal texts in the unit named beside them.

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

CREATE TRIGGER recipe_check_never_changes BEFORE UPDATE ON recipe_check
BEGIN SELECT RAISE(ABORT, 'the recipe_check table is only added to'); END;
CREATE TRIGGER recipe_check_never_leaves BEFORE DELETE ON recipe_check
BEGIN SELECT RAISE(ABORT, 'the recipe_check table is only added to'); END;
CREATE TRIGGER recipe_check_never_replaced BEFORE INSERT ON recipe_check
WHEN EXISTS (SELECT 1 FROM recipe_check WHERE version_id = NEW.version_id)
BEGIN SELECT RAISE(ABORT, 'the recipe_check table is only added to'); END;
