"""The supplement says what changed, why, and what that does; the issued report stands."""

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.never_said import never_said
from tests.weighed import with_conclusions, with_lr
from tests.worked.pdf_pages import page_texts
from witnessmark.agreement import Outcome
from witnessmark.casefile import (
    Circumstances,
    LookSeen,
    MarkReading,
    OriginSaid,
    Paper,
    PaperState,
    Seen,
    Stakes,
    StatedPrior,
    Statement,
    Vouched,
    WorkBy,
    WorkSaid,
)
from witnessmark.casefile import records as kept
from witnessmark.examination import render_opinion
from witnessmark.report import report_text
from witnessmark.report.issue.issued import (
    Issued,
    NoOpinion,
    answer_digest,
    issued_of,
    not_the_next_issue,
    opinion_digest,
    parse_issued,
)
from witnessmark.report.issue.supplement import supplement_outline
from witnessmark.report.issue.supplement_changes import CasePart, ChangeKind, case_changes
from witnessmark.report.press.render import print_outline
from witnessmark.report.sections.photo import grouped
from witnessmark.source import Source
from witnessmark.wording import Names, plain_name
from witnessmark.wording.case_words import FIELD_WORDS, field_word, question_words

WHY = "The engine was read a second time"
DECLARED = Statement(
    about="engine",
    says="Another.",
    origin=OriginSaid.SUPPLIED_NEW,
    work=WorkSaid.REFITTED,
    work_by=WorkBy.DEALER,
)
VOUCHED = Vouched(row="axles:BU", by="IL", reason="why")


def with_case(opinion, **changes):
    return replace(opinion, casefile=replace(opinion.casefile, **changes))


def with_ratio(opinion, at, log10_lr, band):
    """One conclusion moved."""
    conclusions = list(opinion.weighed)
    conclusions[at] = with_lr(conclusions[at], log10_lr, band)
    return with_conclusions(opinion, *conclusions)


def text_of(before, now, printed, because=WHY):
    return report_text(supplement_outline(issued_of(before), now, because, printed))


def test_an_opinion_kept_as_json_is_read_again(opinion):
    assert parse_issued(render_opinion(opinion), "kept.json") == issued_of(opinion)


def test_an_opinion_kept_before_it_said_what_can_be_told_has_the_same_standings(opinion):
    """Of the items that nothing bore on a ratio of 1 was kept; the claimed paint is one."""
    document = json.loads(render_opinion(opinion))
    told = [each.pop("can_be_told") for each in document["answer"]["conclusions"]]
    assert set(told) == {True, False}
    assert parse_issued(json.dumps(document), "kept.json").conclusions == (
        issued_of(opinion).conclusions
    )


def test_the_digest_does_not_hang_on_spaces_and_line_ends(opinion):
    text = render_opinion(opinion)
    assert opinion_digest(text) == opinion_digest(json.dumps(json.loads(text)) + "\n\n")
    assert opinion_digest(text) != opinion_digest(render_opinion(with_case(opinion, title="x")))


def test_the_digests_are_of_values_in_six_figures_and_tell_the_answer_apart(opinion):
    """So that they are the same on every machine; the answer's own holds no band."""
    text = render_opinion(opinion)
    hair = text.replace('"log10_lr": 1.33', '"log10_lr": 1.3300000001')
    assert (opinion_digest(hair), answer_digest(hair)) == (
        opinion_digest(text),
        answer_digest(text),
    )
    steadier = render_opinion(with_ratio(opinion, 0, 1.33, (1.0, 2.0)))
    assert answer_digest(steadier) == answer_digest(text)
    assert opinion_digest(steadier) != opinion_digest(text)


def test_the_issued_report_stands_unaltered_and_is_named_by_its_digest(opinion, printed):
    text = text_of(opinion, opinion, printed)
    assert "The issued report is not altered" in text
    assert f"SHA-256 of its Opinion: {grouped(opinion_digest(render_opinion(opinion)))}" in text
    assert f"Why this supplement: {WHY}." in text


def test_where_nothing_changed_it_says_so(opinion, printed):
    text = text_of(opinion, opinion, printed)
    assert "Nothing in the case changed." in text
    assert "The code book is the same, to the digest of its files." in text
    assert text.count("| Nothing.") == len(opinion.answer.conclusions)


def test_every_conclusion_stands_as_issued_and_now(opinion, printed):
    now = with_ratio(opinion, 0, 2.3, (1.1, 3.0))
    assert (
        "Identity: the frame / This frame left the factory as the claimed car. | Weak support for "
        "the first proposition / LR 21, 4 to 140 | Moderate support for the first proposition / "
        "LR 190, 12 to 1,000 | Its words change."
    ) in text_of(opinion, now, printed)


def test_a_question_no_longer_asked_or_asked_anew_is_told(opinion, printed):
    fewer = with_conclusions(opinion, *opinion.weighed[1:])
    assert "| not asked | No longer asked." in text_of(opinion, fewer, printed)
    assert "| Asked for the first time." in text_of(fewer, opinion, printed)


def test_that_a_question_can_be_established_now_is_told(opinion, printed):
    now = with_ratio(opinion, 5, 0.94, (0.7, 1.0))
    assert "Its words change." in text_of(opinion, now, printed)


def test_figures_that_move_within_the_same_words_are_told(opinion, printed):
    now = with_ratio(opinion, 0, 1.4, (0.61, 2.12))
    assert "The figures change; the words do not." in text_of(opinion, now, printed)


def test_another_version_of_the_book_is_told(opinion, printed):
    now = replace(opinion, book=replace(opinion.book, version="2027-01-01"))
    told = "The code book changed from version 2026-11-25 to version 2027-01-01."
    assert told in text_of(opinion, now, printed)


def test_what_was_added_withdrawn_and_changed_stands_entry_by_entry(opinion, printed):
    case = opinion.casefile
    again = MarkReading(mark="engine_number", text="20718", by="T. Second", seen=Seen.PHOTOGRAPH)
    now = with_case(
        opinion,
        readings=(*case.readings, again),
        looks=case.looks[:1],
        papers=(case.papers[0], Paper(mark="despatch_ledger", state=PaperState.REFUSED)),
    )
    text = text_of(opinion, now, printed)
    assert "One entry added; one entry withdrawn; one entry changed." in text
    assert "Reading / engine number | Added | nothing | 20718;" in text
    assert "Look / engine deck | Withdrawn | feature: machining; outcome: disturbed;" in text
    assert "| Changed | state: asked for and awaited | state: refused" in text


@pytest.mark.parametrize(
    ("changes", "part"),
    [
        ({"title": "Another"}, CasePart.OTHER),
        ({"looks": ()}, CasePart.LOOK),
        ({"sites": ()}, CasePart.SITE),
        ({"exhibits": ()}, CasePart.EXHIBIT),
        ({"papers": ()}, CasePart.PAPER),
        ({"readings": ()}, CasePart.READING),
    ],
)
def test_a_change_is_told_under_its_part_and_the_other_way_round(opinion, changes, part):
    before = opinion.casefile
    now = replace(before, **changes)
    there, back = case_changes(before, now), case_changes(now, before)
    assert {each.part for each in there} == {part}
    assert [(each.before, each.now) for each in there] == [(b.now, b.before) for b in back]


def test_a_statement_and_the_rest_of_the_claim_are_told_apart(opinion):
    case = opinion.casefile
    claim = replace(case.claim, statements=(), text="Another")
    found = case_changes(case, replace(case, claim=claim))
    assert [(each.part, each.kind) for each in found] == [
        (CasePart.CLAIM, ChangeKind.CHANGED),
        (CasePart.STATEMENT, ChangeKind.WITHDRAWN),
    ]


def test_fields_of_a_case_stand_in_words_and_values_as_a_reader_writes_them(opinion):
    case = opinion.casefile
    later = Statement(about="engine", says="Another.", origin=OriginSaid.REPLACED)
    stated = StatedPrior(question="core engine", odds=2.0, reason="by the invoice")
    now = replace(
        case,
        stakes=Stakes(price_asked=165000.0, currency="EUR"),
        circumstances=Circumstances(prior_odds=(stated,)),
        claim=replace(case.claim, statements=(later,)),
        looks=(LookSeen(site="scuttle", feature="paint_edge", outcome="unbroken_line"),),
        assignment=replace(case.assignment, minutes_available=90),
    )
    told = " / ".join(each.now for each in case_changes(case, now))
    assert "price asked: 165,000, currency: EUR" in told
    assert "question: assembly: engine, odds: 2, reason: by the invoice" in told
    assert "Another.; said to be: replaced" in told
    assert "feature: paint edge; outcome: unbroken line; seen: in person" in told


def test_what_format_2_says_stands_in_words_and_nothing_that_it_does_not_say(opinion):
    """A reading that was not made again, and of which nobody noted what was known, says neither."""
    case = opinion.casefile
    engine = MarkReading(mark="engine_number", text="20718", by="T. Second")
    blind = replace(engine, again=True, claim_known=False)
    told = [
        " / ".join(each.now for each in case_changes(case, replace(case, **changes)))
        for changes in (
            {"readings": (*case.readings, engine)},
            {"readings": (*case.readings, blind)},
            {"circumstances": Circumstances(vouched=(VOUCHED,))},
            {"claim": replace(case.claim, statements=(DECLARED,))},
        )
    ]
    assert "again" not in told[0] + told[2]
    assert "said to be: supplied new; said to have been: refitted; done: by a dealer" in told[3]
    assert "read again: yes; claimed number known to the reader: no; by: T. Second" in told[1]
    assert "The row axles:BU of the code book is from memory and vouched for by IL: why." in told[2]


def test_every_field_of_a_case_has_a_word_on_the_page():
    records = [each for each in vars(kept).values() if isinstance(each, type)]
    fields = {name for each in records for name in getattr(each, "columns", {})}
    assert fields == set(FIELD_WORDS)


@given(st.text())
def test_a_field_that_is_unknown_keeps_its_name(name):
    assert field_word(name) == FIELD_WORDS.get(name, plain_name(name))


@pytest.mark.parametrize(
    ("question", "words"),
    [
        ("identity", "identity"),
        ("paper ledger", "paper: ledger"),
        ("rear_axle", "rear axle"),
        ("car", "car"),
        ("", ""),
    ],
)
def test_a_question_is_told_by_its_kind_by_what_it_is_about_or_by_both(question, words):
    assert question_words(question, Names()) == words


def test_two_looks_at_one_feature_are_both_followed(opinion):
    case = opinion.casefile
    two = tuple(LookSeen(site="scuttle", outcome=o) for o in ("factory", "doubtful"))
    before = replace(case, looks=two)
    (change,) = case_changes(before, replace(case, looks=two[:1]))
    assert (change.kind, change.before) == (
        ChangeKind.WITHDRAWN,
        "feature: surface; outcome: doubtful; seen: in person",
    )


def differs_before(opinion, outcome):
    """The opinion as if the finding on the engine had come out so when it was issued."""
    findings = tuple(
        replace(each, outcome=outcome) if each.topic == "engine_number" else each
        for each in opinion.findings
    )
    return replace(opinion, findings=findings)


def section_of(before, now, printed):
    return text_of(before, now, printed).partition("2. What newly differs")[2].partition("\n3. ")[0]


def test_what_newly_differs_or_agrees_is_listed(opinion, printed):
    agreed = differs_before(opinion, Outcome.AGREE)
    seen = "- The plate shows engine number 20713 and the engine is struck 20718."
    there, back = section_of(agreed, opinion, printed), section_of(opinion, agreed, printed)
    assert seen in there.partition("Newly differs")[2].partition("Newly agrees")[0]
    assert "Nothing newly agrees." in there
    assert seen in back.partition("Newly agrees")[2]
    assert "Nothing newly differs." in back
    assert "no longer differ: 1." in back
    alike = section_of(opinion, opinion, printed)
    assert "Nothing newly differs." in alike
    assert "Nothing newly agrees." in alike
    assert "no longer" not in alike


def test_an_opinion_kept_without_its_findings_is_told_to_be_so(opinion, printed):
    document = json.loads(render_opinion(opinion))
    del document["findings"]
    issued = parse_issued(json.dumps(document), "kept.json")
    text = report_text(supplement_outline(issued, opinion, WHY, printed))
    assert "was kept without its findings" in text
    assert "Newly differs" not in text


def test_a_reading_that_was_added_says_how_it_stands_to_the_rest(opinion, printed):
    case = opinion.casefile
    for mark, told in (
        ("engine_number", "/ Now differs from: brass chassis plate.\n"),
        ("wing_body_number", "/ Now agrees, in all that was compared, with: "),
        ("no_such_mark", "/ Neither differs from the rest nor agrees with it.\n"),
    ):
        again = MarkReading(mark=mark, text="20718", by="T. Second", seen=Seen.PHOTOGRAPH)
        now = with_case(opinion, readings=(*case.readings, again))
        assert told in text_of(opinion, now, printed)
        assert told not in text_of(now, opinion, printed)


def test_it_says_nothing_that_is_never_said(opinion, printed):
    assert never_said(text_of(opinion, with_case(opinion, looks=()), printed)) == ()


def test_it_is_printed_with_a_line_to_sign(opinion, printed):
    done = print_outline(supplement_outline(issued_of(opinion), opinion, WHY, printed), (), printed)
    assert done.warnings == ()
    text = " ".join(page_texts(done.pdf))
    assert "Supplement to a report of examination" in text
    assert "I. Larkin" in text


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "kept.json:1:1: it is not an Opinion that can be read: it is not JSON"),
        ('{"a":\n tru}', "kept.json:2:2: "),
        ("[1]", "it does not say that its format is witnessmark-opinion"),
        ('{"format": "witnessmark-opinion", "format_version": 1}', "weighing: Field required"),
        (
            '{"format": "witnessmark-opinion"}',
            "its format_version is None, and 1 to 3 can be read",
        ),
        ('{"format": "witnessmark-opinion", "format_version": 99}', "its format_version is 99"),
        ("9" * 5_000, "a number in it has too many figures"),
        ("[" * 100_000, "it is nested too deeply"),
    ],
)
def test_what_is_no_opinion_is_told_with_its_place(text, told):
    found = parse_issued(text, "kept.json")
    assert isinstance(found, NoOpinion)
    assert told in found.render()


@pytest.mark.parametrize("ratio", ["NaN", "Infinity", "1e999", "1e9"])
def test_a_ratio_that_cannot_be_written_is_no_ratio(opinion, ratio):
    text = render_opinion(opinion).replace('"log10_lr": 1.33', f'"log10_lr": {ratio}', 1)
    assert ratio in text
    assert isinstance(parse_issued(text, "kept.json"), NoOpinion)


def test_bounds_the_wrong_way_round_are_no_bounds(opinion):
    text = render_opinion(opinion)
    document = json.loads(text)
    lr = document["steadiness"]["answers"][0]
    lr["log10_lr_low"], lr["log10_lr_high"] = lr["log10_lr_high"], lr["log10_lr_low"]
    assert lr["log10_lr_low"] > lr["log10_lr_high"]
    assert isinstance(parse_issued(json.dumps(document), "kept.json"), NoOpinion)


def test_a_field_longer_than_any_of_a_case_is_shown_by_its_beginning(opinion, printed):
    document = json.loads(render_opinion(opinion))
    document["casefile"]["more"] = "x y " * 100_000
    issued = parse_issued(json.dumps(document), "kept.json")
    text = report_text(supplement_outline(issued, opinion, WHY, printed))
    assert "(400,000 characters; the full text is in the case)" in text
    assert len(text) < 20_000


@given(
    st.text()
    | st.recursive(
        st.none() | st.booleans() | st.floats() | st.text(),
        lambda inner: (
            st.lists(inner)
            | st.dictionaries(
                st.sampled_from(("format", "casefile", "answer", "steadiness", "book")) | st.text(),
                inner,
            )
        ),
    ).map(json.dumps)
)
def test_whatever_stands_in_a_file_it_is_an_opinion_or_a_problem(text):
    found = parse_issued(text, "kept.json")
    assert isinstance(found, Issued) or found.render()


def test_a_supplement_is_the_next_issue_of_its_report(opinion, printed):
    """Under the same number; where the first had none, nothing is asked for."""
    case, here = opinion.casefile, Source("case.json", 3)

    def now(number, issue):
        return replace(case, report=replace(case.report, number=number, issue=issue))

    assert not_the_next_issue(case, now("26-031", 2), here) is None
    assert not_the_next_issue(now("", 1), now("", 1), here) is None
    for number, issue, told in (
        ("26-031", 1, "26-031, issue 1"),
        ("26-031", 3, "26-031, issue 3"),
        ("26-032", 2, "26-032, issue 2"),
        ("", 2, "no number, issue 2"),
    ):
        assert not_the_next_issue(case, now(number, issue), here).render() == (
            f"case.json:3: the report was issued as 26-031, issue 1, and this case says {told}\n"
            'expected in "report": "number" \'26-031\', "issue" 2, '
            "and the day on which it is issued"
        )


def test_a_supplement_names_its_own_issue_and_the_one_it_follows(opinion, printed):
    second = replace(opinion.casefile.report, issue=2, date=printed)
    text = text_of(opinion, with_case(opinion, report=second), printed)
    assert "Report 26-031, issue 2" in text
    assert "Date of issue: 14 May 2026" in text
    assert text.index("Supplement to: ") < text.index("Report: 26-031, issue 1")
    assert "Date of issue: 20 May 2026" in text
    assert "Nothing in the case changed." in text
