"""The rules of a number of seventeen characters, as the tables of its code book have them."""

from dataclasses import dataclass

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.qualified import qualified
from witnessmark.codebook.records import Citation, CodeRow
from witnessmark.decoding.kept import kept, table_rows

LENGTH = 17
CHECK, YEAR, SEVENTH = 9, 10, 7
"""Positions, counted from 1."""


@dataclass(frozen=True, slots=True)
class NumberRules:
    """The tables by name, looked up.

    `values` are what the characters count, `weights` how often each position
    counts, in order; `digits` are the check characters by remainder, so that
    their number is the divisor. `kinds` says of each permitted character whether
    it is a letter or a digit. `years` are the years of each code in order,
    `alike` the characters that each is taken for. `further` is the book beside the
    maker's whose tables these are, empty for the maker's own.
    """

    book: CodeBook
    values: dict[str, int]
    weights: tuple[int, ...]
    digits: tuple[str, ...]
    kinds: dict[str, str]
    never_used: frozenset[str]
    never_in_year: frozenset[str]
    years: dict[str, tuple[int, ...]]
    regions: dict[str, CodeRow]
    alike: dict[str, frozenset[str]]
    further: str = ""

    def permitted(self, position: int) -> str:
        """The characters that the rule allows at this position, in the book's order."""
        if position == CHECK:
            return "".join(self.digits)
        if position == YEAR:
            return "".join(each for each in self.kinds if each not in self.never_in_year)
        return "".join(self.kinds)

    def said(self, remark: str, otherwise: Citation) -> Citation:
        """Who says what this remark of the book says."""
        wanted = qualified(self.further, remark)
        found = (each.citation for each in self.book.remarks if each.id == wanted)
        return next(found, otherwise)

    def cited(self, table: str, otherwise: Citation) -> Citation:
        """Who says what this table of the book says."""
        rows = table_rows(self.book, qualified(self.further, table))
        return next((row.citation for row in rows), otherwise)


@dataclass(frozen=True, slots=True)
class _Tables:
    """The code tables of a book, or of a further one beside it, by the names they have there."""

    book: CodeBook
    further: str

    def rows(self, table: str) -> tuple[CodeRow, ...]:
        return table_rows(self.book, qualified(self.further, table))

    def codes(self, table: str) -> frozenset[str]:
        return frozenset(row.code for row in self.rows(table))


def rules_of(book: CodeBook, further: str = "") -> NumberRules | None:
    """The rules in this book, or in a further one beside it; None where its tables do not give
    a check digit."""
    question = ("the rules of seventeen characters", further)
    return kept(book, question, lambda: _rules_of(_Tables(book, further)))


def _rules_of(tables: _Tables) -> NumberRules | None:
    values = _numbers(tables, "letter_values")
    weights = _in_order(_numbers(tables, "weights"), LENGTH)
    remainders = _numbers(tables, "check_digits")
    digits = tuple(sorted(remainders, key=lambda digit: remainders[digit]))
    kinds = {row.code: row.value for row in tables.rows("characters")}
    is_sound = sorted(remainders.values()) == list(range(len(remainders))) and len(digits) > 1
    if not (is_sound and weights and set(kinds) == set(values)):
        return None
    return NumberRules(
        book=tables.book,
        values=values,
        weights=weights,
        digits=digits,
        kinds=kinds,
        never_used=tables.codes("never_used"),
        never_in_year=tables.codes("never_in_year"),
        years=_years(tables),
        regions={row.code: row for row in tables.rows("regions")},
        alike=_alike(tables),
        further=tables.further,
    )


def _numbers(tables: _Tables, table: str) -> dict[str, int]:
    """The rows of a table whose value is a whole number."""
    rows = tables.rows(table)
    return {row.code: int(row.value) for row in rows if row.value.isascii() and row.value.isdigit()}


def _in_order(weights: dict[str, int], length: int) -> tuple[int, ...]:
    """The weights of positions 1 to `length`; none where one is missing."""
    codes = [str(position) for position in range(1, length + 1)]
    return tuple(weights[code] for code in codes) if set(codes) == set(weights) else ()


def _years(tables: _Tables) -> dict[str, tuple[int, ...]]:
    years: dict[str, set[int]] = {}
    for row in tables.rows("years"):
        if row.value.isascii() and row.value.isdigit():
            years.setdefault(row.code, set()).add(int(row.value))
    return {code: tuple(sorted(found)) for code, found in years.items()}


def _alike(tables: _Tables) -> dict[str, frozenset[str]]:
    alike: dict[str, set[str]] = {}
    for row in tables.rows("look_alikes"):
        if len(row.code) == 2:
            first, second = row.code[0], row.code[1]
            alike.setdefault(first, set()).add(second)
            alike.setdefault(second, set()).add(first)
    return {character: frozenset(others) for character, others in alike.items()}
