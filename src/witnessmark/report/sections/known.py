"""What the book remarks about the piece of a conclusion, beside that conclusion."""

from collections.abc import Iterable, Iterator

from witnessmark.catalogue import as_said, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.pieces import pieces_of
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
    pieces = pieces_of(book, opinion.context)
    own = [each for each in pieces.pieces if weighed.about in (each.id, each.assembly)]
    standing = {each.mark for piece in own for each in pieces.marks_on(piece.id)}
    sites = (mark.site for mark in book.marks if mark.id in standing)
    papers = (mark.id for mark in book.marks if mark.id in standing and not mark.site)
    names = (weighed.about, *(each.assembly for each in own), *papers, *sites)
    return book.remarks_about(filter(None, names), opinion.context)


def _sentence(remark: Remark) -> str:
    return said(
        "{remark} [{basis}: {source}]",
        remark=remark.sentence,
        basis=as_said(remark.citation.basis.value),
        source=clipped(remark.citation.source, LONGEST_SOURCE),
    )
