"""An Opinion that was kept in the format before stays readable, and its digest the same."""

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

from tests.examination.cars import opinion_on
from witnessmark.casefile import Casefile, parse_casefile
from witnessmark.examination import Opinion
from witnessmark.report import report_text
from witnessmark.report.issue.issued import Issued, parse_issued
from witnessmark.report.issue.supplement import supplement_outline
from witnessmark.report.issue.supplement_changes import case_changes
from witnessmark.report.sections.photo import grouped

KEPT = Path(__file__).parent / "kept"
DIGEST = "dd2b0fbbaa8809ecd8860cca6b139eec41623ef6a1d5d365a64aeb51f7da27e9"
"""What the report printed on the day of issue."""


def kept() -> Issued:
    found = parse_issued((KEPT / "opinion-1.json").read_text("utf-8"), "opinion-1.json")
    assert isinstance(found, Issued)
    return found


def case_now() -> Casefile:
    casefile = parse_casefile((KEPT / "case-1.json").read_text("utf-8"), "case-1.json").casefile
    assert casefile is not None
    return casefile


@cache
def opinion_now() -> Opinion:
    return opinion_on(case_now())


def test_its_digest_is_the_one_that_was_printed_then() -> None:
    assert kept().digest == DIGEST


def test_its_case_is_the_case_that_was_examined_and_nothing_in_it_changed() -> None:
    """The case of that day, of format 1, read today beside the one inside the Opinion."""
    assert kept().casefile == case_now()
    assert case_changes(kept().casefile, case_now()) == ()


def test_a_supplement_names_it_and_tells_what_was_added_since(printed) -> None:  # type: ignore[no-untyped-def]
    document = json.loads((KEPT / "case-1.json").read_text("utf-8"))
    now = replace(case_now(), title="Seen again")
    text = report_text(
        supplement_outline(kept(), opinion_now().__replace__(casefile=now), "Seen again", printed)
    )
    assert grouped(DIGEST) in text
    assert f"{document['title']} | Seen again" in text
    assert "One entry changed." in text
