"""Readings of numbers as evidence: which places of which number each node shows."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.book import ANY_CAR, CodeBook
from witnessmark.codebook.marks import Field, HowMade, Mark
from witnessmark.codebook.records import CarContext, Item, ItemKind, Series
from witnessmark.decoding import FieldSeen, PlaceSeen
from witnessmark.reading import CellKind, ReadingRates
from witnessmark.weighing import spread
from witnessmark.weighing.nodes import CharacterSource, Node, NodeKind, assemblies_of
from witnessmark.weighing.numbers import ALONE, CLAIMED, NumberItem, Showing
from witnessmark.weighing.rows import fixed
from witnessmark.weighing.spread import Spread

Array = NDArray[np.float64]

SERIES_SHARE = fixed("series_share")
"""Share of p(t) that follows the book's series; the rest is uniform, so that a
number outside every known series stays possible."""
SERIES_BESIDE = fixed("series_beside")
"""Share of a car's own numbers that follow the series of the year before or after."""

MOST_NODES = 6
"""Nodes that are summed together for one number while not all of them were read: the sum has
a term for every way to allot them to cars."""

ELSEWHERE = 1000
"""Minutes counted for what stands at no site of the car, such as a paper."""


def part_places(part: str, length: int) -> range:
    """Which places of a number of this length a field's part shows.

    >>> list(part_places("last 4", 6))
    [2, 3, 4, 5]
    """
    words = part.split()
    if len(words) == 2 and words[1].isdigit():
        count = min(int(words[1]), length)
        return range(length - count, length) if words[0] == "last" else range(count)
    return range(length)


def number_fields(node: Node, book: CodeBook) -> list[tuple[Mark, Field, Item]]:
    """The fields of a node that show free numbers, with their items."""
    found = []
    for mark in node.marks:
        for fld in mark.fields:
            item = book.item(fld.says)
            if item is not None and item.kind is ItemKind.NUMBER and item.length:
                found.append((mark, fld, item))
    return found


@dataclass(frozen=True, slots=True)
class NumberSeen:
    """What all marks of a node show of one item: for each place of the whole number, from
    its first, the places seen there with the field they are of."""

    places: tuple[tuple[tuple[FieldSeen, PlaceSeen], ...], ...]
    alphabet: str

    def likelihood(self, rates: ReadingRates) -> Array:
        """P(what was seen at each place | character), shape (places, alphabet)."""
        rows = np.ones((len(self.places), len(self.alphabet)))
        for row, each in zip(rows, self.places, strict=True):
            for seen, place in each:
                row *= seen.under(place, rates)
        return rows

    def doubts(self, number: list[str]) -> int:
        """How many places were left open, or clearly read as another character than here."""
        return sum(
            place.doubts(character)
            for each, character in zip(self.places, number, strict=True)
            for _, place in each
        )

    @property
    def is_clear(self) -> bool:
        """Was every place of the number read clearly by somebody?"""
        return all(any(CellKind.CLEAR in place.kinds for _, place in each) for each in self.places)


def numbers_seen(car: CarMarks, node: Node) -> dict[str, NumberSeen]:
    """Item to what the marks of a node show of it, over all examiners' readings.

    A number that lacks a place at no known place was read and says nothing.
    """
    found: dict[str, list[list[tuple[FieldSeen, PlaceSeen]]]] = {}
    alphabets: dict[str, str] = {}
    for mark, fld, item in number_fields(node, car.book):
        seen = car.seen(mark, fld)
        if seen is None:
            continue
        alphabets[item.id] = item.alphabet
        places = found.setdefault(item.id, [[] for _ in range(item.length)])
        for place in seen.places:
            if place.from_end < item.length:
                places[item.length - 1 - place.from_end].append((seen, place))
    return {
        item: NumberSeen(tuple(map(tuple, places)), alphabets[item])
        for item, places in found.items()
    }


def blank_ratio(
    seen: dict[str, NumberSeen],
    likelihoods: dict[str, Array],
    items: dict[str, NumberItem],
    error: float,
) -> float:
    """P(what was seen | never numbered) over P(what was seen | a number standing alone).

    A clear character on a blank is a misreading; a worn place says nothing; a
    ground place had something; a place seen as never struck is what a blank shows.
    """
    ratio = 1.0
    for item, number in seen.items():
        ratio /= float(items[item].spread.summed(likelihoods[item][None])[0])
        for place in number.places:
            on_blank = 1.0
            for kind in (kind for _, each in place for kind in each.kinds):
                if kind is CellKind.NEVER_STRUCK:
                    on_blank *= 1.0 - error
                elif kind in (CellKind.CLEAR, CellKind.ONE_OF, CellKind.OBLITERATED):
                    on_blank *= error / 10.0
            ratio *= on_blank
    return max(ratio, 1e-12)


def home_of(item: Item | None, car: CarMarks, bearer: str) -> str:
    """The assembly whose own number an item is; the bearer where the car has no such assembly."""
    known = {assembly.id for assembly in assemblies_of(car.book, car.context)}
    return item.home if item is not None and item.home in known else bearer


def items_of(car: CarMarks, nodes: tuple[Node, ...], bearer: str) -> tuple[NumberItem, ...]:
    """The number items that the nodes bear, each with its showings and p(t)."""
    found: dict[str, list[int]] = {}
    for place, node in enumerate(nodes):
        for _, _, item in number_fields(node, car.book):
            nodes_of_item = found.setdefault(item.id, [])
            if place not in nodes_of_item:
                nodes_of_item.append(place)
    items = []
    for item_id, places in found.items():
        book_item = car.book.item(item_id)
        assert book_item is not None
        home = home_of(book_item, car, bearer)
        spread, own = spreads_of(car.book, book_item, car.context)
        claimed = claimed_of(car, book_item)
        home_group = None if claimed is not None else home
        showings = [Showing(p, groups_of(nodes[p], home_group, bearer)) for p in places]
        for component in _components(showings, claimed is not None):
            summed = _summed(car, nodes, item_id, component)
            items.append(NumberItem(item_id, summed, spread, claimed, own))
    return tuple(items)


def _summed(
    car: CarMarks, nodes: tuple[Node, ...], item_id: str, showings: tuple[Showing, ...]
) -> tuple[Showing, ...]:
    """Of showings that depend on each other those that are summed: all that were read, and of
    the others as many as stay within `MOST_NODES`, the quickest to look at first."""
    read = [s for s in showings if item_id in numbers_seen(car, nodes[s.node])]
    rest = [s for s in showings if s not in read]
    rest.sort(key=lambda showing: minutes_to(car, nodes[showing.node]))
    kept = [*read, *rest[: max(0, MOST_NODES - len(read))]]
    return tuple(showing for showing in showings if showing in kept)


def minutes_to(car: CarMarks, node: Node) -> int:
    """Minutes that the quickest of a node's sites takes, those of getting there among them."""
    wanted = {mark.site for mark in node.marks}
    sites = [s for s in car.book.sites if s.id in wanted and s.applies.covers(car.context)]
    return min((site.minutes + site.access_minutes for site in sites), default=ELSEWHERE)


def _components(showings: list[Showing], is_claimed: bool) -> list[tuple[Showing, ...]]:
    """Showings that depend on each other: all of an open item; of a claimed one, whose
    number is given, only those that may show the same donor's."""
    if not is_claimed:
        return [tuple(showings)]
    by_donor: dict[str, list[Showing]] = {}
    for showing in showings:
        donors = [g for g in showing.groups if g not in (CLAIMED, ALONE)]
        by_donor.setdefault(donors[0] if donors else f"node {showing.node}", []).append(showing)
    return [tuple(each) for each in by_donor.values()]


def donor_of(assembly: str) -> str:
    """The name of the car that an assembly came from."""
    return f"donor of the {assembly}"


def groups_of(node: Node, home: str | None, bearer: str) -> tuple[str, ...]:
    """The cars that a node may show for an item whose home is this assembly.

    None for a claimed item: a mark made later then shows the claimed number or none.
    """
    sources = {state.source for state in node.states}
    groups = [CLAIMED]
    if CharacterSource.DONOR in sources:
        groups.append(donor_of(node.assembly if node.kind is not NodeKind.PLATE else bearer))
    if home is not None and donor_of(home) not in groups:
        groups.append(donor_of(home))
    return (*groups, ALONE)


def code_showing(place: int, node: Node, home: str | None, bearer: str) -> Showing:
    """How a node shows a code. One that is claimed (home None) is weighed against the
    claim elsewhere: here its own and other records count as standing alone."""
    groups = groups_of(node, home, bearer)
    if home is None:
        groups = tuple(ALONE if group == CLAIMED else group for group in groups)
    return Showing(place, groups)


def claimed_of(car: CarMarks, item: Item) -> NDArray[np.intp] | None:
    """The claimed number as places in the alphabet, or None where it is not claimed in full."""
    text = car.casefile.claim.items.get(item.id, "")
    characters = [c for c in text.upper() if c in item.alphabet]
    if len(characters) != item.length:
        return None
    return np.array([item.alphabet.index(c) for c in characters], dtype=np.intp)


def spreads_of(
    book: CodeBook, item: Item, context: CarContext = ANY_CAR
) -> tuple[Spread, Spread | None]:
    """p(t) of any car's number, and of a car of this context that left the works with it.

    The second is None where the book gives the context no series of its own. Parts that
    are not a car's own come most often from like cars: the series that fit the claimed
    car count as much as all series together.
    """
    even = spread.even(item.length, item.alphabet)
    # Whose works made it is weighed by the works' own code: here it is given.
    same_works = CarContext(works=context.works)
    rows = [
        s
        for s in book.series
        if s.item == item.id and s.citation.basis.weighs and s.applies.covers(same_works)
        if s.first.isdecimal() and s.last.isdecimal()
    ]
    every = _of_series(rows, item)
    if every is None:
        return even, None
    alike = _of_series([s for s in rows if s.applies.covers(context)], item)
    listed = every if alike is None else spread.mixed([(0.5, every), (0.5, alike)])
    found = spread.mixed([(SERIES_SHARE, listed), (1.0 - SERIES_SHARE, even)])
    own = _own_series([s for s in rows if s.with_the_car], item, context)
    return found, own


def _own_series(rows: list[Series], item: Item, context: CarContext) -> Spread | None:
    """The series of the car's own year, with a share for the years beside it: parts wait."""
    year = context.model_year
    fitting = [s for s in rows if s.applies.covers(context)]
    mine = _of_series(fitting, item)
    if year is None or mine is None or len(fitting) == len(rows):
        return None
    beside = [
        s
        for s in rows
        if s not in fitting
        and any(s.applies.covers(replace(context, model_year=y)) for y in (year - 1, year + 1))
    ]
    near = _of_series(beside, item)
    if near is None:
        return mine
    return spread.mixed([(1.0 - SERIES_BESIDE, mine), (SERIES_BESIDE, near)])


def _of_series(rows: list[Series], item: Item) -> Spread | None:
    """All numbers of some series, alike; None where there are none of this kind."""
    runs = [
        (int(s.last) - int(s.first) + 1, run)
        for s in rows
        if (run := spread.of_run(s.first, s.last, item.length, item.alphabet)) is not None
    ]
    total = sum(count for count, _ in runs)
    return spread.mixed([(count / total, run) for count, run in runs]) if runs else None


def struck_by_hand(node: Node) -> bool:
    """Can mis-strikes happen on this node's marks?"""
    return node.marks[0].how_made is HowMade.STRUCK_BY_HAND
