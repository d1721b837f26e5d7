"""Faults of what is brought for a book: the upload as a whole, and cells of a proposed row."""

from witnessmark.problem import Problem


class NothingBrought(Problem):
    """A form without a file."""

    says = "no file was chosen"
    wants = "the zip of a book's folder, or its book.toml and tables"


class NotAnArchive(Problem):
    """A zip that cannot be unpacked; `reason` goes on after "this archive"."""

    reason: str
    says = "this archive {reason}"
    wants = "an ordinary zip of a book's folder"


class NoBookInside(Problem):
    """An archive without a book."""

    says = "this archive holds no book.toml"
    wants = "the zip of a book's folder: book.toml, and tables/*.csv beside it"


class BroughtTooLarge(Problem):
    """More than a book can hold."""

    what: str
    most: str
    says = "{what} is too large"
    wants = "at most {most}"


class BroughtTwice(Problem):
    """Two files for one place."""

    name: str
    says = "{name!q} was brought twice"
    wants = "each file once"


class NameOfShipped(Problem):
    """A book of one's own that is called as one that comes with the program."""

    name: str
    says = "a book that comes with the program is called {name!q}"
    wants = "another id in book.toml, so that no case takes the one for the other"


class FormulaSign(Problem):
    """A cell that a spreadsheet would work out."""

    sign: str
    says = "a spreadsheet takes a cell that begins with {sign!r} for a formula"
    wants = "a text that begins with another character"
