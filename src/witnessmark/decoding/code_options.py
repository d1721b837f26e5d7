"""A field with a code table: what was seen of it times what is listed for the cars in question.

The prior of a field's code: `decoding.not_listed` for a code that no row has,
`decoding.outside` for those that are listed only for other years, works or
models than the cars in question, the rest even over the codes that hold for them.

Each is multiplied with P(all that was seen | code), which seen.py has worked out once. A
code that was read clear stays what it is with `decoding.clear_stays` at least, whether or
not the book has it; one with a character that the field cannot have is not listed.
"""

from collections.abc import Hashable
from dataclasses import dataclass

from witnessmark.casefile.words import Legibility
from witnessmark.catalogue import from_to, in_a_row, said, spoken
from witnessmark.codebook import Applies, CodeBook, CodeRow, Field, Mark
from witnessmark.decoding.hypotheses import is_another, meet, what_is_own
from witnessmark.decoding.kept import Kept, kept, table_rows
from witnessmark.decoding.options import FieldOption, is_clear, not_listed
from witnessmark.decoding.rates import (
    CLEAR_STAYS_ROW,
    NOT_LISTED_ROW,
    OUTSIDE_ROW,
    shipped_value,
)
from witnessmark.decoding.records import FieldMeaning, FieldSeen
from witnessmark.reading import Cell, CellKind, kept_beside

LEAST_SHARE = 1e-5
"""A listed code with a smaller share than this is not among a field's options."""


@dataclass(frozen=True, slots=True)
class ListedCode:
    """A code and what each of its rows means; `is_outside` where none holds for these cars."""

    code: str
    meanings: tuple[tuple[FieldMeaning, Applies], ...]
    is_outside: bool


def listed_for_cars(
    book: CodeBook, mark: Mark, field: Field, cars: Applies, known: Applies | None = None
) -> tuple[ListedCode, ...]:
    """Every code of a field's table, with the rows that hold for these cars or else all.

    `known`: the cars among which these are only supposed; a row that does not hold for all
    of them is told with those for which it does.
    """
    question = (mark.id, field.id, cars_alike(book, field, cars, known), spoken())
    return kept(
        book, "listed", question, lambda: _listed_for(book, mark, field, cars, known or cars)
    )


def cars_alike(
    book: CodeBook, field: Field, cars: Applies, known: Applies | None = None
) -> Hashable:
    """Equal for cars for which the same rows of a field's table hold."""
    among = None if known is None or known == cars else rows_for(book, field.table, known)
    return rows_for(book, field.table, cars), what_is_own(book, field.says, cars), among


def rows_for(book: CodeBook, table: str, cars: Applies) -> int:
    """Which rows of a table hold for some of these cars: equal where the same do."""
    return _holding(book).among(table, cars)


class Holding:
    """Which rows of a book hold for some cars: a number with one bit for each set of cars for
    which any row is listed."""

    def __init__(self, book: CodeBook) -> None:
        cars = dict.fromkeys(row.applies for row in book.codes)
        self.bits = {each: 1 << at for at, each in enumerate(cars)}
        self.of_table: dict[str, int] = {}
        for row in book.codes:
            self.of_table[row.table] = self.of_table.get(row.table, 0) | self.bits[row.applies]
        self.known: Kept[int] = Kept()

    def among(self, table: str, cars: Applies) -> int:
        """Those of one table that hold for some of these cars."""
        found = self.known.ask(
            cars, lambda: sum(bit for each, bit in self.bits.items() if meet(each, cars))
        )
        return found & self.of_table.get(table, 0)


def _listed_for(
    book: CodeBook, mark: Mark, field: Field, cars: Applies, known: Applies
) -> tuple[ListedCode, ...]:
    rows_of: dict[str, list[CodeRow]] = {}
    for row in table_rows(book, field.table):
        rows_of.setdefault(row.code, []).append(row)
    return tuple(
        _listed(book, mark, field, cars=cars, known=known, rows=rows) for rows in rows_of.values()
    )


def _listed(
    book: CodeBook, mark: Mark, field: Field, cars: Applies, known: Applies, rows: list[CodeRow]
) -> ListedCode:
    """One code with the rows that hold for these cars, or else with all its rows."""
    meeting = [row for row in rows if meet(row.applies, cars) and meet(row.applies, mark.applies)]
    holding = [row for row in meeting if not is_another(book, field.says, row.value, cars)]
    shown = holding or meeting or rows
    own = [row for row in rows if meet(row.applies, known) and meet(row.applies, mark.applies)]
    for_known = own if known != cars else shown
    is_limited = not meeting or any(row.applies != shown[0].applies for row in for_known)
    # Where two rows say the same, one that weighs speaks for it.
    said_once: dict[tuple[str, str], tuple[FieldMeaning, Applies]] = {}
    for row in sorted(shown, key=lambda each: not each.citation.basis.weighs):
        meaning = _meaning(book, field, row, is_limited)
        said_once.setdefault((meaning.value, meaning.meaning), (meaning, row.applies))
    return ListedCode(rows[0].code, tuple(said_once.values()), is_outside=not holding)


_holding = kept_beside(Holding)


def code_options(
    book: CodeBook,
    mark: Mark,
    field: Field,
    seen: FieldSeen,
    cars: Applies,
    known: Applies | None = None,
) -> tuple[FieldOption, ...]:
    """What the field may say, the likeliest first, "not listed" in its place among them."""
    cells = tuple(cell for each in seen.readings[:1] for cell in each.cells.cells)
    listed = listed_for_cars(book, mark, field, cars, known)
    own = kept(
        book,
        "characters of a code",
        (field.table, field.alphabet),
        lambda: set(field.alphabet).union(*(each.code for each in listed)),
    )
    if any(is_foreign(cell, own) for each in seen.readings for cell in each.cells.cells):
        return (FieldOption(1.0, not_listed(field, cells)),)
    # What is listed stands in the order of the codes that were seen; of an empty field none were.
    likely = [
        (each, likelihood)
        for each, (_, likelihood) in zip(listed, seen.codes, strict=False)
        if likelihood > 0.0
    ]
    fitting = [each for each, _ in likely]
    inside = sum(not each.is_outside for each in fitting)
    outside = len(fitting) - inside
    unlisted = shipped_value(NOT_LISTED_ROW)
    outside_share = shipped_value(OUTSIDE_ROW) if outside else 0.0
    within = (1.0 - unlisted - outside_share) / max(inside, 1)
    without = outside_share / max(outside, 1)
    weights = [(without if each.is_outside else within) * seen_so for each, seen_so in likely]
    other = unlisted * seen.unlisted
    if weights and all(each.reading.legibility is Legibility.CLEAR for each in seen.readings):
        weights, other = _kept_as_read(seen, fitting, weights, other)
    total = (sum(weights) + other) or 1.0
    options = [
        FieldOption(weight / total / len(each.meanings), meaning, applies)
        for each, weight in zip(fitting, weights, strict=True)
        if weight / total > LEAST_SHARE
        for meaning, applies in each.meanings
    ]
    options.append(FieldOption(other / total if weights else 1.0, not_listed(field, cells)))
    return tuple(sorted(options, key=lambda option: -option.share))


def is_foreign(cell: Cell, alphabet: set[str] | str) -> bool:
    """Was a character read there for certain that the field cannot have?"""
    return cell.kind is CellKind.CLEAR and cell.characters not in alphabet


def _kept_as_read(
    seen: FieldSeen, listed: list[ListedCode], weights: list[float], other: float
) -> tuple[list[float], float]:
    """The weights of the listed codes and of all others, where every place was read clear and
    alike: what was read keeps `decoding.clear_stays` of all at least."""
    if any(each.cells.missing or not is_clear(each.cells.cells) for each in seen.readings):
        return weights, other
    texts = {"".join([c.characters for c in each.cells.cells]) for each in seen.readings}
    if len(texts) > 1:
        return weights, other
    read = texts.pop()
    stays = shipped_value(CLEAR_STAYS_ROW)
    own = sum(w for each, w in zip(listed, weights, strict=True) if each.code == read)
    if not own:
        return weights, max(other, sum(weights) * stays / (1.0 - stays))
    rest = sum(weights) + other - own
    shrunk = min(1.0, own * (1.0 - stays) / stays / rest) if rest else 1.0
    kept_weights = [
        w if each.code == read else w * shrunk for each, w in zip(listed, weights, strict=True)
    ]
    return kept_weights, other * shrunk


def _meaning(book: CodeBook, field: Field, row: CodeRow, is_limited: bool) -> FieldMeaning:
    """The meaning of one row; with its years, works and models where they matter."""
    meaning = row.meaning
    if is_limited:
        limits = _limits(book, row.applies)
        meaning = said("{meaning} (listed for {limits})", meaning=meaning, limits=limits)
    if row.disputed:
        meaning = said("{meaning} (sources disagree)", meaning=meaning)
    return FieldMeaning(
        field=field.id,
        code=row.code,
        says=field.says,
        value=row.value,
        meaning=meaning,
        basis=row.citation.basis,
        source=row.citation.source,
        plain=row.meaning,
    )


def _limits(book: CodeBook, applies: Applies) -> str:
    """The years, works and models of a row in words."""
    parts = [from_to(applies.first_year, applies.last_year)]
    parts += [works.name for works in book.works if works.id in applies.works]
    parts += [model.name for model in book.models if model.id in applies.models]
    return in_a_row(parts, ", ")
