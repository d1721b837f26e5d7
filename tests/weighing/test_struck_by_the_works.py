"""A piece that the works numbered again: that its face looks disturbed is what one expects."""

from functools import cache

from tests.worked.situations.car import Change, looks
from tests.worked.situations.changes import core_look, core_unseen
from tests.worked.situations.standard import STANDARD
from tests.worked.situations.tried import Answered, answered

BEETLE, PAN = STANDARD["beetle"], STANDARD["pan"]
DISTURBED = core_look("engine", "disturbed")
SIGNS = looks("engine_pad", "a VW mark on either side", "works_marks")


@cache
def found(*changes: Change) -> Answered:
    """The Beetle with these changes."""
    return answered(BEETLE.but(*changes))


def test_signs_of_the_works_beside_a_disturbed_number_clear_the_other_ways() -> None:
    """The exchange engine: not the first one, and struck to pass by nobody."""
    with_signs, without = found(DISTURBED, SIGNS), found(DISTURBED)
    assert with_signs.lrs["engine"] < 1 / 2
    openly = with_signs.ways["engine"]["service, struck openly"]
    assert openly > 0.8 > without.ways["engine"]["service, struck openly"]


def test_such_an_engine_leaves_the_identity_within_two_of_an_engine_not_seen() -> None:
    """It says nothing of the pan."""
    unseen, with_signs = found(core_unseen("engine")), found(DISTURBED, SIGNS)
    assert 1 / 2 <= with_signs.lrs["identity"] / unseen.lrs["identity"] <= 2


def test_signs_without_anything_disturbed_move_nothing() -> None:
    """They stand beside first numbers too."""
    assert found(SIGNS).lrs == found().lrs


def test_a_disturbed_number_is_likelier_the_works_own_where_they_number_again() -> None:
    """The small book of pans, whose works strike the number of the engine that they took."""
    before, now = answered(PAN), answered(PAN.but(DISTURBED))
    way = "service, struck openly"
    assert now.ways["engine"][way] > before.ways["engine"][way]
