"""`witnessmark backup`: everything that a workshop keeps, in one file."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Annotated

from witnessmark.catalogue import said
from witnessmark.cli.arguments import argument
from witnessmark.cli.problems import typed
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.cli.workshop.homes import DatabaseOption, HomeOption, home_opened
from witnessmark.entry import NotAllowed

HELP = """Writes every case with its revisions, the photographs, issued reports, accounts and
own books into one zip file, also while the workshop is open. An existing file is left
alone. `witnessmark restore` puts it back.

\b
Example:
  witnessmark backup workshop.zip
"""


def backup(
    file: Annotated[Path, argument("FILE", "The file to write.")],
    home: HomeOption = None,
    database: DatabaseOption = "",
) -> None:
    """Write the file, whole or not at all."""
    if file.exists():
        wanted = "the name of a file that is not there"
        refuse((NotAllowed(typed("FILE", str(file)), str(file), "is there already", wanted),))
    home_opened(home, database)
    from witnessmark import store

    try:
        made = store.backup(file.absolute(), datetime.now(UTC).astimezone())
    except store.NotKeptError as fault:
        refuse(fault.problems)
    rows, files = f"{made.rows:,}", f"{made.files:,}"
    told = said("{file}: {rows} rows and {files} files", file=str(file), rows=rows, files=files)
    print_line(told)
    for each in made.missing:
        print_line(said("Missing, or not as it was kept: {file}", file=each))
