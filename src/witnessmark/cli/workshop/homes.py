"""The folder of a workshop, as a command line names it, opened."""

import os
from pathlib import Path
from typing import Annotated

import typer

from witnessmark.cli.arguments import option
from witnessmark.cli.problems import typed
from witnessmark.cli.terminal import refuse
from witnessmark.entry import NotAllowed

HomeOption = Annotated[
    Path | None, option("FOLDER", "Where the workshop keeps everything; else your own folder.")
]
DatabaseOption = Annotated[
    str, option("ADDRESS", "A PostgreSQL database in place of the file in the folder.")
]


def home_of(given: Path | None) -> Path:
    """The folder that was named, that of the environment, or the one of this account."""
    named = given or os.environ.get("WITNESSMARK_HOME")
    if named:
        return Path(named).absolute()
    return Path(typer.get_app_dir("witnessmark"), "workshop").absolute()


def home_opened(
    given: Path | None, database: str, hosts: tuple[str, ...] = (), tls: bool = False
) -> Path:
    """The folder, with its store brought up to date; what is wrong with it ends the command."""
    from witnessmark.web import server  # late: no other command needs what is behind it

    folder = home_of(given)
    try:
        server.prepare(folder, hosts, database or os.environ.get("WITNESSMARK_DATABASE", ""), tls)
        server.bring_up()
    except server.NotOpenedError as fault:
        refuse((NotAllowed(typed("--home", str(folder)), str(folder), f"is not opened: {fault}"),))
    return folder
