"""Reads a PDF as somebody would who looks for a number in it: every text, stream and picture."""

import io
import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from PIL import Image
from pypdf import PdfReader
from pypdf.generic import (
    ArrayObject,
    ByteStringObject,
    DictionaryObject,
    IndirectObject,
    StreamObject,
    TextStringObject,
)

from tests.worked.pdf_pages import page_texts
from witnessmark.codebook import CodeBook, ItemKind
from witnessmark.examination import Opinion

PIECE = 3
"""A run of so many characters of a serial is too long to be left."""
_NUMBER = re.compile(r"\d(?:[ .\u00a0\u2010-\u2015-]?\d)*")
_YEAR = re.compile(r"(?:1[789]|20)\d\d")


@dataclass(frozen=True, slots=True)
class Found:
    """All that a PDF holds: text of pages, strings of its objects, streams, pictures."""

    pages: str
    strings: tuple[str, ...]
    streams: str
    pictures: tuple[Image.Image, ...]
    attachments: tuple[str, ...]

    def texts(self) -> str:
        """Pages, titles, descriptions, bookmarks, marks for screen readers, document notes."""
        return "\n".join((self.pages, *self.strings))


def read_pdf(pdf: bytes) -> Found:
    """Everything in a PDF, streams unpacked. A picture that is no file of its own is an error."""
    reader = PdfReader(io.BytesIO(pdf))
    strings: list[str] = []
    streams: list[str] = []
    pictures: list[Image.Image] = []
    for number in range(1, len(reader.xref_objStm) + sum(map(len, reader.xref.values())) + 1):
        held = reader.get_object(IndirectObject(number, 0, reader))
        strings.extend(_strings(held))
        if isinstance(held, StreamObject) and held.get("/Subtype") == "/Image":
            pictures.append(Image.open(io.BytesIO(held.get_data())).convert("RGB"))
        elif isinstance(held, StreamObject):
            streams.append(held.get_data().decode("latin-1"))
    return Found(
        "\n".join(page_texts(pdf)),
        tuple(strings),
        "\n".join(streams),
        tuple(pictures),
        tuple(reader.attachments),
    )


def _strings(value: object, depth: int = 0) -> Iterator[str]:
    """Every string of an object, not following references: each object is read by itself."""
    if isinstance(value, TextStringObject):
        yield str(value)
    elif isinstance(value, ByteStringObject):
        yield bytes(value).decode("utf-16", "replace")
    elif isinstance(value, DictionaryObject):
        for name, each in value.items():
            if name not in ("/ID",):
                yield from _strings(each if not isinstance(each, IndirectObject) else None)
    elif isinstance(value, ArrayObject):
        for each in value:
            yield from _strings(each if not isinstance(each, IndirectObject) else None)


def serials(opinion: Opinion, book: CodeBook) -> set[str]:
    """The numbers of a case as somebody would write them down from the private report."""
    items = {item.id for item in book.items if item.kind is ItemKind.NUMBER}
    case = opinion.casefile
    found = {text for item, text in case.claim.items.items() if item in items}
    found.add(case.title_paper.number)
    for decoding in opinion.decodings:
        for cells in decoding.field_cells:
            if cells.says in items:
                found.add("".join(cell.characters[:1] or "?" for cell in cells.cells))
                found.add("".join(cell.characters[-1:] or "?" for cell in cells.cells))
    return {part for text in found for part in text.split("?") if len(part) >= PIECE}


def squeezed(text: str) -> str:
    """Letters and figures alone, wide ones as plain ones."""
    folded = unicodedata.normalize("NFKC", text).upper()
    return "".join(each for each in folded if each.isalnum())


def runs(numbers: set[str]) -> set[str]:
    """Every piece of a serial that is too long."""
    return {text[at : at + PIECE] for text in numbers for at in range(len(text) - PIECE + 1)}


def pieces(text: str, numbers: set[str]) -> set[str]:
    """Numbers in the text that have a piece of a serial in them; a year alone is none."""
    wanted = runs(numbers)
    found = (match[0] for match in _NUMBER.finditer(unicodedata.normalize("NFKC", text)))
    return {
        each
        for each in found
        if not _YEAR.fullmatch(each) and any(run in squeezed(each) for run in wanted)
    }
