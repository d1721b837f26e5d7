"""What holds for every rule, whatever was read."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import witnessmark.agreement.rules
from tests.examples import tried_on
from witnessmark.agreement import RULES, Outcome, compare
from witnessmark.agreement.rules import same_item_on_two_marks
from witnessmark.casefile import Paper, PaperState

NEVER_SAID = re.compile(
    r"\b(fake|genuine|forged|forgery|stolen|guaranteed|matches|matching)\b", re.I
)
SIGNS = {"digit": "0123456789", "letter": "ELMSPADX"}
FIELDS = {
    "plate_brass": ("aa", "dddddd", "ddddd", "dd", "ad", "ddd", "a"),
    "frame_number": ("d dddddd",),
    "wing_body_number": ("a dddd",),
    "seat_body_number": ("a dddd",),
    "engine_number": ("a ddddd",),
    "engine_casting": ("ddad",),
    "gearbox_stamp": ("ddddd ddd",),
    "axle_stamp": ("ddddd dddd",),
    "despatch_ledger": ("dddddd", "d", "ddddd", "a", "dddd", "dd", "dddddd"),
}
CLAIM = {
    "chassis_number": "700137",
    "model": "solent-sprint",
    "model_year": "1955",
    "body_works": "marrick",
    "extras": "heater",
}


@st.composite
def cells(draw, kind):
    """One place: a clear character, one of two, or a sign of the notation."""
    characters = SIGNS["digit" if kind == "d" else "letter"]
    clear = st.sampled_from(characters)
    pair = st.lists(clear, min_size=2, max_size=2, unique=True).map(lambda p: f"[{''.join(p)}]")
    return draw(st.one_of(clear, clear, clear, pair, st.sampled_from("?~_…")))


@st.composite
def readings(draw):
    """Some marks of a car, each typed as the notation allows."""
    marks = draw(st.lists(st.sampled_from(sorted(FIELDS)), min_size=1, max_size=5, unique=True))
    texts = {}
    for mark in marks:
        windows = [
            "".join(" " if kind == " " else draw(cells(kind)) for kind in shape)
            for shape in FIELDS[mark]
        ]
        texts[mark] = "|".join(windows)
    return texts


def test_every_file_in_rules_is_a_rule_that_is_run():
    folder = Path(witnessmark.agreement.rules.__file__).parent
    files = {file.stem for file in folder.glob("*.py")} - {"__init__"}
    assert {rule.id for rule in RULES} == files
    assert len(RULES) == len(files)


def test_a_car_of_which_nothing_was_read_or_claimed_has_no_findings(car):
    assert compare(car({})) == ()


@tried_on(40, few=8)
@given(texts=readings())
def test_every_finding_is_well_formed(car, texts):
    known = {rule.id for rule in RULES}
    for found in compare(car(CLAIM, built="1955-06", title="700137", **texts)):
        assert found.rule in known
        assert found.agreement_share is None or 0 <= found.agreement_share <= 1
        assert (found.agreement_share is None) >= (found.outcome is Outcome.SILENT)
        assert found.subjects
        for text in (found.observation, found.inference):
            assert text.endswith(".")
            assert "  " not in text
            assert not NEVER_SAID.search(text)


@tried_on(25, few=8)
@given(texts=readings(), data=st.data())
def test_the_order_of_entry_changes_nothing(car, texts, data):
    doubled = {mark: (text, text[::-1]) for mark, text in texts.items() if "[" not in text}
    entered = {**texts, **doubled}
    order = data.draw(st.permutations(sorted(entered)))
    shuffled = {
        mark: entered[mark][::-1] if isinstance(entered[mark], tuple) else entered[mark]
        for mark in order
    }
    assert compare(car(CLAIM, **shuffled)) == compare(car(CLAIM, **entered))


@tried_on(40, few=8)
@given(texts=readings(), marks=st.sets(st.sampled_from(sorted(FIELDS)), min_size=1))
def test_a_fully_worn_reading_is_silent_everywhere(car, texts, marks):
    worn = {mark: "|".join(re.sub("[ad]", "?", f) for f in FIELDS[mark]) for mark in marks}
    for found in compare(car(CLAIM, built="1955-06", title="700137", **{**texts, **worn})):
        if {s.mark for s in found.subjects} & marks and found.rule != "paper_against_plate":
            assert found.outcome is Outcome.SILENT, found
        if {s.mark for s in found.subjects} <= marks | {"claim"} and found.rule == (
            "paper_against_plate"
        ):
            assert found.outcome is Outcome.SILENT, found


@tried_on(40, few=8)
@given(texts=readings())
def test_a_worn_reading_added_to_a_car_changes_no_other_finding(car, texts):
    extra = "engine_number" if "engine_number" not in texts else "axle_stamp"
    before = {m: t for m, t in texts.items() if m != extra}
    worn = re.sub("[ad]", "?", FIELDS[extra][0])
    with_worn = [
        found
        for found in compare(car(CLAIM, **before, **{extra: worn}))
        if extra not in {s.mark for s in found.subjects}
    ]
    assert with_worn == list(compare(car(CLAIM, **before)))


@tried_on(25, few=8)
@given(texts=readings(), data=st.data())
def test_relabelling_the_marks_changes_only_their_names(car, book, texts, data):
    ids = [mark.id for mark in book.marks]
    names = data.draw(st.permutations([f"mark_{i}" for i in range(len(ids))]))
    new = dict(zip(ids, names, strict=True))
    relabelled = replace(book, marks=tuple(replace(mark, id=new[mark.id]) for mark in book.marks))
    was = compare(car(CLAIM, **texts))
    now = compare(car(CLAIM, of_book=relabelled, **{new[m]: t for m, t in texts.items()}))
    assert [(f.rule, f.outcome, f.agreement_share, f.observation) for f in was] == [
        (f.rule, f.outcome, f.agreement_share, f.observation) for f in now
    ]


@tried_on(20, few=8)
@given(texts=readings(), data=st.data())
def test_relabelling_the_alphabet_changes_no_share(car, book, texts, data):
    order = "".join(data.draw(st.permutations("0123456789")))
    shuffled = replace(book, items=tuple(replace(item, alphabet=order) for item in book.items))
    was = same_item_on_two_marks.compare(car(CLAIM, **texts))
    now = same_item_on_two_marks.compare(car(CLAIM, of_book=shuffled, **texts))
    for before, after in zip(was, now, strict=True):
        assert before.outcome is after.outcome
        assert before.agreement_share == pytest.approx(after.agreement_share)


def test_what_rests_on_memory_says_so_in_every_rule(car, book_from_memory):
    findings = compare(
        car(
            CLAIM,
            of_book=book_from_memory,
            built="1955-06",
            title="700137",
            papers=(Paper(mark="despatch_ledger", state=PaperState.IN_HAND),),
            plate_brass="SP|700137|40033|18|L2|390|_",
            axle_stamp="32001 1200",
            despatch_ledger="700137|4|40033|M|0912|18|060655",
        )
    )
    argued = [f for f in findings if {s.mark for s in f.subjects} - {"claim", "title"}]
    assert {f.rule for f in argued} >= {
        "same_item_on_two_marks",
        "paper_against_plate",
        "title_against_car",
        "code_of_its_years",
        "number_in_its_series",
        "combination_of_codes",
        "dates_in_order",
    }
    for found in argued:
        assert not found.basis.weighs, found
        assert found.inference.endswith("it explains but carries no weight."), found
