"""The rules: one sentence about how marks must agree in each file."""
