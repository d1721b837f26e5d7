"""Names of marks, items, assemblies and sites, as the code book gives them.

An Opinion remembers the names that its code book gives. Where one is missing,
the id itself is read as words: ids are whole words joined by underscores.
"""

from dataclasses import dataclass

from witnessmark.examination import Named


@dataclass(frozen=True, slots=True)
class Names:
    """The names that an Opinion remembers."""

    named: tuple[Named, ...] = ()

    def mark(self, identifier: str) -> str:
        """The name of a mark; "claim" and "title" are not marks and have their own."""
        own = {"claim": "the claim", "title": "the title paper"}
        return own.get(identifier) or self._of("mark", identifier)

    def item(self, identifier: str) -> str:
        """The name of an item, such as "chassis number"."""
        return self._of("item", identifier)

    def assembly(self, identifier: str) -> str:
        """The name of an assembly, such as "rear axle"."""
        return self._of("assembly", identifier)

    def value(self, text: str) -> str:
        """The name of a claimed value where the book gives one, else the value as claimed."""
        for each in self.named:
            if each.kind in ("model", "works") and each.id == text:
                return each.name
        return text

    def any(self, identifier: str) -> str:
        """The name of whatever bears this id, marks first."""
        for kind in ("mark", "assembly", "site", "item"):
            for each in self.named:
                if each.kind == kind and each.id == identifier:
                    return each.name
        return plain_name(identifier)

    def _of(self, kind: str, identifier: str) -> str:
        for each in self.named:
            if each.kind == kind and each.id == identifier:
                return each.name
        return plain_name(identifier)


def plain_name(identifier: str) -> str:
    """An id of the code book as a person would say it.

    >>> plain_name("inner_wing_body_number")
    'inner wing body number'
    """
    return " ".join(identifier.replace("_", " ").replace("-", " ").split())
