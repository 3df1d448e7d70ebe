"""One area of work a file, with its look beside it."""
