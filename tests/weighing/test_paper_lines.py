"""One line of a paper can be wrong while paper and car are right: one such line alone accuses no
car, and metal that differs is still found. Tried on every book."""

import pytest

from tests.worked.situations.car import says
from tests.worked.situations.changes import core_of_another
from tests.worked.situations.standard import STANDARD
from tests.worked.situations.tried import lrs
from witnessmark.weighing.rates import assumed_rows

BEYOND = 1 / 100
E_TYPE = "|Opalescent Dark Blue|Red|14.11.1962|26.11.1962"

ONE_LINE = {
    "camaro, day of the gearbox": (
        "camaro", "owner_plate_1967", "124379N{number} | H | V0206{suffix} | BU0204G | P9A08B | 2"),
    "sprint, engine in the ledger": (
        "sprint", "despatch_ledger", "{number}|4|40063|M|{body}|17|120555"),
    "numbered, day of the engine": (
        "numbered", "owner_booklet", "{number}|{type}|21040|050760"),
    "beetle, engine": (
        "beetle", "works_certificate_1965", "{number}|H 0561203|14.02.1967|20.02.1967"),
    "jaguar, engine": (
        "jaguar", "certificate_38", "{number}|R7811-9|{tub}|{gearbox}" + E_TYPE),
    "jaguar, gearbox": (
        "jaguar", "certificate_38", "{number}|{engine}|{tub}|EB5207JS" + E_TYPE),
    "jaguar, engine in the log book": (
        "jaguar", "log_book_38", "{number}|R7811-9|03.12.1962"),
    "frame, paint": ("frame", "despatch_ledger", "{number}|14|220551"),
    "coachbuilt, engine": (
        "coachbuilt", "despatch_ledger", "{number}|62310|S|{body}|280535"),
    "coachbuilt, body": (
        "coachbuilt", "despatch_ledger", "{number}|{engine}|S|1766|280535"),
    "order, order number": ("order", "archive_letter", "{number}|318245|200565"),
    "no-numbers, day": ("no-numbers", "delivery_note", "{number}|200852"),
}  # fmt: skip


@pytest.mark.parametrize("name", ONE_LINE)
def test_one_line_that_differs_accuses_no_honest_car(name: str) -> None:
    """What another mark, or several on the part, say of it too."""
    car, mark, text = ONE_LINE[name]
    found = lrs(STANDARD[car].but(says(mark, text)))
    assert {about: each for about, each in found.items() if each < BEYOND} == {}


@pytest.mark.parametrize(
    ("car", "mark", "text", "part"),
    [
        ("pan", "certificate", "{number}|409127|120651", "engine"),
        (
            "sprint",
            "build_card",
            "{number}|4|M|{body}|{engine}|21877|{axle}|A|17|L2|090555",
            "gearbox",
        ),
        (
            "camaro",
            "owner_plate_1967",
            "124379N{number} | H | V0206{suffix} | BU0118G | P9A27B | 2",
            "axle",
        ),
    ],
)
def test_a_part_of_which_one_paper_alone_speaks_is_as_with_another_cars_part(
    car: str, mark: str, text: str, part: str
) -> None:
    """A line that is wrong and a part that is another's look alike there: law 3 asks for 1/100."""
    found = lrs(STANDARD[car].but(says(mark, text)))
    assert 1 / 250 < found[part] <= BEYOND
    assert [about for about, each in found.items() if each < BEYOND] == [part]


@pytest.mark.parametrize("car", ["sprint", "jaguar"])
def test_metal_that_differs_in_several_ways_is_still_found(car: str) -> None:
    """Every core that bears a number bears another car's."""
    cores = [core.assembly for core in STANDARD[car].cores if core.tie]
    found = lrs(STANDARD[car].but(*(core_of_another(each) for each in cores)))
    assert {core: found[core] for core in cores if found[core] > BEYOND} == {}


def test_the_rate_is_assumed_with_its_reason_and_can_be_given_another_value() -> None:
    """It stands in the table of rates, and so in every band and among what turns an answer."""
    [row] = [each for each in assumed_rows() if each.id == "paper.line"]
    assert (row.basis.value, row.is_share) == ("assumed", True)
    assert row.reason
