"""What the codes say together is something that the works built.

The book's combinations are allowed or forbidden, firm or usual. Values come from the marks;
only what no mark shows comes from the claim, and the finding says so: a casting number is
checked against the engine named by the pad, by a paper or, failing these, by the claim. A mark
that shows both values is tested by itself, every other pair of values once. A book's rule reads
"if the model is solent-sprint, the coachbuilder must be ellery", or "a drophead with a column
shift was not built". A further condition of a rule, such as "and the gearbox is a C6", is taken
from the mark of the pair that shows it, or else from the first mark that does; a rule with a
condition that is not known is not applied.
"""

from dataclasses import dataclass
from math import prod

from witnessmark.agreement.items import each_claimed, showings
from witnessmark.agreement.phrases import finding, item_clause, says, sentence, subject
from witnessmark.agreement.records import AgreementRule, CarMarks, Finding, FindingKind, Outcome
from witnessmark.agreement.shares import AGREE_FROM, DIFFER_TO
from witnessmark.agreement.showing import LIKELY, Showing, weakest
from witnessmark.catalogue import as_said, in_a_row, marked, said
from witnessmark.codebook import Citation, Condition, Rule, RuleKind, Strength

RULE = AgreementRule(__name__, marked("combination of codes"), FindingKind.COMBINATION, rank=70)

INFERENCES = {
    Outcome.AGREE: marked("The combination is consistent with what the works built."),
    Outcome.DIFFER: marked(
        "The combination is not consistent with what the works usually built, and the book "
        "knows of exceptions."
    ),
    Outcome.UNDECIDED: marked("I could not determine from these readings whether the rule is met."),
    Outcome.SILENT: marked(
        "The book does not list what was read, so this combination could not be tested."
    ),
}
BREAKS_FIRM_RULE = marked("The combination is not consistent with what the works built.")


@dataclass(frozen=True, slots=True)
class _Tested:
    """A rule's condition holds with `holds`; together they break it with `broken`."""

    holds: float
    broken: float
    unlisted: float


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for each rule of the book and each pair of showings it speaks to."""
    findings: list[Finding] = []
    for rule in car.book.rules:
        if rule.applies.covers(car.known):
            findings.extend(_rule(car, rule))
    return tuple(findings)


def _rule(car: CarMarks, rule: Rule) -> list[Finding]:
    """The findings of one rule; none where a condition does not hold or is not known."""
    conditions, consequences = _told(car, rule.if_item), _told(car, rule.then_item)
    holding = [c for c in conditions if _share(c, rule.if_values) > LIKELY]
    others = [_holding(car, each) for each in rule.also]
    if not holding or not all(others):
        return []
    if not consequences:
        return [_not_read(car, rule, (holding[0], *(each[0] for each in others)))]
    pairs = [(a, b) for a in conditions for b in consequences if a.mark == b.mark]
    tested = {(_likeliest(a), _likeliest(b)) for a, b in pairs}
    pairs.extend(
        (a, b)
        for a in _distinct(conditions)
        for b in _distinct(consequences)
        if (_likeliest(a), _likeliest(b)) not in tested
    )
    return [
        _tested(rule, (a, *(_beside(each, a, b) for each in others)), b)
        for a, b in pairs
        if _share(a, rule.if_values) > LIKELY
    ]


def _holding(car: CarMarks, condition: Condition) -> list[Showing]:
    """The showings by which a further condition of a rule holds."""
    told = _told(car, condition.item)
    return [each for each in told if _share(each, condition.values) > LIKELY]


def _beside(held: list[Showing], *pair: Showing) -> Showing:
    """The showing on a mark of the pair, else the first of all."""
    marks = [each.mark for each in pair]
    return next((each for each in held if each.mark in marks), held[0])


def _told(car: CarMarks, item_id: str) -> tuple[Showing, ...]:
    """The showings of an item that have values: on marks, else in the claim; both of an item of
    which a car has several codes."""
    on_car = tuple(showing for showing in showings(car, item_id) if showing.values)
    item = car.book.item(item_id)
    if on_car and not (item is not None and item.many):
        return on_car
    return (*on_car, *(each for each in each_claimed(car, item_id) if each.values))


def _distinct(shown: tuple[Showing, ...]) -> tuple[Showing, ...]:
    """The first showing of each likeliest value: five plates that agree are asked once."""
    first: dict[str, Showing] = {}
    for showing in shown:
        first.setdefault(_likeliest(showing), showing)
    return tuple(first.values())


def _likeliest(showing: Showing) -> str:
    return showing.values[0].value


def _share(showing: Showing, values: frozenset[str]) -> float:
    return sum(v.share for v in showing.values if v.is_listed and v.value in values)


def _test(rule: Rule, conditions: tuple[Showing, ...], consequence: Showing) -> _Tested:
    """How probable it is, from the readings alone, that the rule speaks and is broken."""
    asked = zip(conditions, rule.conditions, strict=True)
    holds = prod(_share(showing, condition.values) for showing, condition in asked)
    inside = _share(consequence, rule.then_values)
    listed = consequence.listed_share()
    breaking = inside if rule.kind is RuleKind.FORBIDDEN else max(0.0, listed - inside)
    return _Tested(holds, holds * breaking, max(0.0, 1 - listed))


def _tested(rule: Rule, conditions: tuple[Showing, ...], consequence: Showing) -> Finding:
    tested = _test(rule, conditions, consequence)
    if tested.unlisted >= AGREE_FROM:
        outcome = Outcome.SILENT
    elif tested.broken >= AGREE_FROM:
        outcome = Outcome.DIFFER
    elif tested.broken <= DIFFER_TO and tested.unlisted <= DIFFER_TO:
        outcome = Outcome.AGREE
    else:
        outcome = Outcome.UNDECIDED
    is_firm = outcome is Outcome.DIFFER and rule.strength is Strength.FIRM
    share = None if outcome is Outcome.SILENT else min(1.0, max(0.0, 1 - tested.broken))
    return finding(
        RULE,
        rule.id,
        outcome,
        subjects=dict.fromkeys(subject(each) for each in (*conditions, consequence)),
        observation=_observation(rule, *conditions, consequence),
        inference=as_said(BREAKS_FIRM_RULE if is_firm else INFERENCES[outcome]),
        citation=weakest(rule.citation, *_grounds(conditions), *consequence.grounds()),
        agreement_share=share,
        strength=rule.strength,
    )


def _grounds(shown: tuple[Showing, ...]) -> tuple[Citation, ...]:
    return tuple(ground for each in shown for ground in each.grounds())


def _not_read(car: CarMarks, rule: Rule, conditions: tuple[Showing, ...]) -> Finding:
    item = car.book.item(rule.then_item)
    name = item.name if item is not None else rule.then_item
    return finding(
        RULE,
        rule.id,
        Outcome.SILENT,
        subjects=dict.fromkeys(subject(each) for each in conditions),
        observation=_observation(rule, *conditions)
        + " "
        + said("The {item} was neither read nor claimed.", item=name),
        inference=said("So this combination could not be tested."),
        citation=weakest(rule.citation, *_grounds(conditions)),
        strength=rule.strength,
    )


def _observation(rule: Rule, *shown: Showing) -> str:
    clauses = in_a_row((item_clause(showing, says(showing)) for showing in shown), "; ")
    parts = [sentence(clauses), said("The book's rule: {rule}", rule=sentence(rule.sentence))]
    if len(shown) > 1 and all(showing.is_claim for showing in shown):
        both = said("Both values come from the claim alone.")
        parts.append(said("All values come from the claim alone.") if len(shown) > 2 else both)
    return in_a_row(parts)
