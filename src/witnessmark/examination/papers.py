"""The papers of a car: where each is, whether it was read, and on which questions it bears."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from witnessmark.casefile.records import Casefile, PaperState
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark, MarkKind
from witnessmark.codebook.pieces import PieceKind, Pieces, pieces_of
from witnessmark.codebook.records import CarContext
from witnessmark.decoding.records import Decoding

HELD = (PaperState.IN_HAND, PaperState.COPY)


@dataclass(frozen=True, slots=True)
class Bearing:
    """A paper that bears on a question, by the item that it states."""

    paper: str
    question: str
    item: str


def paper_states(casefile: Casefile, decodings: Iterable[Decoding]) -> dict[str, PaperState]:
    """Where each paper is, by its mark; what was read was in hand unless the case says where."""
    read = {each.mark: PaperState.IN_HAND for each in decodings}
    return read | {paper.mark: paper.state for paper in casefile.papers}


def bearings_of(book: CodeBook, pieces: Pieces, paper: Mark) -> Iterator[Bearing]:
    """The questions beside its own on which a paper bears: of the parts whose number it states,
    of the identity if it states that number, of the other items that it states."""
    for item_id in dict.fromkeys(field.says for field in paper.fields):
        item = book.item(item_id)
        if item is None:
            continue
        about = (question_of(pieces, item.home) if item.home else item_id,)
        for question in pieces.bearers if item.identification else about:
            yield Bearing(paper.id, question, item_id)


def question_of(pieces: Pieces, part: str) -> str:
    """The question about a part, which may be named by its assembly: that of its core."""
    cores = pieces.of_kind(PieceKind.CORE)
    return next((core.id for core in cores if core.assembly == part), part)


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
