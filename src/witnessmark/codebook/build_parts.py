"""What an entry holds in one cell or list: outcomes of a feature, names of a mark, conditions
of a rule."""

from witnessmark.codebook.ground import Ground
from witnessmark.codebook.marks import Alias
from witnessmark.codebook.names import narrowed
from witnessmark.codebook.records import Condition, Feature, FeatureOutcome
from witnessmark.codebook.sketches import SKETCHES, Sketch
from witnessmark.documents.entries import Entry


def build_aliases(entry: Entry, ground: Ground) -> tuple[Alias, ...]:
    """The names of a [[mark]] that people use: for all its cars, and for some of them."""
    whole = ground.applies(entry)
    some = entry.entries("alias")
    return (
        *(Alias(name, whole) for name in entry.texts("aliases")),
        *(Alias(each.text("name"), narrowed(whole, ground.applies(each))) for each in some),
    )


def build_conditions(entry: Entry) -> tuple[Condition, ...]:
    """The further conditions of a rule, written `gearbox=c6 fmx; district=newark`."""
    return tuple(
        Condition(item, frozenset(values.split()))
        for item, values in outcome_pairs(entry.text("also"))
        if item and values
    )


def build_feature(entry: Entry, ground: Ground) -> Feature:
    """A row of features.csv; an outcome is written `as factory=factory` before a semicolon."""
    sketches = dict(outcome_pairs(entry.text("sketches")))
    outcomes = tuple(
        FeatureOutcome(outcome, look, _sketch(sketches.get(outcome, "")))
        for outcome, look in outcome_pairs(entry.text("outcomes"))
        if look
    )
    return Feature(
        entry.text("id"),
        entry.text("site"),
        entry.text("prompt"),
        outcomes,
        ground.applies(entry),
        ground.citation(entry),
    )


def outcome_pairs(text: str) -> tuple[tuple[str, str], ...]:
    """What stands before and after the sign of each part of a cell of outcomes.

    >>> outcome_pairs("round red=factory; none = doubtful")
    (('round red', 'factory'), ('none', 'doubtful'))
    """
    if not text:
        return ()
    parts = (part.partition("=") for part in text.split(";") if part.strip())
    return tuple((outcome.strip(), said.strip()) for outcome, _, said in parts)


def _sketch(name: str) -> Sketch | None:
    """The sketch of this name; one that there is not is reported elsewhere."""
    return Sketch(name) if name in SKETCHES else None
