"""The pieces of a car: the ways in which each came to be and to be noted, as terms."""
