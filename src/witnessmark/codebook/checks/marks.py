"""Marks: where they stand, how their fields are laid out, and whether their tables fit."""

from collections.abc import Iterator
from functools import lru_cache
from unicodedata import category

from witnessmark.codebook.checks.layout import split_two_ways
from witnessmark.codebook.checks.problems_marks import (
    AlphabetTooLong,
    CodeLength,
    MarkWithoutPlace,
    NeedlessAssembly,
    NotationSign,
    NotStruck,
    NumberWithoutLength,
    OutsideAlphabet,
    PartOfCode,
    PartWidth,
    RepeatedCharacter,
    SplitTwoWays,
    WrongReader,
)
from witnessmark.codebook.checks.problems_rows import Gap
from witnessmark.codebook.coverage import BookCars
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.marks import Field, Mark, MarkKind
from witnessmark.codebook.records import IN_FULL, Applies, CodeRow, Item, ItemKind
from witnessmark.documents.entries import Entry, Placed
from witnessmark.problem import Problem
from witnessmark.source import Source

NOTATION_SIGNS = "?~_…[]| "
MOST_CHARACTERS = 200
"""Characters of an alphabet: no mark has as many, and each place is compared with all."""
MOST_FIELDS = 40
"""A mark without windows with more fields than any has is not walked through."""


def check_marks(draft: Draft) -> Iterator[Problem]:
    """Every mark with its fields, and the alphabets of items."""
    tables: dict[str, list[Placed[CodeRow]]] = {}
    for row in draft.codes:
        tables.setdefault(row.record.table, []).append(row)
    yield from _check_items(draft)
    told: set[Source] = set()
    for mark in draft.marks:
        yield from _check_place(mark)
        yield from _check_cover(mark, draft)
        fields = draft.fields(mark)
        yield from _check_layout(mark, fields)
        for field in fields:
            yield from _check_alphabet(field.entry)
            if field.record.says in draft.items_by_id:
                yield from _check_reader(field, draft.items_by_id[field.record.says])
            rows = tables.get(field.record.table, [])
            # A code of other years need not fit: a letter may be used again in another form.
            meeting = [r for r in rows if draft.cars.meet(mark.record.applies, r.record.applies)]
            for problem in _check_codes(field, meeting):
                # A table that several fields read is told of once.
                if problem.source not in told:
                    told.add(problem.source)
                    yield problem
            yield from _check_gaps(mark, field, rows, draft.cars)


def _check_items(draft: Draft) -> Iterator[Problem]:
    """Numbers have a length and a sound alphabet."""
    for item in draft.items:
        if item.record.kind is ItemKind.NUMBER:
            yield from _check_alphabet(item.entry)
            if item.record.length == 0 and "length" not in item.entry.faulty:
                yield NumberWithoutLength(item.entry.source("length"), item.record.id)


def _check_alphabet(entry: Entry) -> Iterator[Problem]:
    """Each character once, and none that the notation uses."""
    alphabet = entry.text("alphabet")
    if _is_sound(alphabet):
        return
    source = entry.source("alphabet")
    if len(alphabet) > MOST_CHARACTERS:
        yield AlphabetTooLong(source, len(alphabet), MOST_CHARACTERS)
        return
    seen: set[str] = set()
    for index, character in enumerate(alphabet):
        place = source
        if source.column and source.text[source.column :].startswith(alphabet):
            place = Source(source.name, source.line, source.column + 1 + index, 1, source.text)
        if character in NOTATION_SIGNS:
            yield NotationSign(place, character)
        elif not can_be_struck(character):
            yield NotStruck(place, character)
        elif character in seen:
            yield RepeatedCharacter(place, character)
        seen.add(character)


@lru_cache(maxsize=512)
def _is_sound(alphabet: str) -> bool:
    """Few characters, each once, and all of them such as can be struck?"""
    return (
        len(set(alphabet)) == len(alphabet) <= MOST_CHARACTERS
        and not set(alphabet) & set(NOTATION_SIGNS)
        and all(map(can_be_struck, alphabet))
    )


def can_be_struck(character: str) -> bool:
    """No control, half, unassigned or combining character, no space and no line end."""
    return category(character)[0] not in "CMZ"


def _check_place(mark: Placed[Mark]) -> Iterator[Problem]:
    """Site and assembly, by the kind of mark."""
    record, entry = mark.record, mark.entry
    if not entry.is_written("kind"):
        return
    if record.kind is not MarkKind.PAPER and not record.site and "site" not in entry.faulty:
        yield MarkWithoutPlace(entry.source("site"), record.id, record.kind, "site")
    on_assembly = record.kind in (MarkKind.STAMPING, MarkKind.CASTING)
    if on_assembly and not record.assembly and "assembly" not in entry.faulty:
        yield MarkWithoutPlace(entry.source("assembly"), record.id, record.kind, "assembly")
    if record.kind in (MarkKind.PLATE, MarkKind.PAPER) and record.assembly:
        yield NeedlessAssembly(entry.source("assembly"), record.id, record.kind)


def _check_cover(mark: Placed[Mark], draft: Draft) -> Iterator[Problem]:
    """The site and the assembly of a mark stand for every car that the mark covers."""
    record = mark.record
    asked_by = f"the mark {record.id!r}"
    places: tuple[tuple[str, str, list[Applies]], ...] = (
        (
            "site",
            record.site,
            [s.record.applies for s in draft.sites if s.record.id == record.site],
        ),
        (
            "assembly",
            record.assembly,
            [a.record.applies for a in draft.assemblies if a.record.id == record.assembly],
        ),
    )
    for key, name, rows in places:
        for left in draft.cars.left_out(record.applies, rows) if rows else ():
            yield Gap(mark.entry.source(key), f"the {key} {name!r}", asked_by, left)


def _check_layout(mark: Placed[Mark], fields: tuple[Placed[Field], ...]) -> Iterator[Problem]:
    """The text of a window, or of a mark without windows, falls apart in one way only."""
    lines: dict[tuple[int, int], list[Placed[Field]]] = {}
    for field in fields:
        at = (field.record.row, field.record.column) if mark.record.windows else (1, 1)
        lines.setdefault(at, []).append(field)
    for line in lines.values():
        # A single field has an end of its own, whatever its widths.
        if (mark.record.windows and len(line) == 1) or len(line) >= MOST_FIELDS:
            continue
        split = split_two_ways(tuple(each.record for each in line))
        if split is not None:
            place = line[split.index].entry.source("widths")
            yield SplitTwoWays(place, split.text, split.one, split.other)


def _check_reader(field: Placed[Field], item: Item) -> Iterator[Problem]:
    """A code is read by a table, a date by a form, a number by neither."""
    record, entry = field.record, field.entry
    wanted = {
        ItemKind.CODE: "a table, and no date_form",
        ItemKind.DATE: "a date_form, and no table",
        ItemKind.NUMBER: "neither table nor date_form",
    }[item.kind]
    has = (bool(record.table), bool(record.date_form))
    needs = (item.kind is ItemKind.CODE, item.kind is ItemKind.DATE)
    if has != needs and not entry.faulty & {"table", "date_form", "says"}:
        key = "date_form" if record.date_form else "table" if record.table else "says"
        yield WrongReader(entry.source(key), record.id, item.kind, wanted)
    if item.kind is ItemKind.NUMBER:
        yield from _check_part(field, item)
    elif record.part != IN_FULL:
        yield PartOfCode(entry.source("part"), record.part)


def _check_part(field: Placed[Field], item: Item) -> Iterator[Problem]:
    """The width of a number's field is that of its part; its alphabet is the number's."""
    record, entry = field.record, field.entry
    places = item.length if record.part == IN_FULL else int(record.part.rpartition(" ")[2])
    fits = record.widths == (places,) and places <= item.length
    if record.part == IN_FULL and "0" in item.alphabet:
        # Without its leading zeros a number is shorter; written in full it must fit.
        fits = max(record.widths, default=0) == item.length
    if item.length and record.widths and not fits:
        key = "widths" if record.part == IN_FULL else "part"
        yield PartWidth(entry.source(key), record.part, record.widths, item.length, item.id)
    foreign = "".join(c for c in record.alphabet if c not in item.alphabet)
    if foreign:
        source, owner = entry.source("alphabet"), f"the number {item.id!r}"
        yield OutsideAlphabet(source, record.alphabet, foreign, owner)


def _check_codes(field: Placed[Field], rows: list[Placed[CodeRow]]) -> Iterator[Problem]:
    """Every code of the table fits the field."""
    record = field.record
    alphabet = set(record.alphabet)
    for row in rows:
        code = row.record.code
        if not code:
            continue
        if record.widths and len(code) not in record.widths:
            yield CodeLength(row.entry.source("code"), code, record.id, record.widths)
        foreign = "".join(dict.fromkeys(c for c in code if c not in alphabet))
        if alphabet and foreign:
            owner = f"the field {record.id!r}"
            yield OutsideAlphabet(row.entry.source("code"), code, foreign, owner)


def _check_gaps(
    mark: Placed[Mark], field: Placed[Field], rows: list[Placed[CodeRow]], cars: BookCars
) -> Iterator[Problem]:
    """The table has rows for every car that the mark covers."""
    asked_by = f"the mark {mark.record.id!r}"
    table = f"the table {field.record.table!r}"
    applies = [row.record.applies for row in rows]
    if field.record.has_gaps or not rows:
        return
    for left in cars.left_out(mark.record.applies, applies):
        yield Gap(field.entry.source("table"), table, asked_by, left)
