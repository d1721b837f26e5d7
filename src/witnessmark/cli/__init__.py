"""The door at the terminal: one file a command, and what the commands share.

`main` is the console script; `commands` puts the commands together; `opening` finds
what a command line names; `problems` are the faults a command line can have;
`terminal` lays text out; `writing` writes files whole or not at all. What is
heavy to import is imported inside the functions that need it, so that a first
look answers at once.
"""
