"""The names that the code book gives to the ids which an Opinion speaks of."""

from witnessmark.agreement.records import CarMarks
from witnessmark.examination.records import Named


def book_names(car: CarMarks) -> tuple[Named, ...]:
    """Names of the marks, items, assemblies, sites, models and works of the book."""
    book, context = car.book, car.context
    marks = tuple(Named("mark", mark.id, mark.name) for mark in book.marks)
    items = tuple(Named("item", item.id, item.name) for item in book.items)
    assemblies = tuple(Named("assembly", each.id, each.name) for each in book.assemblies)
    found = (book.site(site_id, context) for site_id in dict.fromkeys(s.id for s in book.sites))
    sites = tuple(Named("site", site.id, site.name) for site in found if site is not None)
    models = tuple(Named("model", each.id, each.name) for each in book.models)
    works = tuple(Named("works", each.id, each.name) for each in book.works)
    return (*marks, *items, *assemblies, *sites, *models, *works)
