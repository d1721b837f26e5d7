"""Later rooms can point at the very value, and at the very character in it."""

from witnessmark.casefile import parse_casefile
from witnessmark.source import Source

TEXT = (
    '{"format": "witnessmark-case", "format_version": 2, "id": "a", "book": "b",\r\n'
    ' "claim": {"items": {"chassis_number": "S55"}},\r'
    ' "readings": [\n'
    '  {"mark": "plate", "text": "\\u00e91[38]\\"\\ud83d\\ude977"}]}'
)
PLACES = parse_casefile(TEXT, "case.json").places


def test_a_value_is_found_whatever_ends_the_lines_before_it():
    assert PLACES.source(("claim", "items", "chassis_number")) == Source(
        "case.json", 2, 40, 5, ' "claim": {"items": {"chassis_number": "S55"}},'
    )
    assert PLACES.source(("readings", 0, "mark")).place() == "case.json:4:12"


def test_the_name_of_a_field_is_found():
    source = PLACES.key_source(("claim", "items", "chassis_number"))
    assert (source.place(), source.width) == ("case.json:2:22", 16)
    assert PLACES.key_source(("readings", 0)).place() == "case.json:4:3"


def test_a_value_left_to_its_default_is_looked_for_where_it_would_stand():
    assert PLACES.source(("readings", 0, "legibility")).place() == "case.json:4:3"
    assert PLACES.source(("title_paper", "number")).place() == "case.json:1:1"


def test_one_character_of_a_text_is_found_behind_escapes():
    path = ("readings", 0, "text")

    def typed(start: int, width: int = 1) -> str:
        source = PLACES.source_within(path, start, width)
        assert source.column is not None
        return source.text[source.column - 1 :][: source.width]

    assert [typed(n) for n in range(3)] == ["\\u00e9", "1", "["]
    assert typed(2, 4) == "[38]"
    assert typed(6) == '\\"'
    assert typed(7) == "\\ud83d\\ude97"
    assert typed(8) == "7"
    assert PLACES.source_within(("readings", 0), 3) == PLACES.source(("readings", 0))


def test_the_first_place_asked_for_in_a_text_that_could_not_be_read_is_the_file():
    places = parse_casefile("", "case.json").places
    assert places.source(("id",)) == Source("case.json")
