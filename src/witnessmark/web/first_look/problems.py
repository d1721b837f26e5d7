"""Faults of what was typed for a first look."""

from witnessmark.problem import Problem


class NoMarkChosen(Problem):
    """A text of which nobody says where it stands."""

    says = "it is not said on which mark this stands"
    wants = "one of the marks of this book, chosen above it"


class TypedTooLong(Problem):
    """A text that is longer than any mark."""

    length: int
    most: int
    says = "this is {length} characters long"
    wants = "at most {most} characters"
