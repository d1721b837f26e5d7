"""What the rules of a whole number say is said in the language of the page."""

from functools import cache

from hypothesis import example, given
from hypothesis import strategies as st

from tests.decoding.seventeen.conftest import asked_and_aligned, shipped
from tests.decoding.seventeen.strategies import numbers
from tests.worked.bracketed import Allowed, bracketed, untranslated
from witnessmark.catalogue import speaking
from witnessmark.decoding.seventeen import notes_on


@cache
def of_the_book() -> Allowed:
    return Allowed(shipped())


@given(
    numbers(),
    st.lists(st.tuples(st.integers(0, 16), st.sampled_from("?~_*OI…9")), max_size=3),
    st.sampled_from(["vehicle_number", "vehicle_number_other"]),
    st.none() | st.integers(1975, 2039),
)
@example("009000007A0AG1000", [(13, "O")], "vehicle_number", None)
@example("GA0000006A0000000", [(2, "9")], "vehicle_number", None)
def test_a_note_has_nothing_in_english_but_what_the_book_says(number, signs, mark, year):
    places = list(number)
    for place, sign in signs:
        places[place] = sign
    typed = "".join(places)
    # The letters that such a number never has are read as the figures they look like.
    read = typed.replace("O", "0").replace("I", "1")
    with speaking(bracketed()):
        notes = notes_on(*asked_and_aligned(typed, mark, year=year))
    for note in notes:
        assert note.sentence.startswith("⟦")
        for stretch in untranslated(note.sentence):
            left = of_the_book().left_of(stretch).split()
            words = [w for w in left if w.upper() not in f"{number} {typed} {read}"]
            assert words == [], (stretch, note.sentence)
