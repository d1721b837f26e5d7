"""Which way the weighing leans: one test for each row of the table in docs/weighing.md's
model, on a unit-bodied saloon with two panels and a plate, careful renumbering 0.3.

The orders of magnitude are those of a trial by hand: 21, 1.3, 3.6, 1/150, 1/30,
1.9, 18, 11 for the first eight rows. They are assumed, not published: directions
and orders, not targets.
"""

from math import log10

import pytest

from tests.weighing.cars import NUMBER, conclusion, identity, saloon, weighed
from witnessmark.casefile.records import Casefile
from witnessmark.weighing import Question

OTHER = "600457"
DISTURBED = {"inner_wing": "disturbed", "seat_pan": "disturbed", "scuttle": "disturbed"}
ALL_AGREE = identity(saloon())


def test_all_agree_and_look_factory_supports_in_the_tens() -> None:
    assert log10(10) < ALL_AGREE < log10(60)


def test_the_leading_assumption_carries_it() -> None:
    """The share of careful renumbering at 0.5, 0.05 and 0.001 moves it from units upward."""
    found = []
    for share in (0.5, 0.05, 0.001):
        override = {"row": "deceit.not_own.skilled", "value": share, "reason": "tried"}
        found.append(identity(saloon(circumstances={"overrides": [override]})))
    assert found[0] < found[1] < found[2]
    assert found[0] < ALL_AGREE
    assert found[2] - found[0] > 0.8


def framed(body: str | None = "M 0998", ledger: str | None = None) -> Casefile:
    """A Sprint of 1955 on a frame, whose plate does not say the body number."""
    texts = {
        "plate_brass": "SP|700157|40061|18|L1|370|H",
        "frame_number": "4 700157",
        "wing_body_number": body,
        "seat_body_number": body,
        "bulkhead_body_number": body,
        "despatch_ledger": ledger,
    }
    document = {
        "format": "witnessmark-case",
        "format_version": 2,
        "id": "framed",
        "book": "tarvane-1952-1961",
        "claim": {
            "items": {
                "chassis_number": "700157",
                "model": "solent-sprint",
                "model_year": "1955",
                "works": "tarvane",
                "body_works": "marrick",
            }
        },
        "papers": [{"mark": "despatch_ledger", "state": "in hand"}] if ledger else [],
        "readings": [{"mark": mark, "text": text} for mark, text in texts.items() if text],
        "looks": [
            {"site": site, "outcome": "factory"}
            for site in ("scuttle", "frame_rail", "inner_wing", "seat_pan", "bulkhead")
        ],
    }
    return Casefile.model_validate(document)


def test_a_body_number_that_nothing_ties_to_the_frame_leaves_the_body_near_one() -> None:
    body = conclusion(weighed(framed()), Question.ASSEMBLY, "body")
    assert abs(body.lr.log10_lr) < log10(3)
    tied = conclusion(
        weighed(framed(ledger="700157|4|40061|M|0998|18|200955")), Question.ASSEMBLY, "body"
    )
    other = conclusion(
        weighed(framed(ledger="700157|4|40061|M|0871|18|200955")), Question.ASSEMBLY, "body"
    )
    assert tied.lr.log10_lr > 1.5
    assert other.lr.log10_lr < -0.5


def test_on_a_frame_identity_rests_on_the_frame_and_not_on_the_body_number() -> None:
    with_body = conclusion(weighed(framed()), Question.IDENTITY).lr.log10_lr
    without = conclusion(weighed(framed(body=None)), Question.IDENTITY).lr.log10_lr
    assert with_body == pytest.approx(without, abs=log10(2))


def test_one_panel_that_differs_leaves_it_well_below_but_above_one() -> None:
    one = identity(saloon(seat=f"E {OTHER}"))
    assert 0 < one < ALL_AGREE - 0.4


def test_both_panels_of_one_other_number_speak_against_at_about_a_hundredth() -> None:
    both = identity(saloon(wing=f"E {OTHER}", seat=f"E {OTHER}"))
    assert -3 < both < -1.5


def test_two_panels_of_two_other_numbers_speak_less_against_than_two_of_one() -> None:
    """One donor shell explains two equal numbers at once; two different ones, not."""
    same = identity(saloon(wing=f"E {OTHER}", seat=f"E {OTHER}"))
    each = identity(saloon(wing=f"E {OTHER}", seat="E 600555"))
    assert same < each < 0


def test_all_agree_but_all_disturbed_speaks_well_against() -> None:
    assert identity(saloon(looks=DISTURBED)) < -1


def test_only_the_plate_disturbed_goes_nearer_one_and_never_below() -> None:
    disturbed = weighed(saloon(looks={"scuttle": "disturbed"}))
    assert 0 < conclusion(disturbed, Question.IDENTITY).lr.log10_lr < ALL_AGREE
    assert conclusion(disturbed, Question.PLATE).lr.log10_lr < 0


def test_half_the_characters_worn_keeps_the_direction_and_goes_nearer_one() -> None:
    worn = saloon(wing="E ?0?3?1", seat="E 6?0?2?", plate="6?0?2?|12|60|E|14950|C|11|L1|H")
    assert 0 < identity(worn) < ALL_AGREE


def test_every_character_worn_says_nothing_beyond_the_looks() -> None:
    worn = saloon(wing="? ??????", seat="? ??????", plate="??????|??|??|?|?????|?|??|??|?")
    unread = saloon(wing=None, seat=None, plate=None, looks=dict.fromkeys(DISTURBED, "factory"))
    assert identity(worn) == pytest.approx(identity(unread), abs=1e-9)


def test_plate_codes_other_than_claimed_speak_against_the_configuration() -> None:
    """A tribute on its own shell: identity only a little nearer one."""
    tribute = weighed(saloon(claim={"paint": "pine-green"}))
    configuration = conclusion(tribute, Question.CONFIGURATION).lr.log10_lr
    assert configuration < 0
    assert conclusion(weighed(saloon()), Question.CONFIGURATION).lr.log10_lr > 0.5
    assert 0 < conclusion(tribute, Question.IDENTITY).lr.log10_lr < ALL_AGREE


@pytest.mark.parametrize("site", ["bulkhead", "engine_deck", "axle_case"])
def test_a_site_not_looked_for_is_as_if_never_listed(site: str) -> None:
    listed = weighed(saloon(sites=[{"site": site, "state": "not looked for"}]))
    unlisted = weighed(saloon())
    for one, other in zip(listed.conclusions, unlisted.conclusions, strict=True):
        assert one.lr.log10_lr == pytest.approx(other.lr.log10_lr, abs=1e-9)


def tail(seat: str) -> Casefile:
    """A Sprint of 1957, whose body bears the tail of the chassis number at two places."""
    texts = {
        "plate_brass": "SP|700236|40144|11|L2|370|H",
        "frame_number": "4 700236",
        "wing_chassis_tail": "M 0236",
        "seat_chassis_tail": seat,
    }
    document = {
        "format": "witnessmark-case",
        "format_version": 2,
        "id": "tail",
        "book": "tarvane-1952-1961",
        "claim": {
            "items": {
                "chassis_number": "700236",
                "model": "solent-sprint",
                "model_year": "1957",
                "works": "tarvane",
                "body_works": "marrick",
            }
        },
        "sites": [{"site": "bulkhead", "state": "not accessible"}],
        "readings": [{"mark": mark, "text": text} for mark, text in texts.items()],
        "looks": [
            {"site": site, "outcome": "factory"}
            for site in ("scuttle", "frame_rail", "inner_wing", "seat_pan")
        ],
    }
    return Casefile.model_validate(document)


def test_one_clear_character_different_speaks_against_softened_by_misreading() -> None:
    agrees, one_off, other = (
        conclusion(weighed(tail(seat)), Question.ASSEMBLY, "body")
        for seat in ("M 0236", "M 0234", "M 0171")
    )
    assert agrees.lr.log10_lr > one_off.lr.log10_lr > other.lr.log10_lr
    read_again = next(look for look in one_off.next_looks if look.kind == "second reading")
    assert read_again.target == "seat_chassis_tail"
    assert read_again is max(one_off.next_looks, key=lambda look: look.bits)


def test_the_number_is_not_named_where_it_is_not_claimed() -> None:
    """Without a claimed number the marks still speak of each other."""
    open_claim = saloon(claim={"chassis_number": ""})
    assert identity(open_claim) > 0
    assert NUMBER in open_claim.readings[0].text
