"""The books against the pages of facts that they were written from, row by row.

`ledger/` has a line for each row of each table of those pages: where in the book it
stands, or why it does not. `*.counts.csv` has the number of rows of each table as
counted on the page. A reference names rows of a book: `codes:plants/N` all rows of a
code, `codes:plants/N/1967` those that begin in a year, `codes:plants/N/1967/camaro/memory`
those of a model with that basis (an empty part says nothing), `*` any code; `mark:`, `lag:`
and the like name one thing by its id, `feature:engine_pad.cleaned` one at a site; `test:` a
worked example by its test.
"""

import csv
import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest

from witnessmark.codebook import CodeBook, find_book, open_book

LEDGER = Path(__file__).with_name("ledger")
ROOT = Path(__file__).parents[2]
BOOKS_OF = {
    "chevrolet-1964-1972": ("chevrolet-1964-1972",),
    "ford-1964-1973": ("ford-1964-1973",),
    "standards": ("seventeen-characters", "dated-parts"),
    "practice": ("chevrolet-1964-1972", "ford-1964-1973", "dated-parts"),
}
LISTS = {
    "mark": "marks", "item": "items", "form": "date_forms", "works": "works", "model": "models",
    "assembly": "assemblies", "rule": "rules", "lag": "lags", "site": "sites",
    "feature": "features", "exception": "exceptions", "settlement": "settlements",
    "remark": "remarks", "point": "points", "run": "runs",
}  # fmt: skip


def lines(name: str) -> list[dict[str, str]]:
    """The rows of one file of the ledger."""
    with (LEDGER / name).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


@cache
def books(page: str) -> tuple[CodeBook, ...]:
    """The books that hold a page's facts."""
    found = []
    for book_id in BOOKS_OF[page]:
        folder = find_book(book_id)
        assert folder is not None, book_id
        book = open_book(folder).book
        assert book is not None, book_id
        found.append(book)
    return tuple(found)


def counted(reference: str, page: str) -> int:
    """How many rows of the books a reference names."""
    kind, _, name = reference.partition(":")
    if kind == "test":
        path, _, function = name.partition("::")
        text = (ROOT / path).read_text("utf-8")
        return len(re.findall(rf"^def {re.escape(function)}\(", text, re.MULTILINE))
    return sum(_in_book(kind, name, book) for book in books(page))


def _in_book(kind: str, name: str, book: CodeBook) -> int:
    if kind == "codes":
        table, code, year, model, basis = (*name.split("/"), "", "", "")[:5]
        return sum(
            row.table == table
            and code in ("*", row.code)
            and year in ("", str(row.applies.first_year))
            and (not model or model in row.applies.models)
            and basis in ("", row.citation.basis.value.replace(" ", "-"))
            for row in book.codes
        )
    if kind == "series":
        item, _, first = name.partition("/")
        return sum((row.item, row.first) == (item, first) for row in book.series)
    first, _, second = name.rpartition("." if kind in ("field", "empty") else "/")
    if kind in ("field", "empty"):
        fields = [f for m in book.marks if m.id == first for f in m.fields if f.id == second]
        return sum(kind == "field" or f.empty is not None for f in fields)
    if kind == "feature":
        site, _, own = name.rpartition(".")
        return sum(each.id == own and site in ("", each.site) for each in book.features)
    if kind == "placeholder":
        forms = [form for form in book.date_forms if form.id == first]
        return sum(p.code == second for form in forms for p in form.placeholders)
    return sum(each.id == name for each in getattr(book, LISTS[kind]))


PAGES = [pytest.param(page, id=page) for page in BOOKS_OF]


@pytest.mark.parametrize("page", PAGES)
def test_every_row_of_the_page_has_a_line(page):
    """Table by table, as many lines as the page has rows."""
    had = Counter(line["section"] for line in lines(f"{page}.csv"))
    assert had == {row["section"]: int(row["rows"]) for row in lines(f"{page}.counts.csv")}


@pytest.mark.parametrize("page", PAGES)
def test_every_line_stands_in_the_book_or_says_why_not(page):
    """With exactly as many rows as the line counts."""
    faults = []
    for line in lines(f"{page}.csv"):
        found = {reference: counted(reference, page) for reference in line["in_book"].split()}
        where = f"{line['section']} {line['row']}"
        if not found and not line["left_out"].strip():
            faults.append(f"{where}: neither in the book nor left out for a reason")
        faults += [f"{where}: {reference} is not there" for reference, n in found.items() if n == 0]
        if sum(found.values()) != int(line["values"] or 0):
            faults.append(f"{where}: {sum(found.values())} rows, {line['values']} in the ledger")
    assert faults == []


def test_a_reference_to_nothing_counts_nothing():
    """The ledger can fail."""
    page = "standards"
    assert counted("remark:no-such-remark", page) == 0
    assert counted("codes:no-such-table/*", page) == 0
    assert counted("test:tests/published/test_ledger.py::no_such_test", page) == 0
    assert counted("test:tests/published/test_ledger.py::test_a_reference_to_nothing", page) == 0
