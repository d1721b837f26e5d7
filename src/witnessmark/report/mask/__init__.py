"""The mask: what is shown to others without serials, people and places."""
