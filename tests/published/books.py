"""The shipped books, each opened once."""

from functools import cache

from witnessmark.codebook import CodeBook, find_book, open_book


@cache
def opened(book_id: str) -> CodeBook:
    """A shipped book."""
    folder = find_book(book_id)
    assert folder is not None
    book = open_book(folder).book
    assert book is not None
    return book
