"""The press for a browser: an outline becomes one file that needs nothing beside it."""
