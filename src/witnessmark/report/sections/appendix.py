"""The appendix: every row of a table that was used, by name, with its basis and source."""

from collections.abc import Mapping

from witnessmark.casefile.records import Override
from witnessmark.catalogue import as_said, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.qualified import bare_name
from witnessmark.codebook.records import Basis
from witnessmark.examination import Opinion
from witnessmark.outline.records import Block, Heading, Paragraph, Section, Table, TableCell
from witnessmark.report.sections.rows_used import RowKind, UsedRow, rows_used, sources_of
from witnessmark.weighing import assumed_rows
from witnessmark.wording import Names, shipped_scale, term
from witnessmark.wording.amounts import capital, clause, rate_text, sentence
from witnessmark.wording.names import plain_name

Numbered = Mapping[tuple[Basis, str], int]
"""Basis and source to the number under which the appendix lists them."""


def appendix_section(opinion: Opinion, book: CodeBook) -> Section:
    """The sources, numbered; the rows of the book; the words; the assumed rates."""
    rows = rows_used(opinion, book)
    bands = shipped_scale().bands
    cited = (*sources_of(rows), *((b.citation.basis, b.citation.source) for b in bands))
    numbers = {each: number for number, each in enumerate(dict.fromkeys(cited), start=1)}
    blocks: list[Block] = [Paragraph(_intro(), "lead"), *_sources(numbers)]
    names = Names(opinion.names)
    for kind in RowKind:
        of_kind = tuple(row for row in rows if row.kind is kind)
        if of_kind:
            blocks.append(Heading(as_said(kind.value)))
            blocks.append(_rows_table(of_kind, numbers, names))
    blocks.append(Heading(said("The verbal scale")))
    blocks.append(_scale_table(numbers))
    blocks.append(Heading(said("The assumed rates of the model")))
    blocks.extend(_assumed(opinion.casefile.circumstances.overrides))
    return Section(said("Appendix: every row that was used"), tuple(blocks), new_page=True)


def _intro() -> str:
    return said(
        "Every table row that was used to read, compare or weigh something. The number at "
        "the end of a row refers to its basis and source in the first list. A row whose "
        "basis is memory explains but carries no weight."
    )


def _sources(numbers: Numbered) -> list[Block]:
    rows = tuple(
        (
            TableCell(str(number)),
            TableCell(capital(term(basis))),
            TableCell(source or said("the case itself")),
        )
        for (basis, source), number in numbers.items()
    )
    head = (said("No."), said("Basis"), said("Source"))
    return [Heading(said("Bases and sources")), Table(head, rows, (0.6, 2, 9), is_dense=True)]


def _rows_table(rows: tuple[UsedRow, ...], numbers: Numbered, names: Names) -> Table:
    """Rows of one kind; the name of the table only where the kind has several."""
    has_tables = any(row.table for row in rows)
    made = tuple(
        (
            *((TableCell(table_name(row, names)),) if has_tables else ()),
            TableCell(row.key, _of_book(row), mono=row.kind in (RowKind.CODE, RowKind.SERIES)),
            TableCell(row_meaning(row)),
            TableCell(str(numbers[row.basis, row.source])),
        )
        for row in rows
    )
    head = (said("Row"), said("What it says"), said("No."))
    if has_tables:
        return Table((said("Table"), *head), made, (2.2, 2.6, 6, 0.6), is_dense=True)
    return Table(head, made, (3, 7.8, 0.6), is_dense=True)


def table_name(row: UsedRow, names: Names) -> str:
    """The table of a row as people call it."""
    match row.kind:
        case RowKind.SERIES | RowKind.EXCEPTION:
            return capital(names.item(row.table))
        case RowKind.FEATURE:
            return capital(names.any(row.table))
        case _:
            return capital(plain_name(bare_name(row.table)))


def _of_book(row: UsedRow) -> tuple[str, ...]:
    """The further book that a row is of, below its name."""
    return (said("of the book {book}", book=row.book),) if row.book else ()


def row_meaning(row: UsedRow) -> str:
    """What a row says; of a lag its days."""
    if row.days is None:
        return row.meaning
    least, usual, most = row.days
    return said(
        "at least {least} days, usually {usual}, at most {most}",
        least=least,
        usual=usual,
        most=most,
    )


def _scale_table(numbers: Numbered) -> Table:
    rows = tuple(
        (
            TableCell(said("LR from {ratio}", ratio=f"{band.lr_from:,.0f}")),
            TableCell(capital(as_said(band.words))),
            TableCell(str(numbers[band.citation.basis, band.citation.source])),
        )
        for band in shipped_scale().bands
    )
    return Table((said("From"), said("Words"), said("No.")), rows, (3, 8, 0.6), is_dense=True)


def _assumed(overrides: tuple[Override, ...]) -> list[Block]:
    """Every assumed rate, shipped or the examiner's, with its value and reason."""
    own = {each.row: each for each in overrides}
    intro = said(
        "No published rate is known for any of these. All were varied together, each within about "
        "a factor of three in odds, to see how far an answer rests on them."
    )
    rows = tuple(
        (
            TableCell(capital(clause(as_said(row.plain)))),
            TableCell(rate_text(own[row.id].value if row.id in own else row.value)),
            TableCell(
                sentence(own[row.id].reason if row.id in own else as_said(row.reason)),
                (said("The examiner’s own value."),) if row.id in own else (),
            ),
        )
        for row in assumed_rows()
    )
    head = (said("Assumed"), said("Value"), said("Reason"))
    return [Paragraph(intro, "lead"), Table(head, rows, (5.5, 1.1, 5), is_dense=True)]
