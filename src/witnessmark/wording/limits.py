"""The standing limitations of every report, in plain words.

An Opinion adds its own; these hold whatever the car.
"""

from witnessmark.catalogue import as_said, said
from witnessmark.wording.word_tables import word_table

_STANDING = word_table("limitations")
FOR_USERS_NAMED = _STANDING["users"]


def standing_limitations() -> tuple[str, ...]:
    """What holds of every report."""
    return tuple(map(as_said, _STANDING.values()))


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
