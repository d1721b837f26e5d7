"""What is said of a code book that bears the id of a shipped one and is not that book."""

from witnessmark.catalogue import said
from witnessmark.examination import Opinion

SHORT_DIGEST = 16
"""Figures of a digest that tell a book from every other."""


def other_book_sentence(book: str, folder: str, sha256: str) -> str:
    """That the book in this folder only shares its id with the shipped one."""
    return said(
        "Caution: the code book in “{folder}” is not the {book} that comes with this "
        "program. It has the same identifier but different content (SHA-256 {digest}…). "
        "Everything here rests on its tables, not on those of the shipped book.",
        folder=folder,
        book=book,
        digest=sha256[:SHORT_DIGEST],
    )


def other_book_sentences(opinion: Opinion) -> tuple[str, ...]:
    """One for each book of an Opinion that is not the shipped one, in the folder that the case
    names."""
    case = opinion.casefile
    books = (opinion.book, *opinion.beside)
    return tuple(
        other_book_sentence(each.id, named, each.sha256)
        for each, named in zip(books, (case.book, *case.beside), strict=True)
        if each.is_other_than_shipped
    )
