"""The only SQL: schema, opening, writing, and one file a noun."""
