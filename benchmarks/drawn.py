"""Readings drawn from a book's own tables, each well formed: as the metal has it.

A year of the mark is drawn first, then codes that the book lists for such a car, days on
which a date of it can have fallen, numbers of its series. What stands before a field on
the metal (TR, PNT) is typed as well. A field that may be absent is absent as often as
not, unless its window would be empty.
"""

import random
from collections.abc import Iterator
from dataclasses import dataclass, replace

from witnessmark.codebook import CarContext, CodeBook, CodeRow, Field, Mark, render_date_code
from witnessmark.dates import year_span
from witnessmark.reading import parse_reading

SEED = 20_260_101
TRIES = 60
"""Draws of one mark, or of one day, that may fail before it is given up."""

DOUBTED = 0.15
"""Share of the characters of a doubtful reading that are worn away or one of two."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """What stands on one mark, and as somebody types it who is in doubt."""

    mark: Mark
    text: str
    doubtful: str


class NotDrawnError(ValueError):
    """No well-formed reading of a mark was found: its fields cannot be told apart."""


def well_formed(book: CodeBook, mark: Mark, count: int, seed: int = SEED) -> tuple[Drawn, ...]:
    """So many readings of one mark; always the same ones. Raises NotDrawnError."""
    drawing = _Drawing(book, mark, random.Random(f"{seed} {book.id} {mark.id}"))
    return tuple(drawing.one() for _ in range(count))


def fits(mark: Mark, text: str) -> bool:
    """Does a text lie in the fields of its mark with nothing left over or missing?"""
    reading = parse_reading(text, mark)
    layout = reading.layout
    lacks = any(placed.missing for placed in layout.placed)
    return not (reading.problems or lacks or layout.around or layout.unread or not layout.is_plain)


class _Drawing:
    """One book and mark, with what was looked up before."""

    def __init__(self, book: CodeBook, mark: Mark, chance: random.Random) -> None:
        self.book, self.mark, self.chance = book, mark, chance
        self.windows = mark.windows_in_order() if mark.windows else (mark.fields,)
        self.roles = {works.role for works in book.works}
        self.known: dict[tuple[str, CarContext], list[CodeRow]] = {}
        self.car = CarContext()

    def one(self) -> Drawn:
        """One reading whose fields can be told apart."""
        first = max(self.mark.applies.first_year, self.book.first_year)
        last = min(self.mark.applies.last_year, self.book.last_year)
        for _ in range(TRIES):
            works = sorted(self.mark.applies.works)
            self.car = CarContext(
                self.chance.randint(first, last) if first <= last else None,
                works=frozenset({self.chance.choice(works)} if works else ()),
            )
            text = "|".join([self._window(fields) for fields in self.windows])
            if fits(self.mark, text):
                doubtful = "".join([_doubted(each, self.chance) for each in text])
                return Drawn(self.mark, text, doubtful)
        raise NotDrawnError(self.mark.id)

    def _window(self, fields: tuple[Field, ...]) -> str:
        """The fields of a window, parted by a blank where their lengths do not part them."""
        text, is_open = "", False
        for field in fields:
            if field.optional and len(fields) > 1 and self.chance.random() < 0.5:
                continue
            is_loose = field.optional or len(field.widths) > 1
            between = " " if text and (is_open or is_loose) else ""
            text += between + field.before + self._field(field)
            is_open = is_loose
        return text

    def _field(self, field: Field) -> str:
        if field.table:
            return self._code(field)
        if field.date_form:
            return next((code for code in self._dates(field) if _can_hold(field, code)), "")
        return self._number(field)

    def _code(self, field: Field) -> str:
        """A code of such a car, which from then on is what the code says of it."""
        rows = self._rows(field)
        if not rows:
            return ""
        row = self.chance.choice(rows)
        if row.citation.basis.weighs and row.value:
            if field.says == "model":
                self.car = replace(self.car, model=row.value)
            elif field.says in self.roles:
                self.car = replace(self.car, works=self.car.works | {row.value})
        return row.code

    def _rows(self, field: Field) -> list[CodeRow]:
        question = (field.id, self.car)
        if question not in self.known:
            able = [row for row in self.book.table(field.table) if _can_hold(field, row.code)]
            if field.says == "model_year":
                able = [row for row in able if row.value == str(self.car.model_year)] or able
            of_car = [row for row in able if row.applies.covers(self.car)]
            self.known[question] = of_car or able
        return self.known[question]

    def _dates(self, field: Field) -> Iterator[str]:
        """Codes of days on which such a car was built, or of the form's years."""
        form = self.book.date_form(field.date_form)
        assert form is not None, field.date_form
        year = self.car.model_year or 0
        for _ in range(TRIES):
            run = self.chance.choice(self.book.runs_for(self.car)) if form.within_run else None
            is_known = form.first_year <= year <= form.last_year
            span = year_span(year, year) if is_known else year_span(form.first_year, form.last_year)
            low, high = (run.first, run.last) if run else (span.first, span.last)
            day = self.chance.randint(low.toordinal(), high.toordinal())
            yield from render_date_code(form, low.fromordinal(day), self.book.codes, run)

    def _number(self, field: Field) -> str:
        """A number of a series of such cars, or any characters."""
        rows = [
            row
            for row in self.book.series
            if row.item == field.says and row.applies.covers(self.car)
            if row.first.isdigit() and row.last.isdigit() and len(row.first) in field.widths
        ]
        if not rows or field.part != "all":
            count = self.chance.choice(field.widths)
            return "".join([self.chance.choice(field.alphabet) for _ in range(count)])
        row = self.chance.choice(rows)
        number = self.chance.randint(int(row.first), int(row.last))
        return str(number).zfill(len(row.first))


def _can_hold(field: Field, code: str) -> bool:
    return len(code) in field.widths and set(code) <= set(field.alphabet)


def _doubted(character: str, chance: random.Random) -> str:
    if not character.isalnum() or chance.random() >= DOUBTED:
        return character
    other = chance.choice("0123456789" if character.isdigit() else "ABCDEFGHKLMNPRST")
    return chance.choice(["?", character if other == character else f"[{character}{other}]"])
