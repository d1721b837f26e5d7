"""How the tables of the store came about, step by step."""
