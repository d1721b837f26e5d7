"""The ways from what is told of a car to the marks, places and photographs that it speaks of."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from django.urls import reverse

from witnessmark.casefile import Casefile
from witnessmark.codebook import CodeBook
from witnessmark.report.sections.matter import Matter
from witnessmark.wording.amounts import capital


@dataclass(frozen=True, slots=True)
class Lead:
    """A name and the address of what it names."""

    name: str
    address: str


@dataclass(frozen=True, slots=True)
class Leads:
    """The addresses of one case."""

    matter: Matter

    def to(self, about: Iterable[str]) -> tuple[Lead, ...]:
        """To each mark, place and paper of these, once; what none of them is has no address."""
        found = dict.fromkeys(self._named(about))
        return tuple(Lead(name, address) for name, address in found)

    def pairs(self, about: Iterable[str]) -> tuple[tuple[str, str], ...]:
        """The same as name and address."""
        return tuple(dict.fromkeys(self._named(about)))

    def photographs(self, about: Iterable[str]) -> tuple[Lead, ...]:
        """To the photographs that show them, by their numbers."""
        found = self.matter.of(*filter(None, about))
        return tuple(Lead(str(self.matter.numbers[each]), self._photograph(each)) for each in found)

    def _named(self, about: Iterable[str]) -> Iterator[tuple[str, str]]:
        for each in about:
            address = address_of(each, self.matter.case, self.matter.book)
            if address:
                yield capital(self.matter.names.any(each)), address

    def _photograph(self, exhibit: str) -> str:
        return reverse("photo", args=[self.matter.case.id, exhibit])


def address_of(about: str, case: Casefile, book: CodeBook) -> str:
    """The page of a site, of the site where a mark stands, or of a paper; of anything else none."""
    mark = book.mark(about)
    site = mark.site if mark is not None else about
    if site and book.site(site) is not None:
        return reverse("place", args=[case.id, site])
    return reverse("paper", args=[case.id, about]) if mark is not None and not site else ""
