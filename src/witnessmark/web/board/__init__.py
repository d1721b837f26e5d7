"""The board: all cases, a line each."""
