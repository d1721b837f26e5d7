"""The page of `witnessmark compare`: the answer first, each reading in a line, then what differs,
what stays open and what says nothing, each in a line or two with its reason."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from witnessmark.cli.compare_answer import Compared, Line
from witnessmark.cli.decode_page import one_line
from witnessmark.cli.terminal import Sheet, count

if TYPE_CHECKING:
    from witnessmark.agreement.records import Finding

SILENT_AT_MOST = 3
"""Sentences about what says nothing; --all has the rest."""


def lay_out(sheet: Sheet, compared: Compared, everything: bool) -> None:
    """The whole page."""
    sheet.title(compared.answer)
    for sentence in compared.known:
        sheet.say(sentence, 2, hanging=2)
    sheet.gap()
    _lay_out_readings(sheet, compared.lines)
    for line in compared.lines:
        for sentence in line.told:
            sheet.say(f"{line.name}: {sentence}", 2, hanging=2)
    if everything:
        _lay_out_all(sheet, compared)
    else:
        _lay_out_short(sheet, compared)
    _lay_out_limits(sheet, compared, everything)


def _lay_out_readings(sheet: Sheet, lines: tuple[Line, ...]) -> None:
    """Each reading on one line, as much of it as there is room for."""
    outcomes = [_outcome(line) for line in lines]
    names = [_cut(line.name, sheet.width // 2 - 4) for line in lines]
    readings = [one_line(line.reading) for line in lines]
    name, outcome = (max(map(len, each), default=0) for each in (names, outcomes))
    room = max(sheet.width - name - outcome - 6, 8)
    reading = min(room, max(map(len, readings), default=0))
    for columns in zip(names, readings, outcomes, strict=True):
        first, second, last = columns
        shown = _cut(second, reading).ljust(reading)
        sheet.exactly(f"{first.ljust(name)}  {shown}  {last}", 2)


def _cut(text: str, most: int) -> str:
    """A text of at most so many characters, cut where it must be."""
    return text if len(text) <= most else f"{text[: most - 4].rstrip()} ..."


def _outcome(line: Line) -> str:
    """How one reading stands to the others, in a few words."""
    if not line.is_compared:
        return "not compared"
    others = line.agrees + line.differs + line.is_open
    if line.differs:
        return f"differs from {line.differs} of {others}"
    if line.is_open:
        return f"open with {line.is_open} of {others}"
    return f"agrees with {others}" if others else "nothing to compare"


def _lay_out_short(sheet: Sheet, compared: Compared) -> None:
    """What differs, stays open and is silent, each in a line or two."""
    sheet.gap()
    for heading, names in (
        ("Alike", compared.alike),
        ("In order", compared.in_order),
        ("Built so", compared.together),
    ):
        if names:
            sheet.say(f"{heading}: {', '.join(names)}.", 2, hanging=2)
    for heading, told in (
        ("What differs", compared.differing),
        ("What stays open", compared.open),
        ("What says nothing", compared.silent[:SILENT_AT_MOST]),
    ):
        if told:
            sheet.heading(heading)
        for sentence in told:
            sheet.say(f"- {sentence}", 2, hanging=2)


def _lay_out_all(sheet: Sheet, compared: Compared) -> None:
    """Every comparison with its reason and what it rests on."""
    from witnessmark.catalogue import as_said
    from witnessmark.wording.first_look import OUTCOME_HEADINGS

    for outcome, heading in OUTCOME_HEADINGS.items():
        found = [each for each in compared.findings if each.outcome is outcome]
        if found:
            sheet.heading(as_said(heading))
        _lay_out_findings(sheet, found)


def _lay_out_findings(sheet: Sheet, findings: "Iterable[Finding]") -> None:
    """Each finding: what stands there, what that is consistent with, on what it rests."""
    for finding in findings:
        strength = f"{finding.strength} rule; " if finding.strength else ""
        basis = f"({strength}{finding.basis.value}: {finding.source})"
        sheet.say(f"- {finding.observation} {finding.inference} {basis}", 2, hanging=2)


def _lay_out_limits(sheet: Sheet, compared: Compared, everything: bool) -> None:
    """What none of it shows, the book, and how to see more."""
    from witnessmark.catalogue import as_said
    from witnessmark.wording.first_look import FIRST_LOOK_LIMIT, FIRST_LOOK_LIMITS

    sheet.heading("What this does not show")
    for limit in FIRST_LOOK_LIMITS if everything else (FIRST_LOOK_LIMIT,):
        sheet.say(as_said(limit), 2, hanging=2)
    book = compared.car.book
    more = "" if everything else f" All {count(len(compared.findings), 'comparison')}: --all."
    beside = "".join(f", beside it {each.id}" for each in book.beside)
    sheet.say(f"By the book {book.id}, version {book.version}{beside}.{more}", 2)
