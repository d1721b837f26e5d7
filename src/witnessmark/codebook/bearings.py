"""On which questions a paper bears, by what it states."""

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark
from witnessmark.codebook.pieces import PieceKind, Pieces


@dataclass(frozen=True, slots=True)
class Bearing:
    """A paper that bears on a question, by the item that it states."""

    paper: str
    question: str
    item: str


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
