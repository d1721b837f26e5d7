"""`--beside` and `beside`: further books in commands and cases."""

import json

NEW = ("case", "new", "c", "--book", "ford-1964-1973", "--id", "c", "--claim", "model_year=1967")
DATED = ("--beside", "dated-parts")
SEVENTEEN = ("--beside", "seventeen-characters")


def test_a_mark_of_a_book_beside_is_named_with_or_without_its_book(type_in):
    """Where no other mark is called so; the page names the book that it is of."""
    for name in ("tire-week-4", "dated-parts.tire_week_4"):
        ended = type_in("decode", "ford-1964-1973", name, "2519", *DATED)
        assert (ended.code, ended.err) == (0, "")
        assert "23 to 29 June 2019" in ended.out
        assert "By the book dated-parts, version" in ended.out
        assert "Ford" not in ended.out


def test_a_number_of_seventeen_characters_is_checked_beside_a_book_with_its_own_years(type_in):
    """The demonstration book has a table of the same name as the rule's."""
    number = ("vehicle_number", "VTVDA22E6FP123456", "--json")
    ended = type_in("decode", "tarvane-1952-1961", *number, *SEVENTEEN)
    alone = json.loads(type_in("decode", "seventeen-characters", *number).out)
    found = json.loads(ended.out)
    assert found["book"] == "seventeen-characters"
    assert found["mark"] == "seventeen-characters.vehicle_number"
    assert found["notes"] == alone["notes"]
    says = {each["field"]: each["says"] for each in found["alternatives"][0]["fields"]}
    assert says["year"] == "seventeen-characters.model_year"


def test_compare_takes_marks_of_both_books(type_in):
    """The car's numbers agree; the tire is dated and set against nothing."""
    marks = ("apron_stamp=7R01K123451", "dash_plate=7R01K123451", "tire_week_4=2519")
    ended = type_in("compare", "ford-1964-1973", *marks, *DATED, "--year", "1967", "--json")
    found = json.loads(ended.out)
    assert (found["book"], found["beside"]) == ("ford-1964-1973", ["dated-parts"])
    assert [each["mark"] for each in found["decodings"]] == [
        "apron_stamp",
        "dash_plate",
        "dated-parts.tire_week_4",
    ]
    spoken_of = {s["mark"] for finding in found["findings"] for s in finding["subjects"]}
    assert spoken_of == {"apron_stamp", "dash_plate"}


def test_a_new_case_lists_the_places_of_every_book_and_has_no_fault(type_in, tmp_path):
    """Each by the name that the case needs."""
    assert type_in(*NEW, *DATED).code == 0
    case = json.loads((tmp_path / "c/case.json").read_text("utf-8"))
    assert case["beside"] == ["dated-parts"]
    assert {"dated-parts.glass", "dated-parts.belt"} <= {site["site"] for site in case["sites"]}
    assert type_in("case", "check", "c").code == 0


def test_whatever_is_wrong_with_the_books_beside_is_shown_at_once(type_in):
    """Unknown, a maker's own, and one twice."""
    named = ("dated-part", "tarvane-1952-1961", "dated-parts", "dated-parts")
    options = [word for each in named for word in ("--beside", each)]
    ended = type_in(*NEW, *options)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "--beside: 'dated-part' is not a code book\n    dated-part\n    ^^^^^^^^^^\n"
        "expected a known one; nearest: dated-parts\n--beside: the book tarvane-1952-1961 "
        "cannot be used beside another: it is a maker's own, with works and models\n    "
        "tarvane-1952-1961\n    ^^^^^^^^^^^^^^^^^\nexpected a book on what cars of any "
        "maker carry, such as dated-parts\n--beside: 'dated-parts' is already in use\n    "
        "dated-parts\n    ^^^^^^^^^^^\nexpected each book once\n"
    )


def test_a_case_shows_the_place_of_a_book_that_is_not_there(type_in, tmp_path):
    """In case.json, at the name."""
    type_in(*NEW, *DATED)
    path = tmp_path / "c/case.json"
    path.write_text(path.read_text("utf-8").replace('"dated-parts"', '"dated-prats"'), "utf-8")
    ended = type_in("case", "check", "c")
    assert ended.code == 2
    assert ended.err == (
        "c/case.json:8:5: 'dated-prats' is not a code book\n"
        '        "dated-prats"\n'
        "        ^^^^^^^^^^^^^\n"
        "expected a known one; nearest: dated-parts\n"
    )


def test_a_faulty_book_beside_is_shown_with_its_own_places(type_in, tmp_path):
    """As a faulty maker's book is."""
    type_in("book", "new", "mine")
    (tmp_path / "mine/book.toml").write_text('format = "witnessmark-book"\n', "utf-8")
    ended = type_in(*NEW, "--beside", "mine")
    assert ended.code == 2
    assert "mine/book.toml" in ended.err


def test_a_case_says_which_name_a_mark_of_a_book_beside_has(type_in, tmp_path):
    """Where only the bare one was typed."""
    type_in(*NEW, *DATED)
    path = tmp_path / "c/case.json"
    case = json.loads(path.read_text("utf-8"))
    case["readings"] = [{"mark": "rim_month", "text": "2/67"}]
    case["looks"] = [{"site": "hose", "outcome": "factory"}]
    path.write_text(json.dumps(case), "utf-8")
    ended = type_in("case", "check", "c")
    assert "expected one of: dated-parts.rim_month\n" in ended.err
    assert "expected one of: dated-parts.hose\n" in ended.err


def test_an_examination_names_the_books_beside(type_in, demo_folder):
    """On the page, below the maker's."""
    path = demo_folder / "no-papers/case.json"
    case = json.loads(path.read_text("utf-8")) | {"beside": ["dated-parts"]}
    case["readings"].append({"mark": "dated-parts.tire_week_4", "text": "2519"})
    path.write_text(json.dumps(case), "utf-8")
    ended = type_in("examine", "demo/no-papers")
    assert ended.code == 0
    assert "By the book dated-parts," in ended.out
    everything = type_in("examine", "demo/no-papers", "--all").out
    assert "Noted by the book dated-parts" in " ".join(everything.split())
