"""Every key and value of a TOML text is found where it stands."""

import tomli
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.documents.toml_places import TomlPlaces
from witnessmark.source import Source

TEXT = """\
# a comment with = and [brackets]
title = "Solent" # and another
"quoted key" = 'x'
a.b = 1

[sources]
demo = "Invented, [so] = to say"

[[item]]
id = "one"

[[item]]
id = "two"
list = [ 1, 22,
  333, # three
]
inline = { code = "00A0", deep = { more = [ "x", 'y' ] } }
long = \"\"\"first
second\"\"\"

  [[item.part]]
  id = "inner"
"""


def found(path, kind="value"):
    """Line, column and the text that the place covers."""
    source = getattr(TomlPlaces("book.toml", TEXT), kind)(path)
    start = source.column - 1
    return source.line, source.column, source.text[start : start + source.width]


def test_a_value_is_found_with_its_quotes_and_without_its_comment():
    assert found(("title",)) == (2, 9, '"Solent"')


def test_a_key_is_found():
    assert found(("title",), "key") == (2, 1, "title")


def test_a_quoted_key_is_found_by_its_name():
    assert found(("quoted key",), "key") == (3, 1, '"quoted key"')


def test_a_dotted_key_is_found_as_a_whole():
    assert found(("a", "b"), "key") == (4, 1, "a.b")


def test_a_value_of_a_table_is_found():
    assert found(("sources", "demo")) == (7, 8, '"Invented, [so] = to say"')


def test_each_table_of_a_list_is_found_by_its_number():
    assert found(("item", 0), "table") == (9, 1, "[[item]]")
    assert found(("item", 1), "table") == (12, 1, "[[item]]")
    assert found(("item", 1, "id")) == (13, 6, '"two"')


def test_an_element_of_a_list_is_found_on_its_own_line():
    assert found(("item", 1, "list", 1)) == (14, 13, "22")
    assert found(("item", 1, "list", 2)) == (15, 3, "333")


def test_a_value_inside_inline_tables_is_found():
    assert found(("item", 1, "inline", "code")) == (17, 19, '"00A0"')
    assert found(("item", 1, "inline", "deep", "more", 1)) == (17, 50, "'y'")


def test_a_text_of_several_lines_is_marked_on_its_first():
    assert found(("item", 1, "long")) == (18, 8, '"""first')


def test_a_table_inside_the_last_table_of_a_list_is_found():
    assert found(("item", 1, "part", 0, "id")) == (22, 8, '"inner"')


def test_a_place_that_is_not_known_falls_back_to_what_holds_it():
    assert found(("item", 1, "list", 7)) == (14, 8, "[ 1, 22,")
    assert found(("item", 0, "missing"), "key") == (9, 1, "[[item]]")
    assert TomlPlaces("book.toml", "").value(("x",)) == Source("book.toml", 1, 1, 1, "")


texts = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=8)
scalars = st.one_of(
    st.integers(-(10**9), 10**9).map(str),
    st.sampled_from(["true", "false", "1.5", "1952-01-01", "1952-01-01 07:00:00", "07:00:00"]),
    texts.map(lambda t: '"' + t.replace("\\", "\\\\").replace('"', '\\"') + '"'),
    texts.filter(lambda t: "'" not in t).map(lambda t: f"'{t}'"),
    texts.map(lambda t: '"""\n' + t.replace("\\", "\\\\").replace('"', '\\"') + '\n ""ends"""""'),
    texts.filter(lambda t: "'" not in t).map(lambda t: f"'''\n{t}\n''ends'''''"),
)
gaps = st.sampled_from(["", " ", "\n", " # , ] } = \n\t", "\r\n"])
keys = st.sampled_from(["a", "b-c", '"d e"', "'f]g'", '"h\\u0041"', "a . b"])


def lists(inner):
    """A list, over several lines with comments or not."""
    return st.lists(st.tuples(gaps, inner, gaps), max_size=3).map(
        lambda parts: "[" + ",".join(a + value + b for a, value, b in parts) + "]"
    )


def inline_tables(inner):
    """A table on one line."""
    one_line = inner.filter(lambda value: "\n" not in value)
    return st.lists(st.tuples(keys, one_line), max_size=2, unique_by=lambda p: p[0]).map(
        lambda parts: "{ " + ", ".join(f"{key} = {value}" for key, value in parts) + " }"
    )


values = st.recursive(scalars, lambda inner: lists(inner) | inline_tables(inner), max_leaves=6)
headers = st.sampled_from(["", "[t]\n", "[[l]]\n", "[l.m]\n", "[[l.n]] # x\n", "[ 't' . u ]\n"])
documents = st.lists(
    st.tuples(headers, st.lists(st.tuples(gaps, keys, values), max_size=3)), max_size=5
).map(
    lambda parts: "".join(
        header + "".join(f"{gap}{key}= {value} # end\n" for gap, key, value in pairs)
        for header, pairs in parts
    )
)


def leaves(value, path=()):
    """Every value that holds no other, with the way to it."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, (*path, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from leaves(inner, (*path, index))
    else:
        yield path, value


def test_an_inline_table_may_be_parted_into_lines():
    """TOML 1.1 allows it, and a comment between."""
    text = "x = {\n  a = 1, # one\n  b = 22,\n}\ny = 3\n"
    assert tomli.loads(text) == {"x": {"a": 1, "b": 22}, "y": 3}
    places = TomlPlaces("book.toml", text)
    assert places.value(("x", "b")) == Source("book.toml", 3, 7, 2, "  b = 22,")
    assert places.key(("y",)) == Source("book.toml", 5, 1, 1, "y = 3")


@given(documents)
def test_what_stands_at_the_place_of_a_value_is_that_value(text):
    """The parser reads the same value from the found stretch alone."""
    try:
        document = tomli.loads(text)
    except tomli.TOMLDecodeError:
        return
    places = TomlPlaces("book.toml", text)
    for path, value in leaves(document):
        spot = places.spots.values[path]
        assert tomli.loads("x = " + text[spot.start : spot.end])["x"] == value


@given(documents | st.text(max_size=60))
def test_a_text_that_is_no_toml_cannot_stop_the_scanner(text):
    """It is never given one; yet it comes to an end and has a place for everything."""
    source = TomlPlaces("book.toml", text).value(("a", 0, "b"))
    assert source.line is not None
