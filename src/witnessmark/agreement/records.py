"""A finding: the outcome of one rule across marks, in words and with its basis."""

from dataclasses import dataclass, field
from enum import StrEnum

from witnessmark.agreement.of_car import SaidOfCar, is_sure, own_first, own_words, said_of_car
from witnessmark.casefile.records import Casefile
from witnessmark.codebook import Applies, Basis, CarContext, CodeBook, Field, Mark, Strength
from witnessmark.decoding import Decoding, FieldSeen, cars_given, pooled
from witnessmark.reading import WORKING, ReadingRates


class Outcome(StrEnum):
    """How a comparison came out; silent is an outcome of its own."""

    AGREE = "agree"
    DIFFER = "differ"
    UNDECIDED = "undecided"
    SILENT = "silent"


@dataclass(frozen=True, slots=True)
class Subject:
    """What one finding speaks of: a mark (or "claim", "title") and its field."""

    mark: str
    field: str
    shown: str


class FindingKind(StrEnum):
    """What the findings of a rule set against each other; their topic is named beside it."""

    ITEM = "an item on two marks"
    TITLE = "the number on the title"
    PAPER = "a paper, whose items are compared one by one as well"
    CODE = "a code and its rows"
    SERIES = "a number and its series"
    COMBINATION = "codes by a rule of the book"
    LAG = "two dates by a lag of the book"


@dataclass(frozen=True, slots=True)
class AgreementRule:
    """What a rule says of itself, in its own file in `rules/`.

    `module` is that file's; `name` what it tests, on a page; of two rules that of the lower
    `rank` is heard first. A finding that differs is told by the weighing as something that does
    not fit; where `beyond_is_unusual`, only as unusual.
    """

    module: str
    name: str
    kind: FindingKind
    rank: int
    beyond_is_unusual: bool = False

    @property
    def id(self) -> str:
        """The name of its file."""
        return self.module.rpartition(".")[2]


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """The outcome of one rule.

    `by` is the rule, of which an Opinion shows the id as `rule`; `topic` the item, book rule or
    lag it tested. `observation` says what stands on the car; `inference` what that is
    consistent with. `agreement_share` is the probability, given the readings
    alone, that the two say the same (None where that has no meaning).
    `strength` is that of a combination rule. A finding whose
    `basis` is memory explains and never argues. `brief` is the whole in a line or two, where
    the observation alone is longer or does not say why.
    """

    rule: str
    by: AgreementRule = field(metadata=WORKING)
    topic: str
    outcome: Outcome
    subjects: tuple[Subject, ...]
    observation: str
    inference: str
    basis: Basis
    source: str
    agreement_share: float | None = None
    strength: str = ""
    brief: str = ""

    @property
    def kind(self) -> FindingKind:
        """What was set against each other."""
        return self.by.kind

    @property
    def is_unusual(self) -> bool:
        """Would a difference be unusual, and no more?"""
        return self.by.beyond_is_unusual or self.strength == Strength.USUAL


@dataclass(frozen=True, kw_only=True)
class CarMarks:
    """Everything the rules may look at: the case, the book, and each mark decoded.

    `context` is what is given of the car, by the claim or by an option; `of_car` that,
    completed by what its own marks surely say. `decodings` holds one decoding for each mark
    read (several examiners' readings of one mark follow each other), `title` that of the
    number on the title, where it is a whole number of the car. `rates` are the rates of
    reading under which they were decoded, None for those shipped.
    """

    casefile: Casefile
    book: CodeBook
    context: CarContext
    decodings: tuple[Decoding, ...]
    rates: ReadingRates | None = None
    title: Decoding | None = None
    of_car: SaidOfCar = field(init=False)
    _pooled: dict[tuple[str, str], FieldSeen] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def __post_init__(self) -> None:
        """What was seen of each field, all examiners' readings of it pooled once; of a text
        that is not like its mark nothing is compared."""
        marks = {mark.id for mark in self.book.marks}
        like = [each for each in self.decodings if each.mark in marks and not each.is_unlike]
        self._pooled.update(pooled(self.book, like, self.rates))
        # The record is frozen: what follows from the rest is set once, here.
        said = said_of_car(self.book, self.context, self.decodings, self.title)
        object.__setattr__(self, "of_car", said)

    @property
    def known(self) -> CarContext:
        """What is given of the car, completed by what its marks surely say."""
        return self.of_car.context

    def known_of(self, mark_id: str) -> CarContext:
        """For which cars a mark is read: what it says itself goes before what is known."""
        own = {own_words(each) for each in self.of(mark_id)}
        return own_first(self.book, self.known, own.pop()) if len(own) == 1 else self.known

    def cars_of(self, mark_id: str) -> Applies:
        """The cars for which the whole of a mark is read, where that is sure and all who read
        it agree; else those that are known of."""
        found = {each.cars for each in self.of(mark_id)}
        if len(found) == 1 and all(is_sure(each) for each in self.of(mark_id)):
            return found.pop()
        return cars_given(self.book, self.known_of(mark_id))

    def seen(self, mark: Mark, seen_field: Field) -> FieldSeen | None:
        """What was seen of one field of a mark; None where nothing of it was typed."""
        return self._pooled.get((mark.id, seen_field.id))

    def is_echo(self, mark_id: str) -> bool:
        """Whether it is a paper copied from another mark or paper: then that one speaks."""
        return any(each.mark == mark_id and each.copied_from for each in self.casefile.papers)

    def of(self, mark_id: str) -> tuple[Decoding, ...]:
        """The decodings of one mark, empty if it was not read."""
        return tuple(d for d in self.decodings if d.mark == mark_id)
