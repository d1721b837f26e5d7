"""What a first look at a few numbers can say, and what it does not show.

A first look has no case, no papers and nobody's eyes on the metal: it says
whether readings agree, and gives that no weight.
"""

from witnessmark.agreement.records import Outcome
from witnessmark.wording.amounts import count_text, listed, sentence

OUTCOME_HEADINGS = {
    Outcome.AGREE: "What agrees",
    Outcome.DIFFER: "What differs",
    Outcome.UNDECIDED: "What these readings cannot decide",
    Outcome.SILENT: "Where the book is silent",
}

ALONE_HEADING = "Each mark by itself, beside the book"

FIRST_LOOK_LIMITS = (
    "Agreement says that these readings are consistent with one car. It does not say when or by "
    "whom they were struck, nor that the parts have always been together.",
    "A difference says that these readings are not consistent with one car left as it was built. "
    "A service part, an exchange unit, a correction at the works, a repair with an older panel "
    "and a misread character are all consistent with a difference.",
    "How the metal around the characters looks, the papers, and every mark that was not typed "
    "are not part of this look. What was not looked at says nothing either way.",
    "Nothing is weighed here: a case that records how each mark was seen is what can be weighed.",
)


def first_look_sentence(outcomes: tuple[Outcome, ...]) -> str:
    """How many comparisons came out which way, in one sentence.

    >>> first_look_sentence((Outcome.AGREE, Outcome.AGREE, Outcome.DIFFER))
    'Two comparisons agree and one differs.'
    """
    parts: list[str] = []
    for outcome, one, many in (
        (Outcome.AGREE, "agrees", "agree"),
        (Outcome.DIFFER, "differs", "differ"),
        (Outcome.UNDECIDED, "is undecided", "are undecided"),
    ):
        number = outcomes.count(outcome)
        counted = count_text(number, "comparison")
        if number:
            subject = counted.split(" ")[0] if parts else counted
            parts.append(f"{subject} {one if number == 1 else many}")
    if not parts:
        return "These readings say nothing in common: there was nothing to compare."
    return sentence(listed(tuple(parts)))
