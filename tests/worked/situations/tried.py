"""A situation tried on a car: what the weighing answers, set against what is expected.

    python -m tests.worked.situations.tried

prints the whole table in Markdown: situation, expected, got.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from importlib import import_module

from tests.worked.situations.car import Car
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.situation import ANY, Range, Situation
from tests.worked.situations.standard import STANDARD
from tests.worked.situations.table import TRIED
from witnessmark.agreement import compare
from witnessmark.examination import car_marks

WEIGHING = "witnessmark.weighing.second"
EVERY = "*"
CORES = ("core", "assembly")
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that did not come out as expected."""

    what: str
    expected: str
    got: str

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
    its ways, what does not fit, and whether it is a matter for the authority first."""

    lrs: dict[str, float]
    ways: dict[str, dict[str, float]]
    misfits: tuple[Unfit, ...]
    stops: bool


def answered(car: Car) -> Answered:
    """The car weighed; each car once, whoever asks."""
    text = casefile(car).model_dump_json()
    if text not in _ANSWERS:
        _ANSWERS[text] = _answered(car)
    return _ANSWERS[text]


_ANSWERS: dict[str, Answered] = {}


def _answered(car: Car) -> Answered:
    marks = car_marks(casefile(car), book_of(car.book))
    answer = import_module(WEIGHING).answer(marks, compare(marks))
    lrs: dict[str, float] = {}
    ways: dict[str, dict[str, float]] = {}
    for each in answer.conclusions:
        for name in _names(str(each.question), each.about):
            lrs.setdefault(name, 10.0**each.log10_lr)
            ways.setdefault(name, {str(way.name): way.share for way in each.ways})
    misfits = tuple(Unfit(str(m.kind), tuple(m.about), str(m.sentence)) for m in answer.misfits)
    return Answered(lrs, ways, misfits, bool(answer.stops))


def _names(question: str, about: str) -> tuple[str, ...]:
    if question in CORES:
        return (about,)
    named = f"{question} {about}"
    return ("identity", named) if question == "identity" else (named,)


def tried(situation: Situation, name: str) -> Tried:
    """One situation on one standard car."""
    car = STANDARD[name].but(*situation.change)
    got = answered(car)
    figures: list[str] = []
    faults: list[Fault] = []
    for question, expected in situation.expected.items():
        for each in _asked(question, got):
            _hold(each, got.lrs.get(each), expected, "", figures, faults)
    if situation.moved:
        before = answered(STANDARD[name].but(*situation.against))
        for question, expected in situation.moved.items():
            for each in _asked(question, got):
                now, then = got.lrs.get(each), before.lrs.get(each)
                ratio = now / then if now is not None and then else None
                _hold(each, ratio, expected, "x", figures, faults)
    faults += _misfits(situation, got, car)
    return Tried(tuple(figures), tuple(faults))


def _asked(question: str, got: Answered) -> tuple[str, ...]:
    """The questions meant: all that are about a car's parts for `*`."""
    if question != EVERY:
        return (question,)
    return tuple(each for each in got.lrs if not each.startswith(("identity ", "item ")))


def _hold(
    question: str,
    value: float | None,
    expected: Range,
    sign: str,
    figures: list[str],
    faults: list[Fault],
) -> None:
    low, high = expected
    got = "not asked" if value is None else sign + figure(value)
    figures.append(f"{question} {got}")
    if value is None or not low * (1 - ROUNDING) <= value <= high * (1 + ROUNDING):
        faults.append(Fault(question, sign + in_words(expected), got))


def _misfits(situation: Situation, got: Answered, car: Car) -> Iterator[Fault]:
    """What does not fit, what must not be said, the stop, and the order of the ways."""
    found = "; ".join(f"{m.kind} {' '.join(m.about)}" for m in got.misfits) or "nothing"
    if situation.first:
        kind, about = situation.first
        first = got.misfits[0] if got.misfits else Unfit("", (), "")
        if first.kind != kind or not first.concerns(_about(about, car)):
            yield Fault("first", f"{kind} {about}", found)
    for about in situation.told:
        if not any(each.concerns(_about(about, car)) for each in got.misfits):
            yield Fault("told", about, found)
    for word in situation.never:
        for each in got.misfits:
            if word == each.kind or word in each.sentence:
                yield Fault("never", f"not {word!r}", f"{each.kind}: {each.sentence}")
    if situation.stop is not None and situation.stop is not got.stops:
        yield Fault("stop", str(situation.stop), str(got.stops))
    for question, more, less, factor in situation.more_than:
        ways = got.ways.get(question, {})
        shares = [_share(ways, each) for each in (more, less)]
        if not ways or shares[0] < factor * shares[1]:
            yield Fault(f"ways of {question}", f"{more} {factor:g} times {less}", str(shares))


def _share(ways: dict[str, float], part: str) -> float:
    """The share of all ways whose name has this part: "service", "struck to pass"."""
    return sum(share for name, share in ways.items() if part in name.split(", "))


def _about(name: str, car: Car) -> tuple[str, ...]:
    """An assembly is told of under its own name or that of any mark on it."""
    return (name, *(mark.id for mark in book_of(car.book).marks if mark.assembly == name))


def figure(value: float) -> str:
    """A ratio as people write it.

    >>> figure(0.01), figure(31.62)
    ('1/100', '31.6')
    """
    if value <= 0:
        return "0"
    return f"{value:.3g}" if value >= 1 else f"1/{1 / value:.3g}"


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
    return "; ".join(parts)


def markdown() -> Iterator[str]:
    """The table, a line each."""
    yield "| | situation | car | expected | got | |"
    yield "|---|---|---|---|---|---|"
    right = asked = 0
    for situation, car in TRIED:
        head = f"| {situation.number} | {situation.title} | {car} | {expectation(situation)} |"
        if situation.needs:
            yield f"{head} | not yet: {situation.needs} |"
            continue
        got = tried(situation, car)
        asked += 1
        right += not got.faults
        faults = "; ".join(map(str, got.faults)) or "as expected"
        yield f"{head} {'; '.join(got.figures)} | {faults} |"
    yield ""
    yield f"{right} of {asked} as expected."


if __name__ == "__main__":
    print("\n".join(markdown()))
