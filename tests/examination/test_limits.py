"""What an Opinion does not cover is said, sentence by sentence, from what was not seen."""

from dataclasses import replace
from typing import Any

import pytest

from tests.examination.cars import CLAIM, demonstration_book, opinion_on, sprint
from witnessmark.casefile import Casefile
from witnessmark.codebook import Basis, CodeBook
from witnessmark.weighing import Asked


def limits(casefile: Casefile, book: CodeBook | None = None) -> list[str]:
    """The sentences, in order."""
    return [each.sentence for each in opinion_on(casefile, book).limitations]


def ratios(casefile: Casefile, book: CodeBook | None = None) -> dict[tuple[Asked, str], float]:
    """log10 LR of every question."""
    conclusions = opinion_on(casefile, book).answer.conclusions
    return {(c.question, c.about): c.log10_lr for c in conclusions}


def seen(mark: str, *ways: str) -> list[dict[str, Any]]:
    return [{"mark": mark, "text": "4 700143", "seen": way} for way in ways]


@pytest.mark.parametrize(
    ("state", "reason", "sentence"),
    [
        (
            "not accessible",
            "The axle is sunk in the earth floor.",
            "The place rear axle casing was not accessible. The axle is sunk in the earth floor.",
        ),
        ("not accessible", "", "The place rear axle casing was not accessible."),
        (
            "not looked for",
            "The half hour on the lift was over.",
            "The place rear axle casing was not looked for. The half hour on the lift was over.",
        ),
        ("not looked for", "", "The place rear axle casing was not looked for."),
    ],
)
def test_a_site_that_was_not_seen_is_a_limit_with_its_reason(
    state: str, reason: str, sentence: str
) -> None:
    sites = [{"site": "axle_case", "state": state, "reason": reason}]
    assert sentence in limits(sprint(sites=sites))


def test_a_site_of_which_the_case_says_nothing_is_a_limit_too() -> None:
    assert "The place gearbox casing was not looked for." in limits(sprint())


@pytest.mark.parametrize("state", ["read", "absent"])
def test_a_site_that_was_looked_at_is_no_limit(state: str) -> None:
    sites = [{"site": "axle_case", "state": state}]
    assert not [each for each in limits(sprint(sites=sites)) if "axle casing" in each]


@pytest.mark.parametrize(
    ("way", "words"),
    [("photograph", "from a photograph"), ("copy", "from a copy"), ("told", "as told")],
)
def test_a_mark_that_nobody_saw_in_person_is_a_limit(way: str, words: str) -> None:
    casefile = sprint({"frame_number": ""}, readings=seen("frame_number", way))
    assert f"The frame stamping was read only {words}." in limits(casefile)


def test_a_mark_that_one_examiner_saw_in_person_is_no_limit() -> None:
    casefile = sprint(readings=seen("frame_number", "photograph", "in person"))
    assert not [each for each in limits(casefile) if "frame stamping" in each]


@pytest.mark.parametrize(
    ("state", "words"),
    [
        ("asked for and awaited", "was asked for and is awaited"),
        ("refused", "was refused"),
        ("lost", "is lost"),
        ("not asked for", "was not asked for"),
    ],
)
def test_a_paper_that_is_not_to_hand_is_a_limit_with_where_it_is(state: str, words: str) -> None:
    papers = [{"mark": "build_card", "state": state}]
    assert f"The build card {words}." in limits(sprint(papers=papers))


@pytest.mark.parametrize("state", ["in hand", "copy"])
def test_a_paper_to_hand_is_no_limit(state: str) -> None:
    papers = [{"mark": "build_card", "state": state}]
    assert not [each for each in limits(sprint(papers=papers)) if "build card" in each]


def test_a_paper_of_which_the_case_says_nothing_was_not_asked_for() -> None:
    assert "The build card was not asked for." in limits(sprint())


CARD = "700143|4|M|0931|40047|22064|32036|A|17|L2|090555"
OTHER_CARD = "700199|4|M|0811|40011|22011|32011|B|12|L1|010156"
ECHO = [{"mark": "build_card", "state": "copy", "copied_from": "despatch_ledger"}]


def test_a_paper_copied_from_another_is_left_out_and_said_so() -> None:
    casefile = sprint({"build_card": CARD}, papers=ECHO)
    assert "The build card is a copy of another mark or paper: one source counts once." in limits(
        casefile
    )


def test_a_paper_copied_from_another_changes_nothing_whatever_it_says() -> None:
    agreeing = ratios(sprint({"build_card": CARD}, papers=ECHO))
    other = ratios(sprint({"build_card": OTHER_CARD}, papers=ECHO))
    silent = ratios(sprint({"build_card": ""}, papers=ECHO))
    assert agreeing == pytest.approx(other, abs=1e-9)
    assert agreeing == pytest.approx(silent, abs=1e-9)


def test_the_same_paper_as_a_witness_of_its_own_does_change_something() -> None:
    """So that the test above can fail."""
    alone = [{"mark": "build_card", "state": "copy"}]
    agreeing = ratios(sprint({"build_card": CARD}, papers=alone))
    other = ratios(sprint({"build_card": OTHER_CARD}, papers=alone))
    assert agreeing[Asked.IDENTITY, "frame"] > other[Asked.IDENTITY, "frame"] + 0.01
    assert agreeing[Asked.CORE, "engine"] > other[Asked.CORE, "engine"] + 0.01


def from_memory(mark_id: str) -> CodeBook:
    """The demonstration book with one mark given from memory."""
    book = demonstration_book()
    marks = tuple(
        replace(mark, citation=replace(mark.citation, basis=Basis.MEMORY))
        if mark.id == mark_id
        else mark
        for mark in book.marks
    )
    return replace(book, marks=marks)


def test_a_mark_that_the_book_gives_from_memory_is_left_out_and_said_so() -> None:
    assert (
        "The frame stamping was read but the book gives it from memory: it explains and does not "
        "argue." in limits(sprint(), from_memory("frame_number"))
    )


def test_a_mark_given_from_memory_argues_neither_for_nor_against() -> None:
    book = from_memory("frame_number")
    agreeing = ratios(sprint(), book)
    other = ratios(sprint({"frame_number": "1 531208"}), book)
    unread = ratios(sprint({"frame_number": ""}), book)
    assert agreeing == pytest.approx(other, abs=1e-9)
    assert agreeing == pytest.approx(unread, abs=1e-9)
    assert ratios(sprint())[Asked.IDENTITY, "frame"] > (
        ratios(sprint({"frame_number": "1 531208"}))[Asked.IDENTITY, "frame"] + 1
    ), "the same mark from another basis argues"


def test_a_mark_that_no_such_car_has_is_read_and_said_not_to_be_weighed() -> None:
    """A car plate of 1958 on a car of 1955: it stands in the report and moves nothing."""
    casefile = sprint({"plate_aluminium": "700143|20|58|E|14029|C|15|L3|HW"})
    assert (
        "The aluminium car plate was read and is not weighed: by the code book no car of the "
        "year, model and works claimed has it." in limits(casefile)
    )
    assert ratios(casefile) == pytest.approx(ratios(sprint()), abs=1e-9)


def test_a_look_where_no_such_car_has_a_mark_is_said_not_to_be_weighed() -> None:
    ellery = CLAIM | {"body_works": "ellery"}
    looks = [{"site": "bulkhead", "outcome": "disturbed"}]
    assert (
        "What was seen at the place bulkhead is not weighed: by the code book no car of the year, "
        "model and works claimed has it." in limits(sprint(claim=ellery, looks=looks))
    )


def test_a_car_that_was_seen_whole_has_no_limits_but_its_papers() -> None:
    book = demonstration_book()
    sites = [{"site": site, "state": "read"} for site in dict.fromkeys(s.id for s in book.sites)]
    papers = [{"mark": mark, "state": "in hand"} for mark in ("despatch_ledger", "build_card")]
    assert limits(sprint(sites=sites, papers=papers)) == [
        "The invoice of the service department was not asked for."
    ]
