"""A finding: the outcome of one rule across marks, in words and with its basis."""

from dataclasses import dataclass, field
from enum import StrEnum

from witnessmark.casefile.records import Casefile
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.records import Basis, CarContext
from witnessmark.decoding import Decoding, FieldSeen, pooled
from witnessmark.reading import ReadingRates


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


@dataclass(frozen=True, slots=True)
class Finding:
    """The outcome of one rule.

    `rule` is the rule's file name; `topic` the item, book rule or lag it tested.
    `observation` says what stands on the car; `inference` what that is
    consistent with. `agreement_share` is the probability, given the readings
    alone, that the two say the same (None where that has no meaning).
    `strength` is "firm" or "usual" for a combination rule. A finding whose
    `basis` is memory explains and never argues.
    """

    rule: str
    topic: str
    outcome: Outcome
    subjects: tuple[Subject, ...]
    observation: str
    inference: str
    basis: Basis
    source: str
    agreement_share: float | None = None
    strength: str = ""


@dataclass(frozen=True, slots=True)
class CarMarks:
    """Everything the rules may look at: the case, the book, and each mark decoded.

    `decodings` holds one decoding for each mark read (several examiners'
    readings of one mark follow each other). `rates` are the rates of reading under which
    they were decoded, None for those shipped.
    """

    casefile: Casefile
    book: CodeBook
    context: CarContext
    decodings: tuple[Decoding, ...]
    rates: ReadingRates | None = None
    _pooled: dict[tuple[str, str], FieldSeen] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def __post_init__(self) -> None:
        """What was seen of each field, all examiners' readings of it pooled once."""
        self._pooled.update(pooled(self.book, self.decodings, self.rates))

    def seen(self, mark: Mark, seen_field: Field) -> FieldSeen | None:
        """What was seen of one field of a mark; None where nothing of it was typed."""
        return self._pooled.get((mark.id, seen_field.id))

    def of(self, mark_id: str) -> tuple[Decoding, ...]:
        """The decodings of one mark, empty if it was not read."""
        return tuple(d for d in self.decodings if d.mark == mark_id)
