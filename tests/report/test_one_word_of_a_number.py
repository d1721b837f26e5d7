"""A number of which a character is unsure is undecided on every page, and nowhere as claimed."""

from dataclasses import replace

import pytest

from tests.examined import ratios_alone
from tests.report.told import table_headed, texts
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.report.sections.agreement_tables import agreement_tables
from witnessmark.report.sections.claimed import reads_beside_claim
from witnessmark.report.sections.found import found_section
from witnessmark.report.sections.matter import Matter
from witnessmark.wording.amounts import capital

NUMBERS = {"mustang": "apron_stamp", "frame": "frame_number", "coachbuilt": "frame_number"}


@pytest.mark.parametrize(("car", "mark"), NUMBERS.items())
def test_what_page_one_says_of_a_number_is_what_the_other_pages_say(car: str, mark: str) -> None:
    book, case = book_of(STANDARD[car].book), casefile(STANDARD[car])
    typed = next(each.text for each in case.readings if each.mark == mark)
    other = "8" if typed[-1] != "8" else "3"
    unsure = f"{typed[:-1]}[{typed[-1]}{other}]"
    for text, on_page_one, below, word in (
        (typed, f"{typed}, as claimed.", "What can be read fits the claim.", "agrees"),
        (f"{typed[:-1]}?", "?; what can be read fits the claim.", "fits the claim.", "agrees"),
        (
            unsure,
            f"{unsure}; what can be read leaves open whether it fits the claim.",
            "What can be read leaves open whether it fits the claim.",
            "undecided",
        ),
    ):
        readings = tuple(replace(e, text=text) if e.mark == mark else e for e in case.readings)
        matter = Matter(ratios_alone(replace(case, readings=readings), book), book)
        reading = next(e.reading for e in matter.opinion.decodings if e.mark == mark)
        assert reads_beside_claim(matter, reading).endswith(on_page_one)
        assert below in "\n".join(texts(found_section(matter).blocks))
        number = book.identification
        assert number is not None
        table = table_headed(agreement_tables(matter, is_whole=True), "Item")
        row = next(r for r in table.rows if r[0].text == capital(matter.names.item(number.id)))
        assert word in {each for cell in row for each in cell.below}
