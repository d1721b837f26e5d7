"""A text struck without windows falls apart into its fields in one way, or is shown."""

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from witnessmark.codebook import Field
from witnessmark.codebook.checks.layout import split_two_ways


def field(widths, alphabet, *, optional=False, before=""):
    """A field of which only the layout matters."""
    return Field(
        id="f",
        name="f",
        says="says",
        widths=tuple(widths),
        alphabet=alphabet,
        optional=optional,
        before=before,
    )


def shown(*fields):
    """Text and both ways, or None."""
    split = split_two_ways(fields)
    return split and (split.text, split.one, split.other, split.index)


def test_fields_of_one_width_each_are_never_ambiguous():
    assert shown(field([2], "AB"), field([2], "AB"), field([3], "AB")) is None


def test_one_field_of_two_widths_is_not_ambiguous():
    assert shown(field([2], "AB"), field([1, 2], "AB")) is None


def test_two_fields_of_two_widths_and_shared_characters_are():
    assert shown(field([1, 2], "AB"), field([1, 2], "BC")) == ("ABB", "A|BB", "AB|B", 0)


def test_two_fields_of_two_widths_that_share_no_character_are_not():
    assert shown(field([1, 2], "AB"), field([1, 2], "12")) is None


def test_an_optional_field_is_ambiguous_only_if_another_gives_way():
    assert shown(field([1], "A", optional=True), field([2], "A")) is None
    assert shown(field([1], "A", optional=True), field([1, 2], "A")) == ("AA", "AA", "A|A", 0)


def test_text_that_stands_before_a_field_tells_it_apart():
    fields = (field([1, 2], "AB"), field([1, 2], "AB", before="-"))
    assert shown(*fields) is None


def test_two_optional_fields_of_the_same_characters_are_ambiguous():
    fields = (field([1], "A", optional=True), field([1], "A", optional=True))
    assert shown(*fields) == ("A", "A", "A", 0)


fields = st.builds(
    field,
    st.lists(st.integers(1, 3), min_size=1, max_size=2, unique=True),
    st.sampled_from(["A", "B", "AB"]),
    optional=st.booleans(),
    before=st.sampled_from(["", "", "A"]),
)


def ways(remaining, text):
    """In how many ways these fields explain the text."""
    if not remaining:
        return int(text == "")
    first, *rest = remaining
    count = ways(rest, text) if first.optional else 0
    for width in first.widths:
        length = len(first.before) + width
        own = text[len(first.before) : length]
        if text.startswith(first.before) and len(own) == width and set(own) <= set(first.alphabet):
            count += ways(rest, text[length:])
    return count


@given(st.lists(fields, min_size=1, max_size=3))
def test_the_shown_text_is_the_shortest_of_all_that_have_two_ways(parts):
    """By trying every text."""
    split = split_two_ways(tuple(parts))
    longest = sum(max(part.widths) + len(part.before) for part in parts)
    limit = longest if split is None else len(split.text) - 1
    for length in range(min(limit, 9) + 1):
        for letters in product("AB", repeat=length):
            assert ways(parts, "".join(letters)) < 2
    if split is not None:
        assert ways(parts, split.text) >= 2
