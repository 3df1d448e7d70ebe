-- What asks for actions of one kind (toppings-up, deliveries, losses) does not go through every action there ever was.
CREATE INDEX action_by_kind ON action (kind);
