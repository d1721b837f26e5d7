"""Commands about the workshop in the browser: open it, back it up, restore it."""
