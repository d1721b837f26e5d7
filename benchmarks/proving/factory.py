"""The factory: which cars it built, and what it struck on them.

A *slice* is a series, a coachbuilder and a month of completion; a car belongs to one.
Given its slice, a car's chassis number, engine, gearbox, axle, body number and colours
are drawn apart from each other: numbers follow the days on which parts were made, along
curves that wander against the calendar, and parts wait in stock before they are fitted.
"""

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.days import N_DAYS, day_of, month_starts
from witnessmark.codebook import CodeBook, find_book, open_book

Array = NDArray[np.float64]
Index = NDArray[np.intp]

BOOK = "tarvane-1952-1961"
COACHBUILDERS = ("ellery", "marrick")
LAST_YEAR = 1959
"""The last in which each part has a number of its own: see `numbered` for those after."""
LEAST_SHARE = 1e-12
GREEN = ("fen-green", "pine-green")
WITH_GREEN = ("tan-leather", "green-leather", "brown-cloth", "grey-leathercloth")
SCATTER = {"engine": 8, "gearbox": 10, "axle": 10}
"""How far a number may stand from its place in line, either way."""
BY_MARRICK = {"solent-saloon": 0.30, "solent-drophead": 0.5, "solent-sprint": 1.0}


def gamma_pmf(mean: float, shape: float, length: int, least: int = 0) -> Array:
    """A gamma-shaped share for every whole day from `least`, shape (length,)."""
    days = np.arange(length, dtype=float)
    rate = shape / mean
    shares = np.where(days >= least, np.maximum(days - least + 0.5, 0.5) ** (shape - 1), 0.0)
    shares *= np.exp(-rate * days)
    whole: Array = shares / shares.sum()
    return whole


def waits(mean: float, long: tuple[int, int], share: float, least: int = 2) -> Array:
    """Days in stock: most wait a little, some lie at the back of the store; shape (300,)."""
    pmf = (1.0 - share) * gamma_pmf(mean, 2.5, 300, least)
    pmf[long[0] : long[1]] += share / (long[1] - long[0])
    return pmf


WAITS = {
    "engine": waits(24, (60, 240), 0.08),
    "gearbox": waits(26, (50, 200), 0.06),
    "axle": waits(22, (50, 200), 0.05),
    "body": waits(28, (70, 200), 0.08, 7),
}
CAST_BEFORE = gamma_pmf(30, 4, 120, 6)
"""Days from the casting of a block to the engine's number, shape (120,)."""
CLOSED_BEFORE = gamma_pmf(4, 1.5, 30)
"""Days from the closing of the build card to completion, shape (30,)."""
UNSOLD = np.array([0.86, 0.05, 0.03, 0.02, 0.015, 0.01, 0.008, 0.005, 0.002])
"""Months that a finished car stood before it was despatched."""


@dataclass(frozen=True, slots=True)
class Series:
    """One run of chassis numbers: a model of one year."""

    first: int
    last: int
    year: int
    model: str

    @property
    def size(self) -> int:
        """How many cars."""
        return self.last - self.first + 1


def demo_book() -> CodeBook:
    """The demonstration book. Raises LookupError where it cannot be opened."""
    folder = find_book(BOOK)
    opened = open_book(folder) if folder is not None else None
    if opened is None or opened.book is None:
        raise LookupError(BOOK)
    return opened.book


def digits_of(numbers: Index, length: int) -> Index:
    """The digits of numbers, shape (numbers, length)."""
    return numbers[:, None] // 10 ** np.arange(length - 1, -1, -1) % 10


@dataclass(frozen=True)
class Factory:
    """One factory, its curves drawn from a seed; everything the limit may know of it."""

    book: CodeBook
    seed: int
    _kept: dict[str, object] = field(default_factory=dict)

    @cached_property
    def series(self) -> tuple[Series, ...]:
        """The runs of chassis numbers, in the book's order."""
        return tuple(
            Series(int(s.first), int(s.last), s.applies.first_year, next(iter(s.applies.models)))
            for s in self.book.series
            if s.item == "chassis_number"
            and s.applies.first_year is not None
            and s.applies.first_year <= LAST_YEAR
        )

    @cached_property
    def slices(self) -> Index:
        """Every slice: series, coachbuilder, month of the year; shape (slices, 3)."""
        found = [
            (k, c, month)
            for k, s in enumerate(self.series)
            for c in range(2)
            if not (s.model == "solent-sprint" and c == 0)
            for month in range(12)
        ]
        return np.array(found, dtype=np.intp)

    @cached_property
    def year(self) -> Index:
        """The year of every slice."""
        return np.array([self.series[k].year for k in self.slices[:, 0]], dtype=np.intp)

    @cached_property
    def model(self) -> NDArray[np.str_]:
        """The model of every slice."""
        return np.array([self.series[k].model for k in self.slices[:, 0]])

    @cached_property
    def month(self) -> Index:
        """The month of every slice, counted from January 1950."""
        return (self.year - 1950) * 12 + self.slices[:, 2]

    @cached_property
    def pace(self) -> Array:
        """Share of a year's cars finished in each month: a slow start, a holiday; (years, 12)."""
        rng = np.random.default_rng([self.seed, 1])
        usual = np.array([5, 8, 10, 10, 10, 9, 7, 2, 10, 11, 10, 8], dtype=float)
        shares = usual * rng.gamma(8.0, 1.0, (12, 12))
        whole: Array = shares / shares.sum(axis=1, keepdims=True)
        return whole

    @cached_property
    def month_of_number(self) -> tuple[Array, ...]:
        """P(month of completion | place in the series), one (size, 12) for each series."""
        found = []
        for s in self.series:
            ends = np.cumsum(self.pace[s.year - 1950])
            place = (np.arange(s.size) + 0.5) / s.size
            nominal = np.minimum(np.searchsorted(ends, place), 11)
            table = np.zeros((s.size, 12))
            rows = np.arange(s.size)
            for shift, share in ((-1, 0.15), (0, 0.70), (1, 0.15)):
                np.add.at(table, (rows, np.clip(nominal + shift, 0, 11)), share)
            found.append(table)
        return tuple(found)

    @cached_property
    def share(self) -> Array:
        """The share of all cars in every slice, shape (slices,)."""
        found = np.zeros(len(self.slices))
        for z, (k, c, month) in enumerate(self.slices):
            s = self.series[k]
            marrick = BY_MARRICK[s.model]
            by = marrick if c == 1 else 1.0 - marrick
            found[z] = by * self.month_of_number[k][:, month].sum()
        whole: Array = found / found.sum()
        return whole

    @cached_property
    def kin(self) -> Index:
        """Every series with a coachbuilder, shape (kin, 2): how much alike two cars are."""
        return np.unique(self.slices[:, :2], axis=0)

    @cached_property
    def month_share(self) -> Array:
        """P(slice | kin), shape (kin, slices)."""
        same = (self.kin[:, None, :] == self.slices[None, :, :2]).all(axis=2)
        shares = same * self.share
        whole: Array = shares / shares.sum(axis=1, keepdims=True)
        return whole

    @cached_property
    def kin_share(self) -> Array:
        """The share of all cars in every kin, shape (kin,)."""
        same = (self.kin[:, None, :] == self.slices[None, :, :2]).all(axis=2)
        found: Array = (same * self.share).sum(axis=1)
        return found

    @cached_property
    def kin_year(self) -> Index:
        """The year of every kin."""
        return np.array([self.series[k].year for k in self.kin[:, 0]], dtype=np.intp)

    @cached_property
    def kin_model(self) -> NDArray[np.str_]:
        """The model of every kin."""
        return np.array([self.series[k].model for k in self.kin[:, 0]])

    @cached_property
    def completed(self) -> Array:
        """P(day of completion | slice), shape (slices, days): even over the month."""
        starts = month_starts()
        table = np.zeros((len(self.slices), N_DAYS))
        for z, month in enumerate(self.month):
            table[z, starts[month] : starts[month + 1]] = 1.0 / (starts[month + 1] - starts[month])
        return table

    def made(self, part: str) -> Array:
        """P(day on which a car's part was made | slice), shape (slices, days)."""
        key = f"made {part}"
        if key not in self._kept:
            self._kept[key] = earlier(self.completed, WAITS[part])
        kept = self._kept[key]
        assert isinstance(kept, np.ndarray)
        return kept

    def made_by_kin(self, part: str) -> Array:
        """P(day on which a car's part was made | kin), shape (kin, days)."""
        key = f"kin {part}"
        if key not in self._kept:
            days = self.closed if part == "card" else self.made(part)
            self._kept[key] = self.month_share @ days
        kept = self._kept[key]
        assert isinstance(kept, np.ndarray)
        return kept

    @cached_property
    def closed(self) -> Array:
        """P(day on which a car's build card was closed | slice), shape (slices, days)."""
        return earlier(self.completed, CLOSED_BEFORE)

    # ------------------------------------------------------------ numbers and days

    def line(self, item: str, kind: str = "") -> tuple[Index, Index]:
        """The number in the middle of each day's work, shape (days,), and all its numbers.

        `kind` is the engine series, `standard` or `two-litre`.
        """
        key = f"line {item} {kind}"
        if key not in self._kept:
            self._kept[key] = self._line(item, kind)
        kept = self._kept[key]
        assert isinstance(kept, tuple)
        return kept

    def _line(self, item: str, kind: str) -> tuple[Index, Index]:
        rng = np.random.default_rng([self.seed, 2, len(item), len(kind)])
        rows = [
            s
            for s in self.book.series
            if s.item == item
            and not (item == "engine_number" and s.first.startswith("02"))
            and (not kind or ("solent-sprint" in s.applies.models) == (kind == "two-litre"))
        ]
        middle = np.zeros(N_DAYS)
        for row in rows:
            year = row.applies.first_year
            assert year is not None
            # A year's parts begin in December: they are made before the cars they go into.
            start, end = day_of(year) - 30, day_of(year + 1) - 30
            place = np.linspace(0.0, 1.0, end - start)
            bend = rng.normal(0.0, 0.05) * np.sin(np.pi * place)
            bend += rng.normal(0.0, 0.02) * np.sin(2 * np.pi * place)
            first, last = int(row.first), int(row.last)
            middle[start:end] = first + np.clip(place + bend, 0.0, 1.0) * (last - first)
        least, most = int(rows[0].first), int(rows[-1].last)
        built = middle > 0
        middle[: np.argmax(built)] = least
        middle[len(built) - np.argmax(built[::-1]) :] = most
        return np.clip(np.round(middle), least, most).astype(np.intp), np.arange(least, most + 1)

    def over_days(self, item: str, kind: str, likely: Array) -> Array:
        """P(what was read | day on which a number was struck), (days,), from P(read | number)."""
        middle, numbers = self.line(item, kind)
        width = SCATTER[item.split("_")[0]]
        shifts = np.arange(-width, width + 1)
        places = np.clip(middle[:, None] + shifts, numbers[0], numbers[-1]) - numbers[0]
        mean: Array = likely[places].mean(axis=1)
        return mean

    def number_on(self, item: str, kind: str, day: int, rng: np.random.Generator) -> int:
        """A number struck on this day."""
        middle, numbers = self.line(item, kind)
        width = SCATTER[item.split("_")[0]]
        return int(np.clip(middle[day] + rng.integers(-width, width + 1), numbers[0], numbers[-1]))

    # ------------------------------------------------------------------- body numbers

    @cached_property
    def body_series(self) -> dict[tuple[int, int], tuple[int, int]]:
        """First and last body number by coachbuilder and year."""
        return {
            (COACHBUILDERS.index(next(iter(s.applies.works))), s.applies.first_year or 0): (
                int(s.first),
                int(s.last),
            )
            for s in self.book.series
            if s.item == "body_number"
        }

    @cached_property
    def body_share(self) -> Array:
        """P(body number | slice), shape (slices, 10000): ordered long before, in another order."""
        table = np.zeros((len(self.slices), 10000))
        for z, (k, c, month) in enumerate(self.slices):
            s = self.series[k]
            if (c, s.year) not in self.body_series:
                continue
            first, last = self.body_series[c, s.year]
            middle = first + (month + 0.5) / 12 * (last - first)
            reach = 0.3 * (last - first)
            low, high = int(max(first, middle - reach)), int(min(last, middle + reach))
            table[z, low : high + 1] = 1.0 / (high + 1 - low)
        return table

    @cached_property
    def body_by_kin(self) -> Array:
        """P(body number | kin), shape (kin, 10000)."""
        return self.month_share @ self.body_share

    # ------------------------------------------------------------------------- codes

    def colours(self, model: str, year: int) -> tuple[list[tuple[str, str]], Array]:
        """Paint and trim together: the pairs ordered and their shares."""
        key = f"colours {model} {year}"
        if key not in self._kept:
            rng = np.random.default_rng([self.seed, 3])
            liking = {p: rng.gamma(2.0) + 0.2 for p in sorted(self._values("paints"))}
            fancy = {t: rng.gamma(2.0) + 0.2 for t in sorted(self._values("trims"))}
            pairs, shares = [], []
            for paint in self._offered("paints", model, year):
                for trim in self._offered("trims", model, year):
                    if model == "solent-sprint" and (
                        not trim.endswith("-leather") or "-over-" in paint
                    ):
                        continue
                    fits = paint not in GREEN or trim in WITH_GREEN
                    pairs.append((paint, trim))
                    shares.append(liking[paint] * fancy[trim] * (1.0 if fits else 0.1))
            self._kept[key] = (pairs, np.array(shares) / sum(shares))
        kept = self._kept[key]
        assert isinstance(kept, tuple)
        return kept

    def ratios(self, model: str, year: int) -> dict[str, float]:
        """Axle ratios ordered and their shares."""
        wanted = {
            "solent-sprint": {"3-70": 0.5, "3-90": 0.44, "4-10": 0.06},
            "solent-saloon": {"3-90": 0.08, "4-10": 0.55, "4-55": 0.37},
            "solent-drophead": {"3-70": 0.1, "3-90": 0.5, "4-10": 0.4},
        }[model]
        if year < 1954:
            wanted = {ratio: share for ratio, share in wanted.items() if ratio != "3-70"}
        total = sum(wanted.values())
        return {ratio: share / total for ratio, share in wanted.items()}

    def extras(self, model: str, year: int) -> dict[str, float]:
        """Extras ordered, "" for none, and their shares."""
        found = {"": 0.5, "H": 0.3}
        if year >= 1953:
            found |= {"R": 0.08, "HR": 0.08}
            if model != "solent-saloon" and year <= 1958:
                found |= {"W": 0.08, "HW": 0.1}
        total = sum(found.values())
        return {code: share / total for code, share in found.items()}

    def _values(self, table: str) -> set[str]:
        return {row.value for row in self.book.table(table)}

    def _offered(self, table: str, model: str, year: int) -> list[str]:
        return [
            row.value
            for row in self.book.table(table)
            if (row.applies.first_year or 0) <= year <= (row.applies.last_year or 9999)
            and (not row.applies.models or model in row.applies.models)
        ]

    def code_for(self, table: str, value: str, year: int) -> str:
        """The code of a value in a table, for a car of this model and year."""
        key = f"code {table} {value} {year}"
        if key not in self._kept:
            self._kept[key] = self._code(table, value, year)
        return str(self._kept[key])

    def values(self, table: str) -> list[str]:
        """The values that a table of codes lists, in order."""
        key = f"values {table}"
        if key not in self._kept:
            self._kept[key] = sorted(self._values(table))
        kept = self._kept[key]
        assert isinstance(kept, list)
        return kept

    def _code(self, table: str, value: str, year: int) -> str:
        rows = [row for row in self.book.table(table) if row.value == value]
        fitting = [
            row
            for row in rows
            if (row.applies.first_year or 0) <= year <= (row.applies.last_year or 9999)
        ]
        return (fitting or rows)[0].code


def earlier(days: Array, by: Array) -> Array:
    """P(day) moved earlier by a number of days with these shares, shape as `days`."""
    found = np.zeros_like(days)
    for lag, share in enumerate(by):
        if share > LEAST_SHARE:
            found[:, : N_DAYS - lag] += share * days[:, lag:]
    return found


def before(likely: Array, by: Array) -> Array:
    """P(read | a later day) from P(read | the day itself), over the lag between; (days,)."""
    found: Array = np.convolve(likely, by)[:N_DAYS]
    return found
