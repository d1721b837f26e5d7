"""What the codes say together is something that the works built."""

from dataclasses import replace

import pytest

from witnessmark.agreement import Outcome
from witnessmark.agreement.rules.combination_of_codes import compare
from witnessmark.codebook import (
    Applies,
    Basis,
    Citation,
    CodeRow,
    Condition,
    Field,
    Item,
    ItemKind,
    MarkKind,
    Rule,
)


@pytest.fixture
def rules(book):
    """The demonstration book with only these rules of its own."""

    def keep(*ids):
        return replace(book, rules=tuple(rule for rule in book.rules if rule.id in ids))

    return keep


def test_a_forbidden_combination_on_one_paper_differs_and_says_where_it_was_read(car, rules):
    [found] = compare(
        car(
            of_book=rules("sprint-not-by-ellery"),
            despatch_ledger="700137|4|40033|E|2300|18|060655",
        )
    )
    assert found.outcome is Outcome.DIFFER
    assert found.strength == "firm"
    assert found.topic == "sprint-not-by-ellery"
    assert found.observation == (
        "Model: the despatch ledger entry reads 4 (Solent Sprint, two litres); "
        "coachbuilder: the despatch ledger entry reads E (body by Ellery). "
        "The book's rule: Ellery never bodied the Sprint."
    )
    assert found.inference == ("The combination is not consistent with what the works built.")


def test_a_forbidden_combination_across_two_marks_differs(car, rules):
    [found] = compare(
        car(
            of_book=rules("sprint-not-by-ellery"),
            plate_brass="SP|700137|40033|18|L2|390|_",
            wing_body_number="E 2300",
        )
    )
    assert found.outcome is Outcome.DIFFER
    assert {s.mark for s in found.subjects} == {"plate_brass", "wing_body_number"}


def test_a_paper_that_keeps_the_rule_does_not_hide_two_marks_that_break_it(car, rules):
    findings = compare(
        car(
            of_book=rules("sprint-not-by-ellery"),
            plate_brass="SP|700137|40033|18|L2|390|_",
            wing_body_number="E 2300",
            despatch_ledger="700137|4|40033|M|0912|18|060655",
        )
    )
    assert [f.outcome for f in findings] == [Outcome.AGREE, Outcome.DIFFER]


def test_an_allowed_combination_that_was_read_agrees(car, rules):
    [found] = compare(
        car(of_book=rules("sprint-leather"), plate_brass="SP|700137|40033|18|L2|390|_")
    )
    assert found.outcome is Outcome.AGREE
    [found] = compare(
        car(of_book=rules("sprint-leather"), plate_brass="SP|700137|40033|18|C1|390|_")
    )
    assert found.outcome is Outcome.DIFFER


def test_a_usual_combination_that_is_broken_names_the_exceptions(car, rules):
    [found] = compare(
        car(of_book=rules("sprint-tall-axle"), plate_brass="SP|700137|40033|18|L2|455|_")
    )
    assert found.outcome is Outcome.DIFFER
    assert found.strength == "usual"
    assert found.inference.endswith("usually built, and the book knows of exceptions.")


def test_what_is_read_on_a_mark_goes_before_what_is_claimed(car, rules):
    findings = compare(
        car(of_book=rules("sprint-leather"), plate_brass="SD|522001|10001|11|C1|390|_")
    )
    assert findings == ()


def test_a_rule_whose_values_are_only_claimed_is_tested_and_says_so(car, rules):
    claim = {"model": "solent-sprint", "model_year": "1955", "body_works": "ellery"}
    [found] = compare(car(claim, of_book=rules("sprint-not-by-ellery")))
    assert found.outcome is Outcome.DIFFER
    assert found.observation.endswith("Both values come from the claim alone.")


def test_a_rule_is_silent_where_the_second_item_is_neither_read_nor_claimed(car, rules):
    [found] = compare(car(of_book=rules("sprint-leather"), frame_number="4 700137"))
    assert found.outcome is Outcome.SILENT
    assert "The trim was neither read nor claimed." in found.observation


def test_a_rule_does_not_speak_of_a_car_that_does_not_meet_its_condition(car, rules):
    claim = {"model": "solent-saloon", "model_year": "1955"}
    assert compare(car(claim, of_book=rules("sprint-leather"), frame_number="1 550123")) == ()


def test_a_code_that_is_half_read_leaves_the_rule_undecided(car, rules):
    [found] = compare(
        car(of_book=rules("sprint-leather"), plate_brass="SP|700137|40033|18|[LC]1|390|_")
    )
    assert found.outcome is Outcome.UNDECIDED
    assert 0.05 < found.agreement_share < 0.95


def test_a_code_that_the_book_does_not_list_is_not_held_against_the_car(car, rules):
    [found] = compare(
        car(of_book=rules("sprint-leather"), plate_brass="SP|700137|40033|18|Z9|390|_")
    )
    assert found.outcome in (Outcome.SILENT, Outcome.UNDECIDED)


def test_a_rule_for_other_years_does_not_speak(car, book):
    rule = Rule(
        id="late",
        sentence="Late Sprints had cloth",
        kind="allowed",
        if_item="model",
        if_values=frozenset({"solent-sprint"}),
        then_item="trim",
        then_values=frozenset({"grey-cloth"}),
        strength="firm",
        applies=Applies(1957, 1957),
        citation=Citation(Basis.INVENTED, "demo"),
    )
    plate = "SP|700137|40033|18|L2|390|_"
    assert compare(car(of_book=replace(book, rules=(rule,)), plate_brass=plate)) == ()


THREE = Rule(
    id="silver-sprint-leather",
    sentence="A Sprint in Mist Silver with a tall axle had red leather",
    kind="allowed",
    if_item="model",
    if_values=frozenset({"solent-sprint"}),
    then_item="trim",
    then_values=frozenset({"red-leather"}),
    strength="firm",
    applies=Applies(1952, 1961),
    citation=Citation(Basis.INVENTED, "demo"),
    also=(
        Condition("paint", frozenset({"mist-silver"})),
        Condition("axle_ratio", frozenset({"3-70", "3-90"})),
    ),
)


@pytest.mark.parametrize(
    ("plate", "outcome"),
    [
        ("SP|700137|40033|18|L3|390|_", Outcome.AGREE),
        ("SP|700137|40033|18|L2|390|_", Outcome.DIFFER),
        ("SP|700137|40033|18|L2|455|_", None),  # not the axle of the rule
        ("SP|700137|40033|11|L2|390|_", None),  # not its paint
        ("SP|700137|40033|??|L2|390|_", None),  # its paint is not known
        ("SP|700137|40033|18|??|390|_", Outcome.SILENT),
    ],
)
def test_a_rule_of_several_conditions_speaks_where_all_are_known_to_hold(car, book, plate, outcome):
    found = compare(car(of_book=replace(book, rules=(THREE,)), plate_brass=plate))
    assert [each.outcome for each in found] == ([outcome] if outcome else [])


def test_all_that_a_rule_asked_is_told_with_where_it_was_read(car, book):
    [found] = compare(
        car(
            of_book=replace(book, rules=(THREE,)),
            plate_brass="SP|700137|40033|18|L2|390|_",
            despatch_ledger="700137|4|40033|M|0912|18|060655",
        )
    )
    assert [each.field for each in found.subjects] == ["type", "paint", "axle", "trim"]
    assert {each.mark for each in found.subjects} == {"plate_brass"}
    assert found.observation.count(";") == 3


CAST_FOR = Rule(
    id="block-of-the-small-engine",
    sentence="Block 1017 is of the one and a half litre engine",
    kind="allowed",
    if_item="block_casting",
    if_values=frozenset({"1017"}),
    then_item="engine",
    then_values=frozenset({"one-and-a-half"}),
    strength="firm",
    applies=Applies(1952, 1961),
    citation=Citation(Basis.INVENTED, "demo"),
)


@pytest.fixture
def engines(book):
    """The demonstration book whose engines are named by a stamp, a paper and a casting."""
    cited = Citation(Basis.INVENTED, "demo")

    def rows(table, *codes):
        every = Applies(1952, 1961)
        return tuple(
            CodeRow(table=table, code=c, value=v, meaning=v, applies=every, citation=cited)
            for c, v in codes
        )

    def marked(mark_id, kind, says, table):
        found = next(mark for mark in book.marks if mark.id == "wing_body_number")
        field = Field(
            id="code", name="code", says=says, widths=(1, 4), alphabet="0123456789SL", table=table
        )
        return replace(found, id=mark_id, name=mark_id, kind=kind, windows=False, fields=(field,),
                       assembly="", applies=Applies(1952, 1961))  # fmt: skip

    return replace(
        book,
        items=(
            *book.items,
            Item(
                id="block_casting",
                name="casting number of the block",
                kind=ItemKind.CODE,
                home="engine",
            ),
            Item(id="engine", name="engine", kind=ItemKind.CODE),
        ),
        codes=(
            *rows("castings", ("1017", "1017"), ("2020", "2020")),
            *rows("engines", ("S", "one-and-a-half"), ("L", "two-litre")),
        ),
        rules=(CAST_FOR,),
        marks=(
            marked("block", MarkKind.CASTING, "block_casting", "castings"),
            marked("pad", MarkKind.STAMPING, "engine", "engines"),
            marked("card", MarkKind.PAPER, "engine", "engines"),
        ),
    )


@pytest.mark.parametrize("named", ["pad", "card", "claim"])
@pytest.mark.parametrize(
    ("block", "engine", "outcomes"),
    [("1017", "S", [Outcome.AGREE]), ("1017", "L", [Outcome.DIFFER]), ("2020", "L", [])],
)
def test_a_casting_is_checked_against_the_engine_that_anything_names(
    car, engines, named, block, engine, outcomes
):
    """A pad, a paper, or where neither says so the claim."""
    claim = {"engine": {"S": "one-and-a-half", "L": "two-litre"}[engine]}
    marks = {} if named == "claim" else {named: engine}
    of_car = car(claim if named == "claim" else {}, of_book=engines, block=block, **marks)
    found = compare(of_car)
    assert [each.outcome for each in found] == outcomes
    assert {s.mark for each in found for s in each.subjects} == (
        {"block", named} if outcomes else set()
    )


def test_a_casting_is_checked_against_pad_and_paper_where_they_differ(car, engines):
    found = compare(car({}, of_book=engines, block="1017", pad="S", card="L"))
    assert {(each.subjects[1].mark, each.outcome) for each in found} == {
        ("pad", Outcome.AGREE),
        ("card", Outcome.DIFFER),
    }
