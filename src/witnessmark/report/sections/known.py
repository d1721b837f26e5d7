"""What the book remarks about the piece of a conclusion, beside that conclusion."""

from collections.abc import Iterable, Iterator

from witnessmark.catalogue import all_of, as_said, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.named_rows import row_name
from witnessmark.codebook.pieces import Piece, pieces_of
from witnessmark.codebook.site_records import Remark
from witnessmark.examination import Opinion
from witnessmark.weighing import Standing, Weighed
from witnessmark.wording.amounts import clipped

MOST_REMARKS = 2
"""Remarks beside a conclusion, unless all are asked for."""

LONGEST_SOURCE = 80
"""Characters of a source that stand behind a remark."""


def with_remarks(
    weighed: Iterable[Weighed], opinion: Opinion, book: CodeBook, most: int | None = MOST_REMARKS
) -> Iterator[tuple[Weighed, tuple[str, ...]]]:
    """Each conclusion with at most so many remarks about its piece, each remark once."""
    told: set[Remark] = set()
    for each in weighed:
        found = () if each.standing is Standing.NOT_EXAMINED else _about(each, opinion, book)
        new = [remark for remark in found if remark not in told][:most]
        told.update(found)
        yield each, tuple(map(_sentence, new))


def _about(weighed: Weighed, opinion: Opinion, book: CodeBook) -> tuple[Remark, ...]:
    """What is known of the piece, of its assembly, and of the places where its marks are."""
    own, standing = _standing(weighed, opinion, book)
    sites = (mark.site for mark in book.marks if mark.id in standing)
    papers = (mark.id for mark in book.marks if mark.id in standing and not mark.site)
    names = (weighed.about, *(each.assembly for each in own), *papers, *sites)
    return book.remarks_about(filter(None, names), opinion.context)


def _standing(
    weighed: Weighed, opinion: Opinion, book: CodeBook
) -> tuple[list[Piece], frozenset[str]]:
    """The pieces of a conclusion, and the marks that stand on them."""
    pieces = pieces_of(book, opinion.context)
    own = [each for each in pieces.pieces if weighed.about in (each.id, each.assembly)]
    return own, frozenset(each.mark for piece in own for each in pieces.marks_on(piece.id))


def to_vouch_for(weighed: Weighed, opinion: Opinion, book: CodeBook) -> Iterator[str]:
    """Each mark that was read on the piece and carries no weight, and what would let it speak."""
    for name, rows in rows_to_vouch_for(weighed, opinion, book):
        yield said(
            "The {mark} carries no weight, since the book has it from memory: it would speak "
            "if you vouched for {rows}, by name and with a reason.",
            mark=name,
            rows=all_of(rows),
        )


def rows_to_vouch_for(
    weighed: Weighed, opinion: Opinion, book: CodeBook
) -> Iterator[tuple[str, list[str]]]:
    """The name of each mark that was read on the piece and that the book, or its form of a day,
    has from memory, with the rows for which somebody would have to answer so that it speaks."""
    _, standing = _standing(weighed, opinion, book)
    vouched = {each.row for each in opinion.casefile.circumstances.vouched}
    read = standing & {each.mark for each in opinion.decodings}
    for mark in (each for each in book.marks if each.id in read):
        forms = [book.date_form(field.date_form) for field in mark.fields]
        rows = (mark, *(form for form in forms if form is not None))
        asked = [row_name(row) for row in rows if not row.citation.basis.weighs]
        left = [row for row in dict.fromkeys(asked) if row not in vouched]
        if left:
            yield mark.name, left


def _sentence(remark: Remark) -> str:
    return said(
        "{remark} [{basis}: {source}]",
        remark=remark.sentence,
        basis=as_said(remark.citation.basis.value),
        source=clipped(remark.citation.source, LONGEST_SOURCE),
    )
