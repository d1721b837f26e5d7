"""What the check digit says of characters that are not sure.

With one place unsure, each permitted character of its position is weighed by
P(what was seen | character), even before that, and those are kept with which
the check digit agrees. With more places unsure the ways to read them are only
counted. All of it holds if the number carries a check digit at all.
"""

from math import prod

from witnessmark.catalogue import counted, one_of, percent, said
from witnessmark.decoding.records import Note, NoteKind
from witnessmark.decoding.seventeen.number import Vin
from witnessmark.decoding.seventeen.rules import CHECK, LENGTH
from witnessmark.decoding.seventeen.sums import check_sum

MOST_WRITTEN_OUT = 10**9
"""A larger count is told by its order of size."""


def candidates(number: Vin, position: int) -> dict[str, float]:
    """The characters of the one unsure place with which the check digit agrees, likeliest first,
    each with its share of all that may stand there.

    The shares add up to 1; there may be no such character.
    """
    permitted = number.rules.permitted(position)
    seen = number.asked.place(number.cell(position), permitted)
    before = "".join(number.read(p) for p in range(1, position))
    after = "".join(number.read(p) for p in range(position + 1, LENGTH + 1))
    weights = {
        character: likelihood
        for character, likelihood in zip(permitted, seen, strict=True)
        if likelihood and check_sum(number.rules, before + character + after).agrees
    }
    total = sum(weights.values())
    ranked = sorted(weights, key=lambda character: -weights[character])
    return {character: weights[character] / total for character in ranked}


def candidate_note(number: Vin) -> Note:
    """The candidates of one unsure place, or how many ways of reading several are left."""
    unsure = number.unsure()
    sentence = _of_one(number, unsure[0]) if len(unsure) == 1 else _of_several(number, unsure)
    return number.by_table(NoteKind.CHECK, sentence, "weights")


def _of_one(number: Vin, position: int) -> str:
    found = candidates(number, position)
    if not found:
        return said(
            "Position {position} is unsure, and no character in it makes the check digit "
            "agree: the number carries none, or another of its characters is not what was "
            "read.",
            position=position,
        )
    if len(found) > 1:
        shares = [f"{character} ({percent(share)})" for character, share in found.items()]
        sentence = said(
            "Position {position} is unsure: if the number carries a check digit and the "
            "rest is as read, {characters} can be there.",
            position=position,
            characters=one_of(shares),
        )
    else:
        sentence = said(
            "Position {position} is unsure: if the number carries a check digit and the "
            "rest is as read, only {character} can be there.",
            position=position,
            character=next(iter(found)),
        )
    seen = number.cell(position).characters
    if seen and not any(character in seen for character in found):
        sentence += " " + said("None of these was seen there: look at it again.")
    return sentence


def _of_several(number: Vin, unsure: tuple[int, ...]) -> str:
    ways = prod(len(_choices(number, position)) for position in unsure)
    return counted(
        "{number} place is unsure: of the {ways} ways to read it, {agreeing} agree with "
        "the check digit, if the number carries a check digit and the rest is as read. "
        "Only a better reading can say which characters are there.",
        "{number} places are unsure: of the {ways} ways to read them, {agreeing} agree "
        "with the check digit, if the number carries a check digit and the rest is as "
        "read. Only a better reading can say which characters are there.",
        len(unsure),
        ways=_count(ways),
        agreeing=_count(agreeing(number)),
    )


def agreeing(number: Vin) -> int:
    """In how many ways the unsure places can be read so that the check digit agrees.

    Counted by remainder, place after place, so that no number is ever composed.
    """
    rules = number.rules
    divisor = len(rules.digits)
    counts = [1] + [0] * (divisor - 1)
    for position, weight in enumerate(rules.weights, start=1):
        if position == CHECK:
            continue
        after = [0] * divisor
        for remainder, count in enumerate(counts):
            for character in _choices(number, position):
                after[(remainder + weight * rules.values[character]) % divisor] += count
        counts = after
    return sum(counts[rules.digits.index(digit)] for digit in _choices(number, CHECK))


def _choices(number: Vin, position: int) -> str:
    """The permitted characters that what was seen in this position leaves."""
    permitted = number.rules.permitted(position)
    seen = number.cell(position).characters
    return "".join(each for each in permitted if each in seen) if seen else permitted


def _count(ways: int) -> str:
    if ways < MOST_WRITTEN_OUT:
        return f"{ways:,}"
    return said("more than {number}", number=f"10^{len(str(ways)) - 1}")
