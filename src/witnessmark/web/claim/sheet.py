"""Everything that the page of the claim shows, in its order: what the templates set."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from witnessmark.casefile import Casefile
from witnessmark.casefile.records import Sum
from witnessmark.codebook import MODEL, MODEL_YEAR, CodeBook, Item, makers_own
from witnessmark.codebook.pieces import pieces_of
from witnessmark.entry import Claimable, claim_read, claim_shown, claimables
from witnessmark.examination import book_names, car_context, car_marks, in_book_words
from witnessmark.examination.check import WHOLE_CAR, questions_asked
from witnessmark.web.board.offered import MakersBooks, by_maker, offered
from witnessmark.web.claim.keeping import OF_A_HUNDRED, of_a_hundred
from witnessmark.web.claim.parts import PARTS, PRIOR_ODDS, TITLED, Part
from witnessmark.web.claim.shown import (
    NOTHING_SENT,
    Choice,
    FieldShown,
    PageShown,
    Sent,
    form_name,
)
from witnessmark.web.shared.desk import Bench
from witnessmark.web.shared.kept import kept_by_text
from witnessmark.wording import Names, odds_text
from witnessmark.wording.amounts import capital
from witnessmark.wording.case_words import question_words

ROLES = ("works", "body_works")
MOST_NAMED = 3
"""Fields of an entry in the line that it is opened by."""
LONGEST_NAMED = 90


@dataclass(frozen=True, slots=True)
class EntryShown:
    """An entry of a list: its place from 0, its fields, and what it comes to, in words."""

    form: str
    at: int
    fields: tuple[FieldShown, ...]
    words: str = ""

    @property
    def is_wrong(self) -> bool:
        """Is anything told against it?"""
        return any(each.wrong for each in self.fields)


@dataclass(frozen=True, slots=True)
class ListShown:
    """A part of any number of entries, and the fields of one more."""

    part: Part
    entries: tuple[EntryShown, ...]
    fresh: tuple[FieldShown, ...]

    @property
    def fresh_form(self) -> str:
        """The form of one more."""
        return form_name(self.part, None)


@dataclass(frozen=True, slots=True)
class PartShown:
    """A part: its fields, or its list."""

    part: Part
    fields: tuple[FieldShown, ...] = ()
    list: ListShown | None = None

    @property
    def entered(self) -> int:
        """How many entries it has, or fields that say something."""
        if self.list is not None:
            return len(self.list.entries)
        return sum(bool(each.value) for each in self.fields)

    @property
    def is_wrong(self) -> bool:
        """Is anything told against what stands in it, or against one more entry?"""
        if self.list is None:
            return any(each.wrong for each in self.fields)
        fresh = any(each.wrong for each in self.list.fresh)
        return fresh or any(each.is_wrong for each in self.list.entries)


@dataclass(frozen=True, slots=True)
class Offer:
    """What can be said of an item or a part: a list by its id, as each is typed and what is read
    beside it."""

    id: str
    values: tuple[Choice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The whole page."""

    makers: tuple[MakersBooks, ...]
    further: tuple[CodeBook, ...]
    titled: tuple[FieldShown, ...]
    items: tuple[FieldShown, ...]
    others: tuple[FieldShown, ...]
    offers: tuple[Offer, ...]
    read: tuple[str, ...]
    parts: tuple[PartShown, ...]

    @property
    def is_other_wrong(self) -> bool:
        """Is anything told against one of the further items?"""
        return any(each.wrong for each in self.others)

    def all_entries(self) -> list[EntryShown]:
        """Every entry of a list."""
        return [entry for each in self.parts if each.list for entry in each.list.entries]

    def all_fields(self) -> list[FieldShown]:
        """Every field that is on the page."""
        found = [*self.titled, *self.items, *self.others]
        for each in self.parts:
            found += each.fields
            if each.list is not None:
                found += each.list.fresh
                found += (field for entry in each.list.entries for field in entry.fields)
        return found


@kept_by_text
def as_it_stands(bench: Bench) -> Sheet:
    """The page of a case when nothing was sent."""
    return sheet(bench)


def sheet(bench: Bench, sent: Sent = NOTHING_SENT) -> Sheet:
    """The page of a case; of one whose book cannot be opened, the choice of another alone."""
    shown = PageShown(bench, sent)
    is_open = bench.has_book
    ways = _ways(bench) if is_open else {}
    items = tuple(_items(shown, ways)) if is_open else ()
    claimed = bench.casefile.claim.items
    first = tuple(e for e in items if e.name in claimed or _is_first(bench.book, e.name))
    return Sheet(
        makers=by_maker(),
        further=tuple(each for each in offered() if not makers_own(each)),
        titled=shown.fields(TITLED, bench.casefile, None) if is_open else (),
        items=first,
        others=tuple(each for each in items if each not in first),
        offers=tuple(_offers(bench, ways)) if is_open else (),
        read=claim_read(bench.casefile, bench.book) if is_open and not bench.faults else (),
        parts=tuple(_part(bench, each, sent) for each in PARTS) if is_open else (),
    )


def _part(bench: Bench, part: Part, sent: Sent) -> PartShown:
    if part.is_list:
        return PartShown(part, list=list_shown(bench, part, sent))
    return PartShown(part, PageShown(bench, sent).fields(part, part.there(bench.casefile), None))


def list_shown(bench: Bench, part: Part, sent: Sent) -> ListShown:
    """The entries of a list, and the fields of one more."""
    shown = PageShown(bench, sent, _lists(part), _words(bench, part))
    entries = []
    for at, entry in enumerate(part.entries(bench.casefile)):
        fields = shown.fields(part, entry, at)
        words = " · ".join(filter(None, map(_in_short, fields[:MOST_NAMED])))
        if isinstance(entry, Sum):
            fields = tuple(_missed(each, entry) for each in fields)
        if part.id == PRIOR_ODDS:
            odds: float = entry.odds  # type: ignore[attr-defined]
            there = None if sent.form == form_name(part, at) else of_a_hundred(odds)
            fields = tuple(_asked(each, there) for each in fields)
            share = f"{of_a_hundred(odds)} of a hundred, odds of {odds_text(odds)}"
            words = f"{_in_short(fields[0])}: {share}"
        entries.append(EntryShown(f"{part.id}-{at}", at, fields, words))
    fresh = shown.fields(part, None, None)
    if part.id == PRIOR_ODDS:
        fresh = tuple(_asked(each, None) for each in fresh)
    return ListShown(part, tuple(entries), fresh)


def _missed(shown: FieldShown, stated: Sum) -> FieldShown:
    """A field without which the sum is printed nowhere."""
    told = "Empty, so no document prints this sum."
    return replace(shown, lacks=told) if shown.name in stated.missing else shown


def _in_short(shown: FieldShown) -> str:
    """What a field says, in a few words."""
    said = (each.words for each in shown.choices if each.value == shown.value)
    text = next(said, shown.value) if shown.name == "question" else shown.value
    line = " ".join(text.split())
    return line if len(line) <= LONGEST_NAMED else f"{line[: LONGEST_NAMED - 1]}…"


def _asked(shown: FieldShown, there: str | None) -> FieldShown:
    """Odds asked as cars out of a hundred, of which so many stand in the case."""
    if shown.name != OF_A_HUNDRED:
        return shown
    label = "Of a hundred such cars, how many would you expect to be as claimed here?"
    told = "More than 0 and less than 100. The case keeps it as odds."
    value = shown.value if there is None else there
    return replace(shown, label=label, told=told, value=value)


def _lists(part: Part) -> dict[str, str]:
    return {"about": "parts-of-car"} if part.id == "statements" else {}


def _words(bench: Bench, part: Part) -> dict[str, tuple[Choice, ...]]:
    """The questions that can have prior odds, as people ask them."""
    if part.id != PRIOR_ODDS:
        return {}
    casefile, book = in_book_words(bench.casefile, bench.book), bench.book
    names = _names(casefile, book)
    asked = questions_asked(casefile, book, car_context(casefile, book))
    whole = [each for each in asked if " " in each]
    stated = [e.question for e in casefile.circumstances.prior_odds if e.question not in whole]
    return {
        "question": (
            Choice(value="", words="Choose a question"),
            *(Choice(value=e, words=capital(question_words(e, names))) for e in (*whole, *stated)),
        )
    }


def _names(casefile: Casefile, book: CodeBook) -> Names:
    return Names(book_names(car_marks(replace(casefile, readings=()), book)))


type _Ways = dict[str, tuple[Claimable, ...]]


def _items(shown: PageShown, ways: _Ways) -> Iterator[FieldShown]:
    """A field for each item of the book, and for what is claimed of none."""
    bench, sent = shown.bench, shown.sent
    claimed, is_sent = bench.casefile.claim.items, sent.form == "items"
    known = {each.id: each for each in bench.book.items}
    names = (*known, *(each for each in claimed if each not in known))
    for name in sorted(names, key=_Rank(known)):
        item, value = known.get(name), claimed.get(name, "")
        if item is not None and ways.get(name):
            value = claim_shown(item, ways[name], value)
        yield FieldShown(
            name=name,
            id=f"items-{name}",
            label=_label(item) if item else name,
            told=capital(item.name) if item and item.identification else "",
            value=sent.values.get(name, value) if is_sent else value,
            offered=f"offered-{name}" if ways.get(name) else "",
            is_number=name == MODEL_YEAR,
            wrong=sent.wrong(name) if is_sent else shown.against(("claim", "items", name)),
        )


def _label(item: Item) -> str:
    """What a field of an item is called: by one word for the number of the car, which each book
    has by its maker's."""
    return "Identification number" if item.identification else capital(item.name)


@dataclass(frozen=True, slots=True)
class _Rank:
    """The order of items: year, model and the car's own number first, then the book's."""

    known: dict[str, Item]

    def __call__(self, name: str) -> tuple[int, int]:
        names = list(self.known)
        at = names.index(name) if name in self.known else len(names)
        return (0 if name == MODEL_YEAR else 1 if name == MODEL else 2), at


def _is_first(book: CodeBook, name: str) -> bool:
    item = book.item(name)
    return name in (MODEL, MODEL_YEAR, *ROLES) or (item is not None and item.identification)


def _ways(bench: Bench) -> _Ways:
    """How each item can be claimed of such a car."""
    context = car_context(in_book_words(bench.casefile, bench.book), bench.book)
    return {each.id: claimables(bench.book, each, context) for each in bench.book.items}


def _offers(bench: Bench, ways: _Ways) -> Iterator[Offer]:
    """What the book has for each item on such a car, and the parts that statements speak of."""
    casefile, book = in_book_words(bench.casefile, bench.book), bench.book
    context = car_context(casefile, book)
    is_open = context.model_year is None
    for name, found in ways.items():
        years = {e.label: f"{e.first_year} to {e.last_year}" if is_open else "" for e in found}
        if years:
            told = tuple(Choice(value=each, words=words) for each, words in years.items())
            yield Offer(f"offered-{name}", told)
    names = _names(casefile, book)
    parts = dict.fromkeys((WHOLE_CAR, *(each.id for each in pieces_of(book, context).pieces)))
    yield Offer("parts-of-car", tuple(Choice(value=e, words=names.any(e)) for e in parts))
