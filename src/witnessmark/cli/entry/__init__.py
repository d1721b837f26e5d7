"""The commands that enter what was said and seen into a case, a module each."""
