"""How a changed case is set against the car it was made from: ratio, sentence and figure."""

from math import log10

from tests.worked.opened import Key, opinion_without_bounds_of
from witnessmark.examination import Opinion
from witnessmark.figures import weight_strip
from witnessmark.weighing import Conclusion
from witnessmark.wording import Names, conclusion_text

NOTHING = 1e-6
"""A difference of log10 LR that is the computer's and not the model's."""
VISIBLE = 0.05
"""A difference of log10 LR that two figures show."""
BEYOND = log10(3)


def crossed(before: dict[Key, float], after: dict[Key, float], but: list[Key]) -> list[Key]:
    """Questions not named that went from one proposition to the other, beyond 3 at one end."""
    return [
        key
        for key, value in after.items()
        if key not in but and before[key] * value < 0 and max(abs(before[key]), abs(value)) > BEYOND
    ]


def conclusions_of(opinion: Opinion) -> dict[Key, Conclusion]:
    return {(each.question, each.about): each for each in opinion.weighing.conclusions}


def said_and_drawn(opinion: Opinion, key: Key) -> tuple[str, str, str]:
    """A question's ratio in figures, its sentence, and its strip."""
    conclusion, names = conclusions_of(opinion)[key], Names(opinion.names)
    text = conclusion_text(conclusion, opinion.weighing, names)
    return text.lr, text.sentence, weight_strip(conclusion, names).svg


def assert_sentence_and_strip_follow(car: str, changed: Opinion) -> None:
    """Where a ratio moved so far that figures show it, its figures and its strip moved too;
    and where the words speak for a proposition, so did the sentence."""
    before, after = conclusions_of(opinion_without_bounds_of(car)), conclusions_of(changed)
    for key in before.keys() & after.keys():
        if abs(before[key].lr.log10_lr - after[key].lr.log10_lr) < VISIBLE:
            continue
        old, new = said_and_drawn(opinion_without_bounds_of(car), key), said_and_drawn(changed, key)
        assert old[0] != new[0], key
        assert old[2] != new[2], key
        if max(abs(before[key].lr.log10_lr), abs(after[key].lr.log10_lr)) > BEYOND:
            assert old[1] != new[1], key
