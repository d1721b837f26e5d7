"""`witnessmark case add photo`: photographs and scans, kept byte for byte under their SHA-256."""

import os
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Annotated

import typer

from witnessmark.casefile import Exhibit, ExhibitEntry
from witnessmark.casefile.exhibits import MOST_MEGABYTES, received
from witnessmark.casefile.pictures import camera_moment
from witnessmark.catalogue import said
from witnessmark.cli.arguments import CasePath, argument, option
from witnessmark.cli.entry.draft import CaseDraft, Entered, change_case, named_in_a_row, placed
from witnessmark.cli.entry.typed import options, part
from witnessmark.cli.problems import NotReceived, why
from witnessmark.cli.writing import read_named
from witnessmark.codebook import MarkKind
from witnessmark.examination.check import WHOLE_CAR
from witnessmark.examination.entries import with_exhibit
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
_ODD = re.compile(r"[^A-Za-z0-9._-]+")


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

    def enter(draft: CaseDraft) -> Sequence[str]:
        told = []
        for each in map(_typed, files):
            found = _received(draft, each)
            if found is not None:
                told.append(_entered(draft, each, found, fields))
        return (named_in_a_row(told),)

    change_case(case, "add photo", enter)


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


def _entered(
    draft: CaseDraft, each: _FileTyped, found: Exhibit, fields: Mapping[str, Entered]
) -> str:
    """Enter it, unless the case has it already, and name it at what it shows."""
    file, source = Path(str(each.file.value)), each.file.source
    known = {entry.sha256: entry.id for entry in draft.casefile.exhibits}
    name = known.get(found.entry.sha256) or _free_id(file.stem, set(known.values()))
    if name not in known.values():
        taken = camera_moment(found.content, found.media_type)
        own = {
            "id": name,
            "file": found.entry.file,
            "sha256": found.entry.sha256,
            **({"taken_at": taken} if taken else {}),
        }
        values = {field: Entered(value, source) for field, value in own.items()}
        draft.add("exhibits", ExhibitEntry, {**values, **fields})
        draft.files.append((file, found.entry, source))
    for shown in each.shows:
        _name_at(draft, shown, name)
    if found.entry.sha256 in known:
        return said("{id}: in the case already", id=name)
    if not found.width_px:
        return said("{id}: a PDF", id=name)
    width, height = found.width_px, found.height_px
    return said("{id}: {width} × {height} upright", id=name, width=width, height=height)


def _free_id(stem: str, taken: set[str]) -> str:
    """A short id made of a file's name, that no exhibit has yet.

    >>> _free_id("Pad, left (2)", {"Pad-left-2"})
    'Pad-left-2-2'
    """
    name = free = _ODD.sub("-", stem)[:60].strip("-._") or "photo"
    count = 1
    while free in taken:
        count += 1
        free = f"{name}-{count}"
    return free


def _name_at(draft: CaseDraft, shown: Entered, exhibit: str) -> None:
    """Name an exhibit at the place, mark or paper that it is said to show."""
    name, book, context = str(shown.value), draft.book, draft.context
    if name.lower() == WHOLE_CAR:
        entries = (
            replace(each, shows_whole_car=True) if each.id == exhibit else each
            for each in draft.casefile.exhibits
        )
        draft.casefile = replace(draft.casefile, exhibits=tuple(entries))
        return
    if name.lower() == "title":
        title = draft.casefile.title_paper
        shows = (*title.exhibits, *((exhibit,) if exhibit not in title.exhibits else ()))
        draft.casefile = replace(draft.casefile, title_paper=replace(title, exhibits=shows))
        return
    papers = [m.id for m in book.marks_named(name, context) if m.kind is MarkKind.PAPER]
    place = ("", papers[0]) if len(papers) == 1 else placed(draft, shown)
    if place is not None:
        draft.casefile = with_exhibit(draft.casefile, book, place, exhibit)
