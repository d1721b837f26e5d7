"""All dates of the car: a table in which each row has its track on one line of time."""

from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.figures import time_line
from witnessmark.figures.time_rows import TimeRow
from witnessmark.outline.records import Block, Drawing, Paragraph, Table, TableCell


def date_blocks(opinion: Opinion, book: CodeBook) -> tuple[Block, ...]:
    """The dates with the windows of the book; nothing where no date is known."""
    drawn = time_line(opinion, book)
    if drawn is None:
        return ()
    rows = tuple(
        (
            TableCell(row.name, (_read(row),), strong=row.is_car),
            TableCell("", svg=track.svg, told=track.caption),
        )
        for row, track in drawn.rows
        if track
    )
    head = (said("Mark, and what it reads"), said("Years and months"))
    axis = TableCell("", svg=drawn.axis.svg, told=drawn.axis.title)
    table = Table(head, rows, (150, 334), axis=axis, is_dense=True)
    legend = Drawing(drawn.legend.svg, drawn.legend.title, drawn.legend.caption, leads=True)
    return (legend, Paragraph(drawn.legend.caption, "lead"), table)


def _read(row: TimeRow) -> str:
    """The characters, and the days that they mean."""
    return ": ".join(filter(None, (row.shown, row.sentences[0])))
