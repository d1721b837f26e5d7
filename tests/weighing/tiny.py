"""A tiny invented maker: numbers so short that all of them can be counted.

Two cars: "unit" has a shell that bears the identity; "framed" has a frame that
bears it and a body of its own. Both have an engine and a card.
"""

from dataclasses import dataclass
from typing import Any

from witnessmark.agreement import compare
from witnessmark.casefile.records import Casefile
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Carried, Field, HowMade, Mark, MarkKind
from witnessmark.codebook.records import (
    Applies,
    Assembly,
    AssemblyKind,
    Basis,
    Citation,
    CodeRow,
    Item,
    ItemKind,
    Rule,
    Series,
)
from witnessmark.examination import car_marks
from witnessmark.weighing.calculator import Calculator
from witnessmark.weighing.candidates import Candidate
from witnessmark.weighing.questions import Asked, questions_of
from witnessmark.weighing.weigh import prepare

INVENTED = Citation(Basis.INVENTED, "invented for the tests")
CHASSIS, ENGINE = "012", "0123456789"
PAINTS = {"A": "amber", "B": "blue", "C": "cream"}
SERIES = {"S": "short", "L": "long"}
CLAIMED = "021"


def _applies(*models: str) -> Applies:
    return Applies(1950, 1960, models=frozenset(models))


def _number(says: str, alphabet: str, length: int, part: str = "all") -> Field:
    return Field(says, says, says, (length,), alphabet, part)


def _paint() -> Field:
    return Field("paint", "paint", "paint", (1,), "ABC", table="paints")


def _series() -> Field:
    return Field("series", "series", "engine_series", (1,), "LS", table="series")


def _mark(
    mark: str,
    assembly: str,
    carried: Carried,
    fields: tuple[Field, ...],
    *models: str,
    kind: MarkKind = MarkKind.STAMPING,
    how_made: HowMade = HowMade.STRUCK_BY_HAND,
) -> Mark:
    placed = tuple(
        Field(f.id, f.name, f.says, f.widths, f.alphabet, f.part, f.table, column=k + 1)
        for k, f in enumerate(fields)
    )
    site = "" if kind is MarkKind.PAPER else f"{mark} place"
    windows = len(fields) > 1
    return Mark(
        mark, mark, "", kind, assembly, site, how_made, carried, "", windows, True,
        _applies(*models), placed, INVENTED,
    )  # fmt: skip


CHASSIS_NUMBER = _number("chassis_number", CHASSIS, 3)
CHASSIS_TAIL = _number("chassis_number", CHASSIS, 2, "last 2")
ENGINE_NUMBER = _number("engine_number", ENGINE, 1)


def _assembly(kind: AssemblyKind, bears: bool, *models: str) -> Assembly:
    return Assembly(kind.value, kind.value, kind, bears, _applies(*models), INVENTED)


TINY_BOOK = CodeBook(
    id="tiny",
    title="Tiny",
    maker="Tiny",
    version="1",
    first_year=1950,
    last_year=1960,
    summary="",
    assemblies=(
        _assembly(AssemblyKind.SHELL, True, "unit"),
        _assembly(AssemblyKind.FRAME, True, "framed"),
        _assembly(AssemblyKind.BODY, False, "framed"),
        _assembly(AssemblyKind.ENGINE, False),
    ),
    items=(
        Item("chassis_number", "chassis number", ItemKind.NUMBER, "", CHASSIS, 3),
        Item("engine_number", "engine number", ItemKind.NUMBER, "engine", ENGINE, 1),
        Item("paint", "paint", ItemKind.CODE),
        Item("engine_series", "engine series", ItemKind.CODE, "engine"),
    ),
    # Only the engine's digit is not even: the book knows 0 to 6.
    series=(Series("engine_number", "0", "6", _applies(), "", INVENTED),),
    codes=tuple(
        CodeRow(table, code, value, value, _applies(), INVENTED)
        for table, codes in (("paints", PAINTS), ("series", SERIES))
        for code, value in codes.items()
    ),
    rules=(
        Rule(
            "amber",
            "Amber cars have the short engine.",
            "allowed",
            "paint",
            frozenset({"amber"}),
            "engine_series",
            frozenset({"short"}),
            "firm",
            _applies(),
            INVENTED,
        ),
    ),
    marks=(
        _mark("wing", "shell", Carried.BOLTED_PANEL, (CHASSIS_NUMBER,), "unit"),
        _mark("seat", "shell", Carried.WELDED_PANEL, (CHASSIS_TAIL,), "unit"),
        _mark("rail", "frame", Carried.FRAME_RAIL, (CHASSIS_NUMBER,), "framed"),
        _mark("panel", "body", Carried.WELDED_PANEL, (CHASSIS_TAIL,), "framed"),
        _mark("block", "engine", Carried.BLOCK, (_series(), ENGINE_NUMBER)),
        _mark(
            "plate",
            "",
            Carried.PLATE,
            (CHASSIS_NUMBER, ENGINE_NUMBER, _paint()),
            kind=MarkKind.PLATE,
        ),
        _mark(
            "card",
            "",
            Carried.PAPER,
            (CHASSIS_NUMBER, ENGINE_NUMBER, _paint()),
            kind=MarkKind.PAPER,
            how_made=HowMade.WRITTEN,
        ),
    ),
)


@dataclass(frozen=True)
class Prepared:
    """The network of one case, ready to be summed, with its questions."""

    calculator: Calculator
    candidates: tuple[Candidate, ...]
    asked: tuple[Asked, ...]


def prepared(casefile: Casefile, book: CodeBook) -> Prepared:
    """The network of a case and what may be asked of it."""
    car = car_marks(casefile, book)
    calculator, candidates = prepare(car, compare(car))
    return Prepared(calculator, candidates, questions_of(car, calculator.network))


def tiny_case(
    model: str,
    readings: dict[str, str | list[str]],
    looks: dict[str, str] | None = None,
    claim: dict[str, str] | None = None,
    **extra: Any,
) -> Casefile:
    """A case of the tiny maker: mark to its reading or readings, mark to its look."""
    typed = [
        {"mark": mark, "text": text}
        for mark, texts in readings.items()
        for text in ([texts] if isinstance(texts, str) else texts)
    ]
    return Casefile.model_validate(
        {
            "id": "tiny",
            "book": "tiny",
            "claim": {
                "items": {"model": model, "model_year": "1955", "chassis_number": CLAIMED}
                | (claim or {})
            },
            "readings": typed,
            "looks": [
                {"site": f"{mark} place", "outcome": look} for mark, look in (looks or {}).items()
            ],
            **extra,
        }
    )
