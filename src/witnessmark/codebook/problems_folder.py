"""Problems of a book's folder: files that are not there, not to be read, or of something else."""

from witnessmark.documents.problems import Unknown
from witnessmark.problem import Problem


class NoFolder(Problem):
    """There is no such folder."""

    says = "there is no folder here"
    wants = "the folder of a code book, with book.toml in it"


class NoBookFile(Problem):
    """The folder holds no book.toml."""

    says = "the folder holds no book.toml"
    wants = "book.toml, and tables/*.csv beside it"


class NotReadable(Problem):
    """The file cannot be opened."""

    says = "the file cannot be read"
    wants = "a plain file that can be read"


class OutsideFolder(Problem):
    """The file is a link to a place outside the book's folder."""

    says = "the file is a link that leaves the book's folder"
    wants = "a file inside the folder"


class FileTooLarge(Problem):
    """The file is larger than a book's file may be."""

    most_bytes: int
    says = "the file is too large"
    wants = "at most {most_bytes:,} bytes"


class TooManyFiles(Problem):
    """The folder has more tables than a book may have."""

    most_files: int
    says = "the folder holds too many tables"
    wants = "at most {most_files} files"


class UnknownTable(Unknown):
    """A file in tables/ that the format does not know."""

    says = "{name!q} is not a table of a code book"
