"""Rules between codes: what of the book's rules may argue about a car, and what breaks them.

Codes that nobody claimed stand for what the claim implies: `excluded` tells which of them cannot
be together with it, as the number of a six on a car that is claimed with an eight.
"""

from collections.abc import Iterable

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import CarContext, Rule, RuleKind


def rules_of(book: CodeBook, context: CarContext) -> tuple[Rule, ...]:
    """The rules that may argue about such a car."""
    return tuple(
        rule
        for rule in book.rules
        if rule.citation.basis.weighs and rule.applies.covers(context) and len(rule.items) > 1
    )


def breaks(rule: Rule, values: dict[str, str]) -> bool:
    """Do these values of all its items break a rule? What it allows is all that there is; of
    what it forbids, a value that nobody names is none."""
    if not all(values[each.item] in each.values for each in rule.conditions):
        return False
    return (values[rule.then_item] in rule.then_values) is (rule.kind is RuleKind.FORBIDDEN)


def excluded(
    book: CodeBook, context: CarContext, claim: dict[str, str], item: str, values: Iterable[str]
) -> dict[str, tuple[str, ...]]:
    """Which of these values of an item that nobody claimed cannot be together with the claim,
    each with the claimed items that exclude it."""
    found: dict[str, tuple[str, ...]] = {}
    rules = [rule for rule in rules_of(book, context) if item in rule.items]
    for value in values:
        for rule in rules:
            others = rule.items - {item}
            known = {each: claim.get(each, "") for each in others} | {item: value}
            if all(known.values()) and breaks(rule, known):
                found[value] = (*found.get(value, ()), *sorted(others))
    return found
