"""The text of a PDF page by page, in the order in which it was set."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from pathlib import Path
from typing import Protocol

from pdf_oxide import PdfDocument

NEXT_TO = 0.15
"""What ends so close to where the next begins, in heights of a letter, is one word."""


class _Span(Protocol):
    """Letters set at once."""

    text: str
    sequence: int
    bbox: tuple[float, float, float, float]


@lru_cache(maxsize=8)
def page_texts(pdf: bytes) -> tuple[str, ...]:
    """What stands on each page, line below line; the cells of a table one by one."""
    document = PdfDocument.from_bytes(pdf)
    pages = (document.extract_spans(page) for page in range(document.page_count()))
    return tuple("".join(_pieces(page)) for page in pages)


def text_of(path: Path) -> str:
    """All pages of a file, with one space where it has white space."""
    return " ".join(" ".join(page_texts(path.read_bytes())).split())


def _pieces(spans: Iterable[_Span]) -> Iterator[str]:
    """The spans as they were set, each after the space or line end before it."""
    end: tuple[float, float] | None = None
    for span in sorted(spans, key=lambda each: each.sequence):
        left, base, width, height = span.bbox
        if end is not None and abs(base - end[1]) > NEXT_TO * height:
            yield "\n"
        elif end is not None and not -height < left - end[0] < NEXT_TO * height:
            yield " "
        yield span.text
        end = (left + width, base)
