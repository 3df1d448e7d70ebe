-- What asks for actions of one kind (toppings-up, treatments, losses) does not go through every action there ever was;
-- nor does sealing an action, or proving its seal, go through every lot for those that it began.
CREATE INDEX action_by_kind ON action (kind);
CREATE INDEX lot_by_begun ON lot (begun_by);
