"""Problems inside cells of several parts: outcomes, sketches, conditions."""

from typing import override

from witnessmark.documents.problems import Unknown
from witnessmark.problem import Problem, shown


class OutcomeForm(Problem):
    """A part of a feature's outcomes that is no outcome."""

    part: str
    says = "{part!q} is not an outcome with its look"
    wants = "such as 'as factory=factory; none=doubtful'"


class TooManyOutcomes(Problem):
    """A feature with more outcomes than a sheet has room for."""

    number: int
    most: int
    says = "a feature has {number} outcomes"
    wants = "at most {most}; ask a second question in a row of its own"


class LongOutcome(Problem):
    """An outcome too long to stand beside its box."""

    outcome: str
    most: int
    says = "the outcome {outcome!q} has {outcome!n} letters"
    wants = "at most {most}"


class OutcomeLook(Problem):
    """An outcome counts as a look that there is not."""

    look: str
    looks: tuple[str, ...]
    says = "{look!q} is not a look"
    wants = "one of: {looks!l}"


class RepeatedOutcome(Problem):
    """An outcome that the feature has already."""

    outcome: str
    says = "the outcome {outcome!q} is here a second time"
    wants = "each outcome once"


class SketchForm(Problem):
    """A part of a feature's sketches that gives no outcome a sketch."""

    part: str
    says = "{part!q} is not an outcome with its sketch"
    wants = "such as 'screws=screws; glue=glue'"


class SketchOfNoOutcome(Unknown):
    """A sketch for an outcome that the row does not have."""

    outcome: str
    outcomes: tuple[str, ...]
    says = "{outcome!q} is not an outcome of this row"
    wants_else = ""

    @override
    def sought(self) -> tuple[str, tuple[str, ...]]:
        return self.outcome, self.outcomes


class UnknownSketch(Unknown):
    """A name that no sketch has."""

    sketch: str
    sketches: tuple[str, ...]
    says = "there is no sketch {sketch!q}"
    wants_else = "a name of the list in docs/codebook.md"

    @override
    def sought(self) -> tuple[str, tuple[str, ...]]:
        return self.sketch, self.sketches


class UndrawnOutcomes(Problem):
    """Some outcomes of a row have a sketch and others none: what is drawn would lead the eye."""

    outcomes: tuple[str, ...]
    says = "no sketch for {undrawn}"
    wants = "a sketch for each outcome of the row, or an empty cell"

    @property
    def undrawn(self) -> str:
        """The outcomes in quotes."""
        return ", ".join(map(shown, self.outcomes))


class ConditionForm(Problem):
    """A further condition of a rule that is not an item and its values."""

    text: str
    says = "{text!q} is not an item with its values"
    wants = "item=value value, with ; between conditions"


class RepeatedCondition(Problem):
    """A further condition on an item of which the rule speaks already."""

    item: str
    says = "the rule already names {item!r}"
    wants = "each item once in a rule"
