"""Whatever is handed in, the answer is a case or its problems, never a break-down."""

import json
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from witnessmark.casefile import CaseParsed, open_case, parse_casefile, render_casefile
from witnessmark.documents.json_scan import scan_json
from witnessmark.problem import render_all

type Steps = tuple[str | int, ...]

WHOLE = """{
  "format": "witnessmark-case",
  "format_version": 2,
  "id": "sprint-1955",
  "title": "The green Sprint — \\u00e9t\\u00e9 \\ud83d\\ude97",
  "book": "tarvane",
  "opened": "2025-03-14",
  "claim": {"made_by": "seller", "items": {"chassis_number": "S55-1042"}, "built": "1955-03",
            "statements": [{"about": "engine", "says": "its own", "origin": "first"}]},
  "assignment": {"examiners": [{"id": "ex-1", "name": "R. Examiner", "fee_depends": false}],
                 "assistance": [{"who": "B. Lamp"}], "minutes_available": 90},
  "report": {"number": "26-31", "issue": 1, "date": "2025-03-20"},
  "custody": [{"what": "card", "lent_by": "seller", "received": "2025-03-15"}],
  "sums": [{"kind": "paid", "amount": 100.5, "currency": "GBP", "date": "1991",
            "source": "invoice", "by": "seller"}],
  "visit": {"date": "2025-03-15", "light": "two lamps"},
  "stakes": {"price_asked": 185000.5, "currency": "GBP"},
  "sites": [{"site": "scuttle", "state": "read", "exhibits": ["photo-1"]},
            {"site": "frame", "state": "not accessible", "reason": "undertray"}],
  "readings": [{"mark": "plate", "text": "1[38]4?6", "legibility": "worn", "by": "ex-1",
                "when": "2025-03-15T10:30:00+01:00", "exhibits": ["photo-1"]}],
  "looks": [{"site": "scuttle", "outcome": "doubtful", "seen": "photograph"}],
  "papers": [{"mark": "card", "state": "copy", "copied_from": "plate"}],
  "title_paper": {"number": "S55-1042"},
  "exhibits": [{"id": "photo-1", "file": "plate.jpg",
    "sha256": "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"}],
  "circumstances": {"prior_odds": [{"question": "identity", "odds": 3.5, "reason": "w"}],
    "overrides": [{"row": "restrike", "value": 0.02, "reason": "w"}]},
  "later": {"kept": [null, false, -0.5e-3]}
}
"""
SIGNS = '{}[]",:\\0123456789-+.eEtrufalsn \n\t\r\x00\x1b\x85\u2028\ud800\ufeffé…'
OTHERS = [
    *(
        "null",
        "true",
        "0",
        "-1",
        "1e400",
        "NaN",
        "9" * 5000,
        "[]",
        "[[]]",
        "[{}]",
        "{}",
        '{"a": 1}',
    ),
    *('""', '"x"', '"\\ud800"', '"1700000000"', '"2025-13-01"', f'"{"x" * 21_000}"'),
]
THOUSANDS = tried_on(1500)


def holds_its_promise(parsed: CaseParsed) -> bool:
    """A case or a problem; every problem can be printed and speaks our own language."""
    shown = render_all(parsed.problems)
    shown.encode("utf-8")
    assert parsed.casefile is not None or parsed.problems
    if parsed.casefile is not None and not parsed.problems:
        again = parse_casefile(render_casefile(parsed.casefile), "again")
        assert (again.casefile, again.problems) == (parsed.casefile, ())
    return True


def test_the_case_that_is_damaged_below_is_sound():
    assert parse_casefile(WHOLE, "case.json").problems == ()


@THOUSANDS
@given(st.integers(0, len(WHOLE)), st.integers(0, 12), st.text(SIGNS, max_size=4))
def test_a_case_with_a_stretch_replaced_is_answered(start, width, instead):
    text = WHOLE[:start] + instead + WHOLE[start + width :]
    assert holds_its_promise(parse_casefile(text, "case.json"))


def paths_in(value: object, path: Steps = ()) -> Iterator[Steps]:
    """The path of every value inside this one, and its own."""
    yield path
    inner = value.items() if isinstance(value, dict) else ()
    inner = enumerate(value) if isinstance(value, list) else inner
    for step, each in inner:
        yield from paths_in(each, (*path, step))


@THOUSANDS
@given(
    st.sampled_from(list(paths_in(json.loads(WHOLE)))[1:]),
    st.sampled_from(OTHERS),
    st.sampled_from([1, 2]),
)
def test_a_case_with_a_value_of_another_kind_is_answered(path, instead, version):
    """In the present format and in the one before, which is read too."""
    case = json.loads(WHOLE) | {"format_version": version}
    if version == 1:
        case["claim"]["statements"][0]["original"] = True
    holder = case
    for step in path[:-1]:
        holder = holder[step]
    holder[path[-1]] = "stands here"
    text = json.dumps(case).replace('"stands here"', instead)
    assert holds_its_promise(parse_casefile(text, "case.json"))


def test_a_case_cut_off_anywhere_is_answered_with_one_problem_or_more():
    for length in range(len(WHOLE.rstrip())):
        parsed = parse_casefile(WHOLE[:length], "case.json")
        assert holds_its_promise(parsed)
        assert parsed.problems, length


@THOUSANDS
@given(st.text(SIGNS, max_size=60) | st.text(max_size=60))
def test_any_text_is_answered(text):
    assert holds_its_promise(parse_casefile(text, "case.json"))


VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner),
    max_leaves=12,
)


@THOUSANDS
@given(st.dictionaries(st.sampled_from(list(json.loads(WHOLE))), VALUES))
def test_a_case_of_any_values_is_answered(fields):
    text = json.dumps(json.loads(WHOLE) | fields)
    assert holds_its_promise(parse_casefile(text, "case.json"))


@THOUSANDS
@given(VALUES, st.sampled_from([None, 0, 2]), st.booleans())
def test_every_value_is_found_at_its_own_place(value, indent, ascii_only):
    text = json.dumps(value, indent=indent, ensure_ascii=ascii_only)
    places = scan_json(text, "case.json").places

    def found(part: object, path: tuple[str | int, ...]) -> None:
        if isinstance(part, dict):
            assert places.typed(path) == "{"
            for key, inner in part.items():
                key_source = places.key_source((*path, key))
                typed = key_source.text[key_source.column - 1 :][: key_source.width]
                assert json.loads(typed, strict=False) == key
                found(inner, (*path, key))
        elif isinstance(part, list):
            assert places.typed(path) == "["
            for n, inner in enumerate(part):
                found(inner, (*path, n))
        else:
            assert json.loads(places.typed(path), strict=False) == part

    if scan_json(text, "case.json").readable is not None:
        found(value, ())


@THOUSANDS
@given(st.text('{}[]",:\\1-e.tn u0 \n', max_size=14) | st.text(SIGNS, max_size=14))
def test_what_is_found_sound_is_what_the_standard_reader_finds_sound(text):
    scan = scan_json(text, "case.json")
    try:
        json.loads(text, parse_constant=lambda word: json.loads("refused"))
        is_json = True
    except ValueError:
        is_json = False
    if is_json:
        assert scan.readable is not None
    if scan.readable is not None and not scan.problems:
        assert is_json


@tried_on(500)
@given(
    st.binary(max_size=40)
    | st.builds(
        lambda start, width, instead: (
            WHOLE.encode()[:start] + instead + WHOLE.encode()[start + width :]
        ),
        st.integers(0, len(WHOLE.encode())),
        st.integers(0, 6),
        st.binary(max_size=4),
    )
)
def test_any_bytes_in_a_file_are_answered(content):
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "case.json"
        path.write_bytes(content)
        opened = open_case(path)
        render_all(opened.problems).encode("utf-8")
        assert opened.casefile is not None or opened.problems
        assert os.listdir(folder) == ["case.json"]
