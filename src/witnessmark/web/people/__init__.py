"""Accounts, what each may see, and the passes that were given out."""
