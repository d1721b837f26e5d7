"""Castings against engines, axles behind engines, parts against the week of the plate.

What a row from memory says is told and does not argue: a car is never refused by it.
"""

import pytest

from tests.published.books import Marks, opened
from witnessmark.agreement import Finding, Outcome, compare
from witnessmark.casefile import case_from
from witnessmark.codebook import Basis
from witnessmark.examination import car_marks

CHEVROLET, FORD = "chevrolet-1964-1972", "ford-1964-1973"
CAMARO = {"model": "camaro", "model_year": "1969", "works": "norwood"}
MUSTANG = {"model": "mustang", "model_year": "1968"}
MUSTANG_1973 = {"model": "mustang", "model_year": "1973"}


def found(book: str, claim: dict[str, str], topic: str, **texts: str) -> Finding:
    """What one rule or lag says of these marks."""
    readings = [{"mark": mark, "text": text} for mark, text in texts.items()]
    document = {"id": "car", "book": book, "claim": {"items": claim}, "readings": readings}
    car = car_marks(case_from(document), opened(book))
    [one] = [each for each in compare(car) if each.topic == topic]
    return one


def meant(book: str, mark: str, text: str) -> dict[str, str]:
    """The value of each item that one mark says."""
    decoding = Marks(book).decoded(mark, text)
    return {each.says: each.value for each in decoding.alternatives[0].fields}


@pytest.mark.parametrize(
    ("block", "pad", "outcome"),
    [
        ("3956618", "V0101DZ", Outcome.AGREE),  # a 302 or 350, and the 302
        ("3955272", "T0101JH", Outcome.AGREE),  # a 396, and the 396/375
        ("3955272", "V0101DZ", Outcome.DIFFER),
        ("3849852", "V0101DZ", Outcome.DIFFER),  # a 283, of which the book lists no suffix
        ("3963512", "T0101MN", Outcome.AGREE),  # a 427 in 1969
    ],
)
def test_a_block_of_a_camaro_is_set_beside_the_engine_that_its_pad_names(block, pad, outcome):
    told = found(CHEVROLET, CAMARO, f"block-{block}", block_number=block, engine_pad=pad)
    assert (told.outcome, told.basis) == (outcome, Basis.MEMORY)
    assert told.inference.endswith("it explains but carries no weight.")


def test_the_casting_numbers_of_head_and_intake_name_engines_too():
    told = found(CHEVROLET, CAMARO, "head-3919840", head_number="3919840", engine_pad="V0101DZ")
    assert (told.outcome, told.basis) == (Outcome.DIFFER, Basis.MEMORY)
    told = found(CHEVROLET, CAMARO, "intake-3932472", intake_number="3932472", engine_pad="V0101DZ")
    assert (told.outcome, told.basis) == (Outcome.AGREE, Basis.MEMORY)


@pytest.mark.parametrize(
    ("block", "topic", "letter", "outcome", "basis"),
    [
        ("C8OE-6015-A", "block-c8oe-6015-a", "J", Outcome.AGREE, Basis.MEMORY),
        ("C8OE-6015-A", "block-c8oe-6015-a", "C", Outcome.AGREE, Basis.MEMORY),  # 302 in a 289
        ("C8OE-6015-A", "block-c8oe-6015-a", "R", Outcome.DIFFER, Basis.MEMORY),
        ("C8OE-A", "block-c8oe-6015-a", "R", Outcome.DIFFER, Basis.MEMORY),
        ("C8ME-6015-A", "block-c8me-6015-a", "R", Outcome.AGREE, Basis.MEMORY),
        ("C4AE-6015-A", "block-c4ae-no-428", "R", Outcome.DIFFER, Basis.PUBLISHED),
        ("C4AE-6015-A", "block-c4ae-no-428", "S", Outcome.AGREE, Basis.PUBLISHED),
    ],
)
def test_a_block_of_a_mustang_is_set_beside_the_engine_of_its_number(
    block, topic, letter, outcome, basis
):
    told = found(FORD, MUSTANG, topic, block_number=block, apron_stamp=f"8R01{letter}137614")
    assert (told.outcome, told.basis) == (outcome, basis)


def test_a_casting_number_alone_tells_the_engine_that_it_goes_with():
    """As far as the book knows it, with the words and the basis of the row."""
    said = meant(FORD, "block_number", "C8OE-6015-A")
    [rule] = opened(FORD).rules_met(said)
    assert rule.sentence.startswith("A block C8OE-6015-A (1968 to 1969) goes with: 302")
    assert rule.citation.basis is Basis.MEMORY
    said = meant(CHEVROLET, "block_number", "3963512")
    sentences = [rule.sentence for rule in opened(CHEVROLET).rules_met(said)]
    assert "A block 3963512 is that of a 427 in 1969" in sentences


def test_a_casting_of_another_change_is_another_casting():
    """C8OE-6015-B has a row of its own, and the row of A does not speak of it."""
    told = found(FORD, MUSTANG, "block-c8oe-6015-b", block_number="C8OE-6015-B",
                 apron_stamp="8R01R137614")  # fmt: skip
    assert told.outcome is Outcome.DIFFER


# "What rear axle gear do I have?", 7173mustangs.com/threads/what-rear-axle-gear-do-i-have.44167
@pytest.mark.parametrize(
    ("gearbox", "axle", "outcome"),
    [("X", "A", Outcome.AGREE), ("U", "S", Outcome.AGREE), ("X", "9", Outcome.DIFFER)],
)
def test_the_axle_of_a_351_4v_of_1973_with_an_automatic(gearbox, axle, outcome):
    label = f"05/73|3F05Q100200|63R|9A|GA|{axle}|{gearbox}|33"
    told = found(FORD, MUSTANG_1973, "351-4v-automatic-axle-1973", door_label=label)
    assert told.outcome is outcome
    # The rule is published, the letters of the gearboxes are from memory: the weakest counts.
    assert told.basis is Basis.MEMORY


def test_a_rule_of_three_says_nothing_of_the_same_axle_with_a_four_speed():
    label = "05/73|3F05Q100200|63R|9A|GA|9|5|33"
    with pytest.raises(ValueError, match="not enough values"):
        found(FORD, MUSTANG_1973, "351-4v-automatic-axle-1973", door_label=label)


def test_an_axle_tag_of_1973_is_that_of_its_engine_and_ratio():
    label = "05/73|3F05Q100200|63R|9A|GA|A|X|33"
    told = found(FORD, MUSTANG_1973, "axle-of-wes-ak2", door_label=label, axle_tag="WES-AK2||")
    assert told.outcome is Outcome.AGREE
    told = found(FORD, MUSTANG_1973, "axle-of-wes-ak2", door_label=label, axle_tag="WFB-C||")
    assert told.outcome is Outcome.DIFFER


# Stegmiller text: 3978766 is the M22 with L78
@pytest.mark.parametrize(
    ("tag", "stamp", "outcome"), [("3978766", "C", Outcome.AGREE), ("3978766", "A", Outcome.DIFFER)]
)
def test_the_tag_of_a_muncie_names_its_gear_set(tag, stamp, outcome):
    claim = {"model": "camaro", "model_year": "1970"}
    told = found(CHEVROLET, claim, f"tag-{tag}-gears", gearbox_tag=tag, muncie_1969=f"P0C17{stamp}")
    assert told.outcome is outcome


@pytest.mark.parametrize(
    ("cast", "outcome"),
    [("A158", Outcome.DIFFER), ("L208", Outcome.AGREE), ("B209", Outcome.DIFFER)],
)
def test_the_week_of_a_plate_alone_dates_the_block(cast, outcome):
    """January 1969 on the tag: a block of December 1968 fits, one of a year before or of late
    February 1969 does not."""
    tag = "69 12437 NOR 123456 BDY|711|72 72|01B|_"
    told = found(CHEVROLET, CAMARO, "block-to-plate-week", block_cast_date=cast,
                 body_plate_norwood_1969=tag)  # fmt: skip
    assert (told.outcome, told.basis) == (outcome, Basis.COMMON_PRACTICE)


def test_the_scheduled_day_of_a_mustang_dates_its_block_from_memory():
    plate = "8R01J137614|65A|I|2A|05B|71|5|W"
    told = found(FORD, MUSTANG, "block-cast-to-scheduled", block_date="7M15",
                 door_plate_1967=plate)  # fmt: skip
    assert (told.outcome, told.basis) == (Outcome.AGREE, Basis.MEMORY)


def test_the_days_of_order_and_card_are_read_and_stand_in_order():
    claim = {"model": "mustang", "model_year": "1966"}
    told = found(FORD, claim, "order-to-card", dealer_order="123456|1966-01-10",
                 order_card="|1966-01-14")  # fmt: skip
    assert (told.outcome, told.basis) == (Outcome.AGREE, Basis.MEMORY)
    told = found(FORD, claim, "order-to-card", dealer_order="123456|1966-01-10",
                 order_card="|1965-12-14")  # fmt: skip
    assert told.outcome is Outcome.DIFFER


@pytest.mark.parametrize(
    ("book", "site", "features"),
    [
        (CHEVROLET, "engine_pad", ["broach_lines", "broach_direction", "skimmed", "cleaned"]),
        (FORD, "engine_pad", ["broach_lines", "broach_direction", "skimmed", "cleaned"]),
        (CHEVROLET, "cowl_panel", ["cut_line", "seam", "reverse", "paint_in"]),
        (FORD, "left_apron", ["cut_line", "seam", "reverse", "paint_in"]),
        (CHEVROLET, "body_plate", ["fixing", "paint_edge"]),
        (FORD, "door", ["holes", "paint_edge"]),
        (CHEVROLET, "glass", ["glass_dates"]),
        (FORD, "glass", ["glass_dates"]),
        ("dated-parts", "glass", ["one_set", "glass_dates"]),
    ],
)
def test_the_places_that_inspectors_look_at_can_be_recorded(book, site, features):
    asked = [each.id for each in opened(book).features if each.site == site]
    assert [each for each in features if each not in asked] == []
