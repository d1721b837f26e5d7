"""Letters and digits in their places, makers of few vehicles, regions."""

import pytest

from witnessmark.codebook import Basis


def said(notes, kind):
    return [note.sentence for note in notes if note.kind == kind]


def test_the_older_structure_is_recognised(noted):
    assert said(noted("1AAAA1110B1111111"), "structure") == [
        "Letters in positions 4 and 5, digits in 6 and 7: as under the older rule."
    ]


def test_a_place_that_does_not_fit_the_older_structure_is_named(noted):
    assert said(noted("1AA1A1110B1111111"), "structure") == [
        "A digit was read in position 4, where cars and light vehicles under the older rule "
        "(a digit in position 7) have a letter."
    ]
    assert said(noted("1AA11B110B1111111"), "structure") == [
        "A digit was read in positions 4 and 5, where cars and light vehicles under the older "
        "rule (a digit in position 7) have a letter.",
        "A letter was read in position 6, where cars and light vehicles under the older rule "
        "(a digit in position 7) have a digit.",
    ]


def test_a_letter_in_position_7_is_the_current_structure_and_leaves_4_to_6_free(noted):
    assert said(noted("1AA11BA10B1111111"), "structure") == [
        "A letter in position 7, as under the current rule, which leaves 4 to 6 free."
    ]


@pytest.mark.parametrize(
    ("text", "mark"),
    [("1AA11B110B1111111", "vehicle_number_other"), ("WAA11B110B1111111", "vehicle_number")],
)
def test_where_the_rule_for_cars_does_not_apply_nothing_is_said_of_4_to_7(noted, text, mark):
    assert said(noted(text, mark), "structure") == []


def test_a_letter_among_the_last_characters_is_told_from_memory_and_weighs_nothing(noted):
    (note,) = (n for n in noted("1AAAA1110B11A1111") if "last" in n.sentence)
    assert note.sentence == (
        "A letter was read in position 13; the last 5 characters are digits. From memory: "
        "it explains but carries no weight."
    )
    assert note.basis is Basis.MEMORY
    assert not [
        n for n in noted("1AAAA1110B11A1111", "vehicle_number_other") if "last" in n.sentence
    ]


@pytest.mark.parametrize(("letter", "digit"), [("O", "0"), ("I", "1"), ("Q", "0"), ("o", "0")])
def test_a_letter_that_the_rule_never_uses_is_told_where_it_was_typed(noted, letter, digit):
    (sentence,) = (s for s in said(noted(f"1A{letter}AA1110B1111111"), "structure") if "typed" in s)
    assert sentence.startswith(
        f"At position 3 {letter.upper()} was typed, which the rule never uses; it was taken as "
        f"{digit}, which looks like it."
    )
    assert "not under this rule may well have the letter" in sentence


def test_a_9_in_position_3_joins_positions_12_to_14_to_the_maker_code(noted):
    sentence, _ = said(noted("1A9AA1110B1234567", "vehicle_number_other"), "maker")
    assert "the maker code is 1A9 with 234 of positions 12 to 14" in sentence
    assert "the sequence is positions 15 to 17 alone" in sentence
    assert not any("Position 3" in s for s in said(noted("1A8AA1110B1234567"), "maker"))


def test_a_possible_9_in_position_3_is_told_as_possible(noted):
    sentence, _ = said(noted("1A[49]AA1110B1234567"), "maker")
    assert sentence.startswith("If position 3 is a 9, ")


@pytest.mark.parametrize(
    ("first", "region"),
    [
        ("A", "Africa."),
        ("J", "Asia."),
        ("L", "Asia: China."),
        ("S", "Europe."),
        ("1", "North America: United States."),
        ("2", "North America: Canada."),
        ("3", "North America: Mexico."),
        ("6", "Oceania: Australia."),
        ("9", "South America."),
    ],
)
def test_the_first_character_names_the_region(noted, first, region):
    (sentence,) = said(noted(f"{first}AAAA1110B1111111"), "maker")
    assert sentence.startswith(f"Position 1 reads {first}, which stands for {region}")


def test_where_the_sources_differ_on_a_region_both_are_told(noted):
    (sentence,) = said(noted("EAAAA1110B1111111"), "maker")
    assert "another gives Africa A to D alone" in sentence


def test_an_unsure_first_character_names_each_region(noted):
    assert [s[:34] for s in said(noted("[S5]AAAA1110B1111111"), "maker")] == [
        "If position 1 is S, it stands for ",
        "If position 1 is 5, it stands for ",
    ]
