"""How probable what was read is, for everything a record can have been.

For a set of marks that all show one record: the sum over every number, day and colour
that the car can have had, of the product over the marks. The claimed car's record is
taken month of completion by month; a donor's by its kin (series and coachbuilder).
"""

from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.car import (
    COLOUR_AND_TRIM,
    EXCHANGE_DAYS,
    EXCHANGED,
    PLATE_TYPE,
    PRINTED_TYPE,
    RATIO_DIGITS,
    RATIO_LETTER,
    SLIP,
    TYPE_FIGURE,
    Claim,
    claimed_share,
    donor_share,
    engine_kind,
    other_pairs,
    others,
)
from benchmarks.proving.days import N_DAYS, codes, month_starts
from benchmarks.proving.factory import (
    CAST_BEFORE,
    COACHBUILDERS,
    UNSOLD,
    Factory,
    before,
    digits_of,
)
from benchmarks.proving.lives import EXCHANGE, STRANGER
from benchmarks.proving.reading import likelihood
from benchmarks.proving.visit import GONE, SeenField, SeenMark, Sighting

Array = NDArray[np.float64]

SHOWN = {
    "chassis": ("frame", "plate", "ledger", "card", "wing", "seat", "bulk"),
    "body": ("wing", "seat", "bulk", "ledger", "card"),
    "engine": ("block", "plate", "ledger", "card", "cast"),
    "gearbox": ("gear", "card"),
    "axle": ("axle", "card"),
    "week": ("week",),
    "colours": ("plate", "ledger", "card"),
}
"""The marks that show each part of a record, in the order of the bits of a mask."""
LETTER = {"standard": "S", "two-litre": "L", "exchange": "X"}


def mask_of(part: str, *columns: str) -> int:
    """The mask of some marks for a part."""
    return sum(1 << SHOWN[part].index(column) for column in columns)


class Parts:
    """Likelihoods of one sighting, kept as they are asked for."""

    def __init__(self, factory: Factory, claim: Claim, seen: Sighting) -> None:
        self.factory, self.claim, self.seen = factory, claim, seen
        share = claimed_share(factory, claim)
        self.months = np.flatnonzero(share)
        self.month_share: Array = share[self.months]
        """P(month of completion of the claimed car), shape (months,)."""
        self._kept: dict[tuple[object, ...], Array] = {}
        self._vectors: dict[tuple[str, str], Array] = {}

    # --------------------------------------------------------------- single fields

    def field(self, column: str, name: str) -> tuple[SeenMark, SeenField] | None:
        """A field that was read, or None."""
        mark = self.seen.marks.get(column)
        if mark is None:
            return None
        return next(((mark, f) for f in mark.fields if f.name == name), None)

    def text(self, column: str, name: str, text: str) -> float:
        """P(what was read | this text was meant); 1 where nothing was read."""
        found = self.field(column, name)
        if found is None:
            return 1.0
        mark, seen = found
        if len(text) != len(seen.cells):
            return 0.0
        product = 1.0
        for character, cells in zip(text, seen.cells, strict=True):
            vector = likelihood(cells, seen.alphabet, mark.how, mark.by_hand)
            product *= float(vector[seen.alphabet.index(character)])
        return product

    def numbers(self, column: str, name: str, numbers: NDArray[np.intp], length: int) -> Array:
        """P(what was read | number), shape (numbers,); the field may show the tail only."""
        found = self.field(column, name)
        if found is None:
            return np.ones(len(numbers))
        mark, seen = found
        digits = digits_of(numbers, length)[:, length - len(seen.cells) :]
        product = np.ones(len(numbers))
        for place, cells in enumerate(seen.cells):
            product *= likelihood(cells, seen.alphabet, mark.how, mark.by_hand)[digits[:, place]]
        return product

    def days(self, column: str, name: str, form: str) -> Array:
        """P(what was read of a date | day), shape (days,)."""
        key = (column, name)
        if key not in self._vectors:
            self._vectors[key] = self._days(column, name, form)
        return self._vectors[key]

    def _days(self, column: str, name: str, form: str) -> Array:
        found = self.field(column, name)
        product = np.ones(N_DAYS)
        if found is None:
            return product
        mark, seen = found
        written = codes(form)
        order = np.array(sorted(seen.alphabet))
        places = [seen.alphabet.index(c) for c in order]
        for place, cells in enumerate(seen.cells):
            vector = likelihood(cells, seen.alphabet, mark.how, mark.by_hand)[places]
            product *= vector[np.searchsorted(order, written[:, place])]
        return product

    # ------------------------------------------------------------- parts of a record

    def of(self, part: str, mask: int, claimed: bool) -> Array:
        """P(what the marks of a mask show of one part of a record), shape (months,) of the
        claimed car's or (kin,) of a donor's."""
        key = (part, mask, claimed)
        if key not in self._kept:
            size = len(self.months) if claimed else len(self.factory.kin)
            whole = np.ones(size)
            self._kept[key] = (
                whole if mask == 0 else getattr(self, f"_{part}")(mask, claimed) * whole
            )
        return self._kept[key]

    def _columns(self, part: str, mask: int) -> list[str]:
        return [column for k, column in enumerate(SHOWN[part]) if mask >> k & 1]

    def _over(self, part: str, by_day: Array, claimed: bool) -> Array:
        """Sum over the days on which a part was made."""
        if claimed:
            days = self.factory.closed if part == "card" else self.factory.made(part)
            found: Array = days[self.months] @ by_day
        else:
            found = self.factory.made_by_kin(part) @ by_day
        return found

    def _chassis(self, mask: int, claimed: bool) -> Array:
        columns = self._columns("chassis", mask)
        mine = int(self.factory.slices[self.claim.slice, 1])
        if claimed:
            product = 1.0
            for column in columns:
                product *= self.own_number(column) * self.car_codes(column, self.claim.series, mine)
            return np.array(product)
        kin = self.factory.kin
        found = np.ones(len(kin))
        for k, series in enumerate(self.factory.series):
            every = np.arange(series.first, series.last + 1)
            likely = np.ones(series.size)
            for column in columns:
                likely *= self.numbers(column, "chassis", every, 6)
            found[kin[:, 0] == k] = likely.mean()
        for column in columns:
            found *= [self.car_codes(column, int(k), int(c)) for k, c in kin]
        return found

    def own_number(self, column: str) -> float:
        """P(what was read of the chassis number | the claimed one)."""
        found = self.field(column, "chassis")
        if found is None:
            return 1.0
        text = f"{self.claim.number:06}"
        return self.text(column, "chassis", text[6 - len(found[1].cells) :])

    def car_codes(self, column: str, k: int, c: int) -> float:
        """P(what a mark shows of model, year and coachbuilder | kin); bare bulkheads too."""
        series = self.factory.series[k]
        if column == "bulk" and c == 0:
            return float(column not in self.seen.marks)
        bare = 1.0
        if column == "bulk":
            bare = GONE if column in self.seen.absent else 1.0
            bare = 1.0 - GONE if column in self.seen.marks else bare
        figure = "6" if self.claim.era == "unit" else TYPE_FIGURE[series.model]
        product = bare * self.text(column, "figure", figure)
        product *= self.text(column, "letter", COACHBUILDERS[c][0].upper())
        if column == "plate":
            kind = PLATE_TYPE[series.model]
            if self.field("plate", "year") is not None:
                unit = self.claim.era == "unit"
                kind = "12" if unit else PRINTED_TYPE.get(series.model, "20")
                product *= self.text("plate", "year", str(series.year)[2:])
            product *= self.text("plate", "type", kind)
        return product

    def _body(self, mask: int, claimed: bool) -> Array:
        if self.claim.era != "early":
            return np.array(1.0)
        every = np.arange(10000)
        likely = np.ones(10000)
        for column in self._columns("body", mask):
            likely *= self.numbers(column, "body", every, 4)
        if claimed:
            found: Array = self.factory.body_share[self.months] @ likely
        else:
            found = self.factory.body_by_kin @ likely
        return found

    def _engine(self, mask: int, claimed: bool) -> Array:
        columns = self._columns("engine", mask)
        cast = self.days("cast", "cast", "casting") if "cast" in columns else np.ones(N_DAYS)
        engine_days = before(cast, CAST_BEFORE)
        models = self.factory.model[self.months] if claimed else self.factory.kin_model
        found = np.zeros(len(models))
        for kind in sorted({engine_kind(str(model)) for model in models}):
            _, numbers = self.factory.line("engine_number", kind)
            likely = self._engine_numbers(columns, numbers)
            by_day = self.factory.over_days("engine_number", kind, likely) * engine_days
            if "block" in columns:
                by_day = by_day * self.text("block", "series", LETTER[kind])
            here = (models == "solent-sprint") == (kind == "two-litre")
            found[here] = self._over("engine", by_day, claimed)[here]
        return found

    def _engine_numbers(self, columns: list[str], numbers: NDArray[np.intp]) -> Array:
        likely = np.ones(len(numbers))
        for column in columns:
            if column != "cast":
                likely *= self.numbers(column, "engine", numbers, 5)
        return likely

    def engine_apart(self, mask: int, record: int) -> float:
        """P(what shows an exchange engine, or an invented number)."""
        columns = self._columns("engine", mask)
        if not columns:
            return 1.0
        if record == EXCHANGE:
            numbers, kind = np.arange(EXCHANGED[0], EXCHANGED[1] + 1), "exchange"
            found = float(self._engine_numbers(columns, numbers).mean())
            if "cast" in columns:
                days = slice(EXCHANGE_DAYS[0] - 40, EXCHANGE_DAYS[1] - 40)
                found *= float(self.days("cast", "cast", "casting")[days].mean())
        else:
            kind = engine_kind(self.factory.series[self.claim.series].model)
            numbers = self.factory.line("engine_number", kind)[1]
            found = float(self._engine_numbers(columns, numbers).mean())
        return found * (self.text("block", "series", LETTER[kind]) if "block" in columns else 1.0)

    def _line(self, part: str, item: str, mark: str, mask: int, claimed: bool) -> Array:
        _, numbers = self.factory.line(item, "")
        columns = self._columns(part, mask)
        likely = np.ones(len(numbers))
        for column in columns:
            likely *= self.numbers(column, mark, numbers, 5)
        by_day = self.factory.over_days(item, "", likely)
        if mark in columns:
            by_day = by_day * self.days(mark, f"{mark}_day", part)
        return self._over(part, by_day, claimed)

    def _gearbox(self, mask: int, claimed: bool) -> Array:
        return self._line("gearbox", "gearbox_number", "gear", mask, claimed)

    def _axle(self, mask: int, claimed: bool) -> Array:
        return self._line("axle", "axle_number", "axle", mask, claimed)

    def _week(self, _: int, claimed: bool) -> Array:
        built_by = self.factory.slices[self.months, 1] if claimed else self.factory.kin[:, 1]
        if "week" in self.seen.marks:
            dated = self._over("body", self.days("week", "week", "body"), claimed)
            found: Array = dated * (built_by == 1) * (1.0 - GONE)
            return found
        if "week" in self.seen.absent:
            return np.where(built_by == 1, GONE, 1.0)
        return np.array(1.0)

    # ------------------------------------------------------------- colours and dates

    def colours(self, mask: int, changed: int | None) -> Array:
        """P(paint, trim, ratio and extras on the plate, ledger and card of a mask), shape ()
        for the claimed car, which differs from the claim by `changed`, else (kin,)."""
        key = ("colours", mask, changed)
        if key not in self._kept:
            columns = self._columns("colours", mask)
            if changed is not None:
                self._kept[key] = np.array(
                    self._series_colours(columns, self.claim.series, changed)
                )
            else:
                series = {int(k) for k in self.factory.kin[:, 0]}
                found = {k: self._series_colours(columns, k, None) for k in series}
                self._kept[key] = np.array([found[int(k)] for k in self.factory.kin[:, 0]])
        return self._kept[key]

    def _series_colours(self, columns: list[str], k: int, changed: int | None) -> float:
        if not columns:
            return 1.0
        series, claim, factory = self.factory.series[k], self.claim, self.factory
        year = series.year
        paint = {
            p: self._code(columns, "paint", "paints", p, year) for p in factory.values("paints")
        }
        trim = {t: self._code(columns, "trim", "trims", t, year) for t in factory.values("trims")}
        ratio = {r: self._axle_ratio(columns, r) for r in RATIO_LETTER}
        found = self._extras(k) if "plate" in columns else 1.0
        if changed is None:
            pairs, shares = factory.colours(series.model, year)
            found *= sum(s * paint[p] * trim[t] for (p, t), s in zip(pairs, shares, strict=True))
            ratios = factory.ratios(series.model, year)
            return float(found * sum(share * ratio[r] for r, share in ratios.items()))
        if changed == COLOUR_AND_TRIM:
            other, other_shares = other_pairs(factory, claim)
            both = sum(
                s * paint[p] * trim[t] for (p, t), s in zip(other, other_shares, strict=True)
            )
            return float(found * both * ratio[claim.ratio])
        claimed = (claim.paint, claim.trim, claim.ratio)
        for place, (table, name) in enumerate(zip((paint, trim, ratio), claimed, strict=True)):
            if changed == place + 1:
                names, other_shares = others(factory, claim, changed)
                found *= float(sum(s * table[n] for n, s in zip(names, other_shares, strict=True)))
            else:
                found *= table[name]
        return found

    def _extras(self, k: int) -> float:
        series = self.factory.series[k]
        extras = self.factory.extras(series.model, series.year)
        return sum(share * self.text("plate", "extras", code) for code, share in extras.items())

    def _code(self, columns: list[str], name: str, table: str, value: str, year: int) -> float:
        code = self.factory.code_for(table, value, year)
        product = 1.0
        for column in columns:
            product *= self.text(column, name, code)
        return product

    def _axle_ratio(self, columns: list[str], ratio: str) -> float:
        product = 1.0
        for column in columns:
            found = self.field(column, "ratio")
            if found is not None:
                wide = len(found[1].cells) == 3
                product *= self.text(
                    column, "ratio", (RATIO_DIGITS if wide else RATIO_LETTER)[ratio]
                )
        return product

    @cached_property
    def closed(self) -> Array:
        """P(the card's day | month of completion of the claimed car), shape (months,)."""
        return self._over("card", self.days("card", "dated", "written"), True)

    @cached_property
    def _by_month(self) -> Array:
        likely, starts = self.days("ledger", "dated", "written"), month_starts()
        return np.array([likely[a:b].mean() for a, b in pairwise(starts)])

    @cached_property
    def despatched(self) -> float:
        """P(the ledger's day | the claimed month)."""
        return float(self._by_month[self.claim.built])

    # --------------------------------------------------- made to fit, and strangers

    def as_claimed(self, column: str, skill: int) -> float:
        """P(what was read on a mark that was made to say what is claimed)."""
        claim = self.claim
        year = self.factory.series[claim.series].year
        mine = int(self.factory.slices[claim.slice, 1])
        found = self.own_number(column) * self.car_codes(column, claim.series, mine)
        if column not in SHOWN["colours"]:
            return found
        paint = self._code([column], "paint", "paints", claim.paint, year)
        every = [self.text(column, "paint", row.code) for row in self.factory.book.table("paints")]
        found *= (1.0 - SLIP[skill]) * paint + SLIP[skill] * float(np.mean(every))
        found *= self._code([column], "trim", "trims", claim.trim, year)
        found *= self._axle_ratio([column], claim.ratio)
        if column == "plate":
            return found * self._extras(claim.series)
        likely, starts = self.days(column, "dated", "written"), month_starts()
        return found * float(likely[starts[claim.built] : starts[claim.built + 1]].mean())

    def stranger(self, column: str) -> float:
        """P(what was read on a plate or paper of another car)."""
        share = donor_share(self.factory, self.claim, STRANGER)
        product = share * self.of("chassis", mask_of("chassis", column), False)
        product = product * self.colours(mask_of("colours", column), None)
        product = product * self.of("engine", mask_of("engine", column), False)
        if column != "plate":
            product = product * self.of("body", mask_of("body", column), False)
        if column == "card":
            product = product * self.of("gearbox", mask_of("gearbox", "card"), False)
            product = product * self.of("axle", mask_of("axle", "card"), False)
            closed = self._over("card", self.days("card", "dated", "written"), False)
            product = product * closed
        if column == "ledger":
            product = product * self._stranger_despatch
        return float(product.sum())

    @cached_property
    def _stranger_despatch(self) -> Array:
        months = self.factory.month[:, None] + np.arange(len(UNSOLD))
        months = np.minimum(months, len(self._by_month) - 1)
        by_slice = self._by_month[months] @ (UNSOLD / UNSOLD.sum())
        found: Array = self.factory.month_share @ by_slice
        return found
