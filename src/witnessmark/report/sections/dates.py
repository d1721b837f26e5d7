"""All dates of the car: a table in which each row has its track on one line of time."""

from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.figures import time_line
from witnessmark.figures.time_rows import TimeRow
from witnessmark.figures.time_words import is_inside
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
            TableCell(row.name, _read(row), strong=row.is_car),
            TableCell("\n".join(map(capital, _placed(row))), svg=track.svg),
        )
        for row, track in drawn.rows
        if track
    )
    head = (said("Mark, and what it reads"), said("The book’s window"))
    axis = TableCell(drawn.axis.title, svg=drawn.axis.svg)
    table = Table(head, rows, (150, 334), axis=axis, is_dense=True)
    return (*drawings([drawn.legend]), Paragraph(drawn.legend.caption, "lead"), table)


def _read(row: TimeRow) -> tuple[str, ...]:
    """The characters, and the days that they mean."""
    return tuple(filter(None, (row.shown, capital(row.sentences[0]))))


def _placed(row: TimeRow) -> tuple[str, ...]:
    """How the date stands to each window that it misses; that it misses none, where it does not."""
    told = row.sentences[1:]
    if len(told) == len(row.windows):
        missed = tuple(
            sentence
            for sentence, window in zip(told, row.windows, strict=True)
            if not all(is_inside(span, window) for span in row.spans)
        )
        return missed or (said("in its window") if told else said("the car’s own date"),)
    return told
