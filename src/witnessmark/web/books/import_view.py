"""A list from a spreadsheet taken into a table of the workshop's own book: all rows or none."""

import re
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from django.core.files.base import File
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import urlencode

from witnessmark.bookmaking.table_import import ImportWanted, read_import, read_list
from witnessmark.bookmaking.table_joining import ImportRead, Joined
from witnessmark.codebook.book_format import TABLES
from witnessmark.codebook.parse import table_of
from witnessmark.source import Source
from witnessmark.web.books import keeping
from witnessmark.web.books.fault_cells import FaultShown, faults_of_list
from witnessmark.web.books.problems import NothingBrought
from witnessmark.web.books.stems import BASES, stems_of
from witnessmark.web.shared.shelf import OnShelf, on_shelf

MOST_SHOWN = 100
"""Faults of a list on one page."""

_SOURCE = Source("list")
_ODD = re.compile(r"[^A-Za-z0-9._-]+")


def page(request: HttpRequest, book: str) -> HttpResponse:
    """The form; sent with a list, what is wrong with it, or the table with its new rows."""
    shelved = on_shelf(book)
    if not shelved.is_own:
        raise Http404
    given: dict[str, Any] = {
        "shelved": shelved,
        "stems": tuple(dict.fromkeys((*stems_of(shelved.folder), *TABLES))),
        "bases": BASES,
        "asked": request.POST,
    }
    if request.method != "POST":
        return render(request, "books/import.html", given)
    file = request.FILES.get("list")
    if file is None:
        given["problems"] = (NothingBrought(_SOURCE),)
        return render(request, "books/import.html", given, status=422)
    read, faults = _read(request, shelved, file)
    if read.joined is None:
        given |= {"faults": faults[:MOST_SHOWN], "left": len(faults[MOST_SHOWN:])}
        given |= {"number": len(faults), "is_about_book": read.is_about_book}
        return render(request, "books/import.html", given, status=422)
    return put(shelved, read.joined)


def put(shelved: OnShelf, joined: Joined) -> HttpResponse:
    """The book with the new table in its place, and to its page."""
    table = table_of(joined.name) or ""
    told = {"added": joined.added, "there": joined.there + joined.repeated}
    if joined.added:
        files = keeping.files_in(shelved.folder) | {joined.name: joined.text.encode("utf-8")}
        kept = keeping.keep(files, shelved.name)
        if not kept.is_in_place:
            return redirect("book_aside", kept.name)
    address = reverse("book_table", args=[shelved.name, table])
    return redirect(f"{address}?{urlencode(told)}")


def _read(
    request: HttpRequest, shelved: OnShelf, file: "File[bytes]"
) -> tuple[ImportRead, list[FaultShown]]:
    """The list by way of a file of its own that is gone afterwards."""
    name = _ODD.sub("-", str(file.name).replace("\\", "/").rpartition("/")[2])[-80:] or "list"
    asked = {key: request.POST.get(key, "").strip() for key in ("table", "basis", "source")}
    with TemporaryDirectory() as folder:
        path = Path(folder) / name.lstrip(".")
        path.write_bytes(file.read())
        read = read_import(ImportWanted(shelved.folder, path, **asked))
        if read.joined is not None:
            return read, []
        problems = read.problems
        return read, faults_of_list(read_list(path, asked["table"]), problems)
