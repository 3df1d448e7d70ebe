"""The command line: parse, call one action or query, print."""
