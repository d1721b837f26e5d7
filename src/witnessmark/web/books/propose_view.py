"""A row proposed for a table: checked as the rows of an import are, shown as a line of CSV. Nothing
is written into a book that comes with the program."""

import re
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import render

from witnessmark.answers.book_rows import lists_of
from witnessmark.bookmaking.list_entries import csv_line
from witnessmark.bookmaking.table_import import ImportWanted, read_import
from witnessmark.bookmaking.table_joining import ImportRead
from witnessmark.codebook.book_format import TABLES
from witnessmark.codebook.parse import table_of
from witnessmark.documents.csv_cells import parse_cells
from witnessmark.documents.entries import FileText
from witnessmark.documents.shapes import Key, Kind, Shape
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.store.models import Person
from witnessmark.web.books.import_view import put
from witnessmark.web.books.problems import FormulaSign
from witnessmark.web.books.stems import stems_of
from witnessmark.web.shared.shelf import OnShelf, on_shelf

LONGEST_CELL = 2_000
FORMULA_SIGNS = "=+-@"

_NUMBER = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?")


@dataclass(frozen=True, slots=True)
class RowField:
    """A column of the table as a field of the form."""

    key: Key
    text: str = ""
    problems: tuple[Problem, ...] = ()

    @property
    def name(self) -> str:
        """Its name as the table's heading writes it."""
        return self.key.name

    @property
    def words(self) -> tuple[str, ...]:
        """What alone it may hold, if it is one of some words."""
        return tuple(map(str, self.key.words))

    @property
    def is_list(self) -> bool:
        """Does it hold several words, parted by blanks?"""
        return self.key.kind is Kind.TEXTS


def page(request: HttpRequest, book: str, stem: str) -> HttpResponse:
    """The form; sent, what is wrong with the row, or its line to copy and to download."""
    shelved = on_shelf(book)
    table = table_of(f"{stem}.csv")
    if table is None or stem not in {*TABLES, *stems_of(shelved.folder)}:
        raise Http404
    shape = TABLES[table]
    given: dict[str, Any] = {
        "shelved": shelved,
        "stem": stem,
        "table": table,
        "shape": shape,
        "stems": tuple(e for e in stems_of(shelved.folder) if table_of(f"{e}.csv") == table),
        "lists": lists_of(shelved.book) if table == "codes" else (),
        "can_take": shelved.is_own and _is_owner(request),
    }
    if request.method != "POST":
        given["fields"] = _fields(shape, {"table": request.GET.get("list", "")})
        return render(request, "books/propose.html", given)
    texts = _texts(shape, request.POST)
    read, wrong, others = _checked(shelved, stem, shape, texts)
    given |= {"fields": _fields(shape, texts, wrong), "others": others, "read": read}
    if wrong or read.joined is None:
        return render(request, "books/propose.html", given, status=422)
    if "take" in request.POST and given["can_take"]:
        return put(shelved, read.joined)
    lines = _lines(shape, texts)
    if "download" in request.POST:
        answer = HttpResponse(lines, content_type="text/csv; charset=utf-8")
        answer["Content-Disposition"] = f'attachment; filename="{stem}-row.csv"'
        return answer
    return render(request, "books/propose.html", given | {"lines": lines})


def _is_owner(request: HttpRequest) -> bool:
    return bool(request.person.role == Person.Role.OWNER)  # type: ignore[attr-defined]


def _texts(shape: Shape, post: QueryDict) -> dict[str, str]:
    """What stands in each field, on one line."""
    return {n: " ".join(post.get(f"c_{n}", "").split())[:LONGEST_CELL] for n in shape.names()}


def _fields(
    shape: Shape, texts: dict[str, str], wrong: dict[str, list[Problem]] | None = None
) -> tuple[RowField, ...]:
    found = wrong or {}
    return tuple(
        RowField(key, texts.get(key.name, ""), tuple(found.get(key.name, ()))) for key in shape.keys
    )


def _lines(shape: Shape, texts: dict[str, str]) -> str:
    """The headings and the row."""
    cells = [texts[name] for name in shape.names()]
    return f"{csv_line(shape.names())}\n{csv_line(cells)}\n"


def _checked(
    shelved: OnShelf, stem: str, shape: Shape, texts: dict[str, str]
) -> tuple[ImportRead, dict[str, list[Problem]], list[Problem]]:
    """The row read as a list of one, what is wrong by column, and what is wrong with the whole."""
    wrong: dict[str, list[Problem]] = {}
    for name, text in texts.items():
        if text[:1] in tuple(FORMULA_SIGNS) and not _NUMBER.fullmatch(text):
            wrong[name] = [FormulaSign(Source(name), text[0])]
    lines = _lines(shape, texts)
    with TemporaryDirectory() as folder:
        path = Path(folder) / f"{stem}.csv"
        path.write_text(lines, "utf-8")
        read = read_import(ImportWanted(shelved.folder, path, stem))
        name = str(path)
    others: list[Problem] = []
    for problem in read.problems:
        column = _column(problem.source, lines, shape) if problem.source.line == 2 else ""
        if column and problem.source.name in (name, path.name):
            wrong.setdefault(column, []).append(problem)
        else:
            others.append(problem)
    return read, wrong, others


def _column(place: Source, lines: str, shape: Shape) -> str:
    """The column in which a place of the row lies; empty for the row as a whole."""
    cells = parse_cells(FileText(place.name, lines)).rows[1]
    starts = [each.source.column or 1 for each in cells]
    if place.column is None or (place.column == 1 and place.width >= len(place.text)):
        return ""
    return shape.names()[max(0, sum(start <= place.column for start in starts) - 1)]
