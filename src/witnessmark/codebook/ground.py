"""What every row of a book may leave out: its years, and the sources behind short keys."""

from collections.abc import Mapping
from dataclasses import dataclass

from witnessmark.codebook.marks import DateToken
from witnessmark.codebook.records import Applies, Basis, Citation
from witnessmark.documents.entries import Entry, Value

_BASES = {str(basis): basis for basis in Basis}


@dataclass(frozen=True, slots=True)
class Ground:
    """What every row of a book may leave out: its years, and the sources behind short keys.

    `tokens`: the parts of each form of date, by its id; `shared`: the years, works and models
    met so far.
    """

    first_year: int
    last_year: int
    sources: Mapping[str, Value]
    tokens: dict[str, tuple[DateToken, ...]]
    shared: dict[tuple[Value, ...], Applies]

    @property
    def whole(self) -> Applies:
        """All cars of the book."""
        return Applies(self.first_year, self.last_year)

    def applies(self, entry: Entry) -> Applies:
        """The years, works and models of an entry; the book's years where it names none. What
        holds for the same cars shares one record."""
        given = entry.values.get
        limits = (given("first_year"), given("last_year"), given("works"), given("models"))
        if limits not in self.shared:
            self.shared[limits] = Applies(
                entry.number_or("first_year", self.first_year),
                entry.number_or("last_year", self.last_year),
                frozenset(entry.texts("works") if "works" in entry.values else ()),
                frozenset(entry.texts("models") if "models" in entry.values else ()),
            )
        return self.shared[limits]

    def citation(self, entry: Entry) -> Citation:
        """Basis and source of an entry, the source as it is cited in full."""
        source = entry.text("source")
        cited = self.sources.get(source, source)
        return Citation(_BASES[entry.text("basis")], str(cited), entry.sources.whole)
