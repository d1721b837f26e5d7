"""How probable what was seen is, for each character that may be meant."""

from itertools import combinations, permutations, product
from math import comb, log10

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.casefile import Legibility, Orientation, Seen
from witnessmark.reading import (
    Cell,
    CellKind,
    Confusion,
    Observation,
    place_likelihood,
    rates_with,
    shipped_confusion,
    shipped_rates,
)

DIGITS = "0123456789"
ALPHABETS = st.sampled_from(
    ["AB", "08B", "0123456789", "0123456789ABCDEFGHJKLMNPRSTUVWXYZ", "6MW9"]
)
WAYS = st.builds(
    dict,
    legibility=st.sampled_from(list(Legibility)),
    orientation=st.sampled_from(list(Orientation)),
    seen=st.sampled_from(list(Seen)),
)
SHARES = st.floats(0, 1)
EVEN_CONFUSION = Confusion({}, {})


def saw(characters, **ways):
    """An observation of one clear character, of a set, or of a sign without a character."""
    signs = {
        "?": CellKind.WORN,
        "~": CellKind.OBLITERATED,
        "_": CellKind.NEVER_STRUCK,
        "…": CellKind.GAP,
    }
    kind = CellKind.CLEAR if len(characters) == 1 else CellKind.ONE_OF
    if characters in signs:
        return Observation(Cell(signs[characters], "", 1), **ways)
    return Observation(Cell(kind, characters, 1), **ways)


def likelihood(*observations, alphabet=DIGITS, by_hand=False, rates=None, confusion=None):
    """Of each character of the alphabet."""
    return place_likelihood(observations, alphabet, by_hand, rates or shipped_rates(), confusion)


def of(character, values, alphabet=DIGITS):
    return values[alphabet.index(character)]


@st.composite
def observations(draw, alphabet):
    """Any cell, of any reader; characters may lie outside the alphabet."""
    characters = draw(
        st.one_of(
            st.sampled_from("?~_…"),
            st.lists(st.sampled_from(alphabet + "@Ω"), min_size=1, max_size=4, unique=True).map(
                "".join
            ),
        )
    )
    return saw(characters, **draw(WAYS))


def test_a_clear_character_by_hand():
    """e = 0.003, no confused pair, no slip of the punch: 0.997, and 0.003 / 9 for each other."""
    values = likelihood(saw("7"), confusion=EVEN_CONFUSION)
    assert of("7", values) == pytest.approx(0.997)
    assert of("1", values) == of("2", values) == pytest.approx(0.003 / 9)


def test_a_slip_of_the_punch_by_hand():
    """P(7 | 1) = P(7 | 7) m / 9 + P(7 | 1)(1 - m) + P(7 | other) 8 m / 9, with m = 0.001."""
    values = likelihood(saw("7"), by_hand=True, confusion=EVEN_CONFUSION)
    other = 0.003 / 9
    assert of("1", values) == pytest.approx(0.997 * 0.001 / 9 + other * (0.999 + 0.008 / 9))


def test_a_set_by_hand():
    """[38]: 0.997 shared by two, 0.003 by the other eight."""
    values = likelihood(saw("38"), confusion=EVEN_CONFUSION)
    assert of("3", values) == of("8", values) == pytest.approx(0.997 / 2)
    assert of("1", values) == pytest.approx(0.003 / 8)


def test_the_same_misreading_of_two_examiners_by_hand():
    """g = 0.3 e, e' = (e - g) / (1 - g): g / 9 + (1 - g)(e' / 9)^2."""
    values = likelihood(saw("7"), saw("7"), confusion=EVEN_CONFUSION)
    common = 0.3 * 0.003
    own = (0.003 - common) / (1 - common)
    assert of("1", values) == pytest.approx(common / 9 + (1 - common) * (own / 9) ** 2)
    assert of("7", values) == pytest.approx((1 - common) * (1 - own) ** 2)


@pytest.mark.parametrize("sign", "?~…")
def test_a_place_that_cannot_be_read_says_exactly_nothing(sign):
    assert likelihood(saw(sign), by_hand=True) == (1.0,) * 10


@given(st.data(), ALPHABETS, st.booleans())
def test_a_place_that_cannot_be_read_changes_nothing(data, alphabet, by_hand):
    others = data.draw(st.lists(observations(alphabet), max_size=3))
    with_worn = likelihood(*others, saw("?"), alphabet=alphabet, by_hand=by_hand)
    assert with_worn == likelihood(*others, alphabet=alphabet, by_hand=by_hand)


@pytest.mark.parametrize("sign", ["_", "@", "ÄÖ"])
def test_what_this_alphabet_has_not_favours_no_character_and_is_never_impossible(sign):
    values = likelihood(saw(sign), by_hand=True)
    assert len(set(values)) == 1
    assert 0 < values[0] < 0.01


@given(ALPHABETS, WAYS, st.booleans(), SHARES, SHARES)
def test_all_clear_characters_together_have_probability_one(
    alphabet, ways, by_hand, error, misstrike
):
    rates = rates_with(shipped_rates(), "reading.misstrike", misstrike)
    rates = rates_with(rates, f"reading.error.{ways['legibility']}", error)
    rows = [
        likelihood(saw(c, **ways), alphabet=alphabet, by_hand=by_hand, rates=rates)
        for c in alphabet
    ]
    for t in range(len(alphabet)):
        assert sum(row[t] for row in rows) == pytest.approx(1)


@given(ALPHABETS.filter(lambda a: len(a) <= 10), WAYS, st.data())
def test_all_sets_of_one_size_together_have_the_same_total_for_every_character(
    alphabet, ways, data
):
    size = data.draw(st.integers(1, len(alphabet)))
    rows = [
        likelihood(saw("".join(c), **ways), alphabet=alphabet) for c in combinations(alphabet, size)
    ]
    for t in range(len(alphabet)):
        assert sum(row[t] for row in rows) == pytest.approx(
            comb(len(alphabet), size) / len(alphabet)
        )


@given(ALPHABETS.filter(lambda a: len(a) <= 10), WAYS, WAYS, SHARES, st.booleans())
def test_all_pairs_of_what_two_examiners_say_together_have_probability_one(
    alphabet, first, second, shared, by_hand
):
    rates = rates_with(shipped_rates(), "reading.shared", shared)
    rows = [
        likelihood(
            saw(a, **first), saw(b, **second), alphabet=alphabet, by_hand=by_hand, rates=rates
        )
        for a, b in product(alphabet, repeat=2)
    ]
    for t in range(len(alphabet)):
        assert sum(row[t] for row in rows) == pytest.approx(1)


@given(ALPHABETS.filter(lambda a: len(a) <= 10), WAYS, WAYS, SHARES, st.data())
def test_what_a_second_examiner_might_say_leaves_the_first_as_he_was(
    alphabet, first, second, shared, data
):
    """Summed over all that the second may say, the pair gives the first one alone."""
    rates = rates_with(shipped_rates(), "reading.shared", shared)
    seen = data.draw(
        st.lists(st.sampled_from(alphabet), min_size=1, max_size=len(alphabet) - 1, unique=True)
    )
    mine = saw("".join(seen), **first)
    pairs = [likelihood(mine, saw(b, **second), alphabet=alphabet, rates=rates) for b in alphabet]
    alone = likelihood(mine, alphabet=alphabet, rates=rates)
    for t in range(len(alphabet)):
        assert sum(row[t] for row in pairs) == pytest.approx(alone[t])


@given(ALPHABETS, SHARES, st.data())
def test_one_examiner_has_nobody_to_share_a_misreading_with(alphabet, shared, data):
    seen = data.draw(observations(alphabet))
    rates = rates_with(shipped_rates(), "reading.shared", shared)
    assert likelihood(seen, alphabet=alphabet, rates=rates) == likelihood(seen, alphabet=alphabet)


@given(st.data(), ALPHABETS, st.booleans())
def test_nothing_that_can_be_seen_is_impossible_or_more_than_certain(data, alphabet, by_hand):
    seen = data.draw(st.lists(observations(alphabet), max_size=3))
    values = likelihood(*seen, alphabet=alphabet, by_hand=by_hand)
    assert all(0 < value <= 1 + 1e-12 for value in values)


@given(st.permutations(range(3)), st.data())
def test_the_order_of_examiners_changes_nothing(order, data):
    seen = data.draw(st.lists(observations(DIGITS), min_size=3, max_size=3))
    turned = [seen[place] for place in order]
    assert likelihood(*turned) == pytest.approx(likelihood(*seen))


@given(st.permutations(DIGITS), st.data())
def test_relabelling_the_alphabet_changes_nothing(relabelled, data):
    """Where no pair is confused more than another: every character gets another name."""
    name = dict(zip(DIGITS, relabelled, strict=True))
    seen = data.draw(
        st.lists(st.lists(st.sampled_from(DIGITS), min_size=1, unique=True), min_size=1, max_size=2)
    )
    before = likelihood(*(saw("".join(s)) for s in seen), confusion=EVEN_CONFUSION)
    renamed = (saw("".join(name[c] for c in s)) for s in seen)
    after = likelihood(*renamed, confusion=EVEN_CONFUSION)
    for character in DIGITS:
        assert of(name[character], after) == pytest.approx(of(character, before))


@given(st.permutations(DIGITS), st.data())
def test_the_order_of_the_alphabet_changes_nothing(reordered, data):
    alphabet = "".join(reordered)
    seen = data.draw(observations(DIGITS))
    before, after = likelihood(seen), likelihood(seen, alphabet=alphabet)
    for character in DIGITS:
        assert of(character, after, alphabet) == pytest.approx(of(character, before))


def test_a_pair_that_sources_name_as_confused_is_confused_more():
    values = likelihood(saw("8"), alphabet="8BK0")
    assert of("B", values, "8BK0") > of("0", values, "8BK0") > of("K", values, "8BK0")


def test_worse_legibility_and_a_worse_way_of_seeing_say_less():
    def says(**ways):
        values = likelihood(saw("7", **ways))
        return log10(of("7", values) / of("2", values))

    for worse, better in permutations(list(Legibility), 2):
        if list(Legibility).index(worse) > list(Legibility).index(better):
            assert 0 < says(legibility=worse) < says(legibility=better)
    by_seen = [says(seen=each) for each in Seen]
    assert by_seen == sorted(by_seen, reverse=True)
    assert len(set(by_seen)) == 4


def test_where_the_orientation_is_unsure_six_and_nine_are_exchanged():
    values = likelihood(saw("6", orientation=Orientation.UNSURE), confusion=shipped_confusion())
    assert of("6", values) == pytest.approx(of("9", values), rel=0.02)
    assert of("6", values) > 100 * of("8", values)


@pytest.mark.parametrize("sure", [Orientation.UPSIDE_DOWN, Orientation.SIDEWAYS])
def test_where_the_orientation_is_known_nothing_is_exchanged(sure):
    assert likelihood(saw("6", orientation=sure)) == likelihood(saw("6"))


def test_two_examiners_say_more_than_one_and_less_than_if_nothing_misled_both():
    def ratio(values):
        return of("7", values) / of("2", values)

    one, two = ratio(likelihood(saw("7"))), ratio(likelihood(saw("7"), saw("7")))
    assert one < two < one**2


def test_a_misreading_rate_beyond_chance_says_nothing_and_never_the_reverse():
    rates = rates_with(shipped_rates(), "reading.error.poor", 1.0)
    values = likelihood(saw("7", legibility=Legibility.POOR), rates=rates, confusion=EVEN_CONFUSION)
    assert values == pytest.approx((0.1,) * 10)


@pytest.mark.parametrize("alphabet", ["", "7"])
def test_the_smallest_alphabets_have_no_doubt_to_spread(alphabet):
    assert likelihood(saw("7"), alphabet=alphabet, by_hand=True) == (1.0,) * len(alphabet)
