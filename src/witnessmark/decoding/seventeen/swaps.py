"""Which changes of a number its check digit cannot see, and which would account for a difference.

Places are named by their positions alone: nothing here writes a number out.
"""

from itertools import pairwise

from witnessmark.catalogue import said
from witnessmark.decoding.records import Note
from witnessmark.decoding.seventeen.number import Number, noted
from witnessmark.decoding.seventeen.rules import CHECK, NumberRules
from witnessmark.decoding.seventeen.sums import check_sum
from witnessmark.decoding.seventeen.words import any_position, one_of


def unseen_look_alikes(rules: NumberRules, read: str) -> tuple[int, ...]:
    """Positions whose character has a look-alike of the same value."""
    return tuple(
        position
        for position, character in enumerate(read, start=1)
        if position != CHECK
        and any(rules.values[each] == rules.values[character] for each in _alike(rules, character))
    )


def unseen_exchanges(rules: NumberRules, read: str) -> tuple[tuple[int, int], ...]:
    """Pairs of neighbours, different characters, whose exchange leaves the remainder as it is."""
    divisor = len(rules.digits)
    places = list(enumerate(zip(read, rules.weights, strict=True), start=1))
    return tuple(
        (one, other)
        for (one, (first, weight)), (other, (second, next_weight)) in pairwise(places)
        if CHECK not in (one, other)
        and first != second
        and (rules.values[first] - rules.values[second]) * (weight - next_weight) % divisor == 0
    )


def mending_positions(rules: NumberRules, read: str) -> tuple[int, ...]:
    """Positions in which one look-alike in place of what was read makes the check digit agree."""
    return tuple(
        position
        for position, character in enumerate(read, start=1)
        if any(
            check_sum(rules, read[: position - 1] + each + read[position:]).agrees
            for each in _alike(rules, character)
            if each in rules.permitted(position)
        )
    )


def swap_notes(number: Number, read: str) -> tuple[Note, ...]:
    """The swaps that this number's check digit cannot see, and those that none can."""
    rules = number.rules
    blind = unseen_look_alikes(rules, read)
    exchanges = unseen_exchanges(rules, read)
    general = said(
        "No check digit sees one character taken for another of the same value: {characters}. "
        "Position {position} itself has weight {weight}.",
        characters=_columns(rules),
        position=CHECK,
        weight=rules.weights[CHECK - 1],
    )
    citation = rules.said("same-value", number.asked.mark.citation)
    return (noted("swap", f"{general} {_unseen_here(blind, exchanges)}".strip(), citation),)


def _unseen_here(blind: tuple[int, ...], exchanges: tuple[tuple[int, int], ...]) -> str:
    """What this number's check digit would not see; empty where it would see all."""
    pairs = one_of([said("{words} and {last}", words=one, last=other) for one, other in exchanges])
    if blind and exchanges:
        return said(
            "In this number it would not see a look-alike of the same value in {position} nor an "
            "exchange of the neighbours {pairs}.",
            position=any_position(blind),
            pairs=pairs,
        )
    if blind:
        return said(
            "In this number it would not see a look-alike of the same value in {position}.",
            position=any_position(blind),
        )
    if exchanges:
        return said(
            "In this number it would not see an exchange of the neighbours {pairs}.", pairs=pairs
        )
    return ""


def _alike(rules: NumberRules, character: str) -> frozenset[str]:
    return frozenset(each for each in rules.alike.get(character, ()) if each in rules.values)


def _columns(rules: NumberRules) -> str:
    """The characters that share a value, value by value."""
    columns: dict[int, list[str]] = {}
    for character, value in rules.values.items():
        columns.setdefault(value, []).append(character)
    return ", ".join("/".join(each) for _, each in sorted(columns.items()) if len(each) > 1)
