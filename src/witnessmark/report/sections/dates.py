"""All dates of the car: a table in which each row has its track on one line of time."""

from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.figures import time_line
from witnessmark.outline.records import Block, Paragraph, Table, TableCell
from witnessmark.report.sections.drawn import drawings
from witnessmark.wording.amounts import capital


def date_blocks(opinion: Opinion, book: CodeBook) -> tuple[Block, ...]:
    """The dates with the windows of the book; nothing where no date is known."""
    drawn = time_line(opinion, book)
    if drawn is None:
        return ()
    rows = tuple(
        (
            TableCell(row.name, (row.shown,) if row.shown else (), strong=row.is_car),
            TableCell("\n".join(map(capital, row.sentences)), svg=track.svg),
        )
        for row, track in drawn.rows
        if track
    )
    head = (said("Mark"), said("What it reads, and the book’s window"))
    axis = TableCell(drawn.axis.title, svg=drawn.axis.svg)
    table = Table(head, rows, (128, 356), axis=axis)
    return (*drawings([drawn.legend]), Paragraph(drawn.legend.caption, "lead"), table)
