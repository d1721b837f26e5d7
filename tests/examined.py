"""An examination is made once a run: whoever asks for the same again is given the same Opinion.

An Opinion is frozen, so that tests can share it. The processes of a run share them through a
folder: each Opinion lies there under the digest of what it was made from.
"""

import fcntl
import os
import pickle
import sys
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from hashlib import sha256
from pathlib import Path
from unittest.mock import patch

from witnessmark.casefile import Casefile, render_casefile
from witnessmark.codebook import CodeBook
from witnessmark.examination import BookVersion, Opinion, examine
from witnessmark.weighing import answer

STEADIED = "altered"
"""The demonstration car of which it is told how far its answers rest on assumed rates."""
DRAWS = 8
"""Draws by which steadiness is told in a test: enough for every sentence and figure of it."""

examining = sys.modules[examine.__module__]

_KEPT: dict[str, Opinion] = {}
_FOLDER: list[Path] = []


def share(base: Path) -> None:
    """Keep what is examined in a folder that all processes of this run have."""
    folder = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "examined"
    folder.mkdir(exist_ok=True)
    _FOLDER[:] = [folder]


def examined_once(
    casefile: Casefile,
    book: CodeBook,
    version: BookVersion,
    beside: tuple[BookVersion, ...] = (),
    *,
    steady: bool = True,
) -> Opinion:
    """As `examine`, with few draws, which is asked once for each case and book.

    `version` stands for the book: its digest is that of the folder that was opened. The language
    spoken stands for nothing: an Opinion is the same in each, which test_translated.py tries. Nor
    does what the case is called, which stands in the document of an Opinion and nowhere else.
    """
    # The draws of the others take a minute a car.
    steady = steady and casefile.id == STEADIED
    unnamed = replace(casefile, id="car", title="")
    asked = (render_casefile(unnamed), version, beside, steady)
    name = sha256(repr(asked).encode()).hexdigest()
    if name not in _KEPT:
        _KEPT[name] = _shared(name, partial(examine, unnamed, book, version, beside, steady=steady))
    named = replace(_KEPT[name].casefile, id=casefile.id, title=casefile.title)
    return replace(_KEPT[name], casefile=named)


def ratios_alone(casefile: Casefile, book: CodeBook) -> Opinion:
    """As `examine`, without what drives its ratios, what to look at again and how far they hold:
    quick, for a book or a case that is tried once."""
    quick = partial(answer, with_contributions=False, with_next_looks=False)
    version = BookVersion(book.id, book.title, book.version, "")
    with patch.object(examining, "answer", quick):
        return examine(casefile, book, version, steady=False)


def _shared(name: str, made: Callable[[], Opinion]) -> Opinion:
    """The Opinion from the folder, or made and put there; others wait for it."""
    with patch.object(examining, "DRAWS", DRAWS):
        if not _FOLDER:
            return made()
        with (_FOLDER[0] / name).open("a+b") as file:
            fcntl.flock(file, fcntl.LOCK_EX)
            file.seek(0)
            content = file.read()
            if content:
                found = pickle.loads(content)
                assert isinstance(found, Opinion)
                return found
            opinion = made()
            file.write(pickle.dumps(opinion))
            return opinion
