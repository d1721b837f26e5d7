"""Where what comes with the program beside its code is."""

from importlib.resources import files
from pathlib import Path


def shipped_folder(name: str) -> Path:
    """A folder that comes with the program beside its code: within the package where it was
    installed, else in the checkout."""
    package = Path(str(files("witnessmark")))
    return next((p for p in (package / name, package.parents[1] / name) if p.is_dir()), Path(name))
