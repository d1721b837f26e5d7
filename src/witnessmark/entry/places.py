"""Places of the car as people name them, and in a line what was entered of several."""

from collections.abc import Sequence

from witnessmark.casefile import SiteSeen
from witnessmark.casefile.site_entries import SiteEntries
from witnessmark.catalogue import in_a_row, said
from witnessmark.entry.draft import CaseDraft, Entered
from witnessmark.entry.problems import UnknownName
from witnessmark.examination import in_book_words
from witnessmark.examination.book_words import place_named
from witnessmark.wording.terms import term

MOST_NAMED = 3
"""Entries that are named in a line; of further ones their number."""
LONGEST_TOLD = 120
"""Characters of an entry that are repeated in a line."""


def reached(draft: CaseDraft, before: tuple[SiteSeen, ...]) -> str:
    """Which places ended otherwise than before, in a line; empty where none did."""
    was = SiteEntries(before)
    ended: dict[str, list[str]] = {}
    for each in draft.casefile.sites:
        entry = was.of(each.site, each.mark)
        if entry is None or entry.state is not each.state:
            ended.setdefault(term(each.state), []).append(place_name(draft, each.site, each.mark))
    told = [
        said("Now {state}: {places}.", state=state, places=in_a_row(places, "; "))
        for state, places in ended.items()
    ]
    return in_a_row(told, " ")


def placed(draft: CaseDraft, given: Entered) -> tuple[str, str] | None:
    """The site that is named, and the mark where it is called by one of several there. A name of
    marks at several places means that which was read; else it adds to the problems."""
    name, book, context = str(given.value), draft.book, draft.context
    found = place_named(book, name, context)
    if found != ("", ""):
        return found
    marks = [mark for mark in book.marks_named(name, context) if mark.site]
    read = {each.mark for each in in_book_words(draft.casefile, book).readings}
    there = [mark for mark in marks if mark.id in read]
    if len(there) == 1:
        return place_named(book, there[0].id, context)
    sites = dict.fromkeys(mark.site for mark in marks or book.marks_for(context) if mark.site)
    where = f"of the book {book.id}"
    draft.problems.append(UnknownName(given.source, "place", name, where, tuple(sites)))
    return None


def place_name(draft: CaseDraft, site: str, mark: str = "") -> str:
    """What the book calls a place, or the one mark of it."""
    of_book = draft.book.mark(mark) if mark else draft.book.site(site, draft.context)
    found = of_book or draft.book.site(site)
    return found.name if found else site


def named_in_a_row(names: Sequence[str]) -> str:
    """The first names, and how many more there are."""
    left = len(names) - MOST_NAMED
    short = [n if len(n) <= LONGEST_TOLD else f"{n[: LONGEST_TOLD - 1]}…" for n in names]
    told = [*short[:MOST_NAMED], *([said("{number} more", number=left)] if left > 0 else [])]
    return in_a_row(told, "; ")
