"""A field with a code table: every listed code against what was read, and "not listed".

The prior of a field's code: `decoding.not_listed` for a code that no row has,
`decoding.outside` for those that are listed only for other years, works or
models than given, the rest even over the codes that hold for this car. Of the
codes that no row has, a share (`decoding.not_listed_near`) differs from a listed
code in one place, the rest is even over all texts that the alphabet allows.

Each code is multiplied with P(cells | code), place by place; a clear code that
the book does not have therefore stays what it is.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from math import prod

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark
from witnessmark.codebook.records import Applies, CarContext, CodeRow
from witnessmark.decoding.align import AlignedField
from witnessmark.decoding.options import Asked, FieldOption, not_listed
from witnessmark.decoding.rates import NEAR_ROW, NOT_LISTED_ROW, OUTSIDE_ROW, shipped_value
from witnessmark.decoding.records import FieldMeaning
from witnessmark.reading.records import Cell, CellKind

LEAST_SHARE = 1e-5
"""A listed code with a smaller share than this is not among a field's options."""


@dataclass(frozen=True, slots=True)
class _Listed:
    """A code and the rows that list it; `is_outside` where none of them holds for this car."""

    code: str
    rows: tuple[CodeRow, ...]
    is_outside: bool


@dataclass(frozen=True, slots=True)
class _Places:
    """One way to count the cells of a field: P(cell | t) for each of its places."""

    likelihoods: tuple[tuple[float, ...], ...]
    alphabet: str

    def of(self, code: str) -> float:
        """P(cells | code)."""
        index = _index(self.alphabet)
        return prod(row[index[each]] for row, each in zip(self.likelihoods, code, strict=True))


def code_options(asked: Asked, aligned: AlignedField) -> tuple[FieldOption, ...]:
    """What the field may say, the likeliest first, "not listed" in its place among them."""
    field = aligned.field
    listed = _listed(asked.book, field.table, asked.mark, asked.context)
    alphabet = _alphabet(field.alphabet, tuple(each.code for each in listed))
    ways = _ways(asked, aligned, alphabet)
    fitting = [each for each in listed if len(each.code) in ways]
    inside = sum(not each.is_outside for each in fitting)
    outside = len(fitting) - inside
    unlisted = shipped_value(NOT_LISTED_ROW)
    outside_share = shipped_value(OUTSIDE_ROW) if outside else 0.0
    weights = []
    for each in fitting:
        prior = (
            outside_share / outside
            if each.is_outside
            else (1.0 - unlisted - outside_share) / inside
        )
        weights.append(prior * ways[len(each.code)].of(each.code))
    other = unlisted * _none_of(ways, tuple(each.code for each in fitting))
    total = (sum(weights) + other) or 1.0
    options = [
        FieldOption(weight / total / len(each.rows), _meaning(asked, aligned, each, row))
        for each, weight in zip(fitting, weights, strict=True)
        for row in each.rows
        if weight / total > LEAST_SHARE
    ]
    cells = aligned.cells.cells
    options.append(FieldOption(other / total if weights else 1.0, not_listed(field, cells)))
    return tuple(sorted(options, key=lambda option: -option.share))


def _listed(book: CodeBook, table: str, mark: Mark, context: CarContext) -> tuple[_Listed, ...]:
    """Every code of the table with the rows that hold for this car, or else all its rows."""
    rows_of: dict[str, list[CodeRow]] = {}
    for row in table_rows(book, table):
        rows_of.setdefault(row.code, []).append(row)
    listed = []
    for code, rows in rows_of.items():
        holding = [
            row for row in rows if row.applies.covers(context) and _meet(row.applies, mark.applies)
        ]
        listed.append(_Listed(code, tuple(holding or rows), is_outside=not holding))
    return tuple(listed)


_TABLES: dict[int, tuple[CodeBook, dict[str, tuple[CodeRow, ...]]]] = {}
_BOOKS_REMEMBERED = 8


def table_rows(book: CodeBook, table: str) -> tuple[CodeRow, ...]:
    """The rows of one table of a book.

    Kept by the book's identity, since to compare or hash a whole book takes far
    longer than to decode a plate; the book is kept beside its rows, so that no
    other can take its place.
    """
    known = _TABLES.get(id(book))
    if known is None or known[0] is not book:
        rows_of: dict[str, list[CodeRow]] = {}
        for row in book.codes:
            rows_of.setdefault(row.table, []).append(row)
        if len(_TABLES) >= _BOOKS_REMEMBERED:
            _TABLES.clear()
        known = (book, {name: tuple(rows) for name, rows in rows_of.items()})
        _TABLES[id(book)] = known
    return known[1].get(table, ())


def _meet(first: Applies, second: Applies) -> bool:
    """Is there a car for which both hold?"""
    return (
        first.first_year <= second.last_year
        and second.first_year <= first.last_year
        and (not first.works or not second.works or bool(first.works & second.works))
        and (not first.models or not second.models or bool(first.models & second.models))
    )


@lru_cache(maxsize=512)
def _alphabet(alphabet: str, codes: tuple[str, ...]) -> str:
    """The field's alphabet, with the characters that only its codes have."""
    return "".join(dict.fromkeys(alphabet + "".join(codes)))


@lru_cache(maxsize=512)
def _index(alphabet: str) -> dict[str, int]:
    return {character: place for place, character in enumerate(alphabet)}


def _ways(asked: Asked, aligned: AlignedField, alphabet: str) -> dict[int, _Places]:
    """The lengths that the code can have by what was read, each with its places.

    Usually one. A typed … may stand for fewer places than the longest width
    needs; places never struck at the end are no part of a shorter code.
    """
    cells = aligned.cells.cells
    shorter = _struck(cells)
    if len(shorter) < len(cells) and len(shorter) in aligned.field.widths:
        cells = shorter
    rows = tuple(asked.place(cell, alphabet) for cell in cells)
    ways = {len(rows): _Places(rows, alphabet)}
    for fewer in range(1, aligned.lost + 1):
        length = len(rows) - fewer
        if length > 0 and length in aligned.field.widths:
            kept = rows[: aligned.lost_at] + rows[aligned.lost_at + fewer :]
            ways[length] = _Places(kept, alphabet)
    return ways


def _struck(cells: tuple[Cell, ...]) -> tuple[Cell, ...]:
    """Without the places at either end that were never struck."""
    struck = [place for place, cell in enumerate(cells) if cell.kind is not CellKind.NEVER_STRUCK]
    return cells[struck[0] : struck[-1] + 1] if struck else cells


def _none_of(ways: dict[int, _Places], codes: tuple[str, ...]) -> float:
    """P(cells | a code that no row has), averaged over the lengths it can have."""
    values = [
        _unlisted_likelihood(places, tuple(code for code in codes if len(code) == length))
        for length, places in ways.items()
    ]
    return sum(values) / len(values) if values else 0.0


def _unlisted_likelihood(places: _Places, codes: tuple[str, ...]) -> float:
    """P(cells | a code of this length that no row has), by the two kinds of such codes."""
    length, size = len(places.likelihoods), len(places.alphabet)
    sums = [sum(row) for row in places.likelihoods]
    listed = [places.of(code) for code in codes]
    texts = size**length - len(codes)
    anywhere = max(prod(sums) - sum(listed), 0.0) / texts if texts else 0.0
    neighbours = _neighbours(codes)
    near_texts = len(codes) * length * (size - 1) - sum(neighbours)
    if not near_texts:
        return anywhere
    index = _index(places.alphabet)
    near = -sum(count * value for count, value in zip(neighbours, listed, strict=True))
    for code in codes:
        own = [row[index[each]] for row, each in zip(places.likelihoods, code, strict=True)]
        for place in range(length):
            rest = prod(own[:place]) * prod(own[place + 1 :])
            near += rest * (sums[place] - own[place])
    share = shipped_value(NEAR_ROW)
    return (1.0 - share) * anywhere + share * max(near, 0.0) / near_texts


@lru_cache(maxsize=512)
def _neighbours(codes: tuple[str, ...]) -> tuple[int, ...]:
    """For each code, the number of others that differ from it in one place."""

    def patterns(code: str) -> Iterable[tuple[str, str]]:
        return ((code[:place], code[place + 1 :]) for place in range(len(code)))

    counts = Counter(pattern for code in codes for pattern in patterns(code))
    return tuple(sum(counts[pattern] - 1 for pattern in patterns(code)) for code in codes)


def _meaning(asked: Asked, aligned: AlignedField, listed: _Listed, row: CodeRow) -> FieldMeaning:
    """The meaning of one row; with its years and works where they matter."""
    meaning = row.meaning
    if listed.is_outside or _differ(listed.rows):
        meaning = f"{meaning} (listed for {_limits(row.applies, asked)})"
    if row.disputed:
        meaning = f"{meaning} (sources disagree)"
    return FieldMeaning(
        field=aligned.field.id,
        code=row.code,
        says=aligned.field.says,
        value=row.value,
        meaning=meaning,
        basis=row.citation.basis,
        source=row.citation.source,
    )


def _differ(rows: tuple[CodeRow, ...]) -> bool:
    """Do the rows of a code hold for different cars?"""
    return any(row.applies != rows[0].applies for row in rows)


def _limits(applies: Applies, asked: Asked) -> str:
    """The years, works and models of a row in words."""
    first, last = applies.first_year, applies.last_year
    parts = [str(first) if first == last else f"{first} to {last}"]
    parts += [works.name for works in asked.book.works if works.id in applies.works]
    parts += [model.name for model in asked.book.models if model.id in applies.models]
    return ", ".join(parts)
