"""What is said while a paper is awaited: what its answer would make of each conclusion."""

from dataclasses import replace

import pytest

from tests.report.told import SHORT, examined_quickly, table_headed, texts
from tests.worked.opened import book_and_version, case_of
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.casefile import Casefile, Paper, PaperKind, PaperState
from witnessmark.catalogue import voiced
from witnessmark.codebook import CodeBook
from witnessmark.examination import car_marks
from witnessmark.report.sections.awaited import awaited_blocks
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sheets.next_looks import next_looks
from witnessmark.weighing import ANSWER_AWAITED, Answer, answer


def awaiting(case: Casefile, paper: str) -> Casefile:
    """The case in which this paper was not read yet."""
    papers = (*(p for p in case.papers if p.mark != paper),
              Paper(mark=paper, state=PaperState.AWAITED))  # fmt: skip
    return replace(case, papers=papers,
                   readings=tuple(r for r in case.readings if r.mark != paper))  # fmt: skip


def weighed(case: Casefile, book: CodeBook) -> Answer:
    """The answer of a case, with its next looks."""
    return answer(car_marks(case, book), with_contributions=False)


@pytest.mark.parametrize(
    ("car", "paper"),
    [("sprint", "build_card"), ("mustang", "number_on_papers"), ("labels", "delivery_note")],
)
def test_a_paper_that_agrees_does_what_was_said_beforehand(car: str, paper: str) -> None:
    """On the demonstration maker, a shipped book and a small one: within the days, which are
    not supposed."""
    case, book = casefile(STANDARD[car]), book_of(STANDARD[car].book)
    read, before = weighed(case, book), weighed(awaiting(case, paper), book)
    looks = [each for each in before.next_looks if each.kind == ANSWER_AWAITED]
    assert {each.about for each in looks} == {paper}
    moved = 0.0
    for look in looks:
        now, then = (
            before.conclusion(look.question, look.of),
            read.conclusion(look.question, look.of),
        )
        agrees, differs, none = (each.log10_lr for each in look.outcomes)
        assert then is not None
        assert agrees == pytest.approx(then.log10_lr, abs=0.15)
        assert none == (now.log10_lr if now else 0.0)
        moved = max(moved, agrees - differs)
    assert moved > 1.0


def test_the_report_says_words_and_ratio_now_and_then() -> None:
    book = book_and_version()[0]
    opinion = examined_quickly(case_of("panel"), book)
    blocks = list(awaited_blocks(Matter(voiced(opinion), book)))
    assert texts(blocks)[0] == ("The build card is awaited. This is what its answer would change:")
    assert "If there is no record, every answer stays as it is." in texts(blocks)[-1]
    rows = {
        row[0].text: [cell.text for cell in row[1:]]
        for row in table_headed(blocks, "Question").rows
    }
    assert rows["Gearbox casing"] == [
        "4.9, weak support", "110, moderately strong support", "4.2, weak support"
    ]  # fmt: skip
    screen = texts(next_looks(opinion, book, SHORT, False).front)
    assert any(t.startswith("Awaited: build card: Rear axle casing: 5.4, weak") for t in screen)


def test_of_a_paper_that_the_book_does_not_list_nothing_is_foretold() -> None:
    case, book = case_of("panel"), book_and_version()[0]
    letter = Paper(mark="letter", state=PaperState.AWAITED, name="letter of the archive",
                   kind=PaperKind.ARCHIVE_LETTER)  # fmt: skip
    matter = Matter(voiced(examined_quickly(replace(case, papers=(letter,)), book)), book)
    assert texts(list(awaited_blocks(matter))) == [
        "The letter is awaited. The code book has no such paper, so nobody can say "
        "beforehand what its answer would change."
    ]
