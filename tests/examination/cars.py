"""A Sprint of 1955 on its frame, for the tests of the examination: each change by name."""

from functools import cache
from typing import Any

from tests.examined import examined_once
from witnessmark.casefile import Casefile, case_from
from witnessmark.codebook import CodeBook, find_book, open_book
from witnessmark.examination import BookVersion, Opinion, examine

CLAIM = {
    "chassis_number": "700143",
    "model": "solent-sprint",
    "model_year": "1955",
    "works": "tarvane",
    "body_works": "marrick",
}
TEXTS = {
    "plate_brass": "SP|700143|40047|17|L2|370|_",
    "frame_number": "4 700143",
    "engine_number": "L 40047",
}
VERSION = BookVersion("tarvane-1952-1961", "Tarvane, 1952 to 1961", "2026-11-25", "0" * 64)


@cache
def demonstration_book() -> CodeBook:
    """The demonstration book, opened once."""
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    book = open_book(folder).book
    assert book is not None
    return book


def sprint(
    texts: dict[str, str] | None = None,
    statements: list[dict[str, Any]] | None = None,
    claim: dict[str, str] | None = None,
    **extra: Any,
) -> Casefile:
    """A Sprint whose plate, frame and engine were read, but for what is named."""
    readings = [
        {"mark": mark, "text": text} for mark, text in (TEXTS | (texts or {})).items() if text
    ]
    document = {
        "format": "witnessmark-case",
        "format_version": 2,
        "id": "sprint",
        "book": "tarvane-1952-1961",
        "claim": {"items": claim or CLAIM, "statements": statements or []},
        "readings": readings,
        **extra,
    }
    return case_from(document)


def opinion_on(casefile: Casefile, book: CodeBook | None = None) -> Opinion:
    """The case examined by the demonstration book, or another, without steadiness."""
    if book is not None:
        return examine(casefile, book, VERSION, steady=False)
    return examined_once(casefile, demonstration_book(), VERSION, steady=False)
