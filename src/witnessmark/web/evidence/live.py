"""What a reading says while it is being typed: its places, how far it is, what it would mean."""

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.answers.decoded import Decoded, answer_to
from witnessmark.answers.decoded_page import decoded_page
from witnessmark.answers.meanings import Shown
from witnessmark.catalogue import counted
from witnessmark.codebook import CarContext, CodeBook, Mark
from witnessmark.outline.records import Block
from witnessmark.problem import Problem
from witnessmark.reading import CellKind, Change, Reading, parse_reading

DOUBT = {
    CellKind.ONE_OF: "one of these",
    CellKind.WORN: "worn away",
    CellKind.OBLITERATED: "ground, filled or struck over",
    CellKind.NEVER_STRUCK: "never struck",
    CellKind.GAP: "places lost",
}
"""What a sign of doubt says, for whoever has just typed it."""


@dataclass(frozen=True, slots=True)
class PlaceTyped:
    """One place of a reading: its sign, its doubt in words, and whether a part begins here."""

    sign: str
    kind: str
    doubt: str
    is_apart: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LiveReading:
    """A text as far as it is typed. `blocks` is what it would mean, empty where that is not to be
    told, `sources` on what that rests; `doubts` counts each kind of doubt in words, `length` is
    how far it is."""

    typed: str
    places: tuple[PlaceTyped, ...] = ()
    doubts: tuple[str, ...] = ()
    changes: tuple[Change, ...] = ()
    problems: tuple[Problem, ...] = ()
    length: tuple[str, ...] = ()
    left_over: str = ""
    blocks: tuple[Block, ...] = ()
    sources: tuple[Block, ...] = ()


def spelt(mark: Mark, text: str) -> LiveReading:
    """The signs alone: nothing of what they mean, nothing of any claim."""
    if not text.strip():
        return LiveReading(typed="")
    return _of_reading(mark, parse_reading(text, mark))


def live(book: CodeBook, mark: Mark, text: str, given: CarContext) -> LiveReading:
    """The signs, and what they mean by the book for such a car."""
    if not text.strip():
        return LiveReading(typed="")
    return of_answer(answer_to(book, mark, text, given))


def of_answer(answer: Decoded) -> LiveReading:
    """A reading that was decoded, with the sentences of its page."""
    shown = _of_reading(answer.mark, answer.decoding.reading)
    if answer.problems:
        return shown
    page = decoded_page(answer, Shown())
    beside = page.sections[0].blocks if answer.beside else ()
    last = page.sections[-1].blocks
    cited = tuple(each for each in last if str(getattr(each, "text", "")).startswith("["))
    blocks = (*page.front, *beside)
    return LiveReading(
        typed=shown.typed,
        places=shown.places,
        doubts=shown.doubts,
        length=shown.length,
        left_over=answer.decoding.unread,
        sources=cited,
        blocks=tuple(each for each in blocks if not _is_command(each)),
    )


def _is_command(block: Block) -> bool:
    """A line that names a command of the terminal helps nobody on a page."""
    return "witnessmark " in str(getattr(block, "text", ""))


def _of_reading(mark: Mark, reading: Reading) -> LiveReading:
    places = tuple(
        PlaceTyped(
            each.characters if each.kind is CellKind.CLEAR else each.sign(),
            each.kind.name.lower().replace("_", "-"),
            DOUBT.get(each.kind, ""),
            bool(each.apart),
        )
        for each in reading.cells
    )
    return LiveReading(
        typed=reading.as_typed,
        places=places,
        doubts=tuple(_doubts(places)),
        changes=tuple(each for each in reading.changes if each.typed != each.normalised),
        problems=reading.problems,
        length=() if reading.problems else tuple(_length(mark, reading)),
        left_over="".join(each.sign() for each in reading.layout.unread),
    )


def _doubts(places: tuple[PlaceTyped, ...]) -> Iterator[str]:
    """How many places are in doubt, by the kind of doubt."""
    found: dict[str, int] = {}
    for each in places:
        if each.doubt:
            found[each.doubt] = found.get(each.doubt, 0) + 1
    for doubt, number in found.items():
        yield counted("{number} place: {doubt}", "{number} places: {doubt}", number, doubt=doubt)


def _length(mark: Mark, reading: Reading) -> Iterator[str]:
    """How many places each field has of those that it should have."""
    filled = {each.field.id: each for each in reading.layout.placed}
    for each in mark.fields:
        most = max(each.widths, default=0)
        least = min(each.widths, default=0)
        found = filled.get(each.id)
        has = len(found.cells) if found is not None else 0
        of = str(most) if least == most else f"{least} to {most}"
        if not (each.optional and not has):
            yield f"{each.name}: {has} of {of}"
