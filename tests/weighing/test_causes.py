"""What is noted together has one cause and counts once; what was declared does not accuse."""

from tests.worked.situations.car import (
    Car,
    Change,
    declared,
    looks,
    of_another,
    says,
    told,
    unseen,
)
from tests.worked.situations.changes import (
    all_look,
    core_again,
    core_late,
    core_look,
    core_of_another,
    core_unseen,
    only,
    plate_of_another,
    without_papers,
)
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard_shipped import NUMBERED, SPRINT
from tests.worked.situations.standard_small import FRAME, LABELS, ORDER
from witnessmark.agreement import compare
from witnessmark.examination import car_marks
from witnessmark.weighing import Answer, Asked, MisfitKind, answer


def answered(car: Car, *changes: Change, looks_too: bool = False) -> Answer:
    """The answer of a standard car with changes."""
    changed = car.but(*changes)
    marks = car_marks(casefile(changed), book_of(changed.book))
    return answer(marks, compare(marks), with_contributions=False, with_next_looks=looks_too)


def lr(found: Answer, asked: Asked, about: str) -> float:
    """One of its ratios."""
    conclusion = found.conclusion(asked, about)
    assert conclusion is not None
    return float(10**conclusion.log10_lr)


def identity(car: Car, *changes: Change) -> float:
    return lr(answered(car, *changes), Asked.IDENTITY, car.bearer)


LABELLED = ("bonnet", "boot_lid", "left_wing", "right_wing", "right_door")


def test_six_labels_of_bolted_panels_are_hardly_more_than_one() -> None:
    """They were moved to another structure together, or not at all."""
    others = tuple(unseen(f"{panel}_label") for panel in LABELLED)
    assert identity(LABELS) < 2 * identity(LABELS, *others)


def test_a_panel_has_an_answer_of_its_own() -> None:
    bare = answered(LABELS, says("bonnet_label", "______"))
    assert lr(bare, Asked.CORE, "shell:bonnet") < 1 / 5
    assert lr(bare, Asked.CORE, "shell:boot_lid") > 10


def test_a_second_number_told_by_the_same_person_adds_little() -> None:
    """Whoever tells what is claimed tells it of both places."""
    hidden = NUMBERED.hidden
    heard = (only(NUMBERED.plate, *hidden), told(*hidden))
    one = identity(NUMBERED, *heard, unseen(hidden[1]))
    assert one <= identity(NUMBERED, *heard) < 1.6 * one


def test_where_nothing_dates_the_claimed_car_a_fitting_day_says_little_of_the_shell() -> None:
    """The claimed day may have been read off the very tag that it agrees with."""
    plain = (without_papers,)
    assert identity(ORDER, *plain) < 1.5 * identity(ORDER, *plain, says("body_tag", week="???"))


def test_a_plate_that_looks_made_later_is_not_one_that_was_off_for_paint() -> None:
    rivets = looks("lock_panel", "fresh holes beside the rivets", "fixings")
    off = answered(NUMBERED, rivets)
    later = answered(NUMBERED, rivets, looks("lock_panel", "disturbed"))
    assert lr(off, Asked.PLATE, "body_plate") > 5 * lr(later, Asked.PLATE, "body_plate")
    assert lr(later, Asked.PLATE, "body_plate") < 1 / 2


REPLACED = declared("engine", "Replaced in the sixties.", origin="another car's")
DECKED = declared(
    "engine", "Decked, and struck again.", origin="first", work="struck openly", work_by="restorer"
)


def test_a_casting_later_than_the_car_is_impossible_unless_the_part_was_declared_another() -> None:
    late = (core_late("engine"), core_again("engine"))
    assert answered(FRAME, *late).misfits[0].kind is MisfitKind.IMPOSSIBLE
    kinds = {each.kind for each in answered(FRAME, *late, REPLACED).misfits}
    assert kinds == {MisfitKind.DECLARED}


def test_a_disturbed_place_is_as_declared_where_the_work_was() -> None:
    worked = core_look("engine", "disturbed")
    for changes, kind in (((), MisfitKind.AGAINST), ((DECKED,), MisfitKind.DECLARED)):
        told = [m for m in answered(FRAME, worked, *changes).misfits if "engine_deck" in m.about]
        assert [each.kind for each in told] == [kind]
    # Work that was declared says nothing of another car's number.
    foreign = answered(FRAME, core_of_another("engine"), DECKED).misfits
    assert MisfitKind.AGAINST in {each.kind for each in foreign}


def test_a_mark_that_does_not_fit_is_read_again_for_every_question_that_it_moves() -> None:
    found = answered(FRAME, plate_of_another, core_unseen("body"), looks_too=True)
    again = {(each.question, each.of) for each in found.next_looks if each.about == FRAME.plate}
    assert {(Asked.PLATE, FRAME.plate), (Asked.IDENTITY, "frame")} <= again


def test_a_code_that_only_a_bolted_panel_of_a_body_shows_has_an_answer() -> None:
    """The panel is weighed with its body."""
    assert lr(answered(SPRINT, only("wing_body_number")), Asked.ITEM, "body_works") > 3


def test_a_sheet_from_a_wrong_file_says_nothing_of_the_frame() -> None:
    """Its days are those of a like car, as those of the car that might stand here would be."""
    worn_out = FRAME.but(all_look("doubtful"))
    without = identity(worn_out, unseen("despatch_ledger"))
    assert identity(worn_out, of_another("despatch_ledger")) > without / 2


def test_the_right_number_on_a_gearbox_says_more_than_on_an_engine() -> None:
    """Its number is seldom struck to pass; here nothing else speaks for either."""
    bare = NUMBERED.but(only("shell_wing_tail", "shell_seat_tail", "engine_stamp", "gearbox_tail"))
    found = answered(
        bare.but(says("engine_stamp", "?? ????? {tail}"), says("gearbox_tail", "??? {tail}"))
    )
    gearbox = lr(found, Asked.CORE, "gearbox")
    assert gearbox > 2 * lr(found, Asked.CORE, "engine")


def test_a_plainer_pad_with_the_right_number_is_rather_the_first_than_a_struck_one() -> None:
    """Whoever strikes the number strikes the type too, and a service block has the car's own."""
    plainer = answered(NUMBERED, without_papers, says("engine_stamp", type="SA"))
    assert lr(plainer, Asked.CORE, "engine") > 1.5
