"""What every section is made from, and the numbers by which all of them cite photographs.

Photographs are numbered once, in the order in which the report comes to them: the car as a
whole, place after place, the papers, and last those that nothing cites.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from witnessmark.casefile.records import Casefile
from witnessmark.catalogue import as_said, counted, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.pieces import Pieces, pieces_of
from witnessmark.examination import Opinion
from witnessmark.outline.records import Photograph
from witnessmark.report.press.pictures import NOT_BROUGHT
from witnessmark.report.records import Picture
from witnessmark.wording import Names
from witnessmark.wording.amounts import clause, in_numbers

ASSIGNMENT, PLACES, FOUND, STORY, STRENGTH, OPEN, LIMITS = range(1, 8)
"""The sections of the report by their numbers: others point to them."""


def whole_car(case: Casefile) -> tuple[str, ...]:
    """The photographs of the car as a whole, by their ids."""
    return tuple(each.id for each in case.exhibits if each.shows_whole_car)


def showing(case: Casefile, about: str) -> tuple[str, ...]:
    """The photographs that show a mark, a place or a paper, by their ids."""
    named = (
        *(s.exhibits for s in case.sites if about in (s.site, s.mark)),
        *(r.exhibits for r in case.readings if r.mark == about),
        *(k.exhibits for k in case.looks if k.site == about),
        *(p.exhibits for p in case.papers if p.mark == about),
        *([case.title_paper.exhibits] if about == "title" else []),
    )
    return tuple(dict.fromkeys(each for some in named for each in some))


@dataclass(frozen=True)
class Matter:
    """An Opinion in the language of the page, with its book and its photographs made ready."""

    opinion: Opinion
    book: CodeBook
    pictures: tuple[Picture, ...] = ()

    @property
    def case(self) -> Casefile:
        """The case as it was typed."""
        return self.opinion.casefile

    @cached_property
    def names(self) -> Names:
        """The names that the book gives."""
        return Names(self.opinion.names)

    @cached_property
    def numbers(self) -> dict[str, int]:
        """The number of each photograph and document by its id."""
        known = [each.id for each in self.case.exhibits]
        order = dict.fromkeys((*whole_car(self.case), *self._place_after_place(), *known))
        return {each: at for at, each in enumerate((e for e in order if e in known), start=1)}

    def _place_after_place(self) -> Iterator[str]:
        for site in self.opinion.sites:
            for about in (site.site, *site.marks):
                yield from showing(self.case, about)
        for mark in self.book.marks:
            yield from showing(self.case, mark.id)
        yield from showing(self.case, "title")

    def at(self, *about: str) -> tuple[str, ...]:
        """The photographs of marks, places and papers, in the order of their numbers."""
        found = {e for each in about for e in showing(self.case, each)}
        return tuple(each for each in self.numbers if each in found)

    def of(self, *about: str) -> tuple[str, ...]:
        """The same of marks, places, papers or pieces; those of a piece only where nothing
        else is named."""
        if any(self.book.mark(each) or self.book.site(each) for each in about):
            return self.at(*about)
        return self.at(*(m.mark for each in about for m in self.pieces.marks_on(each)))

    @cached_property
    def pieces(self) -> Pieces:
        """The pieces of the car, and where its marks stand."""
        return pieces_of(self.book, self.opinion.context)

    def citing(self, text: str, exhibits: Iterable[str]) -> str:
        """A sentence with the numbers of the photographs that show what it says."""
        numbers = sorted(self.numbers[each] for each in exhibits if each in self.numbers)
        if not numbers:
            return text
        shown = counted(
            "photograph {numbers}",
            "photographs {numbers}",
            len(numbers),
            numbers=in_numbers(numbers),
        )
        return said("{text} ({photographs}).", text=clause(text), photographs=shown)

    def photograph(self, exhibit: str) -> Photograph:
        """A photograph with its number and caption, or why it is not shown."""
        entry = next(each for each in self.case.exhibits if each.id == exhibit)
        ready = next((each for each in self.pictures if each.exhibit == exhibit), None)
        missing = ready.missing if ready else NOT_BROUGHT
        return Photograph(
            id=exhibit,
            number=str(self.numbers[exhibit]),
            caption=clause(entry.caption) or said("no caption was given"),
            file=exhibit if ready and ready.jpeg else "",
            missing=as_said(missing) if missing else "",
        )
