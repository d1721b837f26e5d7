"""The commands that write a document, a module each."""
