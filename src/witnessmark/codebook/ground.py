"""What every row of a book may leave out: its years, and the sources behind short keys."""

from dataclasses import dataclass

from witnessmark.codebook.entries import Entry
from witnessmark.codebook.records import Applies, Basis, Citation


@dataclass(frozen=True, slots=True)
class Ground:
    """What every row of a book may leave out: its years, and the sources behind short keys."""

    first_year: int
    last_year: int
    sources: Entry

    def applies(self, entry: Entry) -> Applies:
        """The years, works and models of an entry; the book's years where it names none."""
        return Applies(
            entry.number_or("first_year", self.first_year),
            entry.number_or("last_year", self.last_year),
            frozenset(entry.texts("works") if "works" in entry.values else ()),
            frozenset(entry.texts("models") if "models" in entry.values else ()),
        )

    def citation(self, entry: Entry) -> Citation:
        """Basis and source of an entry, the source as it is cited in full."""
        source = entry.text("source")
        cited = self.sources.values.get(source, source)
        return Citation(Basis(entry.text("basis")), str(cited), entry.where)
