"""Whatever is typed, under whatever mark: notes or none, never an exception."""

from dataclasses import replace

from hypothesis import example, given
from hypothesis import strategies as st

from tests.decoding.seventeen.conftest import asked_and_aligned, options_of, shipped
from tests.decoding.seventeen.strategies import numbers
from tests.never_said import never_said
from witnessmark.casefile import Legibility
from witnessmark.decoding import rate_rows
from witnessmark.decoding.seventeen import notes_on, year_options

MARKS = st.sampled_from(["vehicle_number", "vehicle_number_other"])
KINDS = {"check", "year", "structure", "maker"}
NEAR = st.text("0123456789ABCDEFGHJKLMNPRSTUVWXYZIOQ?~_… []*", max_size=24)
YEARS = st.none() | st.integers(1980, 2039)


def assert_sound(text, mark, year, **ways):
    asked, alignment = asked_and_aligned(text, mark, year=year, **ways)
    for note in notes_on(asked, alignment):
        assert note.kind in KINDS
        assert note.sentence
        assert note.source
        assert never_said(note.sentence) == ()
    for aligned in alignment.fields:
        options = options_of(asked, aligned)
        kept = year_options(asked, alignment, aligned, options)
        assert abs(sum(o.share for o in kept) - sum(o.share for o in options)) < 1e-9


@given(NEAR | st.text(max_size=30), MARKS, YEARS, st.sampled_from(Legibility))
@example("1" * 600, "vehicle_number", None, Legibility.CLEAR)
@example("[[1]?" * 17, "vehicle_number", None, Legibility.POOR)
@example("ﬁ" * 17, "vehicle_number", None, Legibility.CLEAR)
@example("[ab*]" * 17, "vehicle_number_other", None, Legibility.WORN)
@example("[*#]" + "1" * 16, "vehicle_number", None, Legibility.CLEAR)
@example("1" * 9 + "[*#]" + "1" * 7, "vehicle_number", 1981, Legibility.CLEAR)
def test_nothing_that_is_typed_raises(text, mark, year, legibility):
    assert_sound(text, mark, year, legibility=legibility)


@given(numbers(), st.lists(st.tuples(st.integers(0, 16), st.sampled_from("?~_*OI…"))), MARKS)
def test_a_number_with_signs_put_in_never_raises(number, signs, mark):
    places = list(number)
    for place, sign in signs:
        places[place] = sign
    assert_sound("".join(places), mark, None)


def test_a_mark_without_these_rules_has_no_notes_and_keeps_its_options():
    asked, alignment = asked_and_aligned("1" * 17)
    plain = replace(asked, mark=replace(asked.mark, number_rules=""))
    aligned = alignment.fields[3]
    options = options_of(plain, aligned)
    assert notes_on(plain, alignment) == ()
    assert year_options(plain, alignment, aligned, options) == options


def test_a_book_without_the_tables_has_no_notes():
    """No weights, no check digit: nothing is said rather than something made up."""
    asked, alignment = asked_and_aligned("1" * 17)
    for table in ("weights", "letter_values", "check_digits", "characters"):
        codes = tuple(row for row in shipped().codes if row.table != table)
        lacking = replace(asked, book=replace(shipped(), codes=codes))
        assert notes_on(lacking, alignment) == ()


@given(numbers(), MARKS)
def test_every_note_rests_on_a_source_of_the_book_or_an_assumed_row(number, mark):
    asked, alignment = asked_and_aligned(number, mark)
    known = {row.citation.source for row in shipped().codes}
    known |= {remark.citation.source for remark in shipped().remarks}
    known |= {f"assumed share, row {row.id}" for row in rate_rows()}
    assert {note.source for note in notes_on(asked, alignment)} <= known
