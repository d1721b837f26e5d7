"""The checks across a book: one module a matter, and the problems that they find."""
