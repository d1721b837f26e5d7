"""Makers whose structure bears the car's number, and when they made what.

A car is done on a day that follows its number along a curve of its own, a little early or late;
its engine was assembled days before, from a block poured weeks before that. What a car has
besides (engine type, colours, body number) is drawn apart from its number. On two of them engine
and gearbox bear it too; the third has an engine with a number of its own, which a certificate alone
ties to the car.
"""

from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.days import N_DAYS, codes, day_of
from benchmarks.proving.factory import demo_book, gamma_pmf, waits
from benchmarks.proving.reading import BOTH, DIGITS, LETTERS
from witnessmark.codebook import CodeBook, open_book

Array = NDArray[np.float64]
Index = NDArray[np.intp]

SMALL_BOOKS = Path(__file__).parents[3] / "tests" / "worked" / "situations" / "books"

SHIFTS = np.array([-20, -7, 0, 7, 20])
SHIFT_SHARE = np.array([0.10, 0.22, 0.36, 0.22, 0.10])
"""Days by which a car was done before or after its place in line."""
ASSEMBLED = waits(13, (50, 150), 0.05)
POURED = gamma_pmf(26, 4, 120, 4)
HEAD_POURED = gamma_pmf(29, 4, 120, 4)
BOXED = waits(19, (45, 150), 0.05)
AXLED = waits(17, (45, 150), 0.04)
STOOD = np.concatenate([gamma_pmf(8, 1.2, 60) * 0.93, np.full(150, 0.07 / 150)])
"""Days from done to despatched."""
PLANNED = (12, gamma_pmf(16, 5, 40))
"""The planned week lies so many days after to 28 before the day it was done."""
DELIVERED = gamma_pmf(20, 2, 120)
NEW_DAYS = (60, 960)
"""New and exchanged engines were poured so many days after the car was done."""
BODIES = np.arange(20001, 21850)
"""Body numbers, in the order of the dealers: they say nothing of the day."""
SERIALS = np.arange(400001, 440001)
"""Engines with numbers of their own, in the order of the store: they say nothing of the day."""
HEAD_KEPT = 0.85
"""Heads that stayed on their block."""


@dataclass(frozen=True, slots=True)
class FieldSpec:
    """A field of a mark: what it says, in which characters, how many."""

    says: str
    alphabet: str = DIGITS
    width: int = 0
    always: str = ""
    """The text where it never varies in this world."""


@dataclass(frozen=True, slots=True)
class MarkSpec:
    """A mark of the book and where it stands; `seam` names what the book calls sound sheet."""

    id: str
    site: str
    fields: tuple[FieldSpec, ...]
    by_hand: bool = True
    seam: str = ""
    underneath: bool = False

    def field(self, says: str) -> FieldSpec | None:
        """The field that says this, or None."""
        return next((each for each in self.fields if each.says == says), None)


@dataclass(frozen=True)
class Maker:
    """One maker: its book, its cars, the marks of each piece by the piece's name."""

    name: str
    book_name: str
    number_item: str
    series: tuple[tuple[int, int, int], ...]
    """First and last number and year of each run."""
    claims: dict[str, str]
    """Claimed items that are so of every car."""
    marks: dict[str, MarkSpec]
    structure: tuple[str, ...]
    values: dict[str, dict[str, str]]
    """By claimed item its values with their codes, the costliest or first one claimed."""
    liking: dict[str, tuple[float, ...]]
    """By item how many cars have each value, in the same order."""
    types: dict[str, dict[str, float]]
    """By package the engine's type codes and their shares; empty where none is struck."""
    has_panels: bool
    exchanged: tuple[int, int] | None = None
    """The run of exchange engines."""
    restrikes: bool = False
    """Do the works strike the number of the replaced engine on an exchanged one?"""

    @cached_property
    def book(self) -> CodeBook:
        """The code book of this maker."""
        if not self.book_name:
            return demo_book()
        opened = open_book(SMALL_BOOKS / self.book_name)
        assert opened.book is not None
        return opened.book

    @cached_property
    def numbers(self) -> Index:
        """Every number, shape (cars,)."""
        return np.concatenate([np.arange(a, b + 1) for a, b, _ in self.series])

    @cached_property
    def years(self) -> Index:
        """The year of every number."""
        return np.concatenate([np.full(b - a + 1, year) for a, b, year in self.series])

    def done(self, seed: int) -> Index:
        """The day on which every number was in line, shape (cars,)."""
        return _done(self.name, self.series, seed)

    @property
    def papers(self) -> tuple[str, ...]:
        """Those that may come with a car."""
        return tuple(p for p in ("ledger", "booklet", "sheet") if p in self.marks)

    @property
    def cores(self) -> tuple[str, ...]:
        """The pieces of which it is asked whether they are the car's own."""
        return tuple(c for c in ("engine", "gearbox", "axle", "body") if c in self.marks)

    @property
    def has_serials(self) -> bool:
        """Do its engines have numbers of their own?"""
        return self.marks["engine"].field("serial") is not None


@cache
def _done(name: str, series: tuple[tuple[int, int, int], ...], seed: int) -> Index:
    found = []
    for first, last, year in series:
        rng = np.random.default_rng([seed, 11, len(name), year])
        place = (np.arange(last - first + 1) + 0.5) / (last - first + 1)
        bend = rng.normal(0.0, 0.04) * np.sin(np.pi * place)
        bend += rng.normal(0.0, 0.02) * np.sin(2 * np.pi * place)
        start = day_of(year) + 12
        found.append(start + np.round(np.clip(place + bend, 0.0, 1.0) * 340))
    return np.concatenate(found).astype(np.intp)


def text_of_day(form: str, day: int) -> str:
    """A date in one form."""
    return "".join(codes(form)[min(max(day, 0), N_DAYS - 1)])


def _fields(*specs: FieldSpec) -> tuple[FieldSpec, ...]:
    return specs


LETTER = FieldSpec("letter", LETTERS, 1, "E")
TAIL = FieldSpec("number", DIGITS, 5)
CAST = FieldSpec("casting", BOTH, 4)
WEEK = FieldSpec("gearbox", DIGITS, 3)
WRITTEN = FieldSpec("written", DIGITS, 6)

SALOON = Maker(
    "saloon",
    "",
    "chassis_number",
    ((600001, 600742, 1960), (610001, 610419, 1961)),
    {"model": "solent-saloon", "works": "tarvane", "body_works": "ellery"},
    {
        "wing": MarkSpec("shell_wing_tail", "inner_wing", (LETTER, TAIL), seam="even spot welds"),
        "seat": MarkSpec("shell_seat_tail", "seat_pan", (LETTER, TAIL), seam="sheet unbroken"),
        "plate": MarkSpec(
            "plate_aluminium",
            "scuttle",
            _fields(
                FieldSpec("number", DIGITS, 6),
                FieldSpec("kind", DIGITS, 2, "12"),
                FieldSpec("year", DIGITS, 2),
                LETTER,
                FieldSpec("none"),
                FieldSpec("ratio", LETTERS, 1, "C"),
                FieldSpec("paint", DIGITS, 2),
                FieldSpec("trim", BOTH, 2),
                FieldSpec("extras", LETTERS, 1, "H"),
            ),
            by_hand=False,
        ),
        "tag": MarkSpec(
            "body_plate",
            "lock_panel",
            _fields(
                FieldSpec("body", DIGITS, 5),
                FieldSpec("package", LETTERS, 1),
                FieldSpec("plan", DIGITS, 3),
            ),
            by_hand=False,
        ),
        "engine": MarkSpec(
            "engine_stamp",
            "engine_deck",
            (FieldSpec("type", LETTERS, 2), FieldSpec("pad", DIGITS, 5), TAIL),
        ),
        "cast": MarkSpec("engine_casting", "engine_side", (CAST,), False, underneath=True),
        "head": MarkSpec("head_casting", "cylinder_head", (CAST,), False),
        "gearbox": MarkSpec("gearbox_tail", "gearbox_case", (WEEK, TAIL), underneath=True),
        "axle": MarkSpec("axle_day", "axle_case", (FieldSpec("axle", DIGITS, 4),), underneath=True),
        "ledger": MarkSpec(
            "despatch_ledger",
            "",
            _fields(
                FieldSpec("number", DIGITS, 6),
                FieldSpec("kind", DIGITS, 1, "6"),
                FieldSpec("none"),
                LETTER,
                FieldSpec("none"),
                FieldSpec("paint", DIGITS, 2),
                WRITTEN,
            ),
            by_hand=False,
        ),
        "booklet": MarkSpec(
            "owner_booklet",
            "",
            _fields(
                FieldSpec("number", DIGITS, 6),
                FieldSpec("type", LETTERS, 2),
                FieldSpec("pad", DIGITS, 5),
                FieldSpec("delivered", DIGITS, 6),
            ),
            by_hand=False,
        ),
        "sheet": MarkSpec(
            "build_sheet",
            "",
            _fields(
                FieldSpec("body", DIGITS, 5),
                FieldSpec("type", LETTERS, 2),
                FieldSpec("paint", DIGITS, 2),
                FieldSpec("trim", BOTH, 2),
            ),
            by_hand=False,
        ),
        "exchange": MarkSpec(
            "exchange_stamp",
            "engine_deck",
            (FieldSpec("series", LETTERS, 1, "X"), FieldSpec("exchange", DIGITS, 5)),
        ),
    },
    ("wing", "seat"),
    {
        "package": {"ts": "T", "de-luxe": "D", "plain": "P"},
        "paint": {
            "pine-green": "14",
            "coach-black": "11",
            "oxblood": "13",
            "chalk-white": "16",
            "primrose": "21",
            "lagoon-blue": "22",
            "sandstone": "23",
            "blue-over-white": "32",
        },
        "trim": {
            "tan-leather": "L2",
            "black-leather": "L1",
            "grey-leathercloth": "V1",
            "blue-leathercloth": "V2",
        },
    },
    {
        "package": (0.18, 0.27, 0.55),
        "paint": (0.14, 0.20, 0.08, 0.17, 0.06, 0.15, 0.09, 0.11),
        "trim": (0.28, 0.27, 0.30, 0.15),
    },
    {
        "ts": {"TS": 0.8, "TR": 0.2},
        "de-luxe": {"SA": 0.8, "SB": 0.2},
        "plain": {"SA": 0.65, "SB": 0.35},
    },
    True,
    (2001, 2874),
)

FRAME = Maker(
    "frame",
    "frame",
    "car_number",
    ((21201, 22900, 1951), (22901, 24800, 1952)),
    {"model": "tourer", "works": "works"},
    {
        "rail": MarkSpec(
            "frame_number", "frame_rail", (TAIL,), seam="sheet unbroken", underneath=True
        ),
        "body": MarkSpec("body_number", "bulkhead", (TAIL,), seam="sheet unbroken"),
        "plate": MarkSpec(
            "number_plate", "scuttle", (TAIL, FieldSpec("paint", DIGITS, 2)), by_hand=False
        ),
        "engine": MarkSpec("engine_number", "engine_deck", (TAIL,)),
        "cast": MarkSpec("block_casting", "engine_side", (CAST,), False, underneath=True),
        "gearbox": MarkSpec("gearbox_stamp", "gearbox_case", (WEEK, TAIL), underneath=True),
        "axle": MarkSpec(
            "axle_stamp", "axle_case", (FieldSpec("axle since 1949", DIGITS, 4),), underneath=True
        ),
        "ledger": MarkSpec(
            "despatch_ledger",
            "",
            (TAIL, FieldSpec("paint", DIGITS, 2), WRITTEN),
            by_hand=False,
        ),
    },
    ("rail",),
    {"paint": {"blue": "12", "black": "11", "maroon": "13"}},
    {"paint": (0.3, 0.45, 0.25)},
    {},
    False,
)
SERIAL = FieldSpec("serial", DIGITS, 6)
PAN = Maker(
    "pan",
    "pan",
    "car_number",
    ((21201, 22900, 1951), (22901, 24800, 1952)),
    {"model": "tourer", "works": "works"},
    {
        "pan": MarkSpec("pan_number", "tunnel", (TAIL,), seam="tunnel unbroken"),
        "plate": MarkSpec(
            "number_plate", "front_panel", (TAIL, FieldSpec("paint", DIGITS, 2)), by_hand=False
        ),
        "engine": MarkSpec("engine_number", "engine_pad", (SERIAL,)),
        "gearbox": MarkSpec("gearbox_stamp", "gearbox_case", (WEEK,), underneath=True),
        "booklet": MarkSpec(
            "certificate",
            "",
            (TAIL, SERIAL, FieldSpec("delivered", DIGITS, 6)),
            by_hand=False,
        ),
    },
    ("pan",),
    {"paint": {"blue": "12", "black": "11", "maroon": "13"}},
    {"paint": (0.3, 0.45, 0.25)},
    {},
    False,
    restrikes=True,
)
MAKERS = {each.name: each for each in (SALOON, FRAME, PAN)}
