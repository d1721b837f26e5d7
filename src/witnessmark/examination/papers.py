"""The papers of a car: where each is, whether it was read, and what it bears on."""

from collections.abc import Iterable, Iterator

from witnessmark.casefile.records import Casefile, PaperState
from witnessmark.codebook.bearings import Bearing, bearings_of
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import MarkKind
from witnessmark.codebook.pieces import pieces_of
from witnessmark.codebook.records import CarContext
from witnessmark.decoding.records import Decoding

HELD = (PaperState.IN_HAND, PaperState.COPY)


def paper_states(casefile: Casefile, decodings: Iterable[Decoding]) -> dict[str, PaperState]:
    """Where each paper is, by its mark; what was read was in hand unless the case says where."""
    read = {each.mark: PaperState.IN_HAND for each in decodings}
    return read | {paper.mark: paper.state for paper in casefile.papers}


def sources_read(
    book: CodeBook, context: CarContext, decodings: Iterable[Decoding]
) -> Iterator[Bearing]:
    """What the papers bear on that the book names as sources and that lie read before us."""
    pieces, read = pieces_of(book, context), {each.mark for each in decodings}
    named = (each for each in book.settlements if each.applies.covers(context))
    for mark_id in dict.fromkeys(each.speaks_of for each in named):
        mark = book.mark(mark_id)
        if mark is not None and mark.kind is MarkKind.PAPER and mark_id in read:
            yield from bearings_of(book, pieces, mark)
