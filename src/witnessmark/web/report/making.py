"""A document that somebody asks for: kept by all that it is made of, and made behind the page.

Below `made/` of the workshop's folder each has a folder of its own, which appears when it is whole.
Nothing there is lost when it is thrown away: it is made again.
"""

import hashlib
import json
import os
import shutil
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from witnessmark.entry import versions_of
from witnessmark.examination.made_with import made_with
from witnessmark.report.issue.issued import Issued
from witnessmark.report.paperwork import Paperwork
from witnessmark.report.records import Form, PaperSize
from witnessmark.store.digest_files import home
from witnessmark.web.report.kinds import KINDS, NO_TERMS, DocumentKind, Drafted, Terms
from witnessmark.web.report.photographs import photographs_of
from witnessmark.web.report.worker import QUICK, SLOW, Lane
from witnessmark.web.shared.desk import Bench

MOST_KEPT = 80
"""Documents whose files are kept, those made last."""
ABOUT, PDF, HTML = "about.json", "document.pdf", "document.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class DocumentAsked:
    """A document of a revision, on this paper, on this day."""

    kind: str
    bench: Bench
    day: date
    size: PaperSize = PaperSize.A4
    terms: Terms = NO_TERMS
    issued: Issued | None = None

    @property
    def of_kind(self) -> DocumentKind:
        """Which document it is."""
        return KINDS[self.kind]

    @property
    def key(self) -> str:
        """The digest of all that it is made of: case, books, program, terms and day."""
        on, tool = self.bench.on, made_with()
        books = versions_of(on.books) if on.books else ()
        parts = (self.kind, self.bench.kept.sha256, repr(books), tool.version, tool.tables_sha256,
                 self.day.isoformat(), self.size.value, repr(self.terms),
                 self.issued.digest if self.issued else "")  # fmt: skip
        return hashlib.sha256("\x00".join(parts).encode("utf-8", "surrogatepass")).hexdigest()

    @property
    def lane(self) -> Lane:
        """Where it is made."""
        return SLOW if self.of_kind.is_steady else QUICK


@dataclass(frozen=True, slots=True)
class MadeDocument:
    """A document that lies there: how many pages it has, and what is to be said of it."""

    folder: Path
    name: str
    pages: int
    problems: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def pdf(self) -> Path:
        """Its PDF."""
        return self.folder / PDF

    @property
    def html(self) -> Path:
        """The same for a browser, where there is one."""
        return self.folder / HTML

    def page(self, number: int) -> Path:
        """The picture of a page, from 1."""
        return self.folder / f"{number}.png"


def made(asked: DocumentAsked) -> MadeDocument | None:
    """The document, if it lies there; else it is asked for, and there is none yet."""
    folder = _folder() / asked.key
    with suppress(OSError, ValueError, KeyError):
        about = json.loads((folder / ABOUT).read_text("utf-8"))
        told = (tuple(about["problems"]), tuple(about["notes"]))
        return MadeDocument(folder, about["name"], about["pages"], *told)
    key = f"document {asked.key}"
    if not asked.lane.has_failed(key):
        asked.lane.ask(key, lambda: make(asked))
    return None


def has_failed(asked: DocumentAsked) -> bool:
    """Did a mistake of the program end it?"""
    return asked.lane.has_failed(f"document {asked.key}")


def make(asked: DocumentAsked) -> None:
    """Make the document now and keep it."""
    keep(asked.key, asked.of_kind.draft(paperwork_of(asked), asked.terms, asked.issued))


def paperwork_of(asked: DocumentAsked) -> Paperwork:
    """All documents of that revision; the whole Opinion only for those that print it."""
    bench = asked.bench
    opinion = bench.steady if asked.of_kind.is_steady else bench.opinion
    assert opinion is not None, "a page asks whether there are faults first"
    return Paperwork(
        opinion=opinion,
        book=bench.book,
        exhibits=photographs_of(opinion.casefile),
        printed=asked.day,
        form=Form(asked.size),
    )


def keep(key: str, drafted: Drafted) -> None:
    """Set it and put it in its place, whole; the oldest go."""
    beside = _folder() / f".{os.urandom(8).hex()}"
    beside.mkdir(parents=True)
    try:
        document, about = drafted.document, _about(drafted)
        if document is not None:
            (beside / PDF).write_bytes(document.printed().pdf)
            pages = document.pages()
            about["pages"] = len(pages)
            for number, picture in enumerate(pages, 1):
                (beside / f"{number}.png").write_bytes(picture)
            if drafted.has_html:
                (beside / HTML).write_bytes(document.html())
        (beside / ABOUT).write_text(json.dumps(about), "utf-8")
        with suppress(OSError):  # another was faster with the same
            beside.replace(_folder() / key)
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    _forget_the_oldest()


def _about(drafted: Drafted) -> dict[str, Any]:
    told = {"problems": drafted.problems, "notes": drafted.notes}
    return {"name": drafted.name, "pages": 0, **told}


def _folder() -> Path:
    return home() / "made"


def _forget_the_oldest() -> None:
    there = sorted(_folder().iterdir(), key=lambda each: each.stat().st_mtime, reverse=True)
    for each in there[MOST_KEPT:]:
        shutil.rmtree(each, ignore_errors=True)
