-- What a booked treatment was expected to take and cost when it was booked or moved. A plan, never an entry.
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
