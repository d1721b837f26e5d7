"""Problems inside cells of several parts: outcomes, sketches, conditions."""

from dataclasses import dataclass
from typing import override

from witnessmark.documents.problems import nearest, one_of, shown
from witnessmark.problem import Problem


@dataclass(frozen=True, slots=True)
class OutcomeForm(Problem):
    """A part of a feature's outcomes that is no outcome."""

    part: str

    @override
    def sentence(self) -> str:
        return f"{shown(self.part)} is no outcome with a look"

    @override
    def expected(self) -> str:
        return "such as 'as factory=factory; none=doubtful'"


@dataclass(frozen=True, slots=True)
class TooManyOutcomes(Problem):
    """A feature with more outcomes than a sheet has room for."""

    number: int
    most: int

    @override
    def sentence(self) -> str:
        return f"a feature has {self.number} outcomes"

    @override
    def expected(self) -> str:
        return f"at most {self.most}; ask a second question in a row of its own"


@dataclass(frozen=True, slots=True)
class LongOutcome(Problem):
    """An outcome too long to stand beside its box."""

    outcome: str
    most: int

    @override
    def sentence(self) -> str:
        return f"the outcome {shown(self.outcome)} has {len(self.outcome)} letters"

    @override
    def expected(self) -> str:
        return f"at most {self.most}"


@dataclass(frozen=True, slots=True)
class OutcomeLook(Problem):
    """An outcome counts as a look that there is not."""

    look: str
    looks: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"{shown(self.look)} is not a look"

    @override
    def expected(self) -> str:
        return one_of(self.looks)


@dataclass(frozen=True, slots=True)
class RepeatedOutcome(Problem):
    """An outcome that the feature has already."""

    outcome: str

    @override
    def sentence(self) -> str:
        return f"the outcome {shown(self.outcome)} stands here a second time"

    @override
    def expected(self) -> str:
        return "each outcome once"


@dataclass(frozen=True, slots=True)
class SketchForm(Problem):
    """A part of a feature's sketches that gives no outcome a sketch."""

    part: str

    @override
    def sentence(self) -> str:
        return f"{shown(self.part)} is no outcome with a sketch"

    @override
    def expected(self) -> str:
        return "such as 'screws=screws; glue=glue'"


@dataclass(frozen=True, slots=True)
class SketchOfNoOutcome(Problem):
    """A sketch for an outcome that the row does not have."""

    outcome: str
    outcomes: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"{shown(self.outcome)} is no outcome of this row"

    @override
    def expected(self) -> str:
        return nearest(self.outcome, self.outcomes)


@dataclass(frozen=True, slots=True)
class UnknownSketch(Problem):
    """A name that no sketch has."""

    sketch: str
    sketches: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"there is no sketch {shown(self.sketch)}"

    @override
    def expected(self) -> str:
        return nearest(self.sketch, self.sketches) or "a name of the list in docs/codebook.md"


@dataclass(frozen=True, slots=True)
class UndrawnOutcomes(Problem):
    """Some outcomes of a row have a sketch and others none: what is drawn would lead the eye."""

    outcomes: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"no sketch for {', '.join(map(shown, self.outcomes))}"

    @override
    def expected(self) -> str:
        return "a sketch for each outcome of the row, or an empty cell"


@dataclass(frozen=True, slots=True)
class ConditionForm(Problem):
    """A further condition of a rule that is not an item and its values."""

    text: str

    @override
    def sentence(self) -> str:
        return f"{shown(self.text)} is no item with its values"

    @override
    def expected(self) -> str:
        return "item=value value, with ; between conditions"


@dataclass(frozen=True, slots=True)
class RepeatedCondition(Problem):
    """A further condition on an item of which the rule speaks already."""

    item: str

    @override
    def sentence(self) -> str:
        return f"the rule speaks of {self.item!r} already"

    @override
    def expected(self) -> str:
        return "an item that stands in the rule once"
