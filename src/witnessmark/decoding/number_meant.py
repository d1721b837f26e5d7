"""The whole number that somebody means by what stands on the metal, on a paper or in a claim.

A number is stated as it is seen: with the codes that stand beside it (117 345 612, S815512DN),
or alone and without leading noughts (345612). It is read by the form of a mark that bears it,
of the car that is known before those of others. Claim and title both ask here, so that one
text always means the same number.
"""

from collections.abc import Hashable, Iterator
from dataclasses import dataclass

from witnessmark.codebook import ANY_CAR, IN_FULL, CarContext, CodeBook, Field, Item, ItemKind, Mark
from witnessmark.decoding.by_its_book import decode
from witnessmark.decoding.fields import SURE
from witnessmark.decoding.options import as_typed
from witnessmark.decoding.put_together import fields_said
from witnessmark.decoding.records import Decoding
from witnessmark.decoding.slips import example_of
from witnessmark.reading import parse_reading

UNSTRAINED = 0.01
"""Below this strain a text has the form of a mark as it stands."""

FORMS_SHOWN = 4
"""Forms of a number that are named as expected, at most."""


@dataclass(frozen=True, slots=True)
class NumberMeant:
    """A number in full, and the codes that the text says beside it, each value by its item."""

    number: str
    beside: tuple[tuple[str, str], ...] = ()


def number_meant(
    book: CodeBook, item: Item, text: str, context: CarContext = ANY_CAR
) -> NumberMeant | None:
    """The number of this item that a text states; None where no mark of the book can hold it.

    A number in full needs no mark. Codes are told only where every form of the car that fits
    the text says the same of them, on rows that may argue.
    """
    spaceless = "".join(text.upper().split())
    if set(spaceless) <= set(item.alphabet):
        return _alone(book, item, spaceless, context) or _by_its_form(book, item, text, context)
    return _by_its_form(book, item, text, context) or _alone(book, item, bare(text), context)


def forms_of(book: CodeBook, item: Item, context: CarContext = ANY_CAR) -> tuple[str, ...]:
    """How the number of an item stands on such a car beside codes: with codes of the book, and
    ? for each place of the number."""
    lines = [m for m in _bearing(book, item, context) if len(m.fields) > 1 and not m.windows]
    of_car = [mark for mark in lines if mark.applies.covers(context)] or lines
    examples = dict.fromkeys(example_of(book, mark, mark.applies) for mark in of_car)
    with_codes = [each for each in examples if set(each) != {"?"}]
    return tuple(sorted(with_codes, key=len)[:FORMS_SHOWN])


def as_written(book: CodeBook, item: Item, number: str, context: CarContext = ANY_CAR) -> str:
    """A whole number as the mark of such a car writes it, the metal before papers: without the
    leading noughts for which the mark has no place."""
    of_car = (mark for mark in _bearing(book, item, context) if mark.applies.covers(context))
    places = next((f.widths[0] for mark in of_car for f in _wholes(mark, item)), len(number))
    noughts = len(number) - len(number.lstrip("0"))
    return number[max(0, min(noughts, len(number) - places)) :]


def bare(number: str) -> str:
    """A number as it is compared: capitals, without what people write between its places.

    >>> bare("10 55-12")
    '105512'
    """
    return "".join(sign for sign in number.upper() if sign not in " -.–/\t")


def _alone(book: CodeBook, item: Item, text: str, context: CarContext) -> NumberMeant | None:
    """A number without its codes: in full, or as short as a mark may have it."""
    if not text or not set(text) <= set(item.alphabet):
        return None
    if item.length in (0, len(text)):
        return NumberMeant(text)
    wholes = (f for mark in _bearing(book, item, context) for f in _wholes(mark, item))
    if "0" in item.alphabet and any(len(text) in field.widths for field in wholes):
        return NumberMeant(text.rjust(item.length, "0"))
    return None


def _by_its_form(book: CodeBook, item: Item, text: str, context: CarContext) -> NumberMeant | None:
    """A number with its codes, by the forms that fit it without any strain."""
    found: list[tuple[tuple[bool, bool, bool, int], str, Decoding]] = []
    for mark in _bearing(book, item, context):
        reading = parse_reading(text, mark)
        if reading.problems or reading.layout.strain >= UNSTRAINED:
            continue
        decoding = decode(reading, book, mark, context)
        number = _number_in(decoding, item)
        if number and _is_whole(decoding, mark):
            # 1-143216 has the stroke of the form with a prefix; figures alone would do without.
            strokes = sum(bool(f.before) and f.before in text for f in mark.fields)
            of_others = not mark.applies.covers(context)
            rank = (of_others, not mark.assembly, mark.windows, -strokes)
            found.append((rank, number, decoding))
    if not found:
        return None
    best, number, _ = min(found, key=lambda each: each[0])
    alike = [decoding for rank, other, decoding in found if (rank, other) == (best, number)]
    said = [dict(_codes_in(book, each)) for each in alike]
    agreed = {k: v for k, v in said[0].items() if all(each.get(k) == v for each in said)}
    return NumberMeant(number, tuple(agreed.items()))


def _bearing(book: CodeBook, item: Item, context: CarContext) -> Iterator[Mark]:
    """The marks that bear the whole number, one of each form: those of the car first, and
    the metal before papers."""
    seen: set[Hashable] = set()
    marks = [m for m in book.marks if not m.book and bears_whole(book, m, item)]
    for mark in sorted(marks, key=lambda m: (not m.applies.covers(context), not m.assembly)):
        if _form(mark) not in seen:
            seen.add(_form(mark))
            yield mark


def _form(mark: Mark) -> Hashable:
    fields = ((f.says, f.table, f.widths, f.alphabet, f.before, f.optional) for f in mark.fields)
    return (mark.windows, *fields, mark.applies)


def _wholes(mark: Mark, item: Item) -> Iterator[Field]:
    """The fields of a mark that hold all of the number by themselves."""
    return (f for f in mark.fields if f.says == item.id and f.part == IN_FULL)


def bears_whole(book: CodeBook, mark: Mark, item: Item) -> bool:
    """Does a mark bear the number of an item with all its places, in one field or in several?"""
    said = fields_said(book, mark)
    return any(field.says == item.id and field.part == IN_FULL for field in said)


def _is_whole(decoding: Decoding, mark: Mark) -> bool:
    """Does the text fill the form of a mark with codes that it has, and nothing left over?"""
    optional = {field.id for field in mark.fields if field.optional}
    has_gaps = {field.id for field in mark.fields if field.has_gaps}
    amiss = decoding.slip or decoding.unread or set(decoding.missing) - optional
    said = decoding.alternatives[0].fields if decoding.alternatives else ()
    is_listed = all(each.listed or each.field in has_gaps for each in said)
    return bool(said) and is_listed and not (amiss or decoding.is_unlike)


def _number_in(decoding: Decoding, item: Item) -> str:
    """The number of the item in full; empty where a place of it is unsure or lacks."""
    cells = [c for each in decoding.field_cells if each.says == item.id for c in each.cells]
    number = "".join(cell.characters if len(cell.characters) == 1 else "?" for cell in cells)
    return number if len(number) == item.length and set(number) <= set(item.alphabet) else ""


def _codes_in(book: CodeBook, decoding: Decoding) -> Iterator[tuple[str, str]]:
    """The codes of a decoding that say one thing, by rows that may argue; none where the car
    that is known makes another code likelier than the one that was typed."""
    typed = {each.field: as_typed(each.cells) for each in decoding.field_cells}
    if any(each.code != typed[each.field] for each in decoding.alternatives[0].fields):
        return
    shares: dict[tuple[str, str], float] = {}
    for each in decoding.alternatives:
        for meaning in each.fields:
            if meaning.listed and meaning.basis.weighs and meaning.value:
                said = (meaning.says, meaning.value)
                shares[said] = shares.get(said, 0.0) + each.share
    for (says, value), share in shares.items():
        item = book.item(says)
        if share >= SURE and item is not None and item.kind is ItemKind.CODE:
            yield says, value
