"""One item as one mark shows it: places of a number, values of a code, days of a date.

A `Showing` is what the rules compare. The claim gives showings too, with the
mark "claim": certain, because it was not read from metal.
"""

from dataclasses import dataclass

from witnessmark.catalogue import in_a_row
from witnessmark.codebook import Basis, Citation, Item, MarkKind
from witnessmark.dates import DateSpan
from witnessmark.decoding import PlaceSeen
from witnessmark.reading import AsRead

CLAIM = "claim"
"""The mark of a showing, or of a subject, that the claim gives."""

TITLE = "title"
"""The same of what the title says."""

LIKELY = 0.05
"""A value with a smaller share than this is not spoken of."""

_WEAKEST_FIRST = (
    Basis.MEMORY,
    Basis.ASSUMED,
    Basis.COMMON_PRACTICE,
    Basis.INVENTED,
    Basis.PUBLISHED,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeValue:
    """One code that a field may show: its canonical value and share.

    Where the book has no such code `is_listed` is False and `value` is the code.
    """

    code: str
    value: str
    meaning: str
    share: float
    is_listed: bool
    citation: Citation


@dataclass(frozen=True, slots=True)
class DateValue:
    """Days that a date code may mean. Spans of one code share what the code has."""

    code: str
    span: DateSpan
    share: float
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Showing:
    """One item on one mark, all examiners' readings of it pooled.

    `shown` is the field as read, two differing readings joined by " / ".
    `is_empty`: visibly never struck. `lacks` counts the characters it should
    have and lacks at no known place: it cannot be compared place by place.
    `is_whole` is True where a number is written in full, `width` is how many characters it
    is written with; the places of a code are those of its field. `placeholder` is the
    meaning of a code that stands where a date should and is none.
    """

    mark: str
    name: str
    kind: MarkKind | None
    field: str
    field_name: str
    table: str
    item: Item
    shown: str
    citation: Citation
    is_empty: bool = False
    is_whole: bool = False
    width: int = 0
    lacks: int = 0
    places: tuple[PlaceSeen, ...] = ()
    values: tuple[CodeValue, ...] = ()
    dates: tuple[DateValue, ...] = ()
    placeholder: str = ""

    @property
    def places_told(self) -> int:
        """How many places a number has as it is told: a whole one as it is written, which may be
        shorter than the item; part of one as many as the whole."""
        return self.width if self.is_whole else self.item.length or len(self.places)

    @property
    def is_claim(self) -> bool:
        """Was it said and not read?"""
        return self.mark == CLAIM

    @property
    def is_read(self) -> bool:
        """Does it say anything at all about its item?"""
        return any(p.is_read for p in self.places) or bool(self.values or self.dates)

    def place(self, from_end: int) -> PlaceSeen | None:
        """The place at this distance from the end, or None if it is not shown."""
        return next((place for place in self.places if place.from_end == from_end), None)

    def likely(self) -> tuple[CodeValue, ...]:
        """The values worth speaking of, the likeliest first."""
        return tuple(value for value in self.values if value.share >= LIKELY)

    def as_read(self, text: str, from_end: int | None = None) -> AsRead:
        """A text, or what stands at one place, as what was read here."""
        return AsRead(text, mark=self.mark, field=self.field, item=self.item.id, from_end=from_end)

    def listed_share(self) -> float:
        """The share of all codes of the book together."""
        return sum(value.share for value in self.values if value.is_listed)

    def grounds(self) -> tuple[Citation, ...]:
        """What the showing rests on: the mark's row and those of the likely codes."""
        rows = [value.citation for value in self.likely()]
        rows.extend(day.citation for day in self.dates if day.share >= LIKELY)
        return () if self.is_claim else (self.citation, *rows)


def weakest(*citations: Citation) -> Citation:
    """The weakest basis among these, with every source once: a finding is no firmer.

    >>> a = Citation(Basis.PUBLISHED, "a manual"); b = Citation(Basis.MEMORY, "heard")
    >>> weakest(a, b).basis
    <Basis.MEMORY: 'memory'>
    """
    if not citations:
        return Citation(Basis.COMMON_PRACTICE, "")
    basis = min((c.basis for c in citations), key=_WEAKEST_FIRST.index)
    sources = dict.fromkeys(c.source for c in citations if c.source)
    return Citation(basis, in_a_row(sources, "; "))


def certain_places(text: str, item: Item) -> tuple[PlaceSeen, ...]:
    """The places of a number that is known as written: one likelihood is 1, the rest 0."""
    last = len(text) - 1
    return tuple(
        PlaceSeen(last - i, character, tuple(float(character == t) for t in item.alphabet))
        for i, character in enumerate(text)
    )
