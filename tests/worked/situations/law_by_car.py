"""Law by car: the value nearest to its bound, or why the law does not apply.

    python -m tests.worked.situations.law_by_car

prints the table in Markdown.
"""

from collections.abc import Iterator

from tests.worked.situations.law import Law, Measured
from tests.worked.situations.laws import LAWS
from tests.worked.situations.situation import ANY
from tests.worked.situations.standard import STANDARD
from tests.worked.situations.tried import figure


def measured(law: Law, car: str) -> tuple[Measured, ...]:
    """All that a law measures on one standard car; empty where it does not apply."""
    return tuple(law.of(STANDARD[car]))


def markdown() -> Iterator[str]:
    """Law by car, in Markdown."""
    yield "| law | | " + " | ".join(STANDARD) + " |"
    yield "|---|---|" + "---|" * len(STANDARD)
    for law in LAWS:
        cells = []
        for car in STANDARD:
            found = measured(law, car)
            if not found:
                cells.append(f"not applicable: {law.otherwise}")
                continue
            worst = min(found, key=lambda each: each.room)
            broken = sum(not each.holds for each in found)
            word = f"**{broken} of {len(found)} broken** " if broken else ""
            low, high = (figure(each) if 0 < each < ANY else "" for each in (worst.low, worst.high))
            cells.append(f"{word}{worst.what} {figure(worst.value)} ({low}..{high})")
        yield f"| {law.number} | {law.sentence} | " + " | ".join(cells) + " |"


if __name__ == "__main__":
    print("\n".join(markdown()))
