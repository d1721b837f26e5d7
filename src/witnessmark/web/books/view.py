"""The books on the shelf, a search over all, and the pages of one."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark.answers.book_page import book_page as page_of_book
from witnessmark.answers.book_page import marks_page
from witnessmark.answers.book_rows import TableNamed, lists_of, tables_of
from witnessmark.answers.book_values import item_values, values_page
from witnessmark.answers.books_listed import listed_book
from witnessmark.answers.searched import searched_page
from witnessmark.bookmaking.answered import Answered, answered
from witnessmark.bookmaking.listing import list_book
from witnessmark.codebook import ANY_CAR, CodeBook, Item, Mark, changelog_problems
from witnessmark.codebook.search import search_books
from witnessmark.outline.records import Outline
from witnessmark.store.models import Person
from witnessmark.web.books import keeping
from witnessmark.web.shared.blocks import drawn_outline
from witnessmark.web.shared.page_numbers import Pages
from witnessmark.web.shared.shelf import OnShelf, on_shelf, shelf

HITS_A_PAGE = 50
LONGEST_SEARCH = 200


@dataclass(frozen=True, slots=True)
class ShelfLine:
    """A book in the list: where it is from, and how much there is of it."""

    shelved: OnShelf
    marks: int
    rows: int


@dataclass(frozen=True, slots=True)
class MarksOfPlace:
    """The marks at one place of the car."""

    place: str
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class CoverageTold:
    """What can be said of a car by a book, and the rows it has for that."""

    answered: tuple[Answered, ...]
    outline: Outline


def page(request: HttpRequest) -> HttpResponse:
    """All books, those of the workshop first, and those that are kept aside."""
    lines = [ShelfLine(e, len(e.book.marks), _rows(tables_of(e.book))) for e in shelf()]
    given: dict[str, object] = {"lines": lines}
    given |= {"own": [each for each in lines if each.shelved.is_own]}
    if _is_owner(request):
        given["aside"] = keeping.aside_names()
    return render(request, "books/page.html", given)


def search(request: HttpRequest) -> HttpResponse:
    """Every row of every book that speaks of a text, the closest first."""
    text = request.GET.get("q", "").strip()[:LONGEST_SEARCH]
    given: dict[str, object] = {"text": text}
    if text:
        hits = search_books([each.book for each in shelf()], text)
        pages = Pages.of(request, len(hits), HITS_A_PAGE)
        shown = searched_page(text, hits[pages.first : pages.last], None)
        given |= {"pages": pages, "blocks": shown.front, "number": len(hits)}
    return render(request, "books/search.html", given)


def book_page(request: HttpRequest, book: str) -> HttpResponse:
    """One book: what it covers, its tables, what can be claimed, its marks."""
    shelved = on_shelf(book)
    found = shelved.book
    before = request.GET.get("before")
    is_placed = shelved.is_own and before is not None
    version = found.version
    given = {
        "shelved": shelved,
        "is_placed": is_placed,
        "before": before if before and (keeping.before() / before).is_dir() else "",
        "advice": changelog_problems(shelved.folder, version) if is_placed else (),
        "tables": tables_of(found),
        "lists": lists_of(found),
        "items": tuple(_claimable(found)),
        "places": _places(found),
        "problems": len(shelved.opened.problems),
    }
    return render(request, "books/book.html", given)


def whole(request: HttpRequest, book: str) -> HttpResponse:
    """Everything that the book says of its cars, on one page."""
    shelved = on_shelf(book)
    outline = page_of_book(shelved.book, ANY_CAR, is_typed=False)
    return _outlined(request, shelved, outline, f"All of {shelved.title}")


def coverage(request: HttpRequest, book: str) -> HttpResponse:
    """What the book knows and what it does not."""
    shelved = on_shelf(book)
    told = _coverage(shelved.name, shelved.opened.sha256)
    given = {"shelved": shelved, "told": told, "sections": drawn_outline(told.outline)}
    return render(request, "books/coverage.html", given)


def mark(request: HttpRequest, book: str, mark: str) -> HttpResponse:
    """One mark of a book."""
    shelved = on_shelf(book)
    found = shelved.book.mark(mark)
    if found is None:
        raise Http404
    outline = marks_page(shelved.book, (found,), ANY_CAR)
    return _outlined(request, shelved, outline, found.name)


def item(request: HttpRequest, book: str, item: str) -> HttpResponse:
    """What can be claimed of one item."""
    shelved = on_shelf(book)
    found = shelved.book.item(item)
    if found is None:
        raise Http404
    return _outlined(request, shelved, values_page(shelved.book, found, ANY_CAR), found.name)


@lru_cache(8)
def _coverage(name: str, sha256: str) -> CoverageTold:
    listed = list_book(on_shelf(name).book, sha256)
    return CoverageTold(tuple(answered(listed)) if listed.book.models else (), listed_book(listed))


def _outlined(
    request: HttpRequest, shelved: OnShelf, outline: Outline, heading: str
) -> HttpResponse:
    """A page that the rooms below have made."""
    given = {"shelved": shelved, "heading": heading, "sections": drawn_outline(outline)}
    return render(request, "books/outlined.html", given)


def _rows(tables: Iterable[TableNamed]) -> int:
    return sum(each.rows for each in tables)


def _claimable(book: CodeBook) -> Iterator[tuple[Item, int]]:
    """Each item with how many values of it the book lists."""
    for each in sorted(book.items, key=lambda each: not each.identification):
        yield each, len(item_values(book, each, ANY_CAR))


def _places(book: CodeBook) -> tuple[MarksOfPlace, ...]:
    found: dict[str, list[Mark]] = {}
    for each in book.marks:
        site = book.site(each.site)
        found.setdefault(site.name if site else "papers", []).append(each)
    return tuple(MarksOfPlace(place, tuple(marks)) for place, marks in found.items())


def _is_owner(request: HttpRequest) -> bool:
    return bool(request.person.role == Person.Role.OWNER)  # type: ignore[attr-defined]
