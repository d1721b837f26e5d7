"""The folder of a workshop, as a command line names it."""

import os
from pathlib import Path
from typing import Annotated

import typer

from witnessmark.cli.arguments import option

HomeOption = Annotated[
    Path | None, option("FOLDER", "Where the workshop keeps everything; else your own folder.")
]


def home_of(given: Path | None) -> Path:
    """The folder that was named, that of the environment, or the one of this account."""
    named = given or os.environ.get("WITNESSMARK_HOME")
    return Path(named or typer.get_app_dir("witnessmark")).absolute() / (
        "" if named else "workshop"
    )
