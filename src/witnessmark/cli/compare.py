"""`witnessmark compare`: the careful amateur's first look: do these numbers belong together?"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any

import typer

from witnessmark.cli.arguments import AsJson, BookName, ModelYear
from witnessmark.cli.decode_page import lay_out_years
from witnessmark.cli.opening import context_of_year, found_mark, named_book, unknown_mark
from witnessmark.cli.problems import NotAPair, TooFew, typed
from witnessmark.cli.rendering import finding_outline
from witnessmark.cli.terminal import Sheet, percent, print_outline, refuse
from witnessmark.problem import Problem
from witnessmark.source import Source

if TYPE_CHECKING:
    from witnessmark.agreement.records import CarMarks, Finding
    from witnessmark.codebook.book import CodeBook
    from witnessmark.codebook.marks import Mark
    from witnessmark.codebook.records import CarContext
    from witnessmark.decoding.records import Decoding
    from witnessmark.reading.records import Reading

SHORT = "Do these numbers belong together?"

HELP = """Compare marks with each other: do these numbers belong together?

A first look, without a case: what agrees, what differs, what cannot be decided,
where the book is silent, and what none of that shows. Each reading is written
MARK=READING, with the signs that 'witnessmark decode --help' shows.

\b
Example:
  witnessmark compare tarvane-1952-1961 'frame_number=2582063' 'seat_chassis_tail=E20?3'
"""


def compare(
    book: BookName,
    readings: Annotated[
        list[str],
        typer.Argument(
            metavar="MARK=READING...", help="At least two, each a mark and what it says."
        ),
    ],
    year: ModelYear = None,
    json: AsJson = False,
) -> None:
    """Compare two or more readings without a case."""
    from witnessmark.agreement import compare as compare_marks

    code_book = named_book(book)
    context = context_of_year(code_book, year)
    car = car_of(code_book, context, tuple(readings))
    findings = compare_marks(car)
    if json:
        print_outline(_outline(car, findings))
    else:
        sheet = Sheet()
        lay_out(sheet, car, findings)
        sheet.show()


def car_of(book: "CodeBook", context: "CarContext", pairs: tuple[str, ...]) -> "CarMarks":
    """The typed marks, decoded, as a car of which nothing else is known."""
    from witnessmark.agreement.records import CarMarks
    from witnessmark.casefile.records import Casefile, MarkReading
    from witnessmark.decoding import decode

    problems: list[Problem] = []
    read = [each for each in (_read(book, pair, problems) for pair in pairs) if each is not None]
    if len(pairs) < 2:
        problems.append(TooFew(Source("MARK=READING"), len(pairs)))
    if problems:
        refuse(problems)
    decodings = tuple(decode(each.reading, book, each.mark, context) for each in read)
    faults = tuple(problem for decoding in decodings for problem in decoding.problems)
    if faults:
        refuse(dict.fromkeys(faults))
    typed_readings = tuple(MarkReading(mark=r.mark.id, text=r.reading.as_typed) for r in read)
    casefile = Casefile(id="first-look", book=book.id, readings=typed_readings)
    return CarMarks(casefile, book, context, decodings)


@dataclass(frozen=True, slots=True)
class MarkRead:
    """A mark of the book and what was typed for it."""

    mark: "Mark"
    reading: "Reading"


def _read(book: "CodeBook", pair: str, problems: list[Problem]) -> MarkRead | None:
    """One MARK=READING, or None when it added to the problems."""
    from witnessmark.reading import parse_reading

    name, equals, text = pair.partition("=")
    if not equals or not name.strip() or not text.strip():
        problems.append(NotAPair(typed("MARK=READING", pair), pair, "MARK=READING"))
        return None
    mark = found_mark(book, name)
    if mark is None:
        source = typed("MARK=READING", pair, 1, len(name))
        problems.append(unknown_mark(book, name.strip(), source))
        return None
    reading = parse_reading(text, mark, name=mark.id)
    problems.extend(reading.problems)
    return MarkRead(mark, reading)


def lay_out(sheet: Sheet, car: "CarMarks", findings: "tuple[Finding, ...]") -> None:
    """What the numbers say, then why, then what that does not show."""
    from witnessmark.wording.first_look import (
        ALONE_HEADING,
        FIRST_LOOK_LIMITS,
        OUTCOME_HEADINGS,
        first_look_sentence,
    )

    year = f", {car.context.model_year}" if car.context.model_year else ""
    between = [finding for finding in findings if is_between_marks(finding)]
    alone = [finding for finding in findings if not is_between_marks(finding)]
    sheet.title(f"A first look by the book {car.book.title}{year}")
    sheet.say(first_look_sentence(tuple(finding.outcome for finding in between)), 2)
    sheet.heading("What was typed")
    sheet.table(
        (_mark_name(car, each.mark), each.reading.as_typed, best_meaning(each))
        for each in car.decodings
    )
    for each in car.decodings:
        mark = car.book.mark(each.mark)
        if mark is not None:
            lay_out_years(sheet, mark, car.context)
    for outcome, heading in OUTCOME_HEADINGS.items():
        lay_out_findings(sheet, heading, [each for each in between if each.outcome is outcome])
    lay_out_findings(sheet, ALONE_HEADING, alone)
    sheet.heading("What this does not show")
    for limit in FIRST_LOOK_LIMITS:
        sheet.say(f"- {limit}", 2, hanging=2)


def is_between_marks(finding: "Finding") -> bool:
    """Does it compare two marks with each other, and not one with the book alone?"""
    return len({subject.mark for subject in finding.subjects}) > 1


def lay_out_findings(sheet: Sheet, heading: str, findings: "list[Finding]") -> None:
    """Each finding: what stands there, what that is consistent with, on what it rests."""
    if findings:
        sheet.heading(heading)
    for finding in findings:
        strength = f"{finding.strength} rule; " if finding.strength else ""
        basis = f"({strength}{finding.basis.value}: {finding.source})"
        sheet.say(f"- {finding.observation} {finding.inference} {basis}", 2, hanging=2)


def _mark_name(car: "CarMarks", mark_id: str) -> str:
    """The mark's name, or the word that a finding uses for what is no mark."""
    mark = car.book.mark(mark_id)
    return mark.name if mark else mark_id


def best_meaning(decoding: "Decoding") -> str:
    """The first alternative in a line; its share where another is possible."""
    if not decoding.alternatives:
        return "undecoded"
    first = decoding.alternatives[0]
    said = "; ".join(field.meaning or field.value for field in first.fields)
    if len(decoding.alternatives) == 1:
        return said
    return f"{said} ({percent(first.share)} of what the reading allows)"


def _outline(car: "CarMarks", findings: "tuple[Finding, ...]") -> dict[str, Any]:
    """The same for a machine."""
    from witnessmark.decoding import render_decoding
    from witnessmark.wording.first_look import FIRST_LOOK_LIMITS

    return {
        "book": car.book.id,
        "year": car.context.model_year,
        "decodings": [render_decoding(decoding) for decoding in car.decodings],
        "findings": [finding_outline(finding) for finding in findings],
        "does_not_show": list(FIRST_LOOK_LIMITS),
    }
