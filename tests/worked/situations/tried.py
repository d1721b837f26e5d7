"""A situation tried on a car: what the weighing answers, set against what is expected."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tests.worked.situations.car import Car
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.situation import ANY, Range, Situation
from tests.worked.situations.standard import STANDARD
from witnessmark.agreement import CarMarks, compare
from witnessmark.casefile import Circumstances, render_casefile
from witnessmark.examination import car_marks
from witnessmark.examination.disclosure import disclosures
from witnessmark.examination.looks import looks_left
from witnessmark.weighing import Answer, Asked, answer, weighed

EVERY = "*"
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that did not come out as expected. `accuses`: the answer points against
    something, and further than an inspector's would, or says what must not be said of it."""

    what: str
    expected: str
    got: str
    accuses: bool = False

    def __str__(self) -> str:
        return f"{self.what}: {self.got}, expected {self.expected}"


@dataclass(frozen=True, slots=True)
class Tried:
    """What one situation gave on one car: figures in words, and what is wrong with them."""

    figures: tuple[str, ...]
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True)
class Unfit:
    """One thing that does not fit: its kind, the pieces and marks it is about, its sentence."""

    kind: str
    about: tuple[str, ...]
    sentence: str

    def concerns(self, names: tuple[str, ...]) -> bool:
        """Is it about one of these?"""
        return any(each in names for each in self.about)


@dataclass(frozen=True, slots=True)
class Answered:
    """An answer by the names under which the table asks: the LR of each question, the shares of
    its ways, what does not fit, whether it is a matter for the authority first, how each
    statement was found."""

    lrs: dict[str, float]
    ways: dict[str, dict[str, float]]
    misfits: tuple[Unfit, ...]
    stops: bool
    disclosed: dict[str, str]


def answered(car: Car) -> Answered:
    """The car weighed; each car once, whoever asks."""
    text = render_casefile(casefile(car))
    if text not in _ANSWERS:
        _ANSWERS[text] = _answered(car)
    return _ANSWERS[text]


_ANSWERS: dict[str, Answered] = {}


def _weighed(car: Car, with_next_looks: bool = False) -> tuple[CarMarks, Answer]:
    marks = car_marks(casefile(car), book_of(car.book))
    found = answer(marks, compare(marks), with_contributions=False, with_next_looks=with_next_looks)
    return marks, found


def _answered(car: Car) -> Answered:
    marks, found = _weighed(car)
    lrs: dict[str, float] = {}
    ways: dict[str, dict[str, float]] = {}
    for each in found.conclusions:
        for name in _names(each.question, each.about):
            lrs.setdefault(name, 10.0**each.log10_lr)
            ways.setdefault(name, {str(way.name): way.share for way in each.ways})
    misfits = tuple(Unfit(str(m.kind), tuple(m.about), str(m.sentence)) for m in found.misfits)
    told = disclosures(marks, found, weighed(found, None, Circumstances()))
    disclosed = {each.about: each.outcome for each in reversed(told)}
    return Answered(lrs, ways, misfits, bool(found.stops), disclosed)


def _names(question: Asked, about: str) -> tuple[str, ...]:
    if question is Asked.CORE:
        return (about,)
    named = f"{question} {about}"
    return ("identity", named) if question is Asked.IDENTITY else (named,)


def tried(situation: Situation, name: str) -> Tried:
    """One situation on one standard car."""
    car = STANDARD[name].but(*situation.change)
    got = answered(car)
    found: list[tuple[str, Fault | None]] = []
    for question, expected in situation.expected.items():
        for each in _asked(question, got):
            found.append(_held(each, got, got.lrs.get(each), expected, ""))
    if situation.moved:
        before = answered(STANDARD[name].but(*situation.against))
        for question, expected in situation.moved.items():
            for each in _asked(question, got):
                now, then = got.lrs.get(each), before.lrs.get(each)
                ratio = now / then if now is not None and then else None
                found.append(_held(each, got, ratio, expected, "x"))
    faults = [fault for _, fault in found if fault is not None]
    faults += [*_misfits(situation, got, car), *_ways(situation, got), *_looks(situation, car)]
    honest = situation.is_honest
    told = tuple(replace(each, accuses=each.accuses and honest) for each in faults)
    return Tried(tuple(figure for figure, _ in found), told)


def _asked(question: str, got: Answered) -> tuple[str, ...]:
    """The questions meant: all that are about a car's parts for `*`."""
    if question != EVERY:
        return (question,)
    return tuple(each for each in got.lrs if not each.startswith(("identity ", "item ")))


def _held(
    question: str, got: Answered, value: float | None, expected: Range, sign: str
) -> tuple[str, Fault | None]:
    """The figure in words, and what is wrong with it."""
    low, high = expected
    words = "not asked" if value is None else sign + figure(value)
    fault = None
    if value is None or not low * (1 - ROUNDING) <= value <= high * (1 + ROUNDING):
        is_against = value is not None and value < low and got.lrs[question] < 1.0
        what = f"{question}, moved" if sign else question
        fault = Fault(what, sign + in_words(expected), words, is_against)
    return f"{question} {words}", fault


def _misfits(situation: Situation, got: Answered, car: Car) -> Iterator[Fault]:
    """What does not fit, what must not be said, the stop."""
    found = "; ".join(f"{m.kind} {' '.join(m.about)}" for m in got.misfits) or "nothing"
    if situation.first:
        kind, about = situation.first
        first = got.misfits[0] if got.misfits else Unfit("", (), "")
        if first.kind != kind or not first.concerns(_about(about, car)):
            yield Fault("first", f"{kind} {about}", found)
    for about in situation.told:
        if not any(each.concerns(_about(about, car)) for each in got.misfits):
            yield Fault(f"told {about}", "told", found)
    for word in situation.never:
        said = [m for m in got.misfits if word == m.kind or word in m.sentence]
        if said:
            yield Fault(f"never {word}", "not said", f"{said[0].kind}: {said[0].sentence}", True)
    if situation.stop is not None and situation.stop is not got.stops:
        yield Fault("stop", str(situation.stop), str(got.stops), got.stops)


def _ways(situation: Situation, got: Answered) -> Iterator[Fault]:
    """The order of the ways of a question, and how each statement was found."""
    for question, more, less, factor in situation.more_than:
        ways = got.ways.get(question, {})
        shares = [_share(ways, each) for each in (more, less)]
        if not ways or shares[0] < factor * shares[1]:
            ratio = f"{shares[0]:.2g} to {shares[1]:.2g}"
            yield Fault(f"ways of {question}", f"{more} {factor:g} times {less}", ratio, True)
    for about, outcome in situation.disclosed.items():
        how = got.disclosed.get(about, "nothing")
        if how != outcome:
            yield Fault(f"disclosed {about}", outcome, how, how == "differs")


def _looks(situation: Situation, car: Car) -> Iterator[Fault]:
    """The look that is proposed: of those within reach, the first of its kind."""
    if situation.next_look is None:
        return
    kind, mark = situation.next_look
    wanted = mark(car)
    looks = looks_left(*_weighed(car, with_next_looks=True))
    proposed = [each.target for each in looks if each.is_reachable and each.kind.name == kind]
    if wanted not in proposed:
        yield Fault("next look", f"{kind.lower()} {wanted}", " ".join(proposed) or "none")


def _share(ways: dict[str, float], part: str) -> float:
    """The share of all ways whose name has this part: "service", "struck to pass"."""
    return sum(share for name, share in ways.items() if part in name.split(", "))


def _about(name: str, car: Car) -> tuple[str, ...]:
    """An assembly is told of under its own name or that of any mark on it."""
    return (name, *(mark.id for mark in book_of(car.book).marks if mark.assembly == name))


def figure(value: float) -> str:
    """A ratio as people write it.

    >>> figure(0.01), figure(31.62), figure(1820.4)
    ('1/100', '31.6', '1,820')
    """
    if value <= 0:
        return "0"
    if value < 1:
        return f"1/{figure(1 / value)}"
    return f"{value:.3g}" if value < 999.5 else f"{float(f'{value:.3g}'):,.0f}"


def in_words(expected: Range) -> str:
    """A range as people write it."""
    low, high = expected
    if high == ANY:
        return f">= {figure(low)}"
    return f"<= {figure(high)}" if low == 0 else f"{figure(low)} to {figure(high)}"


def expectation(situation: Situation) -> str:
    """All that is expected, in one line."""
    parts = [f"{q} {in_words(r)}" for q, r in situation.expected.items()]
    parts += [f"{q} x{in_words(r)}" for q, r in situation.moved.items()]
    if situation.first:
        parts.append("first: " + " ".join(situation.first))
    parts += [f"told: {each}" for each in situation.told]
    parts += [f"never: {each}" for each in situation.never]
    if situation.stop is not None:
        parts.append("stop" if situation.stop else "no stop")
    parts += [f"{q}: {more} {f:g} times {less}" for q, more, less, f in situation.more_than]
    parts += [f"{about} {outcome}" for about, outcome in situation.disclosed.items()]
    parts += [f"next look: {situation.next_look[0].lower()}"] if situation.next_look else []
    return "; ".join(parts)
