"""The pages that say what the weighing is tried on and what came out: docs/situations.md, and
the table law by car of docs/weighing.md.

What is said of a car is made from that car alone, so that whoever tries it can hold the page.
"""

from collections.abc import Iterator
from pathlib import Path

from tests.worked.situations.asked import (
    Row,
    laws_on,
    measured,
    of_law,
    of_situation,
    situations_on,
)
from tests.worked.situations.laws import LAWS
from tests.worked.situations.situation import Situation
from tests.worked.situations.standard import STANDARD
from tests.worked.situations.table import SITUATIONS
from tests.worked.situations.tried import expectation
from tests.worked.situations.unmet import unmet

DOCS = Path(__file__).resolve().parents[3] / "docs"
FIRST, LAST = "<!-- law by car: bin/situations -->", "<!-- end -->"
NUMBERS = tuple(dict.fromkeys(law.number for law in LAWS))


def situations_page() -> str:
    """The whole of docs/situations.md."""
    return "\n".join([*_head(), *_unmet(), *_not_yet(), *_cars()]) + "\n"


def laws_table() -> str:
    """Law by car, as it stands in docs/weighing.md."""
    head = "| car | situations | " + " | ".join(NUMBERS) + " |"
    rule = "|---|---|" + "---|" * len(NUMBERS)
    return "\n".join([head, rule, *(laws_row(car) for car in STANDARD)])


def laws_row(car: str) -> str:
    """How much of each law holds on one car: held of measured, or a dash where it does not
    apply."""
    asked = situations_on(car)
    right = sum(not _faulty(situation, car) for situation, _ in asked)
    cells = [f"{right} of {len(asked)}"]
    for number in NUMBERS:
        found = [each for law in LAWS if law.number == number for each in measured(law, car)]
        held = sum(each.holds for each in found)
        cells.append(f"{held}/{len(found)}" if found else "–")
    return f"| {car} | " + " | ".join(cells) + " |"


def _faulty(situation: Situation, car: str) -> bool:
    return any(key[:3] == (situation.number, situation.title, car) for key in unmet())


def section(car: str) -> str:
    """All situations and laws on one car, folded."""
    lines = [
        "<details>",
        f"<summary>{car}, book {STANDARD[car].book}</summary>",
        "",
        "| | situation | expected | got |",
        "|---|---|---|---|",
    ]
    for situation, _ in situations_on(car):
        lines.append(_line(of_situation(situation, car), expectation(situation)))
    lines += ["", "| | law | nearest to its bound |", "|---|---|---|"]
    lines += [_line(of_law(law, car)) for law, _ in laws_on(car)]
    return "\n".join([*lines, "", "</details>"])


def _line(row: Row, expected: str = "") -> str:
    mark = " **not yet**" if row.faults else ""
    got = f"{row.got or 'as expected'}{mark}" if expected else f"{row.got}{mark}"
    return "| " + " | ".join(each for each in (row.number, row.title, expected, got) if each) + " |"


def _head() -> Iterator[str]:
    asked = sum(len(situations_on(car)) for car in STANDARD)
    wrong = len({key[:3] for key in unmet() if not key[0].startswith("law")})
    yield "# What the weighing is tested on"
    yield ""
    yield (
        f"{len(SITUATIONS)} situations, each on every car to which it can apply: a standard car of"
        " the book, everything clear, undisturbed and as it should be, with one thing changed. What"
        " is expected is an inspector's answer, not a figure of the model (decision"
        " [37](decisions/0037-situations-as-data.md)). Figures are likelihood ratios; an x before"
        " one means: relative to the same car without the change. Written by `bin/situations`,"
        " checked by `tests/worked/situations`."
    )
    yield ""
    yield f"**{asked - wrong} of {asked}** come out as expected."
    yield ""


def _unmet() -> Iterator[str]:
    """What is unmet, a row for each thing with all cars on which it is."""
    yield "## Not yet as an inspector would answer"
    yield ""
    yield "None of these accuses an honest car."
    yield ""
    yield "| | situation or law | of | wanted | got | why |"
    yield "|---|---|---|---|---|---|"
    groups: dict[tuple[str, ...], list[str]] = {}
    for (number, title, car, what), row in unmet().items():
        key = (number, title, what, row["expected"], row["reason"])
        groups.setdefault(key, []).append(f"{car} {row['got']}")
    for (number, title, what, expected, reason), got in groups.items():
        yield f"| {number} | {title} | {what} | {expected} | {', '.join(got)} | {reason} |"
    yield ""


def _not_yet() -> Iterator[str]:
    yield "## Not asked yet"
    yield ""
    for situation in SITUATIONS:
        if situation.needs:
            yield f"- {situation.number}, {situation.title}: needs {situation.needs}."
    yield ""


def _cars() -> Iterator[str]:
    yield "## Car by car"
    yield ""
    for car in STANDARD:
        yield section(car)
        yield ""


def with_table(page: str) -> str:
    """A page with the table law by car between its marks."""
    before, rest = page.split(FIRST)
    _, after = rest.split(LAST)
    return f"{before}{FIRST}\n\n{laws_table()}\n\n{LAST}{after}"
