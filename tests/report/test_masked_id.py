"""The case's short name on sheets that are passed on: no serial, person or place in it."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.worked.found_in_pdf import runs, serials, squeezed
from tests.worked.opened import CARS, book_and_version, opinion_of
from witnessmark.examination import Opinion
from witnessmark.report.mask.short_name import file_stem, shared_id
from witnessmark.report.sheets.decode_sheet import build_decode_sheet

BOOK, VERSION = book_and_version()


def named(opinion: Opinion, case_id: str, **claimed: str) -> Opinion:
    """The Opinion under another short name, of a claim that may be typed otherwise."""
    case = opinion.casefile
    claim = replace(case.claim, items=case.claim.items | claimed)
    made = replace(case, id=case_id, claim=claim)
    return replace(opinion, casefile=made)


def engine_read(opinion: Opinion) -> str:
    """The engine number as the clearest mark has it."""
    return next(
        "".join(cell.characters for cell in cells.cells)
        for each in opinion.decodings
        for cells in each.field_cells
        if cells.says == "engine_number"
    )


@pytest.mark.parametrize(
    ("case_id", "shown"),
    [
        ("car-58-20-63", "car-··-··-··"),
        ("car582063", "·········"),
        ("sprint-582063-b", "sprint-······-b"),
        ("car582O63-582064-Lindqvist", "·········-······-·········"),
        ("lindqvist_S8Z063", "·········_······"),
        ("thornbeck-2063", "·········-····"),
        ("drophead-1958", "drophead-1958"),
    ],
)
def test_a_short_name_is_masked_as_in_the_masked_copy(case_id, shown):
    """The panel car, 582063, of Lindqvist-Amory, seen at Thornbeck."""
    assert shared_id(named(opinion_of("panel"), case_id), BOOK) == shown


@pytest.mark.parametrize("claimed", ["58.20.63", "58-20-63", "582 063"])
def test_it_is_masked_however_the_claim_is_typed(claimed):
    opinion = named(opinion_of("panel"), "car582063", chassis_number=claimed)
    assert shared_id(opinion, BOOK) == "·········"


def test_a_number_that_was_read_and_not_claimed_is_masked():
    """The engine number of the panel car stands on its block alone."""
    opinion = opinion_of("panel")
    number = engine_read(opinion)
    assert number not in opinion.casefile.claim.items.values()
    assert shared_id(named(opinion, f"car-{number}"), BOOK) == "car-" + "·" * len(number)


@pytest.mark.parametrize("car", CARS)
def test_the_short_names_of_the_demonstration_stand(car):
    assert shared_id(opinion_of(car), BOOK) == car


def test_a_year_that_is_a_piece_of_a_serial_is_masked():
    """A claimed number that begins with 1955."""
    case = opinion_of("clean").casefile
    claim = replace(case.claim, items=case.claim.items | {"body_number": "195512"})
    made = replace(case, id="sprint-1955", claim=claim)
    assert shared_id(replace(opinion_of("clean"), casefile=made), BOOK) == "sprint-····"


@tried_on(60, few=12)
@given(
    before=st.text(alphabet="ab-01", max_size=6),
    between=st.sampled_from(["", "-", "_", ".", "--", "._."]),
    after=st.text(alphabet="ab-01", max_size=6),
    car=st.sampled_from(CARS),
)
@example(before="", between="_", after="-ba", car="no-papers")
def test_no_run_of_three_characters_of_a_number_is_left(before, between, after, car):
    """Whatever stands round it and between its figures."""
    opinion = opinion_of(car)
    for number in serials(opinion, BOOK):
        text = before + between.join(number) + after
        shown = shared_id(named(opinion, text), BOOK)
        assert not runs({number}) & runs({squeezed(shown)})
        assert len(shown) == len(text)
        assert all(new in (old, "·") for new, old in zip(shown, text, strict=True))


def test_the_name_of_a_file_bears_no_sign_of_the_mask():
    assert file_stem("car-··-[left out]") == "car-xx-xleftxoutx"


def test_the_decode_sheet_knows_one_sign_alone():
    """A second number in the short name, which differs from the first at every place."""
    opinion = named(opinion_of("panel"), f"car-{engine_read(opinion_of('panel'))}-31877")
    assert build_sheet_id(opinion) == "car-•••••-•••••"


def build_sheet_id(opinion: Opinion) -> str:
    """The short name at the foot of the decode sheet."""
    return build_decode_sheet(opinion, BOOK, date(2026, 11, 25)).case_id
