-- When nothing is begun, ordered or delivered: closed times and weekdays of the studio (no supplier) or of a supplier.
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

-- In what jars a stock is kept, and how much of each cannot be drawn.
CREATE TABLE kept_in (
    recipe_id INTEGER PRIMARY KEY REFERENCES recipe ON DELETE RESTRICT,
    jar_quanta INTEGER NOT NULL CHECK (jar_quanta > 0),
    left_behind INTEGER NOT NULL DEFAULT 0 CHECK (left_behind >= 0 AND left_behind < jar_quanta)
) STRICT;
