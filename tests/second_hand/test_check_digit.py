"""A general-purpose library that makes up such numbers counts their check digit as we do."""

from functools import cache
from random import Random

from faker import Faker

from witnessmark.codebook import find_book, open_book
from witnessmark.decoding.seventeen.rules import NumberRules, rules_of
from witnessmark.decoding.seventeen.sums import check_sum

COUNT = 10_000
SEED = 1981


@cache
def rules() -> NumberRules:
    folder = find_book("seventeen-characters")
    assert folder is not None
    book = open_book(folder).book
    assert book is not None
    found = rules_of(book)
    assert found is not None
    return found


@cache
def made_up() -> tuple[str, ...]:
    """Ten thousand numbers of the library, the same in every run."""
    library = Faker()
    library.seed_instance(SEED)
    return tuple(library.vin() for _ in range(COUNT))


def test_every_number_of_the_library_agrees():
    assert len(set(made_up())) > COUNT - 10
    assert [number for number in made_up() if not check_sum(rules(), number).agrees] == []
    assert {number[8] for number in made_up()} == set("0123456789X")


def test_one_changed_character_is_caught_exactly_where_the_values_differ():
    """One character of each number, in any position but 9, exchanged for any other."""
    chance = Random(SEED)
    characters = "".join(rules().values)
    slipped = 0
    for number in made_up():
        place = chance.choice([p for p in range(17) if p != 8])
        other = chance.choice([c for c in characters if c != number[place]])
        changed = number[:place] + other + number[place + 1 :]
        same_value = rules().values[other] == rules().values[number[place]]
        assert check_sum(rules(), changed).agrees is same_value, (number, changed)
        slipped += same_value
    assert 0.06 < slipped / COUNT < 0.10
