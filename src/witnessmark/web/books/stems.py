"""The tables of a book as files, and the bases that a row may have."""

from pathlib import Path

from witnessmark.codebook import Basis
from witnessmark.codebook.folder import TABLE_FOLDER
from witnessmark.codebook.parse import table_of

BASES = tuple(each.value for each in Basis if each is not Basis.ASSUMED)


def stems_of(folder: Path) -> tuple[str, ...]:
    """The stems of the tables that are there: codes-paint."""
    found = sorted(each.stem for each in (folder / TABLE_FOLDER).glob("*.csv"))
    return tuple(each for each in found if table_of(f"{each}.csv"))
