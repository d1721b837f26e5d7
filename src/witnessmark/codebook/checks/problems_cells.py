"""Problems inside cells of several parts: outcomes, sketches, conditions."""

from witnessmark.documents.problems import Unknown
from witnessmark.problem import Problem, shown


class OutcomeForm(Problem):
    """A part of a feature's outcomes that is no outcome."""

    part: str
    says = "{part!q} is no outcome with a look"
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
    says = "the outcome {outcome!q} stands here a second time"
    wants = "each outcome once"


class SketchForm(Problem):
    """A part of a feature's sketches that gives no outcome a sketch."""

    part: str
    says = "{part!q} is no outcome with a sketch"
    wants = "such as 'screws=screws; glue=glue'"


class SketchOfNoOutcome(Unknown):
    """A sketch for an outcome that the row does not have."""

    says = "{name!q} is no outcome of this row"
    wants_else = ""


class UnknownSketch(Unknown):
    """A name that no sketch has."""

    says = "there is no sketch {name!q}"
    wants_else = "a name of the list in docs/codebook.md"


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
    says = "{text!q} is no item with its values"
    wants = "item=value value, with ; between conditions"


class RepeatedCondition(Problem):
    """A further condition on an item of which the rule speaks already."""

    item: str
    says = "the rule speaks of {item!r} already"
    wants = "an item that stands in the rule once"
