"""One table of a book, a hundred rows a page, each with its basis and source."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark.answers.book_rows import TableNamed, lists_of, rows_of, tables_of
from witnessmark.codebook.book_format import TABLES
from witnessmark.web.shared.page_numbers import Pages
from witnessmark.web.shared.shelf import on_shelf

ROWS_A_PAGE = 100
LONGEST_FILTER = 200
CODES = "codes"


def page(request: HttpRequest, book: str, table: str) -> HttpResponse:
    """The rows of a table that hold what was asked for; of codes also one list alone."""
    shelved = on_shelf(book)
    named = next((each for each in tables_of(shelved.book) if each.name == table), None)
    if named is None:
        raise Http404
    text = request.GET.get("q", "").strip()[:LONGEST_FILTER]
    lists = lists_of(shelved.book) if table == CODES else ()
    asked = request.GET.get("list", "")
    in_list = asked if asked in {each.name for each in lists} else ""
    words = text.casefold().split()
    found = [
        row
        for row in rows_of(shelved.book, table)
        if in_list in ("", row.in_list) and row.holds(words)
    ]
    pages = Pages.of(request, len(found), ROWS_A_PAGE)
    given = {
        "shelved": shelved,
        "table": named,
        "lists": lists,
        "in_list": in_list,
        "text": text,
        "pages": pages,
        "rows": found[pages.first : pages.last],
        "heading": _heading(named, in_list),
        "stems": _stems(table),
        "has_lists": table == CODES and not in_list,
        "added": _number(request, "added"),
        "there": _number(request, "there"),
        "is_based": any(each.basis for each in found),
    }
    return render(request, "books/table.html", given)


def _number(request: HttpRequest, name: str) -> int | None:
    """What an import tells of itself in the address that it leads to."""
    found = request.GET.get(name, "")
    return int(found) if found.isdecimal() and len(found) < 8 else None


def _heading(table: TableNamed, in_list: str) -> str:
    return f"{table.words}: {in_list.replace('_', ' ')}" if in_list else table.words


def _stems(table: str) -> tuple[str, ...]:
    """The tables of which a row can be proposed: those that are files of their own."""
    return (table,) if table in TABLES else ()
