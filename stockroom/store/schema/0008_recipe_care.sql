-- What a version of a recipe says beside the rest: whether media must be tested before it is used, and what becomes of
-- its strength where water is found evaporated. A version that says neither has no row.
CREATE TABLE version_care (
    version_id INTEGER PRIMARY KEY REFERENCES recipe_version ON DELETE RESTRICT,
    media_test TEXT CHECK (media_test IN ('required', 'asked', 'not asked')),
    evaporation TEXT CHECK (evaporation IN ('mass balance'))
) STRICT;

CREATE TRIGGER version_care_never_changes BEFORE UPDATE ON version_care
BEGIN SELECT RAISE(ABORT, 'the version_care table is only added to'); END;
CREATE TRIGGER version_care_never_leaves BEFORE DELETE ON version_care
BEGIN SELECT RAISE(ABORT, 'the version_care table is only added to'); END;
