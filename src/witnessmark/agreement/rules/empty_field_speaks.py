"""A field that was never struck says what the book says of it, and no more.

It is set against the claim and against other marks. An empty field is never taken for a worn
one. An empty window for extras may mean that none were ordered: where the claim or another
mark names extras, it differs from them. Where the book does not say what an empty field means,
the rule is silent.
"""

from collections.abc import Iterator

from witnessmark.agreement.items import all_showings, said_of
from witnessmark.agreement.phrases import all_of, finding, says, sentence, subject, the_named
from witnessmark.agreement.records import AgreementRule, CarMarks, Finding, FindingKind, Outcome
from witnessmark.agreement.shares import code_share, outcome_of
from witnessmark.agreement.showing import Showing, weakest
from witnessmark.catalogue import as_said, in_a_row, marked, said

RULE = AgreementRule(__name__, marked("empty field speaks"), FindingKind.ITEM, rank=90)

INFERENCES = {
    Outcome.AGREE: marked("The empty field is consistent with {others}."),
    Outcome.DIFFER: marked("The empty field is not consistent with {others}."),
    Outcome.UNDECIDED: marked(
        "I could not determine whether the empty field and {others} say the same."
    ),
    Outcome.SILENT: marked("Nothing else gives the {item}."),
}
MEANS_NOTHING = marked(
    "The book does not say what an empty field means here, so nothing follows from it."
)


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for every field that was visibly left empty."""
    return tuple(_empty(car, showing) for showing in all_showings(car) if showing.is_empty)


def _empty(car: CarMarks, showing: Showing) -> Finding:
    # Whatever else says this item, if the book says what it says itself.
    others = said_of(car, showing.item.id) if showing.values else ()
    shares = {
        other: code_share(showing, other)
        for other in others
        if other.mark != showing.mark and other.values
    }
    compared = {other: share for other, share in shares.items() if share is not None}
    lowest = min(compared.values(), default=None)
    outcome = Outcome.SILENT if lowest is None else outcome_of(lowest)
    named = [other for other, share in compared.items() if outcome_of(share) is outcome]
    return finding(
        RULE,
        showing.item.id,
        outcome,
        subjects=(subject(showing), *(subject(other) for other in named)),
        observation=in_a_row(_observation(showing, named)),
        inference=as_said(
            INFERENCES[outcome] if showing.values else MEANS_NOTHING,
            others=all_of(the_named(other) for other in named),
            item=showing.item.name,
        ),
        citation=weakest(*showing.grounds(), *(c for other in named for c in other.grounds())),
        agreement_share=lowest,
    )


def _observation(showing: Showing, named: list[Showing]) -> Iterator[str]:
    yield sentence(says(showing))
    if showing.values:
        meaning = sentence(showing.values[0].meaning)
        yield said("By the book an empty field means: {meaning}", meaning=meaning)
    if named:
        yield sentence(in_a_row((says(other) for other in named), "; "))
