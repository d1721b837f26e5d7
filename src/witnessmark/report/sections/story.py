"""Do the marks tell one story: what does not fit, the tables of the items, and the dates."""

from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.figures import time_line
from witnessmark.figures.time_rows import TimeRow
from witnessmark.outline.records import (
    Block,
    Bullets,
    Drawing,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.report.sections.agreement_tables import agreement_tables
from witnessmark.report.sections.matter import Matter
from witnessmark.wording import misfit_sentence, misfits_beside, stop_sentence


def story_section(matter: Matter) -> Section:
    """What does not fit, the worst first; then every item as each mark has it; then the dates."""
    answer = matter.opinion.answer
    blocks: list[Block] = []
    if answer.stops:
        blocks.append(Paragraph(stop_sentence(answer.stops), "strong"))
    told = tuple(
        matter.citing(misfit_sentence(each), matter.of(*each.about))
        for each in misfits_beside(answer)
    )
    if told:
        blocks.append(Bullets(told, is_numbered=True))
    elif not answer.stops:
        blocks.append(Paragraph(said("Nothing that was noted contradicts anything else.")))
    blocks += agreement_tables(matter)
    blocks += date_blocks(matter.opinion, matter.book)
    return Section(said("Do they tell one story?"), tuple(blocks))


def date_blocks(opinion: Opinion, book: CodeBook) -> tuple[Block, ...]:
    """The dates with the windows of the book; nothing where no date is known."""
    drawn = time_line(opinion, book)
    if drawn is None:
        return ()
    rows = tuple(
        (
            TableCell(row.name, (_read(row),), strong=row.is_car, about=(row.mark,)),
            TableCell("", svg=track.svg, told=track.caption),
        )
        for row, track in drawn.rows
        if track
    )
    head = (said("Mark, and what it reads"), said("Years and months"))
    axis = TableCell("", svg=drawn.axis.svg, told=drawn.axis.caption)
    table = Table(head, rows, (150, 334), axis=axis, is_dense=True)
    legend = Drawing(drawn.legend.svg, drawn.legend.title, drawn.legend.caption, leads=True)
    return (legend, Paragraph(drawn.legend.caption, "lead"), table)


def _read(row: TimeRow) -> str:
    """The characters, and the days that they mean."""
    return ": ".join(filter(None, (row.shown, row.sentences[0])))
