"""Where a statement comes from: a file and the place in it, or what somebody typed.

A `Source` is carried by every table row, every reading and every problem, so
that a reader can put a finger on the very character that is meant.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Source:
    """A place in a text.

    `name` is the file as the user would write it, or a word for typed input
    ("reading"). `line` and `column` count from 1 and are None where there is
    no such place; `width` is the number of characters meant; `text` is the
    line itself, without its line end.
    """

    name: str
    line: int | None = None
    column: int | None = None
    width: int = 1
    text: str = ""

    def place(self) -> str:
        """The place in the form `name:line:column` that editors follow.

        >>> Source("book.toml", 3, 7).place()
        'book.toml:3:7'
        """
        parts = [self.name]
        if self.line is not None:
            parts.append(str(self.line))
            if self.column is not None:
                parts.append(str(self.column))
        return ":".join(parts)


NOWHERE = Source("")
"""The source of a thing that no text stands behind."""
