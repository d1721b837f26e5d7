"""How many plates a second are decoded, beside a naive decoding by regular expression.

The naive one is written here over the same tables: one pattern for each mark,
the first row for each code. It reads clear characters only and gives one
meaning. It knows no doubt and no share, no second meaning, no year, model or
works, no date, no number's series, no problem with a place, and drops what does
not match; so it says what the tables cost, not what the job costs.
"""

import random
import re
import time
from collections.abc import Callable
from dataclasses import dataclass

from benchmarks.cars import Car
from benchmarks.figure import Figure
from benchmarks.scale import Scale
from witnessmark.codebook import CodeBook, Field, Mark, MarkKind
from witnessmark.decoding import decode
from witnessmark.reading import parse_reading

SEED = 20_260_101
DOUBTED = 0.15
"""Share of the characters of a doubtful plate that are worn away or one of two."""


@dataclass(frozen=True, slots=True)
class Plate:
    """What stands on one plate: clear, and as somebody reads it who is in doubt."""

    mark: Mark
    clear: str
    doubtful: str


@dataclass(frozen=True, slots=True)
class Naive:
    """The pattern of one mark, and for each field the meaning of each code."""

    pattern: re.Pattern[str]
    meanings: dict[str, dict[str, str]]

    def decoded(self, text: str) -> dict[str, str] | None:
        """Field to meaning, or None where the plate does not match."""
        match = self.pattern.fullmatch(text)
        if match is None:
            return None
        return {
            name: self.meanings[name].get(code, code) for name, code in match.groupdict().items()
        }


def measure(car: Car, scale: Scale) -> list[Figure]:
    """Clear plates and doubtful ones, by us; the clear ones, naively."""
    plates = drawn_plates(car.book, scale.plates)
    naive = {plate.mark.id: naive_of(plate.mark, car.book) for plate in plates}
    clear = _per_second(lambda p: decoded(p.mark, p.clear, car.book), plates)
    doubtful = _per_second(lambda p: decoded(p.mark, p.doubtful, car.book), plates)
    simple = _per_second(lambda p: naive[p.mark.id].decoded(p.clear), plates)
    beside = f"a regular expression ({simple:,.0f} plates/s)"
    count = len(plates)
    left_out = "clear characters, one meaning: no doubt, shares, years, dates, series or problems"
    return [
        Figure(
            "decoding, clear plates",
            clear,
            "plates/s",
            count,
            ratio=clear / simple,
            ratio_to=beside,
        ),
        Figure("decoding, doubtful plates", doubtful, "plates/s", count),
        Figure("the naive decoding", simple, "plates/s", count, note=left_out),
    ]


def decoded(mark: Mark, text: str, book: CodeBook) -> object:
    """One plate, from what was typed to its meanings."""
    return decode(parse_reading(text, mark), book, mark)


def _per_second(work: Callable[[Plate], object], plates: list[Plate]) -> float:
    for plate in plates[:20]:
        work(plate)
    start = time.perf_counter()
    for plate in plates:
        work(plate)
    return len(plates) / (time.perf_counter() - start)


def drawn_plates(book: CodeBook, count: int) -> list[Plate]:
    """So many plates of the book's own marks, drawn from its tables; always the same ones."""
    chance = random.Random(SEED)
    marks = [mark for mark in book.marks if mark.kind is not MarkKind.PAPER]
    found = []
    for number in range(count):
        mark = marks[number % len(marks)]
        fields = [_drawn(field, book, chance) for field in mark.fields]
        between = "|" if mark.windows else " "
        doubtful = ["".join(_doubted(c, chance) for c in characters) for characters in fields]
        found.append(Plate(mark, between.join(fields), between.join(doubtful)))
    return found


def _drawn(field: Field, book: CodeBook, chance: random.Random) -> str:
    """A code of the field's table, or characters of its alphabet."""
    codes = codes_of(field, book)
    if codes:
        return chance.choice(sorted(codes))
    width = chance.choice(field.widths) if field.widths else 1
    return "".join(chance.choice(field.alphabet) for _ in range(width))


def codes_of(field: Field, book: CodeBook) -> dict[str, str]:
    """Code to meaning; the first row of each code."""
    found: dict[str, str] = {}
    if field.table:
        for row in book.table(field.table):
            found.setdefault(row.code, row.meaning)
    return found


def _doubted(character: str, chance: random.Random) -> str:
    if chance.random() >= DOUBTED:
        return character
    other = chance.choice("0123456789" if character.isdigit() else "ABCDEFGHKLMNPRST")
    return chance.choice(["?", character if other == character else f"[{character}{other}]"])


def naive_of(mark: Mark, book: CodeBook) -> Naive:
    """The naive decoding of one mark."""
    parts, meanings = [], {}
    for field in mark.fields:
        codes = codes_of(field, book)
        meanings[field.id] = codes
        if codes:
            inside = "|".join(re.escape(code) for code in sorted(codes, key=len, reverse=True))
        else:
            widths = field.widths or (1,)
            inside = f"[{re.escape(field.alphabet)}]{{{min(widths)},{max(widths)}}}"
        parts.append(f"(?P<{field.id}>{inside})")
    between = r"\|" if mark.windows else " "
    return Naive(re.compile(between.join(parts)), meanings)
