-- The ledger and what explains it are only added to. A second insert of the same key is refused as well, because
-- INSERT OR REPLACE deletes without firing the delete trigger unless recursive_triggers is on.

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

-- A sealed action is complete.

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

-- What is kept beside the entries.
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
