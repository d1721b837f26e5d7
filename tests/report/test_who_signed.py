"""Whoever read a mark stands in the documents by name, and by an id only where none is known."""

from dataclasses import replace

import pytest

from tests.examined import ratios_alone
from tests.report.told import flat, texts
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.casefile import Assignment, Casefile, Examiner
from witnessmark.outline.records import Block, Table
from witnessmark.report.sections.examiner import examiners_section
from witnessmark.report.sections.found import found_section
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.order import order_section

NAMED = Examiner(id="nn", name="Nora Nolan")


def signed(case: Casefile, *examiners: Examiner) -> Casefile:
    """The case with all that was noted signed by one id, the first reading by somebody else too."""
    readings = tuple(replace(each, by="nn") for each in case.readings)
    other = replace(readings[0], by="I. Larkin", text=f"{readings[0].text[:-1]}?")
    return replace(
        case,
        assignment=Assignment(examiners=examiners),
        readings=(*readings, other),
        looks=tuple(replace(each, by="nn") for each in case.looks),
    )


def words(blocks: tuple[Block, ...]) -> str:
    """All sentences and cells."""
    cells = (c for b in flat(blocks) if isinstance(b, Table) for row in b.rows for c in row)
    heads = (head for b in flat(blocks) if isinstance(b, Table) for head in b.head)
    return "\n".join((*texts(blocks), *heads, *(t for c in cells for t in (c.text, *c.below))))


@pytest.mark.parametrize("car", ["mustang", "frame"])
def test_what_was_noted_is_signed_with_the_name_of_the_examiner(car: str) -> None:
    book, case = book_of(STANDARD[car].book), casefile(STANDARD[car])
    for examiners, shown, hidden in (((NAMED,), "Nora Nolan", "nn"), ((), "nn", "Nora Nolan")):
        matter = Matter(ratios_alone(signed(case, *examiners), book), book)
        sections = (
            found_section(matter),
            examiners_section(matter.opinion, ()),
            order_section(matter),
        )
        for section in sections:
            assert section is not None
            told = words(section.blocks).replace(",", " ").replace("(", " ").replace(")", " ")
            assert f" {shown} " in f" {told} ".replace("\n", " ")
            assert f" {hidden} " not in f" {told} ".replace("\n", " ")
