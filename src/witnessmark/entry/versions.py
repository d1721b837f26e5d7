"""The books as an opinion remembers them."""

from witnessmark.entry.books import BooksOpened
from witnessmark.examination import BookVersion


def versions_of(books: BooksOpened) -> tuple[BookVersion, tuple[BookVersion, ...]]:
    """The version of the maker's book, and of each beside it."""
    version, *beside = (
        BookVersion(book.id, book.title, book.version, each.sha256, each.is_other_than_shipped)
        for each in books.each
        if (book := each.book) is not None
    )
    return version, tuple(beside)
