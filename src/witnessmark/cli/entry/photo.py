"""`witnessmark case add photo`: photographs and scans, kept byte for byte under their SHA-256."""

import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

import typer

from witnessmark.casefile import Exhibit
from witnessmark.casefile.exhibits import MOST_MEGABYTES, received
from witnessmark.cli.arguments import CasePath, argument, option
from witnessmark.cli.entry.change import FileToKeep, change_case
from witnessmark.cli.entry.typed import options, part
from witnessmark.cli.problems import NotReceived, why
from witnessmark.cli.writing import read_named
from witnessmark.entry import CaseDraft, Entered, enter_exhibit, has_exhibit, named_in_a_row
from witnessmark.source import Source

HELP = """The file is copied into the case; neither the copy nor the original is altered.
Name what it shows behind an equals sign, with commas between several: the
photograph is then named at whatever was noted there. One that shows the whole
car says car.

\b
Example:
  witnessmark case add photo my-sprint IMG_0412.jpg='frame stamp' IMG_0413.jpg=car
"""

FORM = "FILE[=PLACE,…]"


def add_photo(
    case: CasePath,
    files: Annotated[
        list[str], argument(f"{FORM}...", "Photographs or scans, and what each shows.")
    ],
    caption: Annotated[str, option("TEXT", "What it shows, in words.")] = "",
    taken_by: Annotated[str, option("WHO", "Who took it, or gave it.")] = "",
    taken_at: Annotated[str, option("MOMENT", "When; else as the camera’s clock noted it.")] = "",
    no_number: Annotated[
        bool,
        typer.Option("--no-number", help="Somebody looked, and it shows nothing to be hidden."),
    ] = False,
) -> None:
    """Enter photographs, and name each where it was noted what it shows."""
    fields = options(caption=caption, taken_by=taken_by, taken_at=taken_at)
    if no_number:
        fields["number_regions"] = Entered([], Source("--no-number"))

    to_keep: list[FileToKeep] = []

    def enter(draft: CaseDraft) -> Sequence[str]:
        told = []
        for each in map(_typed, files):
            found = _received(draft, each)
            if found is None:
                continue
            path, source = Path(str(each.file.value)), each.file.source
            if not has_exhibit(draft, found):
                to_keep.append(FileToKeep(path, found.entry, source))
            told.append(enter_exhibit(draft, found, Entered(path.stem, source), each.shows, fields))
        return (named_in_a_row(told),)

    change_case(case, "add photo", enter, to_keep)


@dataclass(frozen=True, slots=True)
class _FileTyped:
    """A file as it was typed, and the names of what it shows."""

    file: Entered
    shows: tuple[Entered, ...]


def _typed(text: str) -> _FileTyped:
    """A name that holds an equals sign itself is a file, where there is such a file."""
    name, equals, shown = text.rpartition("=")
    if not equals or _is_file(text):
        return _FileTyped(part(FORM, text, 0, len(text)), ())
    shows, at = [], len(name) + 1
    for each in shown.split(","):
        shows.append(part(FORM, text, at, at + len(each)))
        at += len(each) + 1
    return _FileTyped(part(FORM, text, 0, len(name)), tuple(s for s in shows if s.value))


def _is_file(text: str) -> bool:
    try:
        return Path(text).is_file()
    except (OSError, ValueError):
        return False


def _received(draft: CaseDraft, each: _FileTyped) -> Exhibit | None:
    """The file as an exhibit, to be copied once all else is right; None where it is none."""
    path = str(each.file.value)
    try:
        content = read_named(Path(path), MOST_MEGABYTES * 1_000_000)
    except (OSError, ValueError) as fault:
        draft.problems.append(NotReceived(each.file.source, path, why(fault)))
        return None
    read = received(content, os.path.join(".", path), each.file.source)
    draft.problems += read.problems
    return read.exhibit
