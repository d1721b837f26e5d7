"""Marks of the invented maker, as a code book would declare them."""

import pytest

from witnessmark.codebook.marks import Carried, Field, HowMade, Mark, MarkKind
from witnessmark.codebook.records import Applies, Basis, Citation

INVENTED = Citation(Basis.INVENTED, "invented for a test")
DIGITS = "0123456789"
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def mark_of(name: str, *fields: Field, windows: bool = False) -> Mark:
    """A mark struck by hand, with these fields."""
    return Mark(
        id=name.replace(" ", "_"),
        name=name,
        local_name="",
        kind=MarkKind.PLATE if windows else MarkKind.STAMPING,
        assembly="" if windows else "frame",
        site="scuttle",
        how_made=HowMade.STRUCK_BY_HAND,
        carried=Carried.PLATE if windows else Carried.FRAME_RAIL,
        fixings="",
        windows=windows,
        always_struck=True,
        applies=Applies(1952, 1961),
        fields=fields,
        citation=INVENTED,
    )


@pytest.fixture(scope="session")
def number() -> Mark:
    """Six digits, nothing else."""
    return mark_of("frame number", Field("chassis", "chassis number", "chassis", (6,), DIGITS))


@pytest.fixture(scope="session")
def body() -> Mark:
    """A coachbuilder's letter, then four digits."""
    return mark_of(
        "body number",
        Field("letter", "letter", "body_works", (1,), LETTERS),
        Field("number", "number", "body_number", (4,), DIGITS),
    )


@pytest.fixture(scope="session")
def engine() -> Mark:
    """ "No.", one or two letters, four or five digits, perhaps a last letter."""
    return mark_of(
        "engine number",
        Field("series", "series", "engine_series", (1, 2), LETTERS, before="No. "),
        Field("number", "number", "engine_number", (4, 5), DIGITS),
        Field("suffix", "suffix", "suffix", (1,), LETTERS, optional=True),
    )


@pytest.fixture(scope="session")
def plate() -> Mark:
    """Three windows in two rows; declared out of order, read by row and column."""
    return mark_of(
        "brass plate",
        Field("paint", "paint", "paint", (2,), DIGITS, row=2, column=1),
        Field("type", "type", "model", (2,), LETTERS, row=1, column=1),
        Field("chassis", "chassis number", "chassis", (6,), DIGITS, row=1, column=2),
        windows=True,
    )


@pytest.fixture(scope="session")
def tail() -> Mark:
    """The last four places of the chassis number."""
    return mark_of(
        "tail", Field("chassis", "chassis number", "chassis", (4,), DIGITS, part="last 4")
    )
