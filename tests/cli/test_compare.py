"""`witnessmark compare`: the careful amateur's first look."""

import json

BOOK = "tarvane-1952-1961"
PLATE = "plate_brass=SS|700143|10118|07|R2|39/11|_"


def test_numbers_that_agree_are_said_to_agree_and_no_more(type_in):
    """Frame and ledger say the same chassis number."""
    ended = type_in("compare", BOOK, "frame_number=3700143", PLATE)
    assert (ended.code, ended.err) == (0, "")
    assert "What agrees" in ended.out
    assert "consistent with" in ended.out
    assert "What this does not show" in ended.out


def test_numbers_that_differ_are_shown_side_by_side(type_in):
    """One clear digit is another."""
    ended = type_in("compare", BOOK, "frame_number=3700148", PLATE)
    assert "What differs" in ended.out
    differing = ended.out.split("What differs")[1]
    assert "700148" in differing
    assert "700143" in differing


def test_what_agrees_stands_before_the_reasons(type_in):
    """What the numbers say, then why, then what that does not show."""
    out = type_in("compare", BOOK, "frame_number=3700143", PLATE).out
    order = [out.index(text) for text in ("agree", "What was typed", "What this does not show")]
    assert order == sorted(order)


def test_json_has_findings_and_what_they_do_not_show(type_in):
    """witnessmark compare ... --json"""
    ended = type_in("compare", BOOK, "frame_number=3700143", PLATE, "--year", "1955", "--json")
    outline = json.loads(ended.out)
    assert list(outline) == ["book", "beside", "year", "decodings", "findings", "does_not_show"]
    assert outline["year"] == 1955
    assert [each["mark"] for each in outline["decodings"]] == ["frame_number", "plate_brass"]
    assert list(outline["findings"][0]) == [
        "rule", "topic", "outcome", "subjects", "observation", "inference", "basis", "source",
        "agreement_share", "strength",
    ]  # fmt: skip
    assert outline["does_not_show"]


def test_all_faults_of_all_pairs_are_shown_at_once(type_in):
    """No equals sign, an unknown mark, a set that is not closed."""
    ended = type_in("compare", BOOK, "3700143", "fram_number=3700143", "frame_number=37[0")
    assert (ended.code, ended.out) == (2, "")
    assert "'3700143' is not MARK=READING" in ended.err
    assert "'fram_number' is not a mark of the book" in ended.err
    assert "frame_number:1:" in ended.err


def test_one_reading_is_nothing_to_compare(type_in):
    """witnessmark compare tarvane-1952-1961 frame_number=3700143"""
    ended = type_in("compare", BOOK, "frame_number=3700143")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "MARK=READING: 1 reading is not enough to compare\nexpected at least two of MARK=READING\n"
    )
