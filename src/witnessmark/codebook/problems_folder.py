"""Problems of a book's folder: files that are not there, not to be read, or of something else."""

from dataclasses import dataclass
from typing import override

from witnessmark.documents.problems import nearest, one_of, shown
from witnessmark.problem import Problem


@dataclass(frozen=True, slots=True)
class NoFolder(Problem):
    """There is no such folder."""

    @override
    def sentence(self) -> str:
        return "there is no folder here"

    @override
    def expected(self) -> str:
        return "the folder of a code book, with book.toml in it"


@dataclass(frozen=True, slots=True)
class NoBookFile(Problem):
    """The folder holds no book.toml."""

    @override
    def sentence(self) -> str:
        return "the folder holds no book.toml"

    @override
    def expected(self) -> str:
        return "book.toml, and tables/*.csv beside it"


@dataclass(frozen=True, slots=True)
class NotReadable(Problem):
    """The file cannot be opened."""

    @override
    def sentence(self) -> str:
        return "the file cannot be read"

    @override
    def expected(self) -> str:
        return "a plain file that may be read"


@dataclass(frozen=True, slots=True)
class OutsideFolder(Problem):
    """The file is a link to a place outside the book's folder."""

    @override
    def sentence(self) -> str:
        return "the file is a link that leaves the book's folder"

    @override
    def expected(self) -> str:
        return "a file inside the folder"


@dataclass(frozen=True, slots=True)
class FileTooLarge(Problem):
    """The file is larger than a book's file may be."""

    most_bytes: int

    @override
    def sentence(self) -> str:
        return "the file is too large"

    @override
    def expected(self) -> str:
        return f"at most {self.most_bytes:,} bytes"


@dataclass(frozen=True, slots=True)
class TooManyFiles(Problem):
    """The folder has more tables than a book may have."""

    most_files: int

    @override
    def sentence(self) -> str:
        return "the folder holds too many tables"

    @override
    def expected(self) -> str:
        return f"at most {self.most_files} files"


@dataclass(frozen=True, slots=True)
class WrongFormat(Problem):
    """The file says that it is something else than a code book."""

    found: str
    wanted: str

    @override
    def sentence(self) -> str:
        return f"this is not a code book: format is {shown(self.found)}"

    @override
    def expected(self) -> str:
        return f"format = {self.wanted!r}"


@dataclass(frozen=True, slots=True)
class WrongVersion(Problem):
    """The book is written in a version of the format that is not known here."""

    found: str
    wanted: int

    @override
    def sentence(self) -> str:
        return f"format version {self.found} is not known here"

    @override
    def expected(self) -> str:
        return f"format_version = {self.wanted}"


@dataclass(frozen=True, slots=True)
class UnknownTable(Problem):
    """A file in tables/ that the format does not know."""

    file: str
    known: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"{shown(self.file)} is not a table of a code book"

    @override
    def expected(self) -> str:
        return nearest(self.file, self.known) or one_of(self.known)
