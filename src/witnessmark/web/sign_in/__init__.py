"""The door: signing in and out, and the first owner of a new workshop."""
