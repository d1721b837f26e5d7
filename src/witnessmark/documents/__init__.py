"""Documents: from text to entries of checked values, with a place for each fault.

TOML and CSV are read against the declared columns of a `Row` (row.py), which also gives the
record, the JSON Schema and the page in docs; JSON is walked through, and every value has its
place. Nothing here knows what a code book or a case is.
"""
