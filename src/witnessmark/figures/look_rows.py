"""The looks of all conclusions, each once, with the question it tells most about."""

from dataclasses import dataclass, replace

from witnessmark.examination import Opinion
from witnessmark.weighing.records import Conclusion, NextLook
from witnessmark.wording import Names
from witnessmark.wording.conclusions import heading

LEAST_BITS = 0.001
"""A look that tells less than this about every question tells next to nothing."""


@dataclass(frozen=True, slots=True)
class LookRow:
    """One look: `bits` about `question`, which it tells most about; `minutes` with access.

    `number` is its place in the order of bits a minute, 0 where it is not drawn.
    """

    prompt: str
    question: str
    bits: float
    minutes: int
    access_minutes: int
    is_reachable: bool
    number: int = 0

    @property
    def bits_per_minute(self) -> float:
        """What it tells in a minute; a look that costs nothing counts as one minute."""
        return self.bits / max(1, self.minutes)


def look_rows(opinion: Opinion) -> tuple[list[LookRow], list[LookRow], list[LookRow]]:
    """Looks within reach, numbered by bits a minute; out of reach; telling next to nothing."""
    names = Names(opinion.names)
    found: dict[tuple[str, str], LookRow] = {}
    for conclusion in opinion.weighing.conclusions:
        for look in (*conclusion.next_looks, *conclusion.settled_by):
            row = _row(look, conclusion, names)
            known = found.get((look.target, look.kind))
            if known is None or row.bits > known.bits:
                found[look.target, look.kind] = row
    ordered = sorted(found.values(), key=lambda row: -row.bits_per_minute)
    reachable = [row for row in ordered if row.is_reachable]
    within = [row for row in reachable if row.bits >= LEAST_BITS]
    idle = [row for row in reachable if row.bits < LEAST_BITS]
    beyond = [row for row in ordered if not row.is_reachable]
    return [replace(row, number=at) for at, row in enumerate(within, 1)], beyond, idle


def most_for_its_time(rows: list[LookRow]) -> LookRow:
    """The look that tells most in a minute."""
    return max(rows, key=lambda row: row.bits_per_minute)


def _row(look: NextLook, conclusion: Conclusion, names: Names) -> LookRow:
    return LookRow(
        prompt=look.prompt or names.any(look.target),
        question=heading(conclusion, names),
        bits=look.bits,
        minutes=look.minutes + look.access_minutes,
        access_minutes=look.access_minutes,
        is_reachable=look.is_reachable,
    )
