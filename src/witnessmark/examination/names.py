"""The names that the code book gives to the ids which an Opinion speaks of."""

from collections.abc import Iterator

from witnessmark.agreement.items import claimed
from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.pieces import pieces_of
from witnessmark.examination.records import Named, NamedKind


def book_names(car: CarMarks) -> tuple[Named, ...]:
    """Names of the marks, items, assemblies, pieces, sites, models and works of the book.

    Last those of what is claimed, each under its item and the words of the claim.
    """
    book, context = car.book, car.context
    sites = (book.site(site_id, context) for site_id in dict.fromkeys(s.id for s in book.sites))
    rows = (
        (NamedKind.MARK, book.marks),
        (NamedKind.ITEM, book.items),
        (NamedKind.ASSEMBLY, book.assemblies),
        (NamedKind.PIECE, pieces_of(book, context).pieces),
        (NamedKind.SITE, [site for site in sites if site is not None]),
        (NamedKind.MODEL, book.models),
        (NamedKind.WORKS, book.works),
    )
    named = (Named(kind, each.id, each.name) for kind, found in rows for each in found)
    return (*named, *_claimed(car))


def _claimed(car: CarMarks) -> Iterator[Named]:
    """The book's names of the claimed codes, as the claim has them and as they are compared."""
    for item, text in car.casefile.claim.items.items():
        showing = claimed(car, item)
        if showing is None or not showing.values:
            continue
        name = showing.values[0].meaning.removeprefix(f"{showing.item.name} ")
        for written in dict.fromkeys((text, showing.shown)):
            yield Named(NamedKind.CLAIMED, f"{item} {written}", name)
