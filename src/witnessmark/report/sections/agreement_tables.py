"""Do the parts say the same: each item a row, each part of the car that says it a column.

The last columns say what the book says of it, and judge the row twice: beside the other marks,
and beside book and claim. What agrees wherever it is said is one line below the table. A shape
and a word say the same; no colour carries meaning alone.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from witnessmark.agreement.items import claimed, showings, shown_on_title
from witnessmark.agreement.records import Finding, FindingKind, Outcome
from witnessmark.agreement.showing import CLAIM, TITLE, Showing
from witnessmark.catalogue import as_said, marked, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import MarkKind
from witnessmark.codebook.records import ItemKind
from witnessmark.day_words import span_words
from witnessmark.examination import Opinion, marks_of
from witnessmark.outline.records import Block, Heading, Paragraph, Table, TableCell
from witnessmark.report.sections.matter import Matter
from witnessmark.wording import Names, listed
from witnessmark.wording.amounts import capital


class CellWord(StrEnum):
    """How a row stands to what it was set against."""

    AGREES = marked("agrees")
    DIFFERS = marked("differs")
    UNDECIDED = marked("undecided")
    DECLARED = marked("as declared")
    SILENT = marked("silent")
    ALONE = marked("stands alone")


_WORDS = {
    Outcome.DIFFER: CellWord.DIFFERS,
    Outcome.UNDECIDED: CellWord.UNDECIDED,
    Outcome.AGREE: CellWord.AGREES,
    Outcome.SILENT: CellWord.SILENT,
}
"""The word of each outcome; of several the first holds for the row."""
_APART = (CellWord.DIFFERS, CellWord.UNDECIDED, CellWord.DECLARED)

_BY_BOOK = {
    (FindingKind.CODE, Outcome.DIFFER): marked("not listed for such a car"),
    (FindingKind.SERIES, Outcome.DIFFER): marked("outside its series"),
    (FindingKind.COMBINATION, Outcome.DIFFER): marked("against a rule of the book"),
    (FindingKind.CODE, Outcome.UNDECIDED): marked("listing left open"),
    (FindingKind.SERIES, Outcome.UNDECIDED): marked("series left open"),
    (FindingKind.COMBINATION, Outcome.UNDECIDED): marked("rule left open"),
    (FindingKind.CODE, Outcome.AGREE): marked("listed for such a car"),
    (FindingKind.SERIES, Outcome.AGREE): marked("in its series"),
    (FindingKind.COMBINATION, Outcome.AGREE): marked("within the rules"),
}
"""What the book says of an item, what tells against it first."""


@dataclass(frozen=True, slots=True)
class _Row:
    """An item: what each part says of it, and how it stands to other marks, book and claim."""

    item: str
    claimed: str
    said_by: dict[str, tuple[str, ...]]
    said_on: dict[str, tuple[str, ...]]
    """The marks of each part that say it."""
    odd: frozenset[str]
    """Parts of which a mark differs from the claim."""
    by_book: tuple[str, ...]
    beside_marks: CellWord
    beside_book: CellWord

    @property
    def is_apart(self) -> bool:
        """Does it differ anywhere, or is it left open?"""
        return self.beside_marks in _APART or self.beside_book in _APART

    @property
    def is_told(self) -> bool:
        """Was it set against a claim or another mark, or does the book deny it?"""
        return self.is_apart or self.beside_marks is CellWord.AGREES or bool(self.claimed)


def agreement_tables(matter: Matter, *, is_whole: bool = False) -> tuple[Block, ...]:
    """The items that differ or are left open in a table; those that agree everywhere in a line,
    or, of the whole table, in rows below the others."""
    rows = [row for row in _rows(matter) if row.is_told]
    apart = [row for row in rows if row.is_apart]
    agreeing = [row for row in rows if not row.is_apart]
    agreed = "" if is_whole else "; ".join(map(_agreed, agreeing))
    shown = [*apart, *agreeing] if is_whole else apart
    if not rows:
        told = said("No mark was read, so there is nothing to compare.")
    elif not apart:
        told = said("Nothing that several marks say, or that is claimed, differs anywhere.")
    elif is_whole:
        told = said(
            "What differs or is left open stands first, with what each part of the car says of it. "
            "Each row is judged beside the other marks, and beside book and claim."
        )
    else:
        told = said(
            "What differs or is left open, with what each part of the car says of it. Each row is "
            "judged beside the other marks, and beside book and claim."
        )
    return (
        Heading(said("Do the parts say the same?")),
        Paragraph(told, "lead"),
        *([_table(shown, matter)] if shown else []),
        *(
            [Paragraph(said("Agrees wherever it is said: {items}.", items=agreed), "note")]
            if agreed
            else ()
        ),
    )


def _rows(matter: Matter) -> Iterator[_Row]:
    """Every item that a mark says, those that are claimed first; of dates the time line tells,
    but for those on which two marks differ."""
    opinion, names = matter.opinion, matter.names
    car = marks_of(opinion, matter.book)
    titled = shown_on_title(car)
    for item in sorted(car.book.items, key=lambda each: each.id not in car.casefile.claim.items):
        found = [*showings(car, item.id), *(each for each in titled if each.item.id == item.id)]
        found = [each for each in found if each.is_read or each.is_empty]
        about = [f for f in opinion.findings if _is_about(f, item.id, found)]
        marks = [f for f in about if _is_of_marks(f)]
        if item.kind is ItemKind.DATE and _worst(marks, opinion) is not CellWord.DIFFERS:
            continue
        beside = [f for f in about if not _is_of_marks(f)]
        against = claimed(car, item.id)
        if found:
            yield _Row(
                capital(names.item(item.id)),
                _value(against, opinion) if against is not None else "",
                _said_by(found, car.book, opinion, names),
                _said_on(found, car.book, names),
                frozenset(_odd(about, found, car.book, names)),
                tuple(_by_book(beside)),
                _worst(marks, opinion),
                _worst(beside, opinion),
            )


def _is_about(finding: Finding, item: str, found: list[Showing]) -> bool:
    """A finding about the item, or one by a rule of the book that names a field which says it."""
    if finding.kind in (FindingKind.PAPER, FindingKind.LAG):
        return False
    if finding.kind is not FindingKind.COMBINATION:
        return finding.topic == item
    fields = {(each.mark, each.field) for each in found}
    return any((each.mark, each.field) in fields for each in finding.subjects)


def _is_of_marks(finding: Finding) -> bool:
    """Was a mark, or the title, set against another?"""
    is_compared = finding.kind in (FindingKind.ITEM, FindingKind.TITLE)
    return is_compared and all(each.mark != CLAIM for each in finding.subjects)


def _worst(findings: Iterable[Finding], opinion: Opinion) -> CellWord:
    """The word of the outcome that says most; of a difference that was declared, that."""
    found: dict[Outcome, list[Finding]] = {}
    for each in findings:
        found.setdefault(each.outcome, []).append(each)
    worst = next((outcome for outcome in _WORDS if outcome in found), None)
    if worst is None:
        return CellWord.ALONE
    is_told = all(map(opinion.is_as_declared, found[worst]))
    return CellWord.DECLARED if is_told else _WORDS[worst]


def _by_book(findings: list[Finding]) -> Iterator[str]:
    """What the book says, the worst alone where it says against it."""
    found = {(each.kind, each.outcome) for each in findings}
    told = [(key[1], as_said(text)) for key, text in _BY_BOOK.items() if key in found]
    yield from (text for outcome, text in told if outcome is told[0][0])


def _part(mark_id: str, book: CodeBook, names: Names) -> str:
    """The part of the car that a mark is on; plates and papers are parts of their own."""
    mark = book.mark(mark_id)
    if mark is None or mark.kind is MarkKind.PAPER:
        return said("papers")
    return names.assembly(mark.assembly) if mark.assembly else said("plates")


def _said_by(
    found: list[Showing], book: CodeBook, opinion: Opinion, names: Names
) -> dict[str, tuple[str, ...]]:
    """What each part says, each value once."""
    parts: dict[str, dict[str, None]] = {}
    for each in found:
        parts.setdefault(_part(each.mark, book, names), {})[_value(each, opinion)] = None
    return {part: tuple(values) for part, values in parts.items()}


def _said_on(found: list[Showing], book: CodeBook, names: Names) -> dict[str, tuple[str, ...]]:
    """The marks of each part that say it, each once."""
    parts: dict[str, dict[str, None]] = {}
    for each in found:
        parts.setdefault(_part(each.mark, book, names), {})[each.mark] = None
    return {part: tuple(marks) for part, marks in parts.items()}


def _odd(about: list[Finding], found: list[Showing], book: CodeBook, names: Names) -> Iterator[str]:
    """The parts of which a mark differs from the claim."""
    marks = {each.mark for each in found}
    for finding in about:
        subjects = {each.mark for each in finding.subjects}
        if finding.outcome is Outcome.DIFFER and CLAIM in subjects:
            yield from (_part(each, book, names) for each in subjects & marks)


def _value(showing: Showing, opinion: Opinion) -> str:
    """What was read or claimed, as people say it: a number, what a code means, the days."""
    if showing.item.kind is ItemKind.NUMBER or not (showing.values or showing.dates):
        return _as_read(showing, opinion)
    if showing.dates:
        return span_words(max(showing.dates, key=lambda each: each.share).span)
    meanings = dict.fromkeys(each.meaning or each.value for each in showing.likely())
    return listed(tuple(meanings))


def _table(rows: list[_Row], matter: Matter) -> Table:
    """The rows that differ or are left open, under the parts that say any of them."""
    order = [matter.names.assembly(each.id) for each in matter.book.assemblies]
    order = [*dict.fromkeys(order), said("plates"), said("papers")]
    parts = [part for part in order if any(part in row.said_by for row in rows)]
    head = (
        said("Item"),
        *map(capital, parts),
        said("The book"),
        said("Beside other marks"),
        said("Beside book and claim"),
    )
    cells = tuple(
        (
            TableCell(row.item, _claim_words(row), strong=True),
            *(_said_cell(row, part) for part in parts),
            TableCell("; ".join(row.by_book) or "–"),
            *(
                TableCell("", (as_said(word.value),), sign=word.name.lower())
                for word in (row.beside_marks, row.beside_book)
            ),
        )
        for row in rows
    )
    return Table(head, cells, (1.5, *(1.3 for _ in parts), 1.3, 1.2, 1.2), is_dense=True)


def _claim_words(row: _Row) -> tuple[str, ...]:
    return (said("claimed: {value}", value=row.claimed),) if row.claimed else ()


def _said_cell(row: _Row, part: str) -> TableCell:
    """What a part says; a shape and a word where it is not as claimed."""
    told = "\n".join(row.said_by.get(part, ("–",)))
    about = row.said_on.get(part, ())
    if part not in row.odd:
        return TableCell(told, about=about)
    sign = CellWord.DIFFERS.name.lower()
    return TableCell(told, (said("not as claimed"),), sign=sign, about=about)


def _agreed(row: _Row) -> str:
    """An item that agrees, what is said of it, and by which parts."""
    values = list(dict.fromkeys(value for some in row.said_by.values() for value in some))
    parts = listed(tuple(row.said_by))
    return said("{item}: {value} ({parts})", item=row.item, value=values[0], parts=parts)


def _as_read(showing: Showing, opinion: Opinion) -> str:
    """The characters of a field, or of the claim, as they stand."""
    if showing.is_empty:
        return said("left empty")
    if showing.mark == CLAIM:
        return opinion.casefile.claim.items.get(showing.item.id, "").strip()
    readings = [each for each in opinion.decodings if each.mark == showing.mark]
    if showing.mark == TITLE and opinion.title is not None:
        readings = [opinion.title]
    fields = (f for each in readings for f in each.field_cells if f.field == showing.field)
    return " / ".join(dict.fromkeys("".join(c.sign() for c in f.cells) for f in fields)) or "?"
