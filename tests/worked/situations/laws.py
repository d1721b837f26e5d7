"""The laws of the weighing, each tried on every standard car.

A law takes a car and gives what it measured, each with its bounds, or the reason why it does not
apply. Laws 15 and 16 are not of one car: the one is an exact sum over outcomes, the other the
proving ground.
"""

from collections.abc import Iterator
from dataclasses import replace

from tests.worked.situations import changes as c
from tests.worked.situations.car import (
    Car,
    ends,
    looks,
    of_another,
    one_figure_wrong,
    says,
    second_reading,
    unseen,
)
from tests.worked.situations.document import book_of, document
from tests.worked.situations.law import Law, Measured
from tests.worked.situations.situation import ANY
from tests.worked.situations.tried import lrs
from witnessmark.codebook import ItemKind, Mark, MarkKind

ONE, REST, ALL = slice(1), slice(1, None), slice(None)
EXACT = 1e-6
POOLED = 2e-2
"""What two readings of one examiner may add to one."""
SEAMS = ("run of weld round the number",)


def _lr(car: Car, question: str) -> float:
    """The LR; 1 where it is not asked, since nothing then speaks of it."""
    return lrs(car).get(question, 1.0)


def _marks(car: Car) -> dict[str, Mark]:
    return {mark.id: mark for mark in book_of(car.book).marks}


def _numbers(car: Car, mark: str) -> frozenset[str]:
    """The items of number that a mark bears."""
    book = book_of(car.book)
    found = (book.item(field.says) for field in _marks(car)[mark].fields)
    return frozenset(i.id for i in found if i is not None and i.kind is ItemKind.NUMBER)


def _tied(car: Car) -> Iterator[str]:
    """Assemblies whose core bears a number."""
    yield from (core.assembly for core in car.cores if core.tie)


def _of_the_car(car: Car) -> tuple[str, ...]:
    """Assemblies whose core bears the very number that the bearer bears."""
    own = _numbers(car, car.hidden[0])
    return tuple(a for a in _tied(car) if _numbers(car, car.core(a).tie) & own)


def _papers(car: Car) -> tuple[str, ...]:
    return tuple(m for m in car.readings if _marks(car)[m].kind is MarkKind.PAPER)


# ------------------------------------------------------------------------------ days


def cast_late(car: Car) -> Iterator[Measured]:
    for core in car.cores:
        name = core.assembly
        if core.late:
            late = car.but(c.core_late(name))
            yield Measured(f"{name} once", _lr(late, name), 0, 1 / 3)
            yield Measured(f"{name} again", _lr(late.but(c.core_again(name)), name), 0, 1 / 30)


def cast_after_stamp(car: Car) -> Iterator[Measured]:
    for core in car.cores:
        if core.before_cast:
            name = core.assembly
            false = car.but(c.without_papers, c.core_stamped_before_cast(name), c.core_again(name))
            if f"stamp {name}" in lrs(false):
                yield Measured(f"stamp of {name}", _lr(false, f"stamp {name}"), 0, 1 / 30)
            yield Measured(name, _lr(false, name), 1 / 30, 2 / 3)


# ------------------------------------------------------------------------------ cores


def without_tie(car: Car) -> Iterator[Measured]:
    for core in car.cores:
        worn = [c.core_number(core.assembly, "?")] if core.tie else []
        unread = car.but(c.without_papers, *worn)
        yield Measured(core.assembly, _lr(unread, core.assembly), 0, 10)


def another_number(car: Car) -> Iterator[Measured]:
    for name in _tied(car):
        other = car.but(c.core_of_another(name))
        moved = _lr(other, "identity") / _lr(car.but(c.core_unseen(name)), "identity")
        yield Measured(name, _lr(other, name), 0, 1 / 100)
        yield Measured(f"identity, {name}", moved, 1 / 2, 2)


def same_other_number(car: Car) -> Iterator[Measured]:
    bearer = car.but(c.hidden_unseen(REST), c.hidden_of_another())
    before = _lr(bearer, "identity")
    for n, name in enumerate(_of_the_car(car), 2):
        bearer = bearer.but(c.core_of_another(name))
        after = _lr(bearer, "identity")
        yield Measured(f"{n} parts", after / before, 0, 1 / 10)
        before = after


def different_other_numbers(car: Car) -> Iterator[Measured]:
    names = _of_the_car(car)[: len(car.others) - 1]
    wrong = car.but(c.hidden_unseen(REST), c.hidden_of_another())
    for n, name in enumerate(names, 1):
        wrong = wrong.but(c.core_of_another(name, n))
        alone = wrong.but(*(c.core_unseen(each) for each in names[:n]))
        yield Measured(f"{n + 1} parts", _lr(wrong, "identity") / _lr(alone, "identity"), 1 / 2, 2)
    third = car
    for n, name in enumerate(names):
        third = third.but(c.core_of_another(name, n))
        alone = third.but(*(c.core_unseen(each) for each in names[: n + 1]))
        moved = _lr(third, "identity") / _lr(alone, "identity")
        yield Measured(f"right structure, {n + 1} third parts", moved, 1 / 2, 2)


def type_that_differs(car: Car) -> Iterator[Measured]:
    for core in car.cores:
        if core.plainer:
            name = core.assembly
            plainer = car.but(c.without_papers, says(core.stamp, **core.plainer))
            right = _lr(car.but(c.without_papers), name)
            yield Measured(name, _lr(plainer, name) / right, 0, 1)


def foreign_number_and_stamp(car: Car) -> Iterator[Measured]:
    for name in _tied(car):
        if f"stamp {name}" in lrs(car):
            foreign = _lr(car.but(c.core_of_another(name)), f"stamp {name}")
            yield Measured(name, foreign / _lr(car, f"stamp {name}"), 0, 1)


# ------------------------------------------------------------------- looks and legibility


def disturbed(car: Car) -> Iterator[Measured]:
    for name in _tied(car):
        worse = car.but(c.core_look(name, "disturbed"))
        yield Measured(name, _lr(worse, name) / _lr(car, name), 0, 1.5)
        yield Measured(f"identity, {name}", _lr(worse, "identity") / _lr(car, "identity"), 0, 1.5)
        other = car.but(c.core_of_another(name))
        worse = other.but(c.core_look(name, "disturbed"))
        yield Measured(f"{name} of another", _lr(worse, name) / _lr(other, name), 0, 1.01)
        for question in (name, "identity"):
            moved = _lr(other, question) / _lr(car, question)
            yield Measured(f"{question}, {name} of another for the right one", moved, 0, 1)
    worse = car.but(c.hidden_look("disturbed", at=ALL))
    yield Measured("identity", _lr(worse, "identity") / _lr(car, "identity"), 0, 1.5)


def less_legible(car: Car) -> Iterator[Measured]:
    for name in _tied(car):
        unread = _lr(car.but(c.core_number(name, "?")), name)
        for what, shown in (("right", car), ("foreign", car.but(c.core_of_another(name)))):
            worn = shown.but(c.core_legible(name, "worn"))
            yield _between(f"{name}, {what}", _lr(worn, name), _lr(shown, name), unread)
    unread = _lr(car.but(c.hidden_unseen(ONE)), "identity")
    for what, shown in (("right", car), ("foreign", car.but(c.hidden_of_another()))):
        worn = shown.but(c.hidden_legible("worn"))
        yield _between(f"identity, {what}", _lr(worn, "identity"), _lr(shown, "identity"), unread)


def _between(what: str, value: float, one: float, other: float) -> Measured:
    return Measured(what, value, min(one, other) / 1.1, max(one, other) * 1.1)


# ------------------------------------------------------------------------------ absence


def absent(car: Car) -> Iterator[Measured]:
    for name in _tied(car):
        if not _marks(car)[car.core(name).tie].always_struck:
            continue
        plain = car.but(c.without_papers)
        dates = [m for m in (car.core(name).cast, car.core(name).stamp) if m]
        alone = plain.but(c.core_never_struck(name), unseen(*set(dates) - set(car.core(name).ties)))
        yield Measured(f"{name} alone", _lr(alone, name), 0, 1 / 10)
        yield Measured(
            f"{name} and dates", _lr(plain.but(c.core_number(name, "_")), name), 0, 1 / 3
        )
        gone = plain.but(c.core_number(name, "~"))
        ground = gone.but(c.core_look(name, "disturbed"))
        yield Measured(f"{name} ground", _lr(ground, name), 0, 1 / 2)
        yield Measured(f"{name} skimmed", _lr(gone.but(c.core_look(name, "doubtful")), name), 0, 1)


def one_figure(car: Car) -> Iterator[Measured]:
    for name in _tied(car):
        near = car.but(c.core_one_figure_wrong(name))
        yield Measured(f"{name} once", _lr(near, name) / _lr(car, name), 0, 1 / 2)
        sure = _lr(near.but(c.core_again(name)), name) / _lr(car.but(c.core_again(name)), name)
        yield Measured(f"{name} again", sure, 0, 1 / 10)
    for paper in _papers(car):
        slip = car.but(one_figure_wrong(paper))
        if document(slip) != document(car):
            moved = _lr(slip, f"paper {paper}") / _lr(car, f"paper {paper}")
            yield Measured(paper, moved, 0, 1 / 2)


# --------------------------------------------------------------------------- structure


def hidden_differs(car: Car) -> Iterator[Measured]:
    only = car.but(c.hidden_unseen(REST))
    other = only.but(c.hidden_of_another())
    yield Measured("once", _lr(other, "identity"), 0, 1 / 10)
    yield Measured("again", _lr(other.but(c.hidden_again()), "identity"), 0, 1 / 100)
    if len(car.hidden) > 1:
        beside = car.but(c.hidden_unseen(slice(2, None)), c.hidden_of_another(), c.hidden_again())
        yield Measured("beside one that agrees", _lr(beside, "identity"), 0, 1 / 10)
    gone = only.but(c.hidden_number("~"), c.hidden_look("disturbed"))
    yield Measured("removed", _lr(gone, "identity"), 0, 1 / 5)
    for feature in book_of(car.book).features:
        if feature.site == _marks(car)[car.hidden[0]].site:
            for outcome in feature.outcomes:
                if outcome.id in SEAMS:
                    seam = only.but(looks(feature.site, outcome.id, feature.id))
                    yield Measured("let in", _lr(seam, "identity"), 0, 1 / 5)


def anothers_paper(car: Car) -> Iterator[Measured]:
    for paper in _papers(car):
        other = car.but(of_another(paper))
        if document(other) != document(car):
            moved = _lr(other, "identity") / _lr(car.but(unseen(paper)), "identity")
            yield Measured(paper, moved, 1 / 2, 2)


# -------------------------------------------------------------------------- the frame


def could_not_differ(car: Car) -> Iterator[Measured]:
    bare = car.but(c.only(*car.hidden))
    said = {field.says for mark in car.hidden for field in _marks(car)[mark].fields}
    # A number of a range that is one model's alone says that model.
    said |= {"model" for row in book_of(car.book).series if row.is_alone and row.item in said}
    for name, value in lrs(bare).items():
        if name.startswith("item ") and name.removeprefix("item ") not in said:
            yield Measured(name, value, 1 - EXACT, 1 + EXACT)


def nothing_noted(car: Car) -> Iterator[Measured]:
    for name, value in lrs(c.nothing_noted(car)).items():
        yield Measured(name, value, 1 - EXACT, 1 + EXACT)


def order_and_doubling(car: Car) -> Iterator[Measured]:
    backwards = replace(car, readings=dict(reversed(tuple(car.readings.items()))))
    twice = car.but(second_reading(car.hidden[0]), _by_the_same)
    last = _marks(car)[car.hidden[-1]].site
    unlooked = car.but(unseen(*(each for each, mark in _marks(car).items() if mark.site == last)))
    for what, one, other, by in (
        ("order of entry", backwards, car, EXACT),
        ("one examiner twice", twice, car, POOLED),
        ("not looked for", unlooked.but(ends(last, "not looked for")), unlooked, EXACT),
    ):
        for name, value in lrs(other).items():
            yield Measured(f"{what}, {name}", _lr(one, name) / value, 1 - by, 1 + by)


def _by_the_same(car: Car) -> Car:
    """All readings are one examiner's."""
    same = {
        mark: tuple(replace(each, beside={}) for each in typed)
        for mark, typed in car.readings.items()
    }
    return replace(car, readings=same)


def floors(car: Car) -> Iterator[Measured]:
    yield Measured("identity", _lr(car, "identity"), 30, ANY)
    for name in _of_the_car(car):
        yield Measured(name, _lr(car, name), 10, ANY)
        plain = car.but(c.without_papers)
        without = _lr(plain.but(c.core_number(name, "?")), name)
        yield Measured(f"{name} by its number", _lr(plain, name) / without, 3, ANY)


def late_fitted(car: Car) -> Iterator[Measured]:
    for core in car.cores:
        if core.late_head:
            late = car.but(says(core.head, core.late_head))
            moved = _lr(late, core.assembly) / _lr(car, core.assembly)
            yield Measured(core.assembly, moved, 1 / 1.5, 1.5)


def restored(car: Car) -> Iterator[Measured]:
    for name, value in lrs(car.but(c.all_look("doubtful"))).items():
        yield Measured(name, value, 1 / 2, ANY)


NO_CAST = "no core has a casting date"
NO_NUMBER = "no core bears a number"
LAWS = (
    Law("1", "cast after the car was complete", cast_late, NO_CAST),
    Law("1", "cast after its own stamp", cast_after_stamp, "no core has both dates"),
    Law("2", "no tie: at most 10", without_tie, "no core"),
    Law("3", "another car's number on a core", another_number, NO_NUMBER),
    Law(
        "4",
        "the same other number on more parts",
        same_other_number,
        "no core bears the bearer's number",
    ),
    Law(
        "4", "different other numbers", different_other_numbers, "no core bears the bearer's number"
    ),
    Law("5", "disturbed never raises", disturbed, NO_NUMBER),
    Law("6", "less legible says less", less_legible, NO_NUMBER),
    Law("7", "absent, ground off, skimmed", absent, "no core's number was always struck"),
    Law("8", "one figure wrong", one_figure, NO_NUMBER),
    Law(
        "9",
        "an item that could not have differed",
        could_not_differ,
        "no item is claimed that the hidden numbers do not say",
    ),
    Law("10", "another car's paper", anothers_paper, "no paper bears a number"),
    Law("11", "the structure's only hidden number", hidden_differs, "no hidden number"),
    Law("12", "order, doubling, not looked for", order_and_doubling, ""),
    Law("13", "nothing noted", nothing_noted, ""),
    Law("14", "floors of the standard car", floors, ""),
    Law("14", "a late fitted piece", late_fitted, "no fitted piece has a date"),
    Law("14", "all looks doubtful", restored, ""),
    Law(
        "17",
        "a type that differs beside the right number",
        type_that_differs,
        "the book lists no other type that may argue",
    ),
    Law(
        "17", "a foreign number and the stamp", foreign_number_and_stamp, "no stamp is asked about"
    ),
)
