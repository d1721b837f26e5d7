"""`witnessmark case check`: all faults of a case at once, each with its place."""

from pathlib import Path

from witnessmark.casefile import Casefile, open_case, unread_fields
from witnessmark.catalogue import counted, in_a_row, said
from witnessmark.cli.arguments import AsJson, CasePath
from witnessmark.cli.cases import books_of_case, tell_format
from witnessmark.cli.terminal import print_outline, refuse_unless_sound
from witnessmark.codebook import CodeBook
from witnessmark.entry import Lack, claim_read, lacking
from witnessmark.examination import book_names, car_marks, check_case, in_book_words
from witnessmark.outline.records import Block, Bullets, Outline, Paragraph
from witnessmark.wording import Names, typing_sentences

HELP = """Without a fault, what is missing for a report that somebody else can use is told.

\b
Example:
  witnessmark case check demo/clean
"""


def case_check(case: CasePath, json: AsJson = False) -> None:
    """Show every fault; exit code 2 where there is one."""
    opened = open_case(Path(case))
    tell_format(opened, case)
    casefile, problems, book = opened.casefile, opened.problems, None
    if casefile is not None:
        book = books_of_case(opened, casefile).book
        problems = (*problems, *check_case(casefile, opened.places, book))
    checked = {"case": casefile.id if casefile else None}
    refuse_unless_sound(checked, problems, is_read=casefile is not None, as_json=json)
    if casefile is not None and book is not None and not json:
        unread = (
            said(
                "{place}: the field “{field}” is kept but not read: is it misspelt?",
                place=each.source.place(),
                field=each.field,
            )
            for each in unread_fields(casefile, opened.places)
        )
        front = (_counted(casefile), *unread, *claim_read(casefile, book))
        title = said("{case}: no fault found", case=casefile.title or casefile.id)
        told: tuple[Block, ...] = (*map(Paragraph, front), Bullets(_typing(casefile, book)))
        missing = tuple(map(_missing, lacking(casefile, opened.places, book)))
        if missing:
            lead = said("For a report that somebody else can use this is missing:")
            told = (*told, Paragraph(lead), Bullets(missing))
        print_outline(Outline(title, told))


def _missing(lack: Lack) -> str:
    """A thing that is missing, with its place where it has one."""
    place = lack.source.place()
    return f"{place}: {lack.sentence}" if place else lack.sentence


def _counted(casefile: Casefile) -> str:
    """How much the case holds of each kind."""
    numbers = (
        counted("{number} reading", "{number} readings", len(casefile.readings)),
        counted("{number} look", "{number} looks", len(casefile.looks)),
        counted("{number} place", "{number} places", len(casefile.sites)),
        counted("{number} paper", "{number} papers", len(casefile.papers)),
        counted("{number} exhibit", "{number} exhibits", len(casefile.exhibits)),
    )
    return in_a_row(numbers, ", ")


def _typing(casefile: Casefile, book: CodeBook) -> tuple[str, ...]:
    """What was typed in a form that its mark has not: no fault of the document, and told."""
    car = car_marks(in_book_words(casefile, book), book)
    return typing_sentences(car.decodings, book, Names(book_names(car)))
