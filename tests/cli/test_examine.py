"""`witnessmark examine`."""

import json

import pytest


def test_the_screen_has_its_parts_in_the_order_in_which_they_matter(type_in, demo_folder):
    """What does not fit, what was concluded, what was not seen, what to do."""
    ended = type_in("examine", "demo/dressed")
    assert (ended.code, ended.err) == (0, "")
    parts = ("Does not fit", "Question", "No answer", "Not seen", "Do next", "Look next", "--why")
    order = [ended.out.index(part) for part in parts]
    assert order == sorted(order)


def test_all_is_the_whole_report_and_why_one_conclusion_of_it(type_in, demo_folder):
    """Nothing that the report says is kept from the screen."""
    everything = type_in("examine", "demo/clean", "--all").out
    for title in ("How strongly", "Every comparison", "Each conclusion in full", "Order of entry"):
        assert f". {title}\n" in everything
    why = type_in("examine", "demo/clean", "--why", "engine").out
    assert "What it does" in why
    assert "Every comparison" not in why
    told = [line.strip() for line in why.splitlines() if line.startswith("Assembly: ")]
    assert [line for line in told if line in everything] == told != []
    assert type_in("examine", "demo/clean", "--why", "engine block").out == why
    unknown = type_in("examine", "demo/clean", "--why", "engin")
    assert (unknown.code, unknown.out) == (2, "")
    assert "nearest: engine" in unknown.err


def test_what_does_not_fit_stands_before_every_number(type_in, demo_folder):
    """The altered car; the clean one has nothing of the kind."""
    out = type_in("examine", "demo/altered").out
    assert out.index("Stop here: The car lacks") < out.index("1/10,000")
    assert "Nothing that was noted contradicts" in type_in("examine", "demo/clean").out


def test_what_is_open_or_not_examined_says_so_and_what_is_left_to_look_at(type_in, demo_folder):
    """The car whose card is lost."""
    out = type_in("examine", "demo/no-papers").out
    told = " ".join(out.split())
    assert "No answer rear axle casing (not examined); model year, works (cannot be" in told
    assert "Papers" in told.split("Not seen")[1]


def test_a_case_is_named_by_its_folder_or_by_its_document(type_in, demo_folder):
    """demo/clean and demo/clean/case.json are one case."""
    by_folder = type_in("examine", "demo/clean")
    assert by_folder.out == type_in("examine", "demo/clean/case.json").out


def test_json_is_the_whole_opinion(type_in, demo_folder):
    """witnessmark examine demo/clean --json"""
    opinion = json.loads(type_in("examine", "demo/clean", "--json").out)
    assert {"casefile", "book", "sites", "decodings", "findings", "answer", "steadiness"} <= set(
        opinion
    )


@pytest.mark.parametrize(
    ("content", "place"),
    [
        (b"", "case.json"),
        (b"{", "case.json:1:"),
        (b'{"format": "witnessmark-case", "format_version": 99}', "case.json"),
        (b'\xff\xfe{"id": 1}', "case.json:1:"),
        (b"[" * 100_000, "case.json:1:"),
        (b'{"format": "witnessmark-case", "format_version": 2, "id": 7, "book": "x"}', "case.json"),
    ],
    ids=["empty", "cut short", "a later version", "not UTF-8", "very deep", "a number for an id"],
)
def test_a_case_that_cannot_be_read_is_a_problem_with_its_place(type_in, tmp_path, content, place):
    """Exit code 2, nothing but problems."""
    (tmp_path / "bad").mkdir()
    (tmp_path / "bad/case.json").write_bytes(content)
    ended = type_in("examine", "bad")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith(f"bad/{place}")


def test_a_changed_photograph_is_a_problem(type_in, demo_folder):
    """Its digest is not the one that was entered."""
    photograph = next((demo_folder / "clean/exhibits").iterdir())
    photograph.write_bytes(photograph.read_bytes() + b"x")
    ended = type_in("examine", "demo/clean")
    assert (ended.code, ended.out) == (2, "")
    assert photograph.name[:40] in ended.err


def test_a_book_that_is_not_here_is_named_where_the_case_names_it(type_in, demo_folder):
    """The place in the case document, and the nearest book."""
    document = demo_folder / "clean/case.json"
    text = document.read_text("utf-8")
    document.write_text(text.replace('"tarvane-1952-1961"', '"tarvane-1952"'), "utf-8")
    ended = type_in("examine", "demo/clean")
    assert ended.code == 2
    assert ended.err.startswith("demo/clean/case.json:")
    assert "'tarvane-1952' is not a code book" in ended.err
    assert "nearest: tarvane-1952-1961" in ended.err
