"""The demonstration cars, opened: what every measure starts from."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from witnessmark.casefile import Casefile, open_case
from witnessmark.codebook import CodeBook, find_book, open_book
from witnessmark.examination import BookVersion, Opinion, examine

CARS = ("clean", "no-papers", "panel", "altered")
CHECKOUT = Path(__file__).resolve().parents[1]


class NotReadableError(ValueError):
    """A demonstration case or its book cannot be read: the checkout is not whole."""


@dataclass(frozen=True, slots=True)
class Car:
    """One demonstration car with its book and its exhibits."""

    name: str
    casefile: Casefile
    book: CodeBook
    version: BookVersion
    exhibits: Mapping[str, bytes]

    def examined(self) -> Opinion:
        """The opinion, made afresh."""
        return examine(self.casefile, self.book, self.version)


def opened_car(name: str) -> Car:
    """One demonstration car. Raises NotReadableError with the problems found."""
    opened = open_case(CHECKOUT / "demo" / name)
    if opened.casefile is None:
        raise NotReadableError(opened.problems)
    folder = find_book(opened.casefile.book)
    found = open_book(folder) if folder is not None else None
    if found is None or found.book is None:
        raise NotReadableError(opened.casefile.book)
    book = found.book
    read = (opened.exhibits.read(entry) for entry in opened.casefile.exhibits)
    exhibits = {each.exhibit.entry.id: each.exhibit.content for each in read if each.exhibit}
    version = BookVersion(book.id, book.title, book.version, found.sha256)
    return Car(name, opened.casefile, book, version, exhibits)
