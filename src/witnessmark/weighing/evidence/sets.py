"""Items of which a car has several at once, such as its equipment: each value is weighed as an
item of its own.

That a mark names a value speaks for it; that it names others says nothing of it. So each value
that is claimed, or of which a rule speaks, becomes an item with that value alone, and everything
after this room weighs items of one value.
"""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.conditions import Condition
from witnessmark.codebook.records import Item, Rule
from witnessmark.decoding.kept import kept
from witnessmark.weighing.evidence.rules import rules_of


def with_sets(car: CarMarks) -> CarMarks:
    """The car with a claim, rules and items of one value each; the same car where nothing that
    can argue about it speaks of an item of several values."""
    many = {item.id: item for item in car.book.items if item.many}
    claim = car.casefile.claim
    asked = {item for rule in rules_of(car.book, car.context) for item in rule.items}
    if not many.keys() & (asked | claim.items.keys()):
        return car
    of_sets = {
        name: value for item in many for name, value in _values(item, claim.items.get(item, ""))
    }
    book = kept(car.book, "sets as items", tuple(of_sets), lambda: _apart(car.book, many, of_sets))
    others = {name: text for name, text in claim.items.items() if name not in many}
    casefile = replace(car.casefile, claim=replace(claim, items=others | of_sets))
    return replace(car, book=book, casefile=casefile)


def _apart(book: CodeBook, many: dict[str, Item], claimed: dict[str, str]) -> CodeBook:
    """The book with rules of one value each, and an item for each of these and each claimed."""
    rules = tuple(one for rule in book.rules for one in _of_one_value(rule, many))
    asked = {side.item: side.values for rule in rules for side in _sides(rule)}
    asked |= {name: frozenset((value,)) for name, value in claimed.items()}
    items = [
        replace(item, id=name, name=f"{item.name} ({value.replace('-', ' ')})", many=False)
        for item in many.values()
        for name, values in asked.items()
        if name.startswith(f"{item.id} ")
        for value in values
    ]
    return replace(book, items=(*book.items, *items), rules=rules)


def names_of_set(item: Item, text: str) -> tuple[str, ...]:
    """The items as which the claimed values of a set are weighed; of any other item, its own."""
    return tuple(name for name, _ in _values(item.id, text)) if item.many else (item.id,)


def _values(item: str, text: str) -> Iterator[tuple[str, str]]:
    return ((f"{item} {value}", value) for value in text.split())


def _of_one_value(rule: Rule, many: dict[str, Item]) -> Iterator[Rule]:
    """The rule once for each value that it names of a set."""
    apart = [tuple(_each(side, many)) for side in _sides(rule)]
    for then, first, *also in product(*apart):
        yield replace(
            rule,
            if_item=first.item,
            if_values=first.values,
            also=tuple(also),
            then_item=then.item,
            then_values=then.values,
        )


def _sides(rule: Rule) -> tuple[Condition, ...]:
    return (Condition(rule.then_item, rule.then_values), *rule.conditions)


def _each(side: Condition, many: dict[str, Item]) -> Iterator[Condition]:
    if side.item not in many:
        yield side
        return
    for value in sorted(side.values):
        yield Condition(f"{side.item} {value}", frozenset((value,)))
