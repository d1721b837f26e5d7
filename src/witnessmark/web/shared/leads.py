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
            place = place_of(each, self.matter.book)
            if place:
                yield capital(self.matter.names.any(each)), evidence_at(self.matter.case, place)

    def _photograph(self, exhibit: str) -> str:
        """A photograph stands on the page of the first place that it shows."""
        number = self.matter.numbers[exhibit]
        place = next(_places_shown(self.matter.case, self.matter.book, exhibit), "")
        return f"{evidence_at(self.matter.case, place)}#photograph-{number}"


def evidence_at(case: Casefile, place: str = "") -> str:
    """The page of a place of a case; of no place, that of them all."""
    page = reverse("evidence", args=[case.id])
    return f"{page}/{place}" if place else page


def place_of(about: str, book: CodeBook) -> str:
    """The site where a mark stands; a site itself; a paper, which has no site, by its own id;
    nothing of anything else."""
    mark = book.mark(about)
    if mark is not None:
        return mark.site or mark.id
    return about if book.site(about) is not None else ""


def _places_shown(case: Casefile, book: CodeBook, exhibit: str) -> Iterator[str]:
    seen = (
        *((each.site or each.mark, each.exhibits) for each in case.sites),
        *((each.mark, each.exhibits) for each in case.readings),
        *((each.site, each.exhibits) for each in case.looks),
        *((each.mark, each.exhibits) for each in case.papers),
    )
    for about, exhibits in seen:
        if exhibit in exhibits and (place := place_of(about, book)):
            yield place
