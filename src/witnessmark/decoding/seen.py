"""What was seen of one field, once for all rooms: a likelihood for each place, code and day.

Nobody above goes back to the cells. Decoding multiplies these likelihoods with what is
listed for the car, agreement compares them, weighing multiplies them. All examiners'
readings of a mark are pooled, their shared mistakes with them, wherever they lie over
the same places.

    places   P(all that was seen at this place | character t), for each t
    codes    P(all that was seen | code), for each code that the book lists, and for one
             that it does not list (tables/rates.csv: half of those differ from a listed
             code in one place, the rest are even over all texts of the alphabet)
    days     P(all that was seen | day), of a form of date (days_seen.py)

Where places were not typed and no … says where they are, any character may stand one
place further on: the places of such a field say nothing, and a code is averaged over
where the one missing may be.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from math import prod

from witnessmark.codebook import CodeBook, Field, HowMade, ItemKind, Mark
from witnessmark.decoding.kept import kept, table_rows
from witnessmark.decoding.put_together import fields_said
from witnessmark.decoding.rates import NEAR_ROW, shipped_value
from witnessmark.decoding.records import (
    UNTYPED_COLUMN,
    CellsSeen,
    Decoding,
    FieldCells,
    FieldSeen,
    PlaceSeen,
)
from witnessmark.reading import (
    SILENT,
    Cell,
    CellKind,
    Observation,
    ReadingRates,
    observation_of,
    place_likelihood,
    shipped_rates,
)


def see(
    book: CodeBook,
    mark: Mark,
    seen_field: Field,
    readings: tuple[CellsSeen, ...],
    rates: ReadingRates | None = None,
) -> FieldSeen:
    """What all these readings say of one field of one mark; the order of entry is nothing."""
    ordered = tuple(sorted(readings, key=lambda each: repr(each.key))) if readings[1:] else readings
    used = rates or shipped_rates()
    if not (seen_field.table or seen_field.date_form):
        # Numbers are seldom the same twice: they would push out what is.
        return see_now(book, mark, seen_field, ordered, used)
    question = (mark.id, seen_field.id, tuple(each.key for each in ordered), rates)
    return kept(book, "seen", question, lambda: see_now(book, mark, seen_field, ordered, used))


def pooled(
    book: CodeBook, decodings: Iterable[Decoding], rates: ReadingRates | None = None
) -> dict[tuple[str, str], FieldSeen]:
    """What all readings of a case say of each field, by mark and field."""
    readings: dict[tuple[str, str], list[CellsSeen]] = {}
    for decoding in decodings:
        for cells in decoding.field_cells:
            if is_read(cells):
                place = (decoding.mark, cells.field)
                readings.setdefault(place, []).append(CellsSeen(decoding.reading, cells))
    return {
        (mark.id, own.id): see(book, mark, own, tuple(readings[mark.id, own.id]), rates)
        for mark in book.marks
        for own in fields_said(book, mark)
        if (mark.id, own.id) in readings
    }


def is_read(cells: FieldCells) -> bool:
    """Is there anything to decode? Not where no cell of the field was typed."""
    return cells.is_empty or len(cells.cells) > cells.missing


def see_now(
    book: CodeBook,
    mark: Mark,
    seen_field: Field,
    readings: tuple[CellsSeen, ...],
    rates: ReadingRates,
    is_code: bool = False,
) -> FieldSeen:
    """The same, and nothing is kept but how likely the codes are; `is_code`: the places are
    not asked for."""
    item = book.item(seen_field.says)
    is_number = item is not None and item.kind is ItemKind.NUMBER
    alphabet = item.alphabet if item is not None and is_number else seen_field.alphabet
    if seen_field.table:
        alphabet = table_alphabet(book, seen_field.table)
    by_hand = mark.how_made is HowMade.STRUCK_BY_HAND
    length = item.length if item is not None and is_number else 0
    found = FieldSeen(
        mark=mark.id,
        field=seen_field.id,
        says=seen_field.says,
        alphabet=alphabet,
        by_hand=by_hand,
        is_empty=all(each.cells.is_empty for each in readings),
        is_open=all(c.kind in SILENT for each in readings for c in each.cells.cells),
        lacks=min(each.cells.lacks for each in readings),
        readings=readings,
    )
    if found.is_empty and not is_number:
        return found
    places = () if is_code else _places(readings, seen_field, length, found, rates)
    if not seen_field.table:
        return _with(found, places)
    codes = listed_codes(book, seen_field.table)
    own_rates = None if rates is shipped_rates() else rates
    how = (seen_field.table, seen_field.widths, by_hand, own_rates)
    listed, unlisted = kept(
        book,
        "likelihood of the codes",
        (how, tuple([each.key for each in readings])),
        lambda: _codes(readings, seen_field, codes, found, rates),
    )
    return _with(found, places, tuple(zip(codes, listed, strict=True)), unlisted)


def _with(
    seen: FieldSeen,
    places: tuple[PlaceSeen, ...],
    codes: tuple[tuple[str, float], ...] = (),
    unlisted: float = 1.0,
) -> FieldSeen:
    lacks = 0 if places else seen.lacks
    return replace(seen, places=places, codes=codes, unlisted=unlisted, lacks=lacks)


def table_alphabet(book: CodeBook, table: str) -> str:
    """Every character that some field with this table, or a code of it, can have."""

    def answer() -> str:
        fields = (each for mark in book.marks for each in mark.fields if each.table == table)
        texts = "".join(each.alphabet for each in fields)
        return "".join(sorted(set(texts + "".join(listed_codes(book, table)))))

    return kept(book, "alphabet of a table", table, answer)


def listed_codes(book: CodeBook, table: str) -> tuple[str, ...]:
    """Every code of a table once, in the order of the book."""
    rows = table_rows(book, table)
    return kept(book, "codes", table, lambda: tuple(dict.fromkeys(row.code for row in rows)))


def _places(
    readings: tuple[CellsSeen, ...],
    seen_field: Field,
    length: int,
    found: FieldSeen,
    rates: ReadingRates,
) -> tuple[PlaceSeen, ...]:
    """The places of the whole number that this field shows, all readings pooled.

    A reading that lacks characters at no known place says nothing here.
    """
    seen: dict[int, list[Observation]] = {}
    for each in readings:
        if each.cells.lacks:
            continue
        for from_end, cell in _from_the_end(each.cells.cells, seen_field, length):
            seen.setdefault(from_end, []).append(observation_of(each.reading, cell))
    return tuple(
        [
            PlaceSeen(
                at,
                "/".join(sorted({observation.cell.sign() for observation in seen[at]})),
                place_likelihood(tuple(seen[at]), found.alphabet, found.by_hand, rates),
                tuple(seen[at]),
            )
            for at in sorted(seen, reverse=True)
        ]
    )


def _from_the_end(
    cells: tuple[Cell, ...], seen_field: Field, length: int
) -> list[tuple[int, Cell]]:
    """Each cell with its distance from the end of the whole number."""
    after = 0
    if seen_field.part.startswith("first"):
        after = length - len(cells)
        if length == 0 or after < 0:
            return []
    last = after + len(cells) - 1
    return [(last - i, cell) for i, cell in enumerate(cells)]


def _codes(
    readings: tuple[CellsSeen, ...],
    seen_field: Field,
    codes: tuple[str, ...],
    found: FieldSeen,
    rates: ReadingRates,
) -> tuple[list[float], float]:
    """P(all that was seen | code) for each code, and for one that no row has."""
    groups: dict[tuple[int, ...], list[dict[int, tuple[tuple[Observation, ...], ...]]]] = {}
    for each in readings:
        ways = ways_to_count(each, seen_field)
        groups.setdefault(tuple(sorted(ways)), []).append(ways)
    listed, unlisted = [1.0] * len(codes), 1.0
    for ways_of in groups.values():
        # Readings over the same places share mistakes; over others they are apart.
        rows = {
            length: [
                place_likelihood(
                    tuple(o for ways in ways_of for o in ways[length][place]),
                    found.alphabet, found.by_hand, rates,
                )
                for place in range(abs(length))
            ]
            for length in ways_of[0]
        }  # fmt: skip
        for at, code in enumerate(codes):
            listed[at] *= _of_code(code, rows, found.alphabet)
        unlisted *= _none_of(rows, codes, found.alphabet)
    if any(each.cells.is_unsure for each in readings):
        # As often as not the places are others: then any code is as likely as the next.
        even = (sum(listed) + unlisted) / (len(listed) + 1)
        listed = [(each + even) / 2 for each in listed]
        unlisted = (unlisted + even) / 2
    return listed, unlisted


type _Ways = dict[int, tuple[tuple[Observation, ...], ...]]


def ways_to_count(each: CellsSeen, seen_field: Field) -> _Ways:
    """The lengths that a code can have by what was read, each with what was seen by place.

    Usually one. A typed … may stand for fewer places than the longest width
    needs; places never struck at the end are not part of a shorter code. Where characters
    lack at no known place the length is negative: of so many only.
    """
    cells = each.cells.cells
    if each.cells.missing:
        typed = tuple(cell for cell in cells if cell.column != UNTYPED_COLUMN)
        return {-len(typed): tuple([(observation_of(each.reading, cell),) for cell in typed])}
    shorter = _struck(cells)
    if len(shorter) < len(cells) and len(shorter) in seen_field.widths:
        cells = shorter
    rows = tuple([(observation_of(each.reading, cell),) for cell in cells])
    ways: _Ways = {len(rows): rows}
    for fewer in range(1, each.cells.lost + 1):
        length = len(rows) - fewer
        if length > 0 and length in seen_field.widths:
            at = each.cells.lost_at
            ways[length] = rows[:at] + rows[at + fewer :]
    return ways


def _struck(cells: tuple[Cell, ...]) -> tuple[Cell, ...]:
    """Without the places at either end that were never struck."""
    struck = [place for place, cell in enumerate(cells) if cell.kind is not CellKind.NEVER_STRUCK]
    return cells[struck[0] : struck[-1] + 1] if struck else cells


type _Rows = dict[int, list[tuple[float, ...]]]


@lru_cache(maxsize=512)
def index_of(alphabet: str) -> dict[str, int]:
    """Where each character stands in an alphabet."""
    return {character: place for place, character in enumerate(alphabet)}


def _of_code(code: str, rows: _Rows, alphabet: str) -> float:
    """P(cells | code); 0 where its length is none that was read."""
    index = index_of(alphabet)
    same = rows.get(len(code))
    if same is not None:
        return prod([row[index[each]] for row, each in zip(same, code, strict=True)])
    for length, fewer in rows.items():
        lacking = len(code) + length
        if length < 0 and lacking == 1:
            ways = (code[:at] + code[at + 1 :] for at in range(len(code)))
            found = (
                prod(row[index[each]] for row, each in zip(fewer, text, strict=True))
                for text in ways
            )
            return sum(found) / len(code)
        if length < 0 and lacking > 1:
            return prod(sum(row) / len(row) for row in fewer)
    return 0.0


def _none_of(rows: _Rows, codes: tuple[str, ...], alphabet: str) -> float:
    """P(cells | a code that no row has), averaged over the lengths it can have."""
    values = [
        _unlisted(places, alphabet, tuple([code for code in codes if len(code) == length]))
        if length > 0
        else prod(sum(row) / len(row) for row in places)
        for length, places in rows.items()
    ]
    return sum(values) / len(values) if values else 0.0


def _unlisted(rows: list[tuple[float, ...]], alphabet: str, codes: tuple[str, ...]) -> float:
    """P(cells | a code of this length that no row has), by the two kinds of such codes."""
    length, size = len(rows), len(alphabet)
    index = index_of(alphabet)
    sums = [sum(row) for row in rows]
    listed = [prod([r[index[c]] for r, c in zip(rows, code, strict=True)]) for code in codes]
    texts = size**length - len(codes)
    anywhere = max(prod(sums) - sum(listed), 0.0) / texts if texts else 0.0
    neighbours = _neighbours(codes)
    near_texts = len(codes) * length * (size - 1) - sum(neighbours)
    if not near_texts:
        return anywhere
    near = -sum(count * value for count, value in zip(neighbours, listed, strict=True))
    for code in codes:
        own = [row[index[each]] for row, each in zip(rows, code, strict=True)]
        for place in range(length):
            rest = prod(own[:place]) * prod(own[place + 1 :])
            near += rest * (sums[place] - own[place])
    share = shipped_value(NEAR_ROW)
    return (1.0 - share) * anywhere + share * max(near, 0.0) / near_texts


@lru_cache(maxsize=512)
def _neighbours(codes: tuple[str, ...]) -> tuple[int, ...]:
    """For each code, the number of others that differ from it in one place."""

    def patterns(code: str) -> Iterable[tuple[str, str]]:
        return ((code[:place], code[place + 1 :]) for place in range(len(code)))

    counts = Counter(pattern for code in codes for pattern in patterns(code))
    return tuple(sum(counts[pattern] - 1 for pattern in patterns(code)) for code in codes)
