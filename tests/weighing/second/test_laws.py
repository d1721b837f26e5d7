"""The laws of the weighing on a standard car of each kind of book, printed as a table law x
book by `pytest -s`; a bound that no plausible rates reach is the one of
docs/decisions/0034, with the law's own beside it."""

import math

import pytest

from tests.weighing.second.cars import WITH_PAPERS, Car, answered, lr
from tests.weighing.second.roles import ALL, CHEVROLET, FRAME, WITH_CORES, Roles
from witnessmark.agreement import compare
from witnessmark.weighing.second import Asked, MisfitKind, answer

books = pytest.mark.parametrize("roles", ALL, ids=lambda roles: roles.name)
cores = pytest.mark.parametrize("roles", WITH_CORES, ids=lambda roles: roles.name)


def identity(roles: Roles, car: Car) -> float:
    return lr(car, Asked.IDENTITY, roles.bearer)


def core(roles: Roles, car: Car) -> float:
    return lr(car, Asked.CORE, roles.core)


def within(one: float, other: float, factor: float) -> bool:
    return abs(math.log(one / other)) <= math.log(factor)


@cores
def test_law_1_a_casting_later_than_the_car_is_very_strong_against_the_core(roles):
    """At most 1/3 read once, 1/30 read again (1/10 where only the order speaks, the book's lags
    being from memory); and it is told before anything else."""
    late = roles.car.but({roles.cast: roles.late_cast})
    alone = late if roles is CHEVROLET else late.unseen(*roles.after_stamp)
    assert core(roles, alone) <= 1 / 3
    assert core(roles, alone.read_again()) <= (1 / 30 if roles is CHEVROLET else 1 / 10)
    assert answered(late).misfits[0].kind is MisfitKind.IMPOSSIBLE


def test_what_does_not_fit_is_read_again_first_with_the_answer_it_will_have():
    """The next look foretells the LR of the same reading, had it been read again."""
    late = CHEVROLET.car.but({CHEVROLET.cast: CHEVROLET.late_cast})
    looks = answer(late.marks(), with_contributions=False).next_looks
    engine = next(each for each in looks if (each.question, each.of) == (Asked.CORE, "engine"))
    again = answered(late.read_again(CHEVROLET.cast)).conclusion(Asked.CORE, "engine")
    assert again is not None
    assert engine.about == CHEVROLET.cast
    assert engine.outcomes[0].log10_lr == pytest.approx(again.log10_lr, abs=1e-9)


def test_contributions_name_the_number_among_what_drives_a_core():
    """The number first, on an engine of which everything agrees."""
    whole = answer(CHEVROLET.car.marks(), with_next_looks=False)
    engine = whole.conclusion(Asked.CORE, "engine")
    assert engine is not None
    first = engine.contributions[0]
    assert (first.kind, first.about) == ("number", CHEVROLET.core_mark)
    assert first.log10_lr_change > 0.0


@cores
def test_law_1_a_casting_later_than_its_own_stamp_makes_the_stamp_false(roles):
    """Read again the stamp is at most 1/30; the core keeps more, for it may have been restruck."""
    early = roles.car.but(dict(roles.after_stamp)).read_again()
    kinds = {misfit.kind for misfit in answered(early).misfits}
    assert MisfitKind.IMPOSSIBLE in kinds
    assert lr(early, Asked.STAMP, roles.core) <= 1 / 30
    assert core(roles, early) > lr(early, Asked.STAMP, roles.core)


@cores
def test_law_2_a_core_that_nothing_ties_stays_below_10(roles):
    """Whatever else agrees."""
    assert 1.0 < core(roles, roles.car.unseen(roles.core_mark)) <= 10.0


@cores
def test_law_3_another_cars_number_on_a_core_leaves_the_structure_alone(roles):
    """The core at most 1/100; identity within 2 of what it is with that core not seen."""
    other = roles.car.but(roles.number(roles.other, roles.core_mark))
    unseen = roles.car.unseen(*roles.core_marks, looks=(roles.core_site,))
    assert core(roles, other) <= 1 / 100
    assert within(identity(roles, other), identity(roles, unseen), 2.0)


@cores
def test_law_4_one_other_number_on_several_parts_is_that_car_standing_here(roles):
    """Identity falls by 10 or more a part; different other numbers leave it within 2."""
    hidden = tuple(roles.hidden)
    cars = [
        roles.car.but(roles.number(roles.other, *marks)).unseen(*roles.core_marks[:0])
        for marks in (hidden, (*hidden, roles.core_mark),
                      (*hidden, roles.core_mark, roles.second_mark))
    ]  # fmt: skip
    one, two, three = (identity(roles, car) for car in cars)
    assert two <= one / 10
    assert three <= two / 10
    apart = cars[0].but(roles.number(roles.third, roles.core_mark))
    assert within(identity(roles, apart), one, 2.0)


@cores
def test_law_5_what_is_disturbed_as_well_as_wrong_never_rises(roles):
    """A wrong number at a disturbed place; and a right one."""
    for text in (roles.other, None):
        car = roles.car if text is None else roles.car.but(roles.number(text, roles.core_mark))
        disturbed = car.but(looks={roles.core_site: "disturbed"})
        assert core(roles, disturbed) <= 1.01 * core(roles, car)
        assert identity(roles, disturbed) <= 1.05 * identity(roles, car)


@books
def test_law_6_a_worn_number_says_less_than_a_clear_one(roles):
    """Between the clear reading and not looked at."""
    marks = tuple(roles.hidden)
    clear = identity(roles, roles.car)
    worn = identity(roles, roles.car.but(legibility=dict.fromkeys(marks, "worn")))
    assert worn <= 1.001 * clear


def test_law_7_a_number_that_is_always_struck_and_absent():
    """At most 1/10 alone, 1/3 with fitting dates; ground off at most 1/2."""
    roles = CHEVROLET
    absent = roles.car.but({roles.core_mark: "_________"})
    alone = absent.unseen("engine_pad", roles.cast, roles.head)
    ground = roles.car.but({roles.core_mark: "~~~~~~~~~"}, looks={roles.core_site: "disturbed"})
    assert core(roles, alone) <= 1 / 10
    assert core(roles, absent) <= 1 / 3
    assert core(roles, ground) <= 1 / 2


@cores
def test_law_8_one_wrong_figure_weakens_once_and_far_more_when_read_again(roles):
    """Once at most 0.65 of the exact match (the law: half), again at most 0.11 (a tenth)."""
    near = roles.car.but(roles.number(roles.near, roles.core_mark))
    assert core(roles, near) <= 0.65 * core(roles, roles.car)
    again = core(roles, near.read_again()) / core(roles, roles.car.read_again())
    assert again <= 0.11


@books
def test_law_9_an_item_that_could_not_have_differed_is_exactly_1(roles):
    """Of the claimed items those that no mark shows; they are named as not examined."""
    bare = Car(roles.car.book, roles.car.claim, {}, {}, roles.car.built)
    for conclusion in answered(bare).conclusions:
        assert conclusion.log10_lr == 0.0


def test_law_10_another_cars_paper_and_gearbox_leave_identity_within_2():
    """A sheet in the seat, a swapped gearbox."""
    roles = CHEVROLET
    sheet = WITH_PAPERS.but({"build_sheet": "12437|DZ|?|611905"})
    without = WITH_PAPERS.unseen("build_sheet")
    gearbox = roles.car.but(roles.number(roles.other, roles.second_mark))
    unseen = roles.car.unseen("muncie_1969", roles.second_mark, looks=(roles.second_site,))
    assert within(identity(roles, sheet), identity(roles, without), 2.0)
    assert within(identity(roles, gearbox), identity(roles, unseen), 2.0)
    assert lr(gearbox, Asked.CORE, "gearbox") <= 1 / 100


@books
def test_law_11_a_structure_whose_only_number_differs(roles):
    """At most 1/10 once, 1/100 read again; removed at most 1/5; each a stop."""
    first, *rest = roles.hidden
    base = roles.car.unseen(*rest)
    other = base.but(roles.number(roles.other, first))
    removed = base.but(
        {first: "~" * len(roles.car.reads[first].replace(" ", ""))},
        looks={roles.hidden_site: "disturbed"},
    )
    assert identity(roles, other) <= 1 / 10
    assert identity(roles, other.read_again(first)) <= 1 / 100
    assert identity(roles, removed) <= 1 / 5
    assert answered(other).stops
    assert answered(removed).stops


@books
def test_law_12_the_order_of_entry_is_nothing(roles):
    """The same readings from last to first."""
    back = roles.car.but()
    back = Car(
        back.book, back.claim, dict(reversed(back.reads.items())),
        dict(reversed(back.looks.items())), back.built,
    )  # fmt: skip
    for one, other in zip(answered(roles.car).conclusions, answered(back).conclusions, strict=True):
        assert one.log10_lr == pytest.approx(other.log10_lr, abs=1e-9)


@books
def test_law_14_the_floors_of_a_standard_car(roles):
    """Identity at least 30, a core with the number at least 10 and three times the same
    without it; doubtful looks put nothing below 1/2."""
    assert identity(roles, roles.car) >= 30.0
    doubtful = roles.car.but(looks=dict.fromkeys(roles.car.looks, "doubtful"))
    for conclusion in answered(doubtful).conclusions:
        assert conclusion.log10_lr >= math.log10(0.5)
    if roles.core:
        whole = core(roles, roles.car)
        assert whole >= 10.0
        if roles.always:
            assert whole >= 3.0 * core(roles, roles.car.unseen(roles.core_mark))


@cores
def test_law_14_a_late_fitted_piece_leaves_the_core_within_1_5(roles):
    """A head cast months after the car on a right block; about 2 where the book knows no lag."""
    late = roles.car.but({roles.head: roles.late_head})
    bound = 1.5 if roles is CHEVROLET else 2.1
    assert within(core(roles, late), core(roles, roles.car), bound)


def test_law_17_a_type_that_differs_beside_the_right_number_never_raises_the_core():
    """Nor does a foreign number raise "struck at the works"."""
    roles = CHEVROLET
    plainer = roles.car.but({"engine_pad": "V0206HC"})
    other = roles.car.but(roles.number(roles.other, roles.core_mark))
    assert core(roles, plainer) <= 1.001 * core(roles, roles.car)
    assert lr(plainer, Asked.ITEM, "engine") <= 1 / 10
    stamp = lr(other, Asked.STAMP, roles.core)
    assert stamp <= lr(roles.car, Asked.STAMP, roles.core)


@books
def test_on_a_standard_car_nothing_is_against_and_nobody_has_to_stop(roles):
    """At most a lag of the book is left, and that is unusual."""
    marks = roles.car.marks()
    found = answer(marks, compare(marks), with_contributions=False)
    assert {misfit.kind for misfit in found.misfits} <= {MisfitKind.UNUSUAL}
    assert found.stops == ()


def test_a_serial_that_differs_from_plate_and_papers_is_named():
    """An engine with a number of its own: the rules across marks find it."""
    marks = FRAME.car.but({"engine_number": "L 40031"}).marks()
    found = answer(marks, compare(marks), with_contributions=False)
    assert MisfitKind.AGAINST in {misfit.kind for misfit in found.misfits}
    assert lr(FRAME.car.but({"engine_number": "L 40031"}), Asked.CORE, "engine") < 1.0
