"""book.toml: its format and version, then its entries; format 1 is read as it is."""

from collections.abc import Mapping
from dataclasses import dataclass

from witnessmark.codebook.book_format import BOOK, FORMAT, FORMAT_VERSION
from witnessmark.codebook.upgrade import changes_from_format_1
from witnessmark.documents.changes import OLD_VERSION, FormatChange, with_changes
from witnessmark.documents.entries import Entry, FileText
from witnessmark.documents.problems import MissingKey, WrongFormat, WrongVersion
from witnessmark.documents.toml_entries import TextPlaces, TomlReader, read_toml, too_deep
from witnessmark.problem import Problem


@dataclass(frozen=True, slots=True)
class TopParsed:
    """The book's top table, or None where it cannot be read at all, and its problems.

    `changes`: what stands otherwise in a text of the format before, which is read as it is.
    """

    book: Entry | None
    problems: tuple[Problem, ...]
    changes: tuple[FormatChange, ...] = ()


def parse_top(file: FileText) -> TopParsed:
    """Read book.toml against its declaration; all faults at once, no exception."""
    read = read_toml(file)
    if read.problem is not None:
        return TopParsed(None, (read.problem,))
    document, places = read.values, read.places
    reader = TomlReader(places, [])
    changes: tuple[FormatChange, ...] = ()
    try:
        if refusal := _refusal(document, places):
            return TopParsed(None, (refusal,))
        if document["format_version"] == OLD_VERSION:
            changes = changes_from_format_1(document)
            document = with_changes(document, changes)
            places.written = {each.now: each.path for each in changes}
        book = reader.entry(BOOK, document, ())
    except RecursionError:
        return TopParsed(None, (too_deep(file),))
    return TopParsed(book, tuple(reader.problems), changes)


def _refusal(document: Mapping[str, object], places: TextPlaces) -> Problem | None:
    """A file of another format or version is not read any further."""
    found = document.get("format")
    if found != FORMAT:
        shown = found if isinstance(found, str) else "missing" if found is None else "no text"
        return WrongFormat(places.value(("format",)), shown, "code book", f'format = "{FORMAT}"')
    version = document.get("format_version")
    if type(version) is int and version in (FORMAT_VERSION, OLD_VERSION):
        return None
    # Late: for the first place the whole text is gone through.
    source, line = places.value(("format_version",)), f"format_version = {FORMAT_VERSION}"
    if version is None:
        return MissingKey(source, "format_version", BOOK.name, line)
    return WrongVersion(source, repr(version)[:20], FORMAT_VERSION, line)
