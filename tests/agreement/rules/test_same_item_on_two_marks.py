"""Two marks that say the same item say the same of it, and so does the claim."""

import pytest

from tests.agreement.readings import VOLKSWAGEN, car_read
from witnessmark.agreement import Outcome
from witnessmark.agreement.rules.same_item_on_two_marks import compare
from witnessmark.casefile import Legibility
from witnessmark.codebook import Basis


def test_two_clear_numbers_that_agree_are_said_to_agree(car, about):
    findings = compare(
        car(claim={}, plate_brass="SP|700137|40033|18|L2|390|_", frame_number="4 700137")
    )
    [found] = about(findings, "plate_brass", "frame_number", topic="chassis_number")
    assert found.outcome is Outcome.AGREE
    assert found.agreement_share > 0.99
    assert found.observation == (
        "Chassis number: the brass chassis plate reads 700137; the frame stamping reads 700137. "
        "Nothing differs at the 6 places that both show."
    )
    assert found.inference == "This is consistent with the same chassis number on both."


def test_one_clear_character_that_differs_is_named_with_its_place(car, about):
    findings = compare(car(frame_number="4 700187"))
    [found] = about(findings, "frame_number", "claim", topic="chassis_number")
    assert found.outcome is Outcome.DIFFER
    assert found.agreement_share < 0.05
    assert found.observation == (
        "Chassis number: the frame stamping reads 700187; the claim says 700137. "
        "They differ at place 5 of 6 (8 and 3)."
    )
    assert found.inference == "This is not consistent with the claimed chassis number."


def test_many_places_that_agree_do_not_outvote_one_that_differs(car, about):
    for worn in (0, 1, 2, 3):
        text = "4 " + "700137"[: 5 - worn] + "?" * worn + "9"
        [found] = about(
            compare(car(frame_number=text)), "frame_number", "claim", topic="chassis_number"
        )
        assert found.outcome is Outcome.DIFFER, text


def test_a_worn_place_is_left_out_of_the_comparison(car, about):
    findings = compare(car(frame_number="4 70?137"))
    [found] = about(findings, "frame_number", "claim", topic="chassis_number")
    assert found.outcome is Outcome.AGREE
    assert "the 5 places" in found.observation


def test_a_place_that_may_be_one_of_two_leaves_the_number_open_and_is_named(car, about):
    findings = compare(car(frame_number="4 7001[38]7"))
    [found] = about(findings, "frame_number", "claim", topic="chassis_number")
    assert found.outcome is Outcome.UNDECIDED
    assert found.observation.endswith("Left open: place 5 of 6 ([38] and 3).")
    assert found.inference.startswith("I could not determine")


def test_one_readable_place_alone_does_not_make_a_number_agree(car, about):
    findings = compare(car(frame_number="4 ?????7"))
    [found] = about(findings, "frame_number", "claim", topic="chassis_number")
    assert found.outcome is Outcome.UNDECIDED


def test_a_number_read_clearly_from_a_worn_mark_still_agrees(car, about):
    findings = compare(car(frame_number="4 700137", legibility=Legibility.WORN))
    [found] = about(findings, "frame_number", "claim", topic="chassis_number")
    assert found.outcome is Outcome.AGREE


def test_the_last_four_places_are_compared_with_the_last_four_of_the_whole(car, about):
    claim = {"chassis_number": "700222", "model": "solent-sprint", "model_year": "1957"}
    agreeing = compare(car(claim, wing_chassis_tail="M 0222"))
    differing = compare(car(claim, wing_chassis_tail="M 0223"))
    [found] = about(agreeing, "wing_chassis_tail", "claim", topic="chassis_number")
    assert found.outcome is Outcome.AGREE
    assert "the 4 places" in found.observation
    [found] = about(differing, "wing_chassis_tail", "claim", topic="chassis_number")
    assert found.outcome is Outcome.DIFFER
    assert "place 6 of 6" in found.observation


def test_two_codes_of_two_alphabets_agree_through_what_they_mean(car, about):
    findings = compare(
        car(
            plate_brass="SP|700137|40033|18|L2|390|_",
            build_card="700137|4|M|0912|40033|22001|32001|B|18|L2|030655",
        )
    )
    [ratio] = about(findings, "plate_brass", "build_card", topic="axle_ratio")
    [model] = about(findings, "plate_brass", "build_card", topic="model")
    assert ratio.outcome is model.outcome is Outcome.AGREE
    assert "390 (3.90 to 1)" in ratio.observation
    assert "B (3.90 to 1)" in ratio.observation


def test_two_codes_that_mean_different_things_differ(car, about):
    findings = compare(car(plate_brass="SD|700137|40033|18|L2|390|_", frame_number="4 700137"))
    [found] = about(findings, "plate_brass", "frame_number", topic="model")
    assert found.outcome is Outcome.DIFFER
    [claimed] = about(findings, "plate_brass", "claim", topic="model")
    assert claimed.outcome is Outcome.DIFFER
    assert "the claim says Solent Sprint" in claimed.observation


def test_a_half_worn_code_among_many_never_counts_as_different(car, about):
    claim = {"model_year": "1955", "model": "solent-saloon", "paint": "saxe-blue"}
    findings = compare(car(claim, plate_brass="SA|550123|11900|1?|C1|410|_"))
    [found] = about(findings, "plate_brass", "claim", topic="paint")
    assert found.outcome is Outcome.UNDECIDED


def test_two_half_worn_fields_on_one_plate_never_count_as_different(car, about):
    claim = {"model_year": "1955", "model": "solent-saloon", "paint": "saxe-blue"}
    for paint in ("saxe-blue", "heath-brown", "oxblood"):
        findings = compare(car({**claim, "paint": paint}, plate_brass="S?|5501??|11900|1?|?1|4??|"))
        [found] = about(findings, "plate_brass", "claim", topic="paint")
        assert found.outcome is Outcome.UNDECIDED, paint


def test_a_code_that_the_book_does_not_list_is_compared_with_nothing_but_its_own_table(car, about):
    findings = compare(
        car(
            plate_brass="SP|700137|40033|40|L2|390|_",
            despatch_ledger="700137|4|40033|M|0912|40|060655",
            claim={"model_year": "1955", "paint": "oxblood"},
        )
    )
    [paper] = about(findings, "plate_brass", "despatch_ledger", topic="paint")
    assert paper.outcome is Outcome.AGREE
    assert "40 (not listed in this book)" in paper.observation
    [claim] = about(findings, "plate_brass", "claim", topic="paint")
    assert claim.outcome is Outcome.SILENT


def test_dates_agree_where_the_days_they_may_mean_overlap(car, about):
    ledger = "700137|4|40033|M|0912|18|060655"
    [found] = about(
        compare(car(built="1955-06", despatch_ledger=ledger)),
        "despatch_ledger",
        "claim",
        topic="build_date",
    )
    assert found.outcome is Outcome.AGREE
    [found] = about(
        compare(car(built="1956", despatch_ledger=ledger)),
        "despatch_ledger",
        "claim",
        topic="build_date",
    )
    assert found.outcome is Outcome.DIFFER


def test_a_mark_that_is_worn_away_is_compared_with_nothing(car):
    findings = compare(car(frame_number="? ??????", wing_body_number="M 0912"))
    on_frame = [f for f in findings if any(s.mark == "frame_number" for s in f.subjects)]
    assert on_frame
    assert {f.outcome for f in on_frame} == {Outcome.SILENT}
    assert {f.agreement_share for f in on_frame} == {None}


def test_a_number_typed_one_character_short_speaks_neither_for_nor_against(car, about):
    findings = compare(car(plate_brass="SP|70137|40033|18|L2|390|_"))
    [found] = about(findings, "plate_brass", "claim", topic="chassis_number")
    assert found.outcome is Outcome.SILENT
    assert "reads 70137, 1 character short" in found.observation


def test_a_code_typed_one_character_short_speaks_neither_for_nor_against(car, about):
    claim = {"model_year": "1955", "model": "solent-saloon", "paint": "saxe-blue"}
    findings = compare(car(claim, plate_brass="SA|550123|11900|5|C1|410|"))
    [found] = about(findings, "plate_brass", "claim", topic="paint")
    assert found.outcome is Outcome.SILENT
    assert "reads 5, 1 character short" in found.observation


def test_a_claimed_number_of_another_length_is_named_and_not_compared(car, about):
    findings = compare(car({"chassis_number": "70013"}, frame_number="4 700137"))
    [found] = about(findings, "frame_number", "claim", topic="chassis_number")
    assert found.outcome is Outcome.SILENT
    assert "the claim says 70013, which this book cannot compare" in found.observation


def test_a_second_examiner_who_reads_otherwise_leaves_the_number_open(car, about):
    findings = compare(car(frame_number=("4 700137", "4 700187")))
    [found] = about(findings, "frame_number", "claim", topic="chassis_number")
    assert found.outcome is Outcome.UNDECIDED
    assert "reads 700137 / 700187" in found.observation


def test_two_examiners_who_read_a_half_worn_code_differently_narrow_it_together(car, about):
    claim = {"model_year": "1955", "model": "solent-saloon", "paint": "saxe-blue"}
    plates = ("SA|550123|11900|[12]5|C1|410|", "SA|550123|11900|1[56]|C1|410|")
    [found] = about(compare(car(claim, plate_brass=plates)), "plate_brass", "claim", topic="paint")
    assert found.outcome is Outcome.AGREE


def test_what_the_book_has_from_memory_explains_and_does_not_argue(car, about, book_from_memory):
    findings = compare(car(of_book=book_from_memory, frame_number="4 700187"))
    [found] = about(findings, "frame_number", "claim", topic="chassis_number")
    assert found.basis is Basis.MEMORY
    assert found.source == "heard at a meeting"
    assert found.inference.endswith(
        "The book has this from memory: it explains but carries no weight."
    )


def test_a_code_used_twice_means_what_it_meant_in_the_year_of_the_car(car, about):
    """14 was Fen Green to 1955 and Pine Green from 1956."""
    plate = "SA|550123|11900|14|C1|410|"
    saloon = {"model": "solent-saloon", "paint": "pine-green"}
    for year, outcome in (("1955", Outcome.DIFFER), ("1956", Outcome.AGREE)):
        findings = compare(car({**saloon, "model_year": year}, plate_brass=plate))
        [found] = about(findings, "plate_brass", "claim", topic="paint")
        assert found.outcome is outcome, year
    worn = "SA|??????|?????|14|C1|410|"
    [found] = about(compare(car(saloon, plate_brass=worn)), "plate_brass", "claim", topic="paint")
    assert found.outcome is Outcome.UNDECIDED
    assert "14 (Fen Green or Pine Green)" in found.observation


def test_a_code_used_twice_means_what_it_meant_in_the_year_of_the_number_beside_it(car, about):
    """Nobody claims a year: 550123 is a number of 1955."""
    saloon = {"model": "solent-saloon", "paint": "pine-green"}
    plate = "SA|550123|11900|14|C1|410|"
    [found] = about(compare(car(saloon, plate_brass=plate)), "plate_brass", "claim", topic="paint")
    assert found.outcome is Outcome.DIFFER
    assert "14 (Fen Green)" in found.observation


def parted(pan, plate):
    """The one finding on two numbers of ten figures, of which two fields bear the serial."""
    car = car_read(VOLKSWAGEN, f"pan_number_1970={pan}", f"type_plate_1970=11|{plate}")
    [found] = [each for each in compare(car) if each.topic == "chassis_number"]
    return found


@pytest.mark.parametrize(
    ("plate", "outcome", "told"),
    [
        ("110 2 234 567", Outcome.AGREE, "Nothing differs at the 7 places that both show."),
        ("110 3 234 567", Outcome.DIFFER, "They differ at place 1 of 7 (2 and 3)."),
        ("110 2 234 597", Outcome.DIFFER, "They differ at place 6 of 7 (6 and 9)."),
        ("110 2 ??? ???", Outcome.UNDECIDED, "Nothing differs at the one place that both show."),
        ("110 ? 234 567", Outcome.AGREE, "Nothing differs at the 6 places that both show."),
    ],
)
def test_a_number_that_a_mark_bears_in_parts_is_one_number(plate, outcome, told):
    """The decade mark and six figures, each a field of its own."""
    found = parted("110 2 234 567", plate)
    assert found.outcome is outcome
    assert "the number on the floor pan reads 2234567" in found.observation
    assert told in found.observation
