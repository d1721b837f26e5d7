"""Names of a further book in a joined one: the book's id, a dot, its own name.

No id that a book may have holds a dot, so that such a name is never one of the maker's.
"""

SEPARATOR = "."


def qualified(book_id: str, name: str) -> str:
    """A name of a further book; one that is so already, and an empty one, stay as they are.

    >>> qualified("dated-parts", "tire_date"), qualified("dated-parts", "")
    ('dated-parts.tire_date', '')
    """
    is_bare = bool(book_id and name) and SEPARATOR not in name
    return f"{book_id}{SEPARATOR}{name}" if is_bare else name


def bare_name(name: str) -> str:
    """A name without its further book; one of the maker's as it is.

    >>> bare_name("dated-parts.tire_date"), bare_name("engine_number")
    ('tire_date', 'engine_number')
    """
    return name.rpartition(SEPARATOR)[2]


def further_book(name: str) -> str:
    """The id of the further book that a name is of; empty for one of the maker's.

    >>> further_book("dated-parts.tire_date"), further_book("engine_number")
    ('dated-parts', '')
    """
    return name.rpartition(SEPARATOR)[0]
