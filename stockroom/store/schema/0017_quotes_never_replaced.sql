-- INSERT OR REPLACE deletes without firing the delete trigger unless recursive_triggers is on.
CREATE TRIGGER quote_never_replaced BEFORE INSERT ON quote
WHEN EXISTS (SELECT 1 FROM quote WHERE id = NEW.id OR code = NEW.code)
BEGIN SELECT RAISE(ABORT, 'a quote is never removed'); END;

CREATE TRIGGER quote_line_never_replaced BEFORE INSERT ON quote_line
WHEN EXISTS (SELECT 1 FROM quote_line WHERE quote_id = NEW.quote_id AND position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'a quote stays as it was given'); END;
