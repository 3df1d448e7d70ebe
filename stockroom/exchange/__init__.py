"""Tables in and out of files that spreadsheets and other programs read."""
