"""The parts of a report that make it a professional's: number, terms, custody, sums, versions."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

import witnessmark
from tests.examples import tried_on
from witnessmark.casefile import Assignment, Casefile, Examiner, ReportIssue, Sum, SumKind
from witnessmark.codebook import find_book, open_book
from witnessmark.examination.made_with import made_with
from witnessmark.outline.records import Outline, Section
from witnessmark.report import report_text
from witnessmark.report.issue.issued import NOT_ISSUED
from witnessmark.report.sections.assignment import (
    assignment_section,
    issue_facts,
    report_name,
    sum_blocks,
)
from witnessmark.report.sections.closing import statement_section, version_facts
from witnessmark.report.sections.matter import Matter

_opened = open_book(find_book("tarvane-1952-1961")).book
assert _opened is not None
BOOK = _opened


def with_case(opinion, **changes):
    return replace(opinion, casefile=replace(opinion.casefile, **changes))


def text_of(section: Section) -> str:
    return report_text(Outline("", sections=(section,)))


def test_the_terms_of_each_who_signs_stand_in_a_row(opinion):
    text = text_of(assignment_section(Matter(opinion, BOOK)))
    assert "Who helped: B. Stone: lifted out the seat." in text
    assert (
        "I. Larkin / Larkin & Daughter / 3 Quay Street, Ostrey / 0110 555 017 | "
        "None; the fee does not depend on the outcome. / "
        "Earlier dealings with the car or the parties: Serviced the gearbox in 2019. | "
        "By the hour, agreed before the visit. / "
        "It does not depend on what is concluded, on a value or on a sale."
    ) in text


def test_what_an_examiner_has_not_stated_is_said_to_be_not_stated(opinion):
    bare = Assignment(examiners=(Examiner(id="a", name="A. B."),))
    text = text_of(assignment_section(Matter(with_case(opinion, assignment=bare), BOOK)))
    assert (
        "A. B. | Not stated. / Earlier dealings with the car or the parties: Not stated. | "
        "Not stated. / Whether it depends on what is concluded is not stated."
    ) in text
    assert "Who helped: not stated" in text


def test_a_sum_is_printed_with_all_that_says_what_it_is_and_else_nowhere(opinion, printed):
    text = text_of(assignment_section(Matter(opinion, BOOK)))
    assert "Asking price | 185,000 EUR | April 2026 | M. Orrin / His advertisement." in text
    assert "4,321" not in text
    assert sum_blocks(with_case(opinion, sums=()).casefile) == ()


@tried_on(100)
@given(
    st.builds(
        Sum,
        kind=st.sampled_from(SumKind),
        amount=st.floats(0, 1e12),
        currency=st.sampled_from(["", "GBP"]),
        date=st.sampled_from([None, "1991", "1991-05", "1991-05-04"]),
        source=st.sampled_from(["", " ", "invoice"]),
        by=st.sampled_from(["", "O. F."]),
    )
)
def test_any_sum_is_printed_or_says_what_it_lacks(each):
    is_whole = all((each.kind, each.currency, each.date, each.source.strip(), each.by))
    assert is_whole == (not each.missing)
    assert bool(sum_blocks(Casefile(id="a", book="b", sums=(each,)))) == is_whole


def test_what_was_lent_stands_with_its_days_before_the_statement(opinion):
    text = text_of(statement_section(opinion))
    assert "Brass plate | M. Orrin | 12 May 2026 | not yet" in text
    assert text.index("Brass plate") < text.index("The statements of fact")
    assert "Custody" not in text_of(statement_section(with_case(opinion, custody=())))


def test_each_who_signs_says_what_they_answer_for(opinion):
    assert (
        "Signed: ____________________ I. Larkin Restorer, twenty years with the make "
        "Answers for: all readings and all conclusions"
    ) in text_of(statement_section(opinion))


def test_of_the_fee_only_what_was_stated_is_signed(opinion):
    """That it depends on nothing where all say so; that it does where one says it."""
    free = "My fee does not depend"
    assert free in text_of(statement_section(opinion))
    (larkin,) = opinion.casefile.assignment.examiners
    second = replace(larkin, id="b", name="A. B.", fee_depends=None)
    for examiners, told in (
        ((larkin, second), ""),
        ((larkin, replace(second, fee_depends=True)), "The fee of A. B. depends on what is"),
        ((), ""),
    ):
        assignment = replace(opinion.casefile.assignment, examiners=examiners)
        text = text_of(statement_section(with_case(opinion, assignment=assignment)))
        assert free not in text
        assert told in text
        assert "The fee of" not in text or told


def test_a_report_is_named_by_number_and_issue_and_never_by_its_case(opinion):
    case = opinion.casefile
    assert report_name(case) == "26-031, issue 1"
    bare = replace(case, report=ReportIssue())
    told = [f"{each.label}: {each.text}" for each in issue_facts(bare)]
    assert (report_name(bare), told) == (
        "",
        ["Report: not yet numbered", "Date of issue: not stated"],
    )


def test_program_tables_and_book_stand_with_version_and_digest(opinion):
    facts = {each.label: each.text for each in version_facts(opinion, NOT_ISSUED)}
    assert facts["Program"] == f"Witnessmark {witnessmark.__version__}"
    assert facts["Tables of the program"] == f"SHA-256 {made_with().tables_sha256[:16]}…"
    assert opinion.book.version in facts["Code book"]
    assert opinion.book.sha256[:16] in facts["Code book"]
