"""A tiny invented maker whose marks show several codes of one car, one of them twice.

A shell with one panel; a plate with model, paint and trim; a card with model and trim
but no paint; an order that says the paint in two places.
"""

from dataclasses import replace

from tests.weighing.tiny import TINY_BOOK, Prepared, prepared, tiny_case
from witnessmark.casefile.records import Casefile
from witnessmark.codebook.marks import Carried, Field, HowMade, Mark, MarkKind
from witnessmark.codebook.records import (
    Applies,
    AssemblyKind,
    CodeRow,
    Item,
    ItemKind,
)

ALL_YEARS = Applies(1950, 1960)
TABLES = {
    "models": {"U": "unit", "F": "framed", "R": "racer"},
    "paints": {"A": "amber", "B": "blue", "C": "cream", "D": "dun"},
    "trims": {"K": "cloth", "L": "leather", "M": "mohair"},
}
TABLE_OF = {"model": "models", "paint": "paints", "trim": "trims"}
CLAIM = {"paint": "amber", "trim": "leather"}


def _code(name: str, says: str) -> Field:
    table = TABLE_OF[says]
    return Field(name, name, says, (1,), "".join(TABLES[table]), table=table)


def _mark(name: str, kind: MarkKind, *fields: Field) -> Mark:
    placed = tuple(replace(fld, column=k + 1) for k, fld in enumerate(fields))
    paper = kind is MarkKind.PAPER
    return replace(
        next(mark for mark in TINY_BOOK.marks if mark.kind is kind),
        id=name,
        name=name,
        site="" if paper else f"{name} place",
        how_made=HowMade.WRITTEN if paper else HowMade.STRUCK_BY_HAND,
        carried=Carried.PAPER if paper else Carried.PLATE,
        windows=True,
        fields=placed,
    )


CODED_BOOK = replace(
    TINY_BOOK,
    id="coded",
    assemblies=tuple(a for a in TINY_BOOK.assemblies if a.kind is AssemblyKind.SHELL),
    items=(
        *(item for item in TINY_BOOK.items if item.id == "chassis_number"),
        *(Item(item, item, ItemKind.CODE) for item in TABLE_OF),
    ),
    series=(),
    rules=(),
    codes=tuple(
        CodeRow(table, code, value, value, ALL_YEARS, TINY_BOOK.assemblies[0].citation)
        for table, codes in TABLES.items()
        for code, value in codes.items()
    ),
    marks=(
        next(mark for mark in TINY_BOOK.marks if mark.id == "seat"),
        _mark(
            "plate",
            MarkKind.PLATE,
            _code("type", "model"),
            _code("paint", "paint"),
            _code("trim", "trim"),
        ),
        _mark("card", MarkKind.PAPER, _code("type", "model"), _code("trim", "trim")),
        _mark("order", MarkKind.PAPER, _code("outside", "paint"), _code("wheels", "paint")),
    ),
)


def coded_case(
    claim: dict[str, str] | None = None, copied: dict[str, str] | None = None, **readings: str
) -> Casefile:
    """A car of the coded maker: mark to its reading, paper to the mark it was copied from.

    Paint and trim are claimed as amber and leather where `claim` does not say otherwise.
    """
    papers = [
        {"mark": mark, "state": "in hand", "copied_from": source}
        for mark, source in (copied or {}).items()
    ]
    stated = CLAIM if claim is None else claim
    return tiny_case("unit", dict(readings), claim=stated, book="coded", papers=papers)


def coded(casefile: Casefile) -> Prepared:
    """The network of a car of the coded maker."""
    return prepared(casefile, CODED_BOOK)
