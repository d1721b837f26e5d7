"""Names of marks, items, assemblies and sites, as the code book gives them.

An Opinion remembers the names that its code book gives. Where one is missing,
the id itself is read as words: ids are whole words joined by underscores.
"""

from dataclasses import dataclass

from witnessmark.catalogue import said
from witnessmark.examination.records import Named, NamedKind

_MARKS_FIRST = (
    NamedKind.MARK,
    NamedKind.ASSEMBLY,
    NamedKind.SITE,
    NamedKind.ITEM,
    NamedKind.PIECE,
)


@dataclass(frozen=True, slots=True)
class Names:
    """The names that an Opinion remembers."""

    named: tuple[Named, ...] = ()

    def mark(self, identifier: str) -> str:
        """The name of a mark; "claim" and "title" are not marks and have their own."""
        if identifier == "claim":
            return said("the claim")
        if identifier == "title":
            return said("the title paper")
        return self._of(NamedKind.MARK, identifier)

    def mark_or_words(self, text: str) -> str:
        """The name of the mark of this id; any other text as it stands."""
        return next((n.name for n in self.named if n.kind is NamedKind.MARK and n.id == text), text)

    def paper(self, mark: str, name: str) -> str:
        """The name of a paper: that of its mark, or its own where the book does not list it."""
        return self.mark(mark) if mark else name

    def item(self, identifier: str) -> str:
        """The name of an item, such as "chassis number"."""
        return self._of(NamedKind.ITEM, identifier)

    def assembly(self, identifier: str) -> str:
        """The name of an assembly, such as "rear axle"."""
        return self._of(NamedKind.ASSEMBLY, identifier)

    def piece(self, identifier: str) -> str:
        """The name of a piece, such as "engine block"; else of whatever bears the id."""
        found = (n.name for n in self.named if n.kind is NamedKind.PIECE and n.id == identifier)
        return next(found, None) or self.any(identifier)

    def value(self, text: str, item: str) -> str:
        """The name of what is claimed of an item where the book gives one, else as claimed."""
        for each in self.named:
            if each.kind is NamedKind.CLAIMED and each.id == f"{item} {text}":
                return each.name
        for each in self.named:
            if each.kind in (NamedKind.MODEL, NamedKind.WORKS) and each.id == text:
                return each.name
        return text

    def any(self, identifier: str) -> str:
        """The name of whatever bears this id, marks first."""
        for kind in _MARKS_FIRST:
            for each in self.named:
                if each.kind is kind and each.id == identifier:
                    return each.name
        return said("car") if identifier == "car" else plain_name(identifier)

    def _of(self, kind: NamedKind, identifier: str) -> str:
        for each in self.named:
            if each.kind is kind and each.id == identifier:
                return each.name
        return plain_name(identifier)


def plain_name(identifier: str) -> str:
    """An id of the code book as a person would say it.

    >>> plain_name("inner_wing_body_number")
    'inner wing body number'
    """
    return " ".join(identifier.replace("_", " ").replace("-", " ").split())
