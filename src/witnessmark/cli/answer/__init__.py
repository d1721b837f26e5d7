"""The commands that answer on the screen, a module each."""
