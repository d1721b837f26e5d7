"""Every single change that can be made to a demonstration car: characters, looks, sites."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from tests.worked.opened import (
    Key,
    book_and_version,
    case_of,
    marks_of,
    opinion_of,
    ratios,
    ratios_of,
    with_look,
    with_reading,
)
from witnessmark.casefile.records import Casefile
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.records import ItemKind
from witnessmark.decoding.records import FieldCells
from witnessmark.reading.records import CellKind
from witnessmark.weighing import Question
from witnessmark.weighing.evidence_numbers import part_places

AGREES, DIFFERS, ALONE, MIXED = "agrees", "differs", "alone", "mixed"


@dataclass(frozen=True, slots=True)
class ClearCharacter:
    """One clear character of a number: where it stands and what the others say there.

    `at` is the reading, `column` the place in its text (from 0), `place` that in the
    number; `standing` is agrees, differs, alone (nothing to set it against) or mixed;
    `others` are the characters that the claim or the other marks have or may have there,
    `witnesses` those marks.
    """

    at: int
    column: int
    mark: str
    item: str
    place: int
    character: str
    standing: str
    others: frozenset[str]
    witnesses: frozenset[str]

    def other_character(self) -> str:
        """What it is changed to: what the others say, or where it agrees something else."""
        if self.standing == DIFFERS:
            return next(iter(self.others))
        steps = (str((int(self.character) + step) % 10) for step in (5, 4, 3, 2))
        return next(each for each in steps if each not in self.others)


def mark_of(mark_id: str) -> Mark:
    """The book's mark."""
    mark = book_and_version()[0].mark(mark_id)
    assert mark is not None
    return mark


def own_question(car: str, mark_id: str) -> Key:
    """The question that a mark bears on first: that of its plate or paper, or of what it is on."""
    names = (mark_id, mark_of(mark_id).assembly)
    return next(key for name in names for key in ratios_of(car) if key[1] == name)


def _number_fields(car: str) -> Iterator[tuple[int, str, str, range, FieldCells]]:
    """Reading, mark, item, places of the number, and cells of every number that was read."""
    book, _ = book_and_version()
    for at, decoding in enumerate(marks_of(car).decodings):
        fields: dict[str, Field] = {field.id: field for field in mark_of(decoding.mark).fields}
        for cells in decoding.field_cells:
            item = book.item(cells.says)
            if item is not None and item.kind is ItemKind.NUMBER and not cells.missing:
                places = part_places(fields[cells.field].part, item.length)
                yield at, decoding.mark, item.id, places, cells


@cache
def clear_characters(car: str) -> tuple[ClearCharacter, ...]:
    """Every clear character of every number that was read on a car."""
    seen: dict[tuple[str, int], list[tuple[str, str]]] = {}
    for _, mark, item, places, cells in _number_fields(car):
        for place, cell in zip(places, cells.cells, strict=False):
            if cell.kind in (CellKind.CLEAR, CellKind.ONE_OF):
                seen.setdefault((item, place), []).append((mark, cell.characters))
    claimed = case_of(car).claim.items
    found = []
    for at, mark, item, places, cells in _number_fields(car):
        for place, cell in zip(places, cells.cells, strict=False):
            if cell.kind is not CellKind.CLEAR:
                continue
            against = [pair for pair in seen[item, place] if pair[0] != mark]
            if item in claimed:
                against = [("claim", claimed[item][place])]
            others = [characters for _, characters in against]
            found.append(
                ClearCharacter(
                    at,
                    cell.column - 1,
                    mark,
                    item,
                    place,
                    cell.characters,
                    _standing(cell.characters, others),
                    frozenset("".join(others)),
                    frozenset(name for name, _ in against if name != "claim"),
                )
            )
    return tuple(found)


def _standing(character: str, others: list[str]) -> str:
    if not others:
        return ALONE
    if all(character in each for each in others):
        return AGREES
    is_one = len(set("".join(others))) == 1
    return DIFFERS if is_one else MIXED


def with_character(car: str, change: ClearCharacter, character: str) -> Casefile:
    """The case with this character typed in the place of that one."""
    text = case_of(car).readings[change.at].text
    assert text[change.column] == change.character
    typed = text[: change.column] + character + text[change.column + 1 :]
    return with_reading(case_of(car), change.at, typed)


@cache
def ratios_with(car: str, change: ClearCharacter, character: str) -> dict[Key, float]:
    """log10 LR of every question with this character typed in the place of that one."""
    return ratios(with_character(car, change, character))


def is_own(car: str, mark_id: str) -> bool:
    """Are the mark's characters most probably those struck for the claimed car?"""
    states = {state.mark: state for state in opinion_of(car).weighing.mark_states}
    return states[mark_id].sources[0].state == "own"


def home_question(car: str, item: str) -> Key | None:
    """The question of the assembly whose own number an item is."""
    found = book_and_version()[0].item(item)
    keys = ratios_of(car)
    home = (Question.ASSEMBLY, found.home) if found is not None else None
    return home if home in keys else None


def site_mark(car: str, site: str) -> str:
    """The first mark that this car should carry at a site."""
    sites = {outcome.site: outcome.marks for outcome in opinion_of(car).sites}
    return sites[site][0]


def look_class(car: str, at: int) -> str:
    """What a look of a case counts as: factory, doubtful or disturbed."""
    book, _ = book_and_version()
    look = case_of(car).looks[at]
    context = marks_of(car).context
    for feature in book.features:
        fits = (feature.id, feature.site) == (look.feature, look.site)
        if fits and feature.applies.covers(context):
            for outcome in feature.outcomes:
                if outcome.id == look.outcome:
                    return outcome.look
    return look.outcome


def site_looking(car: str, site: str, outcome: str) -> Casefile:
    """The case with every look of one site turned to this outcome."""
    casefile = case_of(car)
    for at, look in enumerate(casefile.looks):
        if look.site == site:
            casefile = with_look(casefile, at, outcome)
    return casefile
