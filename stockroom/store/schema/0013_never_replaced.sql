-- INSERT OR REPLACE deletes without firing the delete trigger unless recursive_triggers is on.
CREATE TRIGGER version_care_never_replaced BEFORE INSERT ON version_care
WHEN EXISTS (SELECT 1 FROM version_care WHERE version_id = NEW.version_id)
BEGIN SELECT RAISE(ABORT, 'the version_care table is only added to'); END;

CREATE TRIGGER waste_can_never_replaced BEFORE INSERT ON waste_can
WHEN EXISTS (SELECT 1 FROM waste_can WHERE lot_id = NEW.lot_id)
BEGIN SELECT RAISE(ABORT, 'the waste_can table is only added to'); END;
