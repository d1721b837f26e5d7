"""What a case contradicts in itself is told with its place."""

import pytest

from witnessmark.casefile import check_case_id, parse_casefile, sums_left_out
from witnessmark.problem import render_all
from witnessmark.source import Source

DIGEST = "0" * 64


def case_with(lines: str) -> str:
    """A case that is sound but for these lines, the second and what follows."""
    return (
        '{"format": "witnessmark-case", "format_version": 2, "id": "sprint", "book": "tarvane",\n'
        + lines.strip("\n")
        + "}"
    )


def answer(lines: str) -> str:
    """All problems of such a case, as a user sees them."""
    return render_all(parse_casefile(case_with(lines), "case.json").problems)


def test_a_book_that_is_named_twice_is_told():
    assert answer(' "beside": ["dated-parts", "tarvane"]') == (
        "case.json:2:28: the code book 'tarvane' appears twice, first on line 1\n     "
        '"beside": ["dated-parts", "tarvane"]}\n                               '
        "^^^^^^^^^\nexpected one entry for each code book"
    )


def test_two_states_for_one_site_are_told():
    lines = """
 "sites": [
   {"site": "scuttle", "state": "read"},
   {"site": "scuttle", "state": "absent"}]
"""
    assert answer(lines) == (
        "case.json:4:13: the site 'scuttle' appears twice, first on line 3\n       "
        '{"site": "scuttle", "state": "absent"}]}\n                ^^^^^^^^^\n'
        "expected one entry for each site"
    )


def test_each_mark_of_a_site_can_have_its_state_once():
    lines = """
 "sites": [
   {"site": "scuttle", "state": "not looked for"},
   {"site": "scuttle", "mark": "plate", "state": "read"},
   {"site": "rail", "mark": "plate", "state": "read"},
   {"site": "scuttle", "mark": "plate", "state": "found and illegible"}]
"""
    (problem,) = parse_casefile(case_with(lines), "case.json").problems
    assert problem.sentence() == (
        "the mark of a site 'plate at scuttle' appears twice, first on line 4"
    )
    assert problem.source.line == 6


def test_entries_of_which_there_can_be_one_are_told_when_there_are_two():
    lines = f"""
 "assignment": {{"examiners": [{{"id": "a", "name": "A"}},
                               {{"id": "a", "name": "B"}}]}},
 "exhibits": [{{"id": "e", "file": "Frame.jpg", "sha256": "{DIGEST}"}},
              {{"id": "e", "file": "frame.JPG", "sha256": "{DIGEST}"}}],
 "circumstances": {{"prior_odds": [{{"question": "q", "odds": 1, "reason": "w"}},
                                   {{"question": "q", "odds": 2, "reason": "w"}}],
                    "overrides": [{{"row": "r", "value": 0.1, "reason": "w"}},
                                  {{"row": "r", "value": 0.2, "reason": "w"}}],
                    "vouched": [{{"row": "v", "by": "a", "reason": "w"}},
                                {{"row": "v", "by": "b", "reason": "w"}}]}}
"""
    problems = parse_casefile(case_with(lines), "case.json").problems
    assert [f"{each.source.line}: {each.sentence()}" for each in problems] == [
        "3: the examiner 'a' appears twice, first on line 2",
        "5: the exhibit 'e' appears twice, first on line 4",
        "5: the file 'frame.JPG' appears twice, first on line 4",
        "7: the question 'q' appears twice, first on line 6",
        "9: the row 'r' appears twice, first on line 8",
        "11: the vouched row 'v' appears twice, first on line 10",
    ]


def test_every_reference_to_an_exhibit_that_is_not_listed_is_told():
    lines = f"""
 "exhibits": [{{"id": "photo-1", "file": "a.jpg", "sha256": "{DIGEST}"}}],
 "sites": [{{"site": "s", "state": "read", "exhibits": ["photo-1", "photo-2"]}}],
 "readings": [{{"mark": "m", "text": "1", "exhibits": ["photo-3"]}}],
 "looks": [{{"site": "s", "outcome": "factory", "exhibits": ["photo-4"]}}],
 "papers": [{{"mark": "p", "state": "in hand", "exhibits": ["photo-5"]}}],
 "title_paper": {{"exhibits": ["photo-6"]}}
"""
    problems = parse_casefile(case_with(lines), "case.json").problems
    assert [each.sentence() for each in problems] == [
        f"no exhibit of this case is called 'photo-{n}'" for n in (2, 3, 4, 5, 6)
    ]
    assert problems[0].render() == (
        "case.json:3:67: no exhibit of this case is called 'photo-2'\n"
        '     "sites": [{"site": "s", "state": "read", "exhibits": ["photo-1", "photo-2"]}],\n'
        "                                                                      ^^^^^^^^^\n"
        "expected one of: photo-1"
    )


@pytest.mark.parametrize(
    ("file", "fault"),
    [
        ("../case.json", "leads out of the folder"),
        ("..", "leads out of the folder"),
        ("..\\\\..\\\\windows\\\\win.ini", "leads out of the folder"),
        ("/etc/passwd", "names a folder"),
        ("more/a.jpg", "names a folder"),
        ("more\\\\a.jpg", "names a folder"),
        (".", "names a folder"),
        ("C:a.jpg", "names a drive or a stream"),
        ("a.jpg:hidden", "names a drive or a stream"),
        (".a.jpg", "is hidden"),
        (".jpg", "is hidden"),
        ("a\\tb.jpg", "holds a character that cannot be seen"),
        ("a\\u202egpj.exe.jpg", "holds a character that cannot be seen"),
        ("a?.jpg", "holds a character that some systems forbid"),
        (" a.jpg", "begins or ends with a space or a full stop"),
        ("a.jpg ", "begins or ends with a space or a full stop"),
        ("a.jpg.", "begins or ends with a space or a full stop"),
        ("con.jpg", "is the name of a device on some systems"),
        ("LPT1 .tar.jpg", "is the name of a device on some systems"),
        ("ü" * 119 + ".jpg", "is too long for some systems"),
        ("a.exe", "has an ending that no exhibit has"),
        ("a.jpg.exe", "has an ending that no exhibit has"),
        ("frame", "has an ending that no exhibit has"),
    ],
)
def test_a_file_name_that_could_lead_elsewhere_is_refused(file, fault):
    lines = f' "exhibits": [{{"id": "e", "file": "{file}", "sha256": "{DIGEST}"}}]'
    (problem,) = parse_casefile(case_with(lines), "case.json").problems
    assert problem.sentence().endswith(f" {fault}")
    assert problem.expected() == (
        "a plain file name such as frame-1.jpg, ending in .jpg, .jpeg, .png, .tif, .tiff or .pdf"
    )
    assert (problem.source.line, problem.source.column) == (2, 35)


@pytest.mark.parametrize(
    "file", ["frame-1.jpg", "Spritzwand links (2).JPEG", "plaque.d'identité.png", "b.tif", "c.pdf"]
)
def test_a_plain_file_name_of_any_language_is_allowed(file):
    lines = f' "exhibits": [{{"id": "e", "file": "{file}", "sha256": "{DIGEST}"}}]'
    assert answer(lines) == ""


def test_a_car_is_not_built_after_its_case_was_opened():
    assert answer(' "opened": "2025-03-14", "claim": {"built": "2055"}') == (
        "case.json:2:45: the car is said to be built in 2055, after the case was opened\n"
        '     "opened": "2025-03-14", "claim": {"built": "2055"}}\n'
        "                                                ^^^^^^\n"
        "expected a date not after 2025-03-14"
    )
    assert answer(' "opened": "2025-03-14", "claim": {"built": "2025"}') == ""


def test_papers_are_not_copied_in_a_circle():
    lines = """
 "papers": [
   {"mark": "card", "state": "copy", "copied_from": "ledger"},
   {"mark": "ledger", "state": "copy", "copied_from": "card"},
   {"mark": "letter", "state": "copy", "copied_from": "letter"},
   {"mark": "label", "state": "copy", "copied_from": "card"},
   {"mark": "sheet", "state": "copy", "copied_from": "plate"}]
"""
    problems = parse_casefile(case_with(lines), "case.json").problems
    assert [f"{each.source.line}: {each.sentence()}" for each in problems] == [
        "3: papers are said to be copied in a circle: 'card' from 'ledger' from 'card'",
        "5: the paper 'letter' is said to be copied from itself",
    ]
    assert problems[0].expected() == ("the mark that the first of them was copied from, or nothing")


def test_a_case_whose_only_fault_is_a_contradiction_is_still_given_on():
    """So that the code book can be asked in the same go."""
    lines = ' "title_paper": {"exhibits": ["photo-6"]}'
    parsed = parse_casefile(case_with(lines), "case.json")
    assert parsed.casefile is not None
    assert len(parsed.problems) == 1


def test_an_id_for_a_new_case_is_checked_before_anything_is_made():
    assert check_case_id("sprint-1955.a", Source("--id")) == ()
    (problem,) = check_case_id("../x", Source("--id", 1, 1, 4, "../x"))
    assert problem.render() == (
        "--id:1:1: '../x' cannot name a case\n"
        "    ../x\n"
        "    ^^^^\n"
        "expected 1 to 80 of the letters A-Z and a-z, digits, full stop, hyphen and underscore, "
        "a letter or digit first"
    )


def test_a_day_before_the_one_that_it_follows_is_told():
    lines = """
 "visit": {"date": "2026-09-14"},
 "report": {"number": "26-31", "date": "2026-09-13"},
 "custody": [{"what": "the card", "lent_by": "O. F.", "received": "2026-09-14",
              "returned": "2026-09-12"},
             {"what": "a plate", "lent_by": "O. F.", "returned": "2026-09-12"}]
"""
    problems = parse_casefile(case_with(lines), "case.json").problems
    assert render_all(problems) == (
        "case.json:3:40: the day of issue, 2026-09-13, lies before that of the visit, 2026-09-14\n"
        '     "report": {"number": "26-31", "date": "2026-09-13"},\n'
        "                                           ^^^^^^^^^^^^\n"
        "expected a day not before 2026-09-14\n"
        "case.json:5:27: the day of return, 2026-09-12, lies before that of receipt, 2026-09-14\n"
        '                  "returned": "2026-09-12"},\n'
        "                              ^^^^^^^^^^^^\n"
        "expected a day not before 2026-09-14"
    )


def test_a_sum_that_does_not_say_what_it_is_is_told_and_is_no_fault():
    """So too a price asked for in the stakes, which has neither day nor source."""
    lines = """
 "stakes": {"price_asked": 9000, "currency": "GBP"},
 "sums": [{"kind": "paid", "amount": 1, "currency": "GBP", "date": "1991", "source": "invoice",
           "by": "O. F."},
          {"amount": 2, "currency": "GBP", "by": "O. F.", "source": " "}]
"""
    parsed = parse_casefile(case_with(lines), "case.json")
    assert parsed.problems == ()
    left = sums_left_out(parsed.casefile, parsed.places)
    assert [f"{each.source.place()}: {each.sentence()}" for each in left] == [
        "case.json:5:11: no document prints this sum: it lacks kind, date, source",
        "case.json:2:28: no document prints this sum: it lacks date, source, by",
    ]
    assert left[0].expected() == (
        'an entry in "sums" with kind, currency, date, source and by filled in'
    )
