"""The commands about code books, a module each."""
