-- Suppliers, their offers and orders. An offer is one price on one day: a new price is a new row, so that the old one
-- stays. Prices are minor units of the offer's currency (the stockroom's where none is named), for one pack, without
-- or with tax as the stockroom keeps its costs; the tax rate stands apart.

ALTER TABLE supplier ADD COLUMN minimum_order INTEGER CHECK (minimum_order > 0);

ALTER TABLE offer ADD COLUMN currency TEXT;
-- what one unit of that currency costs in the stockroom's, as typed
ALTER TABLE offer ADD COLUMN rate TEXT;
ALTER TABLE offer ADD COLUMN tax_percent TEXT;
ALTER TABLE offer ADD COLUMN initials TEXT;
ALTER TABLE offer ADD COLUMN ended_on TEXT;

-- The price of one pack from so many packs on.
CREATE TABLE price_break (
    offer_id INTEGER NOT NULL REFERENCES offer ON DELETE RESTRICT,
    packs INTEGER NOT NULL CHECK (packs > 1),
    price INTEGER NOT NULL CHECK (price >= 0),
    PRIMARY KEY (offer_id, packs)
) STRICT;

ALTER TABLE purchase_order ADD COLUMN drafted_on TEXT;
-- ended by a person, though not everything came
ALTER TABLE purchase_order ADD COLUMN ended_on TEXT;
ALTER TABLE purchase_order ADD COLUMN ended_why TEXT;

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

-- Placing an order fixes its lines.
CREATE TRIGGER order_line_fixed_against_change BEFORE UPDATE ON order_line
WHEN (SELECT state FROM purchase_order WHERE id = OLD.order_id) <> 'drafted'
BEGIN SELECT RAISE(ABORT, 'the lines of a placed order are fixed'); END;
CREATE TRIGGER order_line_fixed_against_leaving BEFORE DELETE ON order_line
WHEN (SELECT state FROM purchase_order WHERE id = OLD.order_id) <> 'drafted'
BEGIN SELECT RAISE(ABORT, 'the lines of a placed order are fixed'); END;
CREATE TRIGGER order_line_fixed_against_more BEFORE INSERT ON order_line
WHEN (SELECT state FROM purchase_order WHERE id = NEW.order_id) <> 'drafted'
BEGIN SELECT RAISE(ABORT, 'the lines of a placed order are fixed'); END;
