"""`witnessmark restore`: a backup put back into an empty workshop."""

from pathlib import Path
from typing import Annotated

from witnessmark.catalogue import said
from witnessmark.cli.arguments import argument
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.cli.workshop.homes import DatabaseOption, HomeOption, home_opened

HELP = """Puts a backup into a workshop that holds nothing yet. Every file is hashed again; where
one is not what was backed up, nothing is put back.

\b
Example:
  witnessmark restore workshop.zip --home restored
"""


def restore(
    file: Annotated[Path, argument("FILE", "A backup.")],
    home: HomeOption = None,
    database: DatabaseOption = "",
) -> None:
    """Put back all of it or nothing."""
    folder = home_opened(home, database)
    from witnessmark import store

    try:
        found = store.restore(file)
    except store.NotKeptError as fault:
        refuse(fault.problems)
    rows, files = f"{found.rows:,}", f"{found.files:,}"
    print_line(said("{rows} rows and {files} files are back in {folder}",
                    rows=rows, files=files, folder=str(folder)))  # fmt: skip
    for each in found.missing:
        print_line(said("It was missing when the backup was made: {file}", file=each))
