"""Standard cars to be weighed: everything clear, undisturbed and as it should be; each change
by name. Serials are invented."""

from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any

from witnessmark.agreement import CarMarks
from witnessmark.casefile import Casefile, case_from
from witnessmark.codebook import CodeBook, find_book, open_book
from witnessmark.examination import car_marks
from witnessmark.weighing import Answer, Asked, answer


@cache
def book(name: str) -> CodeBook:
    """A shipped book, opened once."""
    folder = find_book(name)
    assert folder is not None
    found = open_book(folder).book
    assert found is not None
    return found


@dataclass(frozen=True)
class Car:
    """A car to be examined. `reads` maps a mark to what was typed; `looks` a site to its look;
    `sites` a site to its state. `again`: marks read again. `how`: mark to how it was seen."""

    book: str
    claim: dict[str, str]
    reads: dict[str, str]
    looks: dict[str, str]
    built: str | None = None
    sites: dict[str, str] = field(default_factory=dict)
    again: frozenset[str] = frozenset()
    how: dict[str, str] = field(default_factory=dict)
    legibility: dict[str, str] = field(default_factory=dict)
    more: tuple[dict[str, Any], ...] = ()

    def but(self, reads: dict[str, str | None] | None = None, **changed: Any) -> "Car":
        """The same with other readings (None: not read) and other fields."""
        read = {m: t for m, t in (self.reads | (reads or {})).items() if t is not None}
        for name in ("looks", "sites", "how", "claim", "legibility"):
            if name in changed:
                laid = getattr(self, name) | changed[name]
                changed[name] = {k: v for k, v in laid.items() if v is not None}
        return replace(self, reads=read, **changed)

    def unseen(self, *marks: str, looks: tuple[str, ...] = ()) -> "Car":
        """The same with these marks not read and these places not looked at."""
        return self.but(dict.fromkeys(marks), looks=dict.fromkeys(looks))

    def read_again(self, *marks: str) -> "Car":
        """The same with these marks read again, or all."""
        return replace(self, again=self.again | frozenset(marks or self.reads))

    def casefile(self) -> Casefile:
        """The case document."""
        readings = [
            {
                "mark": mark,
                "text": text,
                "seen": self.how.get(mark, "in person"),
                "legibility": self.legibility.get(mark, "clear"),
                **({"again": True} if mark in self.again else {}),
            }
            for mark, text in self.reads.items()
        ]
        return case_from(
            {
                "format": "witnessmark-case",
                "format_version": 2,
                "id": "standard",
                "book": self.book,
                "claim": {"made_by": "the seller", "items": self.claim, "built": self.built},
                "readings": [*readings, *self.more],
                "looks": [{"site": s, "outcome": o} for s, o in self.looks.items()],
                "sites": [{"site": s, "state": state} for s, state in self.sites.items()],
            }
        )

    def marks(self) -> CarMarks:
        """The marks decoded."""
        return car_marks(self.casefile(), book(self.book))


def answered(car: Car) -> Answer:
    """The answer of a car."""
    return answer(car.marks(), with_contributions=False, with_next_looks=False)


def lr(car: Car, question: Asked, about: str) -> float:
    """The LR of one question, not its logarithm."""
    found = answered(car).conclusion(question, about)
    assert found is not None
    return float(10**found.log10_lr)


CAMARO = Car(
    "chevrolet-1964-1972",
    {"sequence": "594718", "model_year": "1969", "model": "camaro", "works": "norwood",
     "engine": "302-z28", "gearbox": "muncie-4-speed", "package": "z28",
     "paint": "hugger-orange"},
    {
        "number_plate": "124379N594718",
        "hidden_number_cowl": "19N594718",
        "engine_pad": "V0206DZ",
        "partial_number_engine": "19N594718",
        "block_cast_date": "A289",
        "head_cast_date": "A159",
        "muncie_1969": "P9B03B",
        "partial_number_gearbox": "19N594718",
        "axle_stamp": "BU0204G1",
        "body_plate_norwood_1969": "ST 69-12437 NOR 238174 BDY|TR 711|72 72|02C X33",
    },
    dict.fromkeys(
        ("number_plate", "cowl_panel", "engine_pad", "gearbox_case", "axle_tube", "body_plate"),
        "factory",
    ),
    built="1969-02-14",
)  # fmt: skip
WITH_PAPERS = CAMARO.but(
    {
        "owner_plate_1967": "1|24|||37|9|N|594718|?|V|0206|DZ|BU|0204|G|1|?|P|9B03|B||2",
        "build_sheet": "12437|DZ|?|238174",
    }
)
"""The Camaro with its owner's plate and build sheet."""

MUSTANG = Car(
    "ford-1964-1973",
    {"unit_number": "173418", "model_year": "1969", "model": "mustang", "works": "san-jose",
     "engine_type": "351-4v"},
    {
        "dash_plate": "9R02M173418",
        "apron_stamp": "9R02M173418",
        "hidden_stamp_left": "9R02M173418",
        "engine_stamp": "9R173418",
        "block_date": "9A28",
        "engine_assembly_date": "9B06",
        "head_date": "9A15",
        "gearbox_stamp": "9R173418",
        "gearbox_date": "9A20",
    },
    dict.fromkeys(
        ("dash", "left_apron", "fender_edges", "engine_pad", "gearbox_case"), "factory"
    ),
    built="1969-02-20",
)  # fmt: skip

SPRINT = Car(
    "tarvane-1952-1961",
    {"chassis_number": "700143", "model": "solent-sprint", "model_year": "1955",
     "works": "tarvane", "body_works": "marrick"},
    {
        "plate_brass": "SP|700143|40047|17|L2|370|_",
        "frame_number": "4 700143",
        "wing_body_number": "M 0931",
        "seat_body_number": "M 0931",
        "bulkhead_body_number": "M 0931",
        "body_week": "DB5",
        "engine_number": "L 40047",
        "engine_casting": "1025",
        "gearbox_stamp": "22064 145",
        "axle_stamp": "32036 1203",
        "despatch_ledger": "700143|4|40047|M|0931|17|120555",
        "build_card": "700143|4|M|0931|40047|22064|32036|A|17|L2|090555",
    },
    dict.fromkeys(
        ("scuttle", "frame_rail", "inner_wing", "seat_pan", "bulkhead", "engine_deck",
         "gearbox_case", "axle_case"), "factory"
    ),
    built="1955-05",
)  # fmt: skip

SALOON = Car(
    "tarvane-1952-1961",
    {"chassis_number": "590321", "model": "solent-saloon", "model_year": "1959",
     "works": "tarvane", "body_works": "ellery"},
    {
        "plate_aluminium": "590321|12|59|E|14431|C|11|L1|H",
        "shell_wing_number": "E 590321",
        "shell_seat_number": "E 590321",
    },
    dict.fromkeys(("scuttle", "inner_wing", "seat_pan"), "factory"),
)  # fmt: skip
