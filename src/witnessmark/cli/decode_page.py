"""The page of `witnessmark decode`: what one mark says, in ten lines where it is clear."""

import shlex
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from witnessmark.cli.terminal import Sheet, count, percent, shortened

if TYPE_CHECKING:
    from witnessmark.cli.decode_answer import Answer
    from witnessmark.codebook.marks import Mark
    from witnessmark.codebook.records import Basis, CarContext
    from witnessmark.decoding.records import Alternative, Decoding, FieldMeaning

CLEAR = 0.95
"""From this share on one alternative is told without it, and the others by what differs."""

LEAST_SHOWN = 0.01
"""An alternative with a smaller share is on the page only where all are asked for."""

ROOM = 10
"""Lines in which a clear reading is told, before its sources."""

MOST_REMARKS = 2
"""Remarks on a page, unless all are asked for."""

UNLISTED = "a code that the book does not list"

FEW_DATES = 3
"""So many dates of one code are told one by one; more by how many there are."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What was asked for beyond the short page."""

    everything: bool = False
    remarks: bool = False


@dataclass(frozen=True, slots=True)
class Hidden:
    """What a page leaves out: unlikely meanings, remarks, the year that would narrow a date."""

    meanings: int = 0
    remarks: int = 0
    is_year_open: bool = False

    def and_of(self, other: "Hidden") -> "Hidden":
        """What two marks leave out together."""
        return Hidden(
            self.meanings + other.meanings,
            self.remarks + other.remarks,
            self.is_year_open or other.is_year_open,
        )

    def options(self) -> list[str]:
        """The options that show it."""
        return [
            *(["--year N narrows the dates"] if self.is_year_open else []),
            *([f"--all ({count(self.meanings, 'meaning')} under 1 %)"] if self.meanings else []),
            *([f"--remarks ({self.remarks})"] if self.remarks else []),
        ]


@dataclass(slots=True)
class Cited:
    """The sources of a page, each with its number; `most` characters of each are shown."""

    most: int | None
    numbers: dict[str, int] = field(default_factory=dict)

    def mark(self, basis: "Basis", source: str) -> str:
        """The number that stands for a source, in brackets."""
        told = f"{basis.value}: {' '.join(source.split())}"
        line = told if self.most is None else shortened(told, self.most)
        return f"[{self.numbers.setdefault(line, len(self.numbers) + 1)}]"


@dataclass(frozen=True, slots=True)
class Meaning:
    """An alternative, or several that mean the same, with their share and codes."""

    share: float
    fields: "tuple[FieldMeaning, ...]"
    codes: tuple[tuple[str, ...], ...]


def lay_out(sheet: Sheet, answer: "Answer", shown: Shown) -> None:
    """The whole page: the mark, another that was typed with it, the sources of both."""
    cited = Cited(None if shown.everything else sheet.width - len("  [10] "))
    hidden = _lay_out_one(sheet, answer, shown, cited, "")
    if answer.beside is not None:
        sheet.gap()
        second = _lay_out_one(sheet, answer.beside, shown, cited, "Typed with it: ")
        hidden = hidden.and_of(second)
    lay_out_sources(sheet, answer, cited, hidden)


def _lay_out_one(
    sheet: Sheet, answer: "Answer", shown: Shown, cited: Cited, before: str
) -> "Hidden":
    """One mark; gives what was left out."""
    decoding, mark = answer.decoding, answer.mark
    first_line = sheet.lines_told()
    typed = one_line(decoding.reading.as_typed)
    sheet.title(f"{before}{mark.name} ({mark.id}), {answer.book.title}: {typed}")
    lay_out_slip(sheet, answer)
    for sentence in (*answer.not_for, *(each.sentence for each in answer.contradictions)):
        sheet.say(sentence, 2, hanging=2)
    if decoding.is_unlike:
        return Hidden()
    lay_out_changes(sheet, answer)
    meanings = merged(decoding.alternatives)
    lay_out_meanings(sheet, decoding, mark, meanings, shown, cited)
    lay_out_doubt(sheet, answer)
    room = ROOM - (sheet.lines_told() - first_line)
    left = lay_out_known(sheet, answer, shown, cited, room)
    small = sum(each.share < LEAST_SHOWN for each in meanings[1:])
    dates = [f for f in meanings[0].fields if len(f.spans) > FEW_DATES] if meanings else []
    return Hidden(
        0 if shown.everything else small,
        left,
        bool(dates) and answer.given.model_year is None,
    )


def one_line(text: str) -> str:
    """A reading on one line: rows parted by a stroke."""
    rows = (" ".join(row.split()) for row in text.splitlines())
    return " / ".join(row for row in rows if row)


def lay_out_years(sheet: Sheet, mark: "Mark", context: "CarContext") -> None:
    """Says so where the book has no such mark on a car of this year."""
    from witnessmark.cli.decode_answer import not_for

    for sentence in not_for(mark, context):
        sheet.say(sentence, 2)


def lay_out_slip(sheet: Sheet, answer: "Answer") -> None:
    """What does not fit the form of the mark, where, and what was expected."""
    slip, reading = answer.decoding.slip, answer.decoding.reading
    if slip is None:
        return
    if slip.column is not None:
        sheet.pointed_at(reading.as_typed, slip.column, slip.sentence, 2)
    else:
        sheet.say(slip.sentence, 2)
    sheet.say(f"Expected: {slip.expected}", 2, hanging=2)
    for other in slip.others:
        command = shlex.join(["witnessmark", "decode", answer.book.id, other, reading.as_typed])
        sheet.say(f"Ask for that mark: {command}", 2, hanging=2)
    if answer.decoding.is_unlike and not slip.others:
        sheet.say(f"The marks of the book: witnessmark book show {answer.book.id}", 2, hanging=2)


def lay_out_changes(sheet: Sheet, answer: "Answer") -> None:
    """What is read otherwise than it was typed, and what was passed over."""
    reading, slip = answer.decoding.reading, answer.decoding.slip
    places: dict[str, list[str]] = {}
    for change in reading.changes:
        if change.typed != change.normalised or slip is None or slip.column != change.column:
            places.setdefault(change.reason, []).append(str(change.column))
    if any(change.typed != change.normalised for change in reading.changes):
        sheet.say(f"Read as {reading.normalised}.", 2, hanging=2)
    for reason, columns in places.items():
        at = f"place{'s' if len(columns) > 1 else ''} {_listed(columns)}"
        sheet.say(f"At {at} of what was typed: {reason}.", 2, hanging=2)
    if answer.around:
        words = ", ".join(one_line(each) for each in answer.around)
        sheet.say(f"Passed over as no part of the mark: {words}", 2, hanging=2)


def _listed(words: list[str]) -> str:
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def merged(alternatives: "tuple[Alternative, ...]") -> tuple[Meaning, ...]:
    """The alternatives in order; those that mean the same by other codes are one."""
    found: dict[tuple[object, ...], list[Alternative]] = {}
    for each in alternatives:
        found.setdefault(tuple(_meant(field) for field in each.fields), []).append(each)
    meanings = [
        Meaning(
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


def _meant(field: "FieldMeaning") -> tuple[object, ...]:
    """What makes two fields mean the same, whatever their codes."""
    if not field.listed or not (field.value or field.spans):
        return (field.field, field.code, field.listed)
    return (field.field, field.value, field.spans, field.plain or field.meaning)


def lay_out_meanings(
    sheet: Sheet,
    decoding: "Decoding",
    mark: "Mark",
    meanings: tuple[Meaning, ...],
    shown: Shown,
    cited: Cited,
) -> None:
    """The likeliest in full; each other by the fields in which it differs."""
    if not meanings:
        sheet.say("Undecoded: the book lists nothing that fits. That is no fault of the car.", 2)
        return
    first, *others = meanings
    is_clear = first.share >= CLEAR
    if not is_clear:
        sheet.say(f"Likeliest, with {percent(first.share)} of what the reading allows:", 2)
    pairs = zip(first.fields, first.codes, strict=True)
    sheet.table(_row(decoding, mark, meaning, codes, cited) for meaning, codes in pairs)
    for meaning in first.fields:
        if meaning.other_spans:
            lay_out_other_dates(sheet, meaning, shown)
    least = 0.0 if shown.everything else LEAST_SHOWN
    told = [each for each in others if each.share >= least]
    for each in told:
        sheet.say(f"else: {_difference(first, each, mark, cited)} ({percent(each.share)})", 2, 2)
    lay_out_rest(sheet, decoding, (first, *told), shown)
    if not is_clear and decoding.deciding_column is not None and told:
        typed = decoding.reading.as_typed
        sheet.pointed_at(typed, decoding.deciding_column, "decides between the first two", 2)


def _row(
    decoding: "Decoding",
    mark: "Mark",
    meaning: "FieldMeaning",
    codes: tuple[str, ...],
    cited: Cited,
) -> tuple[str, str]:
    """The code of a field, then its name and meaning, with its source and what is amiss."""
    name = _names(mark).get(meaning.field, meaning.field)
    amiss = [e for e in decoding.unexplained if e.field == meaning.field]
    told = told_of(name, meaning)
    if not meaning.listed:
        return meaning.code, f"{name}: {amiss[0].reason if amiss else told}"
    if told:
        name = f"{name}: {told} {cited.mark(meaning.basis, meaning.source)}"
    for each in amiss:
        name += f"; {each.text} is {each.reason}"
    return " or ".join(codes), name


def _names(mark: "Mark") -> dict[str, str]:
    return {each.id: each.name for each in mark.fields}


def told_of(name: str, meaning: "FieldMeaning") -> str:
    """What a field says, without its own name, which stands beside it already."""
    told = meaning.meaning or meaning.value
    if told in (name, meaning.code):
        return ""
    return told.removeprefix(f"{name}: ")


def lay_out_other_dates(sheet: Sheet, meaning: "FieldMeaning", shown: Shown) -> None:
    """The dates that a code allows beside those of the car's own years."""
    spans = meaning.other_spans
    if len(spans) <= FEW_DATES or shown.everything:
        told = ", ".join(map(str, spans))
    else:
        last = max(span.last for span in spans)
        told = f"one of {len(spans)} dates from {spans[0].first} to {last}"
    sheet.say(f"The code {meaning.code} alone may also be {told}.", 2, hanging=2)


def _difference(first: Meaning, other: Meaning, mark: "Mark", cited: Cited) -> str:
    """The fields in which a meaning differs from the first."""
    names = _names(mark)
    told = []
    for own, meaning, codes in zip(first.fields, other.fields, other.codes, strict=True):
        if _meant(own) == _meant(meaning):
            continue
        name = names.get(meaning.field, meaning.field)
        if meaning.listed:
            cite = cited.mark(meaning.basis, meaning.source)
            said = " ".join([told_of(name, meaning), cite]).strip()
        else:
            said = UNLISTED
        told.append(f"{name} {' or '.join(codes)}, {said}")
    return "; ".join(told)


def lay_out_rest(
    sheet: Sheet, decoding: "Decoding", told: tuple[Meaning, ...], shown: Shown
) -> None:
    """What stays beside the meanings that were told, where it is worth a line."""
    rest = 1.0 - sum(each.share for each in told)
    unlisted = decoding.not_listed_share
    if any(not meaning.listed for each in told for meaning in each.fields):
        unlisted = 0.0
    if unlisted >= LEAST_SHOWN:
        sheet.say(f"else: {UNLISTED} ({percent(unlisted)})", 2, 2)
        rest -= unlisted
    if rest >= 1.0 - CLEAR:
        all_of_them = "" if shown.everything else ", --all lists the likeliest"
        sheet.say(f"else: others, each under 1 % ({percent(rest)} together{all_of_them})", 2, 2)


def lay_out_doubt(sheet: Sheet, answer: "Answer") -> None:
    """What is left over and what was not typed."""
    decoding, names = answer.decoding, _names(answer.mark)
    if answer.left_over:
        sheet.say(f"Left over: {answer.left_over}, which no field of this mark explains.", 2, 2)
    if decoding.missing and not (decoding.slip and decoding.slip.kind == "short"):
        missing = ", ".join(names.get(each, each) for each in decoding.missing)
        sheet.say(f"Not typed, or not all of it: {missing}.", 2, hanging=2)


def lay_out_known(sheet: Sheet, answer: "Answer", shown: Shown, cited: Cited, room: int) -> int:
    """What the number's own rules say, known cars and remarks, as far as there is room for it;
    gives how many are left."""
    notes, points = answer.decoding.notes, answer.points
    known = [(each.sentence, each.basis, each.source) for each in notes]
    known += [(each.meaning, each.citation.basis, each.citation.source) for each in points]
    remarks = [
        (each.sentence, each.citation.basis, each.citation.source)
        for each in (answer.remarks if shown.remarks else answer.fitting)
    ]
    if shown.remarks:
        told = [*known, *remarks]
    else:
        told = _chosen(sheet, known, [] if answer.decoding.slip else remarks, room)
    if told:
        sheet.gap()
    for sentence, basis, source in told:
        sheet.say(f"{sentence} {cited.mark(basis, source)}", 2, hanging=2)
    return len(known) + len(answer.remarks) - len(told)


type _Known = tuple[str, "Basis", str]


def _chosen(sheet: Sheet, known: list[_Known], remarks: list[_Known], room: int) -> list[_Known]:
    """In turn what there is room for, the first that is known of the number always; on a page
    that is longer already one thing."""
    told: list[_Known] = []
    is_long = room <= 0
    for each in (*known, *remarks[:MOST_REMARKS]):
        room -= sheet.height(f"{each[0]} [99]", 2, 2)
        if room < 0 and (told or not (each in known or is_long)):
            break
        told.append(each)
    return told


def lay_out_sources(sheet: Sheet, answer: "Answer", cited: Cited, hidden: "Hidden") -> None:
    """On what all of it rests, each source on one line; then how to see more."""
    if cited.numbers:
        sheet.heading("Sources")
    for line, number in cited.numbers.items():
        sheet.say(f"[{number}] {line}", 2, hanging=4)
    more = f" More: {', '.join(hidden.options())}." if hidden.options() else ""
    sheet.say(f"By the book {answer.book.id}, version {answer.book.version}.{more}", 2)
