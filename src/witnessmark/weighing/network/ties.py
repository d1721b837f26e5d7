"""What binds claimed items: the rules between codes.

What a firm rule forbids keeps `rule.firm` of its probability, what is unusual `rule.usual`, once
for each rule. An item that is claimed and read nowhere is asked where a code that was read cannot
be together with it, or from which it follows by a firm rule.
"""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

import numpy as np

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.records import Rule
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence.rules import breaks, excluded, rules_of
from witnessmark.weighing.network.factors import Configured, squeezed
from witnessmark.weighing.pieces.axes import NAMES
from witnessmark.weighing.pieces.items import CodeItem, unread_item
from witnessmark.weighing.pieces.noted_car import Tie
from witnessmark.weighing.rates import RateValues

FIRM = "firm"


def bound(car: CarMarks, items: dict[str, CodeItem]) -> tuple[dict[str, CodeItem], tuple[Tie, ...]]:
    """The items of a car with what they are bound to, and the rules that bind them."""
    claim = car.casefile.claim.items
    found = dict(items)
    for item in items.values():
        if item.id not in claim:
            shut = excluded(car.book, car.context, claim, item.id, [item.read])
            for other in shut.get(item.read, ()):
                found.setdefault(other, unread_item(other, claim[other]))
    for other in _following(car, items):
        found.setdefault(other, unread_item(other, claim[other]))
    ties = tuple(_ties(car, found))
    found = {
        name: item
        for name, item in found.items()
        if name in items or any(name in tie.items for tie in ties)
    }
    for tie in ties:
        for name in tie.items:
            known = found[name]
            others = tuple(each for each in tie.items if each != name)
            found[name] = replace(known, bound=tuple(dict.fromkeys((*known.bound, *others))))
    return found, ties


def _following(car: CarMarks, items: dict[str, CodeItem]) -> Iterator[str]:
    """Claimed items that nobody read and that follow from those that somebody did, by a firm rule
    which the claim keeps."""
    claim = car.casefile.claim.items
    for rule in rules_of(car.book, car.context):
        unread = rule.items - items.keys()
        if rule.strength == FIRM and len(unread) == 1 and rule.items <= claim.keys():
            yield from unread


def _ties(car: CarMarks, items: dict[str, CodeItem]) -> Iterator[Tie]:
    for rule in rules_of(car.book, car.context):
        names = tuple(sorted(rule.items))
        if all(name in items for name in names):
            broken = _broken(rule, [_worth(rule, items[name]) for name in names])
            if broken.any():
                yield Tie(names, broken, f"rule.{rule.strength}")


def _worth(rule: Rule, item: CodeItem) -> tuple[tuple[str, ...], ...]:
    """The values of each state of an item, of those that the rule names."""
    named = sorted(rule.values_of(item.id))
    return tuple(item.values_of(state, named) for state in range(item.states))


def _broken(rule: Rule, worth: list[tuple[tuple[str, ...], ...]]) -> Array:
    """1 where states of its items, in the order of their names, break the rule whatever values
    they stand for; else 0."""
    names = sorted(rule.items)
    found = np.zeros([len(each) for each in worth])
    for place in np.ndindex(found.shape):
        cells = product(*(worth[k][state] for k, state in enumerate(place)))
        found[place] = all(breaks(rule, dict(zip(names, cell, strict=True))) for cell in cells)
    return found


def configured(items: dict[str, CodeItem], ties: tuple[Tie, ...], rates: RateValues) -> Configured:
    """P(every item | dressed or not), with what the rules bind."""
    priors = {item: each.prior(rates, len(items)) for item, each in items.items()}
    before, bonds = dict(priors), []
    for names, own in _bound(ties):
        table = np.ones((1,) * (len(NAMES) + len(names)))
        for tie in own:
            rate = rates[tie.row].reshape(-1, *(1,) * (len(NAMES) - 1 + len(tie.items)))
            table = table * _laid(1.0 - (1.0 - rate) * tie.broken, tie, names)
        apart = np.ones((1,) * table.ndim)
        for item in names:
            apart = apart * _along(priors[item], names.index(item), len(names))
        joint = _raked(table * apart, [priors[item] for item in names])
        for k, item in enumerate(names):
            before[item] = joint.sum(axis=_all_but(k, joint))
        axes = (*NAMES, *(f"item {item}" for item in names))
        bonds.append(squeezed(joint / apart, axes))
    return Configured(priors, before, tuple(bonds))


ROUNDS = 40
"""Rounds of raking: after these no item's share is off by more than one part in fifty of itself, at
any draw on any standard car; 25 times as many would bring that to 1 in 70,000, and take longer
than the rest of an answer."""


def _raked(joint: Array, priors: list[Array]) -> Array:
    """The table with the bonds of this one, of which every item is as claimed as often as by
    itself: iterative proportional fitting (Deming and Stephan 1940), the nearest such table in
    relative entropy (Csiszar 1975). Without it two items that a rule binds, and that one cause
    alters together, would be charged for it twice."""
    for _ in range(ROUNDS):
        for k, prior in enumerate(priors):
            share = joint.sum(axis=_all_but(k, joint))
            share = share / share.sum(axis=-1, keepdims=True)
            claimed = prior[..., :1] / share[..., :1]
            other = (1.0 - prior[..., :1]) / (1.0 - share[..., :1])
            factor = np.concatenate([claimed, *[other] * (prior.shape[-1] - 1)], axis=-1)
            joint = joint * _along(factor, k, len(priors))
    whole: Array = joint.sum(axis=tuple(range(len(NAMES), joint.ndim)), keepdims=True)
    return joint / whole


def _all_but(place: int, joint: Array) -> tuple[int, ...]:
    """The axes of a table of items, but for the one of an item."""
    items = range(len(NAMES), joint.ndim)
    return tuple(axis for axis in items if axis != len(NAMES) + place)


def _bound(ties: tuple[Tie, ...]) -> Iterator[tuple[tuple[str, ...], list[Tie]]]:
    """The items that rules bind together, each group with its rules."""
    groups: list[set[str]] = []
    for tie in ties:
        apart = [group for group in groups if not group & set(tie.items)]
        one = set(tie.items).union(*(group for group in groups if group & set(tie.items)))
        groups = [*apart, one]
    for group in groups:
        yield tuple(sorted(group)), [tie for tie in ties if set(tie.items) <= group]


def _laid(table: Array, tie: Tie, names: tuple[str, ...]) -> Array:
    """A rule's table along the axes of all its group's items."""
    places = [names.index(item) for item in tie.items]
    shape = [1] * len(names)
    for place, size in zip(places, tie.broken.shape, strict=True):
        shape[place] = size
    return table.reshape(table.shape[: len(NAMES)] + tuple(shape))


def _along(prior: Array, place: int, count: int) -> Array:
    shape = [1] * count
    shape[place] = prior.shape[-1]
    return prior.reshape(prior.shape[:-1] + tuple(shape))
