"""The code books: every table, a search over all, one's own checked, a row proposed."""
