"""`witnessmark book upgrade`: a book of format 1 becomes one of format 2, and nothing is lost."""

import json
from codecs import BOM_UTF8
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Annotated

from witnessmark.catalogue import counted
from witnessmark.cli.arguments import argument, option
from witnessmark.cli.opening import faultless, folder_of_book
from witnessmark.cli.terminal import print_line
from witnessmark.cli.writing import read_named, tell_upgraded, write_upgraded
from witnessmark.codebook.book_format import FORMAT_VERSION
from witnessmark.codebook.folder import MOST_BYTES, TOP_FILE
from witnessmark.codebook.parse import parse_top
from witnessmark.codebook.upgrade import upgraded_text
from witnessmark.documents.changes import FormatChange
from witnessmark.documents.entries import FileText
from witnessmark.documents.toml_places import TomlPlaces

HELP = """PATH is the book's folder. Only what the format changed in book.toml is rewritten;
everything else, comments included, stays exactly as it was. The original is kept
beside it as book.format-1.toml, unless --out names another file. A book already
in the current format is left alone.

\b
Example:
  witnessmark book upgrade my-maker-1950-1952
"""


def book_upgrade(
    path: Annotated[str, argument("PATH", "The book's folder.")],
    out: Annotated[
        Path | None, option("FILE", "Write a new file here; leave the book alone.")
    ] = None,
) -> None:
    """Bring one book over, whole or not at all."""
    folder = folder_of_book(path)
    file = folder / TOP_FILE
    with suppress(OSError):  # what cannot be read is refused when it is opened
        before = read_named(file, MOST_BYTES)
    opened = faultless(folder)
    if not opened.changes:
        told = f"is already in format {FORMAT_VERSION}; nothing was written"
        print_line(f"{file} {told}.")
        return
    now = _brought_over(before, opened.changes)
    kept = write_upgraded(file, out, before, now, "book")
    keys = counted("{number} key", "{number} keys", len(opened.changes))
    tell_upgraded(out or file, keys, _told(file, before, opened.changes), kept)


def _text(content: bytes) -> str:
    return content.removeprefix(BOM_UTF8).decode("utf-8")


def _brought_over(before: bytes, changes: tuple[FormatChange, ...]) -> bytes:
    """The file in the present format, read again before anybody relies on it."""
    text = upgraded_text(_text(before), changes)
    again = parse_top(FileText("book.toml", text))
    assert (again.problems, again.changes) == ((), ()), "it reads as before"
    return (BOM_UTF8 if before.startswith(BOM_UTF8) else b"") + text.encode("utf-8")


def _told(file: Path, before: bytes, changes: tuple[FormatChange, ...]) -> Iterator[str]:
    """What differs in the present format, a line a key."""
    text = _text(before)
    places = TomlPlaces(str(file), text)
    for each in changes:
        spot = places.spots.values[each.path]
        typed = text[spot.start : spot.end]
        now = typed if each.value is None else json.dumps(each.value)
        stands = f"{each.path[-1]} = {typed} is now {each.key} = {now}"
        yield f"{places.key(each.path).place()}: {stands}"
