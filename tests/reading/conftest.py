"""Marks of the invented maker, as a code book would declare them."""

import pytest

from witnessmark.codebook import Applies, Basis, Carried, Citation, Field, HowMade, Mark, MarkKind

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
    return mark_of(
        "frame number",
        Field(id="chassis", name="chassis number", says="chassis", widths=(6,), alphabet=DIGITS),
    )


@pytest.fixture(scope="session")
def body() -> Mark:
    """A coachbuilder's letter, then four digits."""
    return mark_of(
        "body number",
        Field(id="letter", name="letter", says="body_works", widths=(1,), alphabet=LETTERS),
        Field(id="number", name="number", says="body_number", widths=(4,), alphabet=DIGITS),
    )


@pytest.fixture(scope="session")
def engine() -> Mark:
    """ "No.", one or two letters, four or five digits, perhaps a last letter."""
    return mark_of(
        "engine number",
        Field(
            id="series",
            name="series",
            says="engine_series",
            widths=(1, 2),
            alphabet=LETTERS,
            before="No. ",
        ),
        Field(id="number", name="number", says="engine_number", widths=(4, 5), alphabet=DIGITS),
        Field(
            id="suffix", name="suffix", says="suffix", widths=(1,), alphabet=LETTERS, optional=True
        ),
    )


@pytest.fixture(scope="session")
def plate() -> Mark:
    """Three windows in two rows; declared out of order, read by row and column."""
    return mark_of(
        "brass plate",
        Field(
            id="paint", name="paint", says="paint", widths=(2,), alphabet=DIGITS, row=2, column=1
        ),
        Field(id="type", name="type", says="model", widths=(2,), alphabet=LETTERS, row=1, column=1),
        Field(
            id="chassis",
            name="chassis number",
            says="chassis",
            widths=(6,),
            alphabet=DIGITS,
            row=1,
            column=2,
        ),
        windows=True,
    )


@pytest.fixture(scope="session")
def tail() -> Mark:
    """The last four places of the chassis number."""
    return mark_of(
        "tail",
        Field(
            id="chassis",
            name="chassis number",
            says="chassis",
            widths=(4,),
            alphabet=DIGITS,
            part="last 4",
        ),
    )
