"""Lists as the tests of the import type them: CSV texts, workbooks, workbooks taken apart."""

import io
import zipfile
from collections.abc import Callable, Sequence
from pathlib import Path

from openpyxl import Workbook

from witnessmark.bookmaking.table_import import ImportRead, ImportWanted, read_import
from witnessmark.problem import render_all

SHEET = "xl/worksheets/sheet1.xml"


def workbook(rows: Sequence[Sequence[object]], title: str = "codes") -> bytes:
    """A workbook with one sheet; a text that begins with = becomes a formula."""
    book = Workbook()
    book.active.title = title
    for row in rows:
        book.active.append(list(row))
    return saved(book)


def saved(book: Workbook) -> bytes:
    """The bytes of a workbook."""
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def with_part(content: bytes, name: str, change: Callable[[bytes], bytes]) -> bytes:
    """A workbook in which one part is changed."""
    stream = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(content)) as old,
        zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for part in old.namelist():
            text = old.read(part)
            new.writestr(part, change(text) if part == name else text)
    return stream.getvalue()


def taken(folder: Path, name: str, content: bytes | str, **wanted: str) -> ImportRead:
    """What the import makes of a list that stands beside the book."""
    path = folder.parent / name
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    return read_import(ImportWanted(folder, path, **wanted))


def told(read: ImportRead, folder: Path) -> str:
    """Its problems as a person reads them, places without the folder of the test."""
    assert (read.joined is None) == bool(read.problems)
    return render_all(read.problems).replace(f"{folder.parent}/", "")
