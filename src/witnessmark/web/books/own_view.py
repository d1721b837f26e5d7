"""A book of one's own: brought, checked whole, every fault shown at its cell."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import urlencode

from witnessmark.web.books import keeping
from witnessmark.web.books.fault_cells import faults_of_book
from witnessmark.web.books.keeping import BookKept
from witnessmark.web.books.upload import Brought, brought
from witnessmark.web.shared import books
from witnessmark.web.shared.page_numbers import Pages

FAULTS_A_PAGE = 40


def bring(request: HttpRequest) -> HttpResponse:
    """A zip of its folder, or its files."""
    found = Brought()
    if request.method == "POST":
        found = brought(request.FILES.getlist("files"))
        if not found.problems:
            return _gone(keeping.keep(found.files, found.name))
    status = 422 if found.problems else 200
    return render(request, "books/bring.html", {"found": found}, status=status)


def aside(request: HttpRequest, name: str) -> HttpResponse:
    """A book that is kept aside: what is wrong with it, and files that mend it."""
    folder = keeping.aside() / name
    if not books.is_plain(name) or not folder.is_dir():
        raise Http404
    files, found = keeping.files_in(folder), Brought()
    if request.method == "POST":
        given = request.FILES.getlist("files")
        found = brought(given) if given else Brought()
        if not found.problems:
            return _gone(keeping.keep({**files, **found.files}, name))
    kept = keeping.checked(folder)
    pages = Pages.of(request, len(kept.problems), FAULTS_A_PAGE)
    given_here = {
        "name": name,
        "found": found,
        "kept": kept,
        "pages": pages,
        "faults": faults_of_book(files, kept.problems[pages.first : pages.last]),
        "files": sorted(files),
    }
    status = 422 if found.problems else 200
    return render(request, "books/aside.html", given_here, status=status)


def _gone(kept: BookKept) -> HttpResponse:
    """To where the book is now."""
    if not kept.is_in_place:
        return redirect("book_aside", kept.name)
    return redirect(f"{reverse('book', args=[kept.name])}?{urlencode({'before': kept.before})}")
