"""The standing limitations of every report, in plain words.

An Opinion adds its own; these hold whatever the car.
"""

from witnessmark.catalogue import as_said, marked, said

FOR_USERS_NAMED = marked(
    "It was made for the purpose and the intended users named on its first page and should not "
    "be relied on for another purpose or by others."
)

_STANDING_LIMITATIONS: tuple[str, ...] = (
    marked(
        "This report describes the car on the day and in the conditions stated. It is a snapshot: "
        "what changed before or since is not covered."
    ),
    FOR_USERS_NAMED,
    marked(
        "It is not a warranty, not a statement of legal title, not a valuation and not an "
        "assessment of roadworthiness."
    ),
    marked("No register of reported thefts, of finance or of insurance losses was searched."),
    marked(
        "Nothing was dismantled beyond what is stated, and nothing was cleaned, etched or removed. "
        "What is latent, covered, painted over or out of reach is outside this report."
    ),
    marked(
        "What the owner or the seller said is reported as theirs. It was compared with what was "
        "seen where that was possible, and is otherwise unconfirmed."
    ),
    marked(
        "Readings are what the eye made out, with doubt kept where there was doubt. A photograph, "
        "a copy or a spoken report carries less than the metal itself."
    ),
    marked(
        "Marks are decoded by the code book named in this report. Where the book is "
        "silent, that is no fault of the car; where a row of it is from memory, it "
        "explains but carries no weight."
    ),
    marked(
        "A likelihood ratio says how much more probable the findings are under one "
        "proposition than under the other. It is not the probability of either "
        "proposition, which also depends on what was to be expected before anybody looked."
    ),
    marked(
        "The rates behind the ratios are assumed, since no published ones exist. They are listed, "
        "and a band shows how far an answer rests on them."
    ),
    marked(
        "Looking as it left the factory is weak support: a careful hand can leave little trace. A "
        "place that looks disturbed can have honest causes."
    ),
    marked(
        "Factory practice had exceptions that no table lists. A report like this can be "
        "wrong, and further evidence can change it."
    ),
)


def standing_limitations() -> tuple[str, ...]:
    """What holds of every report."""
    return tuple(map(as_said, _STANDING_LIMITATIONS))


def interest_statement(*, fee_is_free: bool) -> str:
    """What each examiner signs; of the fee only where all have said that it hangs on nothing."""
    told = said(
        "The statements of fact in this report are true to the best of my knowledge. The opinions "
        "are my own and unbiased. I have no present or intended interest in the car and none with "
        "the parties, except as declared in this report."
    )
    if not fee_is_free:
        return told
    free = said("My fee does not depend on what is concluded, on a value or on a sale.")
    return f"{told} {free}"


def fee_statement(names: str) -> str:
    """Stands beside it where somebody's fee hangs on the answer."""
    return said(
        "The fee of {names} depends on what is concluded, on a value or on a sale.", names=names
    )


def purpose_footer() -> str:
    """Stands at the foot of every page: documents drift from their purpose."""
    return said("For the purpose and users stated on page 1; read with its limitations.")
