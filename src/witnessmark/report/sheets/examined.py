"""What an examination says on a screen: the client's page; one question, or all of it, on demand.

It is the report's own outline, so that screen and paper never say two things of one car.
"""

from collections.abc import Iterable
from datetime import date

from witnessmark.catalogue import in_a_row, said, voiced
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.outline.records import Block, Heading, Outline, Paragraph
from witnessmark.report.outline import build_outline
from witnessmark.report.sections.answered import concluded
from witnessmark.report.sections.known import MOST_REMARKS, with_remarks
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.weight import conclusion_in_full
from witnessmark.weighing import Weighed
from witnessmark.wording import Names


def examined_in_short(opinion: Opinion, book: CodeBook, day: date) -> Outline:
    """The client's page, the books it was made by, and how to see more."""
    outline = build_outline(opinion, book, day)
    ids = ", ".join(dict.fromkeys(each.about for each in opinion.weighed))
    books = in_a_row(
        said("By the book {book}, version {version}.", book=each.id, version=each.version)
        for each in (opinion.book, *opinion.beside)
    )
    more = said("Why: `--why` with one of {ids}. All of it: `--all`.", ids=ids)
    front = (*outline.front, Heading(said("More")), Paragraph(more), Paragraph(books))
    return Outline(outline.title, front, case_id=outline.case_id, is_numbered=False)


def examined_why(
    opinion: Opinion, book: CodeBook, weighed: Iterable[Weighed], most: int | None = MOST_REMARKS
) -> Outline:
    """Some conclusions in full: what is said, what drives it, on what it rests, with at most
    so many remarks of the book about each piece, or all."""
    opinion, names = voiced(opinion), Names(opinion.names)
    blocks: list[Block] = []
    for each, remarks in with_remarks(map(voiced, weighed), opinion, book, most):
        blocks.extend(conclusion_in_full(each, opinion, book, names))
        blocks.extend(map(Paragraph, remarks))
    return Outline(opinion.casefile.title or opinion.casefile.id, tuple(blocks))


def concluded_in_short(opinion: Opinion, book: CodeBook, *after: Block) -> Outline:
    """The claim, each conclusion in a row, and what else is to be said after it."""
    opinion = voiced(opinion)
    matter = Matter(opinion, book)
    blocks = (Paragraph(opinion.casefile.claim.text), *concluded(matter), *after)
    return Outline(opinion.casefile.title, blocks, case_id=opinion.casefile.id)
