"""The names that the code book gives to the ids which an Opinion speaks of."""

from collections.abc import Iterator

from witnessmark.agreement.items import claimed
from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.pieces import pieces_of
from witnessmark.examination.records import Named


def book_names(car: CarMarks) -> tuple[Named, ...]:
    """Names of the marks, items, assemblies, pieces, sites, models and works of the book.

    Last those of what is claimed, each under its item and the words of the claim.
    """
    book, context = car.book, car.context
    marks = tuple(Named("mark", mark.id, mark.name) for mark in book.marks)
    items = tuple(Named("item", item.id, item.name) for item in book.items)
    assemblies = tuple(Named("assembly", each.id, each.name) for each in book.assemblies)
    pieces = tuple(Named("piece", each.id, each.name) for each in pieces_of(book, context).pieces)
    found = (book.site(site_id, context) for site_id in dict.fromkeys(s.id for s in book.sites))
    sites = tuple(Named("site", site.id, site.name) for site in found if site is not None)
    models = tuple(Named("model", each.id, each.name) for each in book.models)
    works = tuple(Named("works", each.id, each.name) for each in book.works)
    return (*marks, *items, *assemblies, *pieces, *sites, *models, *works, *_claimed(car))


def _claimed(car: CarMarks) -> Iterator[Named]:
    """The book's names of the claimed codes, as the claim has them and as they are compared."""
    for item, text in car.casefile.claim.items.items():
        showing = claimed(car, item)
        if showing is None or not showing.values:
            continue
        name = showing.values[0].meaning.removeprefix(f"{showing.item.name} ")
        for written in dict.fromkeys((text, showing.shown)):
            yield Named("claimed", f"{item} {written}", name)
