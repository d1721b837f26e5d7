"""The rules of a number of seventeen characters, as the tables of its code book have them."""

from dataclasses import dataclass

from witnessmark.codebook import Citation, CodeBook, CodeRow
from witnessmark.decoding.kept import table_rows
from witnessmark.reading import kept_beside

LENGTH = 17
CHECK, YEAR, SEVENTH = 9, 10, 7
"""Positions, counted from 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberRules:
    """The tables by name, looked up.

    `values` are what the characters count, `weights` how often each position
    counts, in order; `digits` are the check characters by remainder, so that
    their number is the divisor. `kinds` says of each permitted character whether
    it is a letter or a digit. `years` are the years of each code in order,
    `alike` the characters that each is taken for.
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

    def permitted(self, position: int) -> str:
        """The characters that the rule allows at this position, in the book's order."""
        if position == CHECK:
            return "".join(self.digits)
        if position == YEAR:
            return "".join(each for each in self.kinds if each not in self.never_in_year)
        return "".join(self.kinds)

    def said(self, remark: str, otherwise: Citation) -> Citation:
        """Who says what this remark of the book says."""
        found = (each.citation for each in self.book.remarks if each.id == remark)
        return next(found, otherwise)

    def cited(self, table: str, otherwise: Citation) -> Citation:
        """Who says what this table of the book says."""
        return next((row.citation for row in table_rows(self.book, table)), otherwise)


@kept_beside
def rules_of(book: CodeBook) -> NumberRules | None:
    """The rules in a book; None where its tables do not give a check digit."""
    values = _numbers(book, "letter_values")
    weights = _in_order(_numbers(book, "weights"), LENGTH)
    remainders = _numbers(book, "check_digits")
    digits = tuple(sorted(remainders, key=lambda digit: remainders[digit]))
    kinds = {row.code: row.value for row in table_rows(book, "characters")}
    is_sound = sorted(remainders.values()) == list(range(len(remainders))) and len(digits) > 1
    if not (is_sound and weights and set(kinds) == set(values)):
        return None
    return NumberRules(
        book=book,
        values=values,
        weights=weights,
        digits=digits,
        kinds=kinds,
        never_used=frozenset(row.code for row in table_rows(book, "never_used")),
        never_in_year=frozenset(row.code for row in table_rows(book, "never_in_year")),
        years=_years(book),
        regions={row.code: row for row in table_rows(book, "regions")},
        alike=_alike(book),
    )


def _numbers(book: CodeBook, table: str) -> dict[str, int]:
    """The rows of a table whose value is a whole number."""
    rows = table_rows(book, table)
    return {row.code: int(row.value) for row in rows if row.value.isascii() and row.value.isdigit()}


def _in_order(weights: dict[str, int], length: int) -> tuple[int, ...]:
    """The weights of positions 1 to `length`; none where one is missing."""
    codes = [str(position) for position in range(1, length + 1)]
    return tuple(weights[code] for code in codes) if set(codes) == set(weights) else ()


def _years(book: CodeBook) -> dict[str, tuple[int, ...]]:
    years: dict[str, set[int]] = {}
    for row in table_rows(book, "years"):
        if row.value.isascii() and row.value.isdigit():
            years.setdefault(row.code, set()).add(int(row.value))
    return {code: tuple(sorted(found)) for code, found in years.items()}


def _alike(book: CodeBook) -> dict[str, frozenset[str]]:
    alike: dict[str, set[str]] = {}
    for row in table_rows(book, "look_alikes"):
        if len(row.code) == 2:
            first, second = row.code[0], row.code[1]
            alike.setdefault(first, set()).add(second)
            alike.setdefault(second, set()).add(first)
    return {character: frozenset(others) for character, others in alike.items()}
