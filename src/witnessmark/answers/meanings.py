"""What a mark says, in the outline of one reading: the likeliest, then what else fits."""

from dataclasses import dataclass, field

from witnessmark.answers.decoded import Decoded
from witnessmark.catalogue import as_said, either, marked, percent, said
from witnessmark.codebook import Basis
from witnessmark.dates import DateSpan
from witnessmark.decoding import Alternative, Decoding, FieldMeaning, span_meant, spans_meant
from witnessmark.outline.records import Block, Paragraph, Pointed, table_of

CLEAR = 0.95
"""From this share on one meaning is told without it, and the others by what differs."""

LEAST_SHOWN = 0.01
"""A meaning with a smaller share is on the page only where all are asked for."""

MANY = 4
"""So many other meanings of one field alone are told in one paragraph."""

FEW_DATES = 3
"""So many dates of one code are told one by one; more by how many there are."""

UNLISTED = marked("a code that the book does not list")

LONGEST_SOURCE = 74
"""Of a longer source its beginning stands on the page, unless whole ones are asked for."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What was asked for beyond the short page, and how the books were named."""

    everything: bool = False
    remarks: bool = False
    book: str = ""
    beside: tuple[str, ...] = ()


@dataclass(slots=True, kw_only=True)
class Page:
    """Blocks under way, the sources that they cite, each with its number, and what they leave
    out: unlikely meanings, remarks, the year that would narrow a date."""

    shown: Shown
    blocks: list[Block] = field(default_factory=list)
    sources: dict[str, int] = field(default_factory=dict)
    meanings_left: int = 0
    remarks_left: int = 0
    is_year_open: bool = False

    def say(self, text: str) -> None:
        """A paragraph."""
        self.blocks.append(Paragraph(text))

    def point(self, text: str, column: int, told: str) -> None:
        """What is said of one sign of a text."""
        self.blocks.append(Pointed(text, column, told))

    def cite(self, basis: Basis, source: str) -> str:
        """The number that stands for a source, in brackets."""
        line = f"{as_said(basis.value)}: {' '.join(source.split())}"
        if not self.shown.everything:
            line = shortened(line, LONGEST_SOURCE)
        return f"[{self.sources.setdefault(line, len(self.sources) + 1)}]"


@dataclass(frozen=True, slots=True)
class Meant:
    """An alternative, or several that mean the same, with their share and codes."""

    share: float
    fields: tuple[FieldMeaning, ...]
    codes: tuple[tuple[str, ...], ...]

    def unlike(self, first: "Meant") -> list[tuple[FieldMeaning, str]]:
        """The fields in which it differs, each with its codes."""
        return [
            (own, either(codes))
            for other, own, codes in zip(first.fields, self.fields, self.codes, strict=True)
            if _meant(own) != _meant(other)
        ]


def merged(alternatives: tuple[Alternative, ...]) -> tuple[Meant, ...]:
    """The alternatives in order; those that mean the same by other codes are one."""
    found: dict[tuple[object, ...], list[Alternative]] = {}
    for each in alternatives:
        found.setdefault(tuple(_meant(field) for field in each.fields), []).append(each)
    meanings = [
        Meant(
            sum(each.share for each in same),
            same[0].fields,
            tuple(
                tuple(dict.fromkeys(field.code for field in fields))
                for fields in zip(*(each.fields for each in same), strict=True)
            ),
        )
        for same in found.values()
    ]
    return tuple(sorted(meanings, key=lambda each: -each.share))


def _meant(meaning: FieldMeaning) -> tuple[object, ...]:
    """What makes two fields mean the same, whatever their codes."""
    if not meaning.listed or not (meaning.value or meaning.spans):
        return (meaning.code, meaning.listed)
    return (meaning.value, meaning.spans, meaning.plain or meaning.meaning)


def told_of(name: str, meaning: FieldMeaning) -> str:
    """What a field says, without its own name, which stands beside it already."""
    told = meaning.meaning or meaning.value
    if told in (name, meaning.code):
        return ""
    return told.removeprefix(f"{name}: ")


def tell_meanings(page: Page, answer: Decoded, meanings: tuple[Meant, ...]) -> None:
    """The likeliest in full; each other by the fields in which it differs."""
    decoding = answer.decoding
    if not meanings:
        page.say(said("Undecoded: the book lists nothing that fits. That is no fault of the car."))
        return
    first, *others = meanings
    is_clear = first.share >= CLEAR
    if not is_clear:
        page.say(_likeliest(percent(first.share), [percent(each.share) for each in others]))
    pairs = zip(first.fields, first.codes, strict=True)
    rows = ((either(codes), _row(page, answer, own)) for own, codes in pairs)
    page.blocks.append(table_of(*rows, shares=(1, 3)))
    others_of = {own.code: own.other_spans for own in first.fields if own.other_spans}
    for code, spans in others_of.items():
        days = _days(spans, page.shown)
        page.say(said("The code {code} alone may also be {days}.", code=code, days=days))
    told = [each for each in others if page.shown.everything or each.share >= LEAST_SHOWN]
    for line in _others(page, answer, first, told):
        page.say(said("else: {meaning}", meaning=line))
    _tell_rest(page, decoding, (first, *told))
    if not is_clear and told and decoding.deciding_column and _first_two_differ(decoding):
        told_there = said("decides between the first two")
        page.point(answer.typed, decoding.deciding_column, told_there)


def _likeliest(share: str, others: list[str]) -> str:
    if others[:1] == [share]:
        return said(
            "One of several that fit equally well, with {share} of what the reading allows:",
            share=share,
        )
    return said("Likeliest, with {share} of what the reading allows:", share=share)


def _row(page: Page, answer: Decoded, meaning: FieldMeaning) -> str:
    """Name and meaning of a field, with its source and what is amiss with it."""
    name = answer.names.get(meaning.field, meaning.field)
    amiss = [each for each in answer.decoding.unexplained if each.field == meaning.field]
    told = told_of(name, meaning)
    if not meaning.listed:
        return f"{name}: {amiss[0].reason if amiss else told}"
    if len(meaning.spans) > FEW_DATES and page.shown.everything:
        told = f"{told}: {', '.join(map(span_meant, meaning.spans))}"
    row = f"{name}: {told}" if told else name
    # That nothing can be read rests on no source.
    if told and any(sign.isalnum() or sign == "_" for sign in meaning.code):
        row = f"{row} {page.cite(meaning.basis, meaning.source)}"
    read = _read_otherwise(answer.decoding, meaning)
    return "; ".join(
        [
            row,
            *([said("{read} was typed", read=read)] if read else []),
            *(said("{text} is {reason}", text=a.text, reason=a.reason) for a in amiss),
        ]
    )


def _read_otherwise(decoding: Decoding, meaning: FieldMeaning) -> str:
    """What was read clear in a field that is told as another code; nothing where it is not."""
    cells = [c for f in decoding.field_cells if f.field == meaning.field for c in f.cells]
    clear = [c.characters for c in cells if len(c.characters) == 1 and c.sign() == c.characters]
    read = "".join(clear)
    is_other = len(clear) == len(cells) and read != meaning.code
    return read if is_other and not meaning.spans and len(read) == len(meaning.code) else ""


def _days(spans: tuple[DateSpan, ...], shown: Shown) -> str:
    if shown.everything:
        return either(map(span_meant, spans))
    return spans_meant(spans)


def _others(page: Page, answer: Decoded, first: Meant, others: list[Meant]) -> list[str]:
    """Each other meaning by the fields in which it differs; many of one field together."""
    alone: dict[str, list[Meant]] = {}
    for each in others:
        differing = each.unlike(first)
        if len(differing) == 1:
            alone.setdefault(differing[0][0].field, []).append(each)
    many = {name: found for name, found in alone.items() if len(found) >= MANY}
    lines = [
        f"{answer.names.get(name, name)} "
        + "; ".join(
            f"{_told(page, answer, first, *each.unlike(first)[0])} ({percent(each.share)})"
            for each in found
        )
        for name, found in many.items()
    ]
    for each in others:
        if any(each in found for found in many.values()):
            continue
        fields = "; ".join(
            f"{answer.names.get(own.field, own.field)} {_told(page, answer, first, own, codes)}"
            for own, codes in each.unlike(first)
        )
        lines.append(f"{fields} ({percent(each.share)})")
    return lines


def _told(page: Page, answer: Decoded, first: Meant, own: FieldMeaning, codes: str) -> str:
    """A code that differs and its meaning; its source where that is another one, too."""
    if not own.listed:
        return f"{own.code}, {as_said(UNLISTED)}"
    if len(own.spans) > FEW_DATES:
        return codes
    told = told_of(answer.names.get(own.field, own.field), own)
    known = next(each for each in first.fields if each.field == own.field)
    is_same = known.listed and (known.basis, known.source) == (own.basis, own.source)
    cite = "" if is_same else f" {page.cite(own.basis, own.source)}"
    return f"{codes}, {told}{cite}" if told else f"{codes}{cite}"


def _tell_rest(page: Page, decoding: Decoding, told: tuple[Meant, ...]) -> None:
    """What stays beside the meanings that were told, where it is worth a line."""
    rest = 1.0 - sum(each.share for each in told)
    unlisted = decoding.not_listed_share
    if any(not own.listed for each in told for own in each.fields):
        unlisted = 0.0
    if unlisted >= LEAST_SHOWN:
        meaning = f"{as_said(UNLISTED)} ({percent(unlisted)})"
        page.say(said("else: {meaning}", meaning=meaning))
        rest -= unlisted
    if rest >= 1.0 - CLEAR:
        share = percent(rest)
        if page.shown.everything:
            page.say(said("else: others ({share} together)", share=share))
        else:
            more = said("else: others ({share} together; --all lists the likeliest)", share=share)
            page.say(more)


def _first_two_differ(decoding: Decoding) -> bool:
    """Do the first two alternatives mean different things?"""
    first, second = decoding.alternatives[:2]
    return [_meant(each) for each in first.fields] != [_meant(each) for each in second.fields]


def shortened(text: str, most: int) -> str:
    """A text of at most so many characters; what is too long ends in ... behind a word.

    >>> shortened("VIN, Cowl Tag, and other Numbers", 20)
    'VIN, Cowl Tag ...'
    """
    if len(text) <= most:
        return text
    return text[: most - 3].rpartition(" ")[0].rstrip(" ,;:(") + " ..."
