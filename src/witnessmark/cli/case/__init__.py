"""The commands about a case and its document, a module each."""
