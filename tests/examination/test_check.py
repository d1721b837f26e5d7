"""What is wrong with a case beside its code book is told at once, each with its place."""

from dataclasses import replace

import pytest

from witnessmark.casefile import parse_casefile
from witnessmark.codebook import CodeBook, find_book, open_book
from witnessmark.examination import check_case
from witnessmark.problem import render_all

CLAIM = '"claim": {"items": {"model": "solent-sprint", "model_year": "1955"}}'


@pytest.fixture(scope="module")
def book() -> CodeBook:
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    found = open_book(folder).book
    assert found is not None
    return found


def said(lines: str, book: CodeBook) -> str:
    """All problems of a case with these lines, the second and what follows, as a user sees them."""
    text = (
        '{"format": "witnessmark-case", "format_version": 2, "id": "sprint", "book": "tarvane",\n'
        + lines.strip("\n")
        + "}"
    )
    parsed = parse_casefile(text, "case.json")
    assert parsed.casefile is not None, render_all(parsed.problems)
    assert parsed.problems == (), "the case must be sound in itself"
    return render_all(check_case(parsed.casefile, parsed.places, book))


def test_a_case_of_words_that_the_book_knows_has_no_fault(book: CodeBook) -> None:
    lines = """
 "claim": {"items": {"chassis_number": "700143", "model": "solent-sprint", "model_year": "1955",
                     "works": "tarvane", "body_works": "marrick", "extras": "none"}},
 "sites": [{"site": "scuttle", "state": "read"}, {"site": "bulkhead", "state": "absent"}],
 "readings": [{"mark": "plate_brass", "text": "SP|700143|40047|17|L2|370|_"}],
 "looks": [{"site": "scuttle", "feature": "fixings", "outcome": "round brass rivets"},
           {"site": "scuttle", "feature": "punching", "outcome": "doubtful"}],
 "papers": [{"mark": "build_card", "state": "copy", "copied_from": "despatch_ledger"}],
 "circumstances": {"overrides": [{"row": "structure.other", "value": 0.1, "reason": "r"}],
                   "prior_odds": [{"question": "identity", "odds": 2, "reason": "r"}]}
"""
    assert said(lines, book) == ""


def test_an_item_that_the_book_does_not_have_is_told_at_its_name(book: CodeBook) -> None:
    lines = ' "claim": {"items": {"chasis_number": "700143", "model_year": "1955"}}'
    assert said(lines, book) == (
        "case.json:2:22: 'chasis_number' is not an item of the book tarvane-1952-1961\n"
        '     "claim": {"items": {"chasis_number": "700143", "model_year": "1955"}}}\n'
        "                         ^^^^^^^^^^^^^^^\n"
        "expected one of: chassis_number, axle_number, exchange_engine_number"
    )


def test_a_name_like_no_other_is_answered_with_some_that_are_known(book: CodeBook) -> None:
    """Twelve of them, and an ellipsis for the rest."""
    lines = ' "claim": {"items": {"zz": "7", "model_year": "1955"}}'
    assert said(lines, book).splitlines()[-1] == (
        "expected one of: chassis_number, body_number, shell_order_number, engine_number, "
        "exchange_engine_number, gearbox_number, axle_number, model, model_year, works, "
        "body_works, engine_series, …"
    )


def test_a_claimed_value_that_no_table_gives_is_told_with_the_nearest(book: CodeBook) -> None:
    lines = ' "claim": {"items": {"model_year": "1955", "paint": "saxe-bleu"}}'
    assert said(lines, book) == (
        "case.json:2:53: 'saxe-bleu' is not a paint of the book tarvane-1952-1961\n"
        '     "claim": {"items": {"model_year": "1955", "paint": "saxe-bleu"}}}\n'
        "                                                        ^^^^^^^^^^^\n"
        "expected one of: saxe-blue"
    )


@pytest.mark.parametrize("year", ["1951", "1962", "MCMLV", "55", ""])
def test_a_year_outside_the_book_is_told_once(book: CodeBook, year: str) -> None:
    lines = f' "claim": {{"items": {{"model_year": "{year}"}}}}'
    mark = "^" * (len(year) + 2)
    expected = (
        f"case.json:2:36: {year!r} is not a year of the book tarvane-1952-1961\n"
        f'     "claim": {{"items": {{"model_year": "{year}"}}}}}}\n'
        f"                                       {mark}\n"
        "expected a year from 1952 to 1961"
    )
    assert said(lines, book) == expected


@pytest.mark.parametrize("number", ["70014", "7001433", "7OO143", "", "70?143"])
def test_a_claimed_number_that_is_not_whole_is_told(book: CodeBook, number: str) -> None:
    lines = f"""
 "claim": {{"items": {{"model_year": "1955",
                     "chassis_number": "{number}"}}}}
"""
    mark = "^" * (len(number) + 2)
    assert said(lines, book) == (
        f"case.json:3:40: {number!r} is not a whole chassis number\n"
        f'                         "chassis_number": "{number}"}}}}}}\n'
        f"                                           {mark}\n"
        "expected 6 characters out of 0123456789, or as it stands on the car: 1??????"
    )


@pytest.mark.parametrize("number", ["700143", "700-143", " 700.143 ", "70/0143"])
def test_signs_between_the_characters_of_a_claimed_number_are_no_fault(
    book: CodeBook, number: str
) -> None:
    lines = f' "claim": {{"items": {{"model_year": "1955", "chassis_number": "{number}"}}}}'
    assert said(lines, book) == ""


def test_a_car_for_which_nothing_bears_the_identity_is_told(book: CodeBook) -> None:
    """No Sprint was built after 1957: neither frame nor shell is known for it."""
    lines = ' "claim": {"items": {"model": "solent-sprint", "model_year": "1960"}}'
    assert said(lines, book) == (
        "case.json:2:21: the book tarvane-1952-1961 names no identity bearer for a car of this "
        "year and model\n"
        '     "claim": {"items": {"model": "solent-sprint", "model_year": "1960"}}}\n'
        "                        ^\n"
        "expected a model and model year that the book covers"
    )


def test_more_marks_than_are_summed_exactly_are_refused(book: CodeBook) -> None:
    """Fifteen plates that bear the chassis number, all of them read; unread ones are no matter."""
    plate = book.mark("plate_brass")
    assert plate is not None
    number = tuple(field for field in plate.fields if field.id == "chassis")
    more = tuple(replace(plate, id=f"plate_{k}", fields=number) for k in range(15))
    crowded = replace(book, marks=(*book.marks, *more))
    readings = ", ".join(f'{{"mark": "{each.id}", "text": "700143"}}' for each in more)
    assert said(CLAIM, crowded) == ""
    found = said(f'{CLAIM}, "readings": [{readings}]', crowded)
    assert found.startswith("case.json:1:77: 15 marks bear the chassis number\n")
    assert found.endswith("expected at most 14, which is how many are summed exactly")


def test_a_site_of_another_name_is_told(book: CodeBook) -> None:
    lines = f' {CLAIM},\n "sites": [{{"site": "bulkhed", "state": "read"}}]'
    assert said(lines, book) == (
        "case.json:3:21: 'bulkhed' is not a site of the book tarvane-1952-1961\n"
        '     "sites": [{"site": "bulkhed", "state": "read"}]}\n'
        "                        ^^^^^^^^^\n"
        "expected one of: bulkhead"
    )


@pytest.mark.parametrize("state", ["not accessible", "not looked for"])
@pytest.mark.parametrize(
    "noted",
    [
        '"readings": [{"mark": "plate_brass", "text": "SP|700143|40047|17|L2|370|_"}]',
        '"looks": [{"site": "scuttle", "outcome": "factory"}]',
    ],
)
def test_a_site_that_was_not_seen_can_have_nothing_noted(
    book: CodeBook, state: str, noted: str
) -> None:
    lines = f' {CLAIM},\n "sites": [{{"site": "scuttle", "state": "{state}"}}],\n {noted}'
    assert said(lines, book) == (
        f"case.json:3:41: the case calls the site 'scuttle' '{state}', yet something was noted "
        "there\n"
        f'     "sites": [{{"site": "scuttle", "state": "{state}"}}],\n'
        "                                            ^^^^^^^^^^^^^^^^\n"
        "expected the site 'scuttle' as read, or nothing noted there"
    )


ABSENT = ' {claim},\n "sites": [{{"site": "inner_wing", "state": "absent"}}],\n "{noted}'


def test_a_mark_that_is_absent_cannot_have_been_read(book: CodeBook) -> None:
    noted = 'readings": [{"mark": "wing_body_number", "text": "M 0931"}]'
    assert said(ABSENT.format(claim=CLAIM, noted=noted), book) == (
        "case.json:3:44: the case calls the site 'inner_wing' 'absent', yet something was noted "
        "there\n"
        '     "sites": [{"site": "inner_wing", "state": "absent"}],\n'
        "                                               ^^^^^^^^\n"
        "expected the site 'inner_wing' as read, or nothing noted there"
    )


@pytest.mark.parametrize(
    "noted",
    [
        'looks": [{"site": "inner_wing", "feature": "bolts", "outcome": "new bolts"}]',
        'readings": [{"mark": "wing_body_number", "text": "_ ____"}]',
    ],
)
def test_where_a_mark_is_absent_the_place_can_still_be_looked_at(
    book: CodeBook, noted: str
) -> None:
    assert said(ABSENT.format(claim=CLAIM, noted=noted), book) == ""


def test_site_feature_and_outcome_of_a_look_are_told_each_by_what_it_belongs_to(
    book: CodeBook,
) -> None:
    lines = f""" {CLAIM},
 "looks": [{{"site": "skuttle", "outcome": "factory"}},
           {{"site": "scuttle", "feature": "rivets", "outcome": "factory"}},
           {{"site": "scuttle", "feature": "fixings", "outcome": "brass screws"}}]"""
    assert said(lines, book) == (
        "case.json:3:21: 'skuttle' is not a site of the book tarvane-1952-1961\n"
        '     "looks": [{"site": "skuttle", "outcome": "factory"},\n'
        "                        ^^^^^^^^^\n"
        "expected one of: scuttle\n"
        "case.json:4:43: 'rivets' is not a feature of the site scuttle\n"
        '               {"site": "scuttle", "feature": "rivets", "outcome": "factory"},\n'
        "                                              ^^^^^^^^\n"
        "expected one of: surface, fixings, punching, paint_edge\n"
        "case.json:5:65: 'brass screws' is not an outcome of the feature fixings\n"
        '               {"site": "scuttle", "feature": "fixings", "outcome": "brass screws"}]}\n'
        "                                                                    ^^^^^^^^^^^^^^\n"
        "expected one of: screws, round brass rivets"
    )


def test_a_mark_of_another_name_is_told(book: CodeBook) -> None:
    lines = f' {CLAIM},\n "readings": [{{"mark": "frame_numer", "text": "4 700143"}}]'
    assert said(lines, book) == (
        "case.json:3:24: 'frame_numer' is not a mark of the book tarvane-1952-1961\n"
        '     "readings": [{"mark": "frame_numer", "text": "4 700143"}]}\n'
        "                           ^^^^^^^^^^^^^\n"
        "expected one of: frame_number"
    )


def test_a_fault_of_a_reading_is_shown_in_the_case_at_its_very_character(book: CodeBook) -> None:
    """The reading's own problem, moved to where its text stands in the document."""
    lines = f' {CLAIM},\n "readings": [{{"mark": "frame_number", "text": "4 7001[48"}}]'
    assert said(lines, book) == (
        "case.json:3:55: this [ is never closed\n"
        '     "readings": [{"mark": "frame_number", "text": "4 7001[48"}]}\n'
        "                                                          ^\n"
        "expected two or more characters such as [38], or ? for a place that cannot be read"
    )


def test_a_paper_is_one_of_the_books_papers_and_was_copied_from_one_of_its_marks(
    book: CodeBook,
) -> None:
    lines = f""" {CLAIM},
 "papers": [{{"mark": "frame_number", "state": "in hand"}},
            {{"mark": "build_card", "state": "copy", "copied_from": "plate_bras"}}]"""
    assert said(lines, book) == (
        "case.json:3:22: 'frame_number' is not a paper of the book tarvane-1952-1961\n"
        '     "papers": [{"mark": "frame_number", "state": "in hand"},\n'
        "                         ^^^^^^^^^^^^^^\n"
        "expected one of: despatch_ledger, build_card, build_sheet, owner_booklet, "
        "service_invoice\n"
        "case.json:4:68: 'plate_bras' is not a mark of the book tarvane-1952-1961\n"
        '                {"mark": "build_card", "state": "copy", "copied_from": "plate_bras"}]}\n'
        "                                                                       ^^^^^^^^^^^^\n"
        "expected one of: plate_brass"
    )


def test_an_override_is_of_a_row_that_the_model_has(book: CodeBook) -> None:
    lines = f""" {CLAIM},
 "circumstances": {{"overrides": [
   {{"row": "structure.othr", "value": 0.1, "reason": "tried"}}]}}"""
    assert said(lines, book) == (
        "case.json:4:12: 'structure.othr' is not a row of the model's tables\n"
        '       {"row": "structure.othr", "value": 0.1, "reason": "tried"}]}}\n'
        "               ^^^^^^^^^^^^^^^^\n"
        "expected one of: structure.other, structure.struck, structure.sold"
    )


def test_another_value_of_a_share_is_a_share(book: CodeBook) -> None:
    lines = f""" {CLAIM},
 "circumstances": {{"overrides": [
   {{"row": "structure.other", "value": 2, "reason": "tried"}},
   {{"row": "pass.odds", "value": 5, "reason": "tried"}}]}}"""
    assert said(lines, book) == (
        "case.json:4:40: 2 is not a share, as the row 'structure.other' must be\n"
        '       {"row": "structure.other", "value": 2, "reason": "tried"},\n'
        "                                           ^\n"
        "expected a number above 0 and below 1"
    )


def test_two_outcomes_of_a_look_leave_something_for_the_third(book: CodeBook) -> None:
    """One that the case gives stands beside the other as the table has it."""
    lines = f""" {CLAIM},
 "circumstances": {{"overrides": [
   {{"row": "look.skilled.disturbed", "value": 0.75, "reason": "tried"}},
   {{"row": "look.made.doubtful", "value": 0.75, "reason": "tried"}}]}}"""
    assert said(lines, book) == (
        "case.json:4:47: 'look.skilled.disturbed' of 0.75 and 'look.skilled.doubtful' of 0.3 are "
        "shares of one look and leave nothing for places that look as made\n"
        '       {"row": "look.skilled.disturbed", "value": 0.75, "reason": "tried"},\n'
        "                                                  ^^^^\n"
        "expected a number above 0 and below 0.7"
    )


def with_odds(question: str) -> str:
    return f""" {CLAIM},
 "circumstances": {{"prior_odds": [
   {{"question": "{question}", "odds": 2, "reason": "known since 1960"}}]}}"""


def test_odds_are_stated_for_a_question_of_this_case(book: CodeBook) -> None:
    assert said(with_odds("identiti"), book) == (
        "case.json:4:17: 'identiti' is not a question of this case\n"
        '       {"question": "identiti", "odds": 2, "reason": "known since 1960"}]}}\n'
        "                    ^^^^^^^^^^\n"
        "expected one of: identity, identity frame"
    )


@pytest.mark.parametrize(
    "question",
    [
        "identity",
        "frame",
        "identity frame",
        "item",
        "item model",
        "model",
        "plate plate_brass",
        "plate_brass",
        "paper build_card",
        "core engine",
        "stamp engine",
        "engine",
    ],
)
def test_odds_stated_for_a_question_that_is_asked_are_no_fault(
    book: CodeBook, question: str
) -> None:
    assert said(with_odds(question), book) == ""


@pytest.mark.parametrize(
    "question", ["identity body", "core frame", "shell", "frame identity", "frame_number"]
)
def test_odds_that_no_question_would_use_are_a_fault(book: CodeBook, question: str) -> None:
    """Else they would stand in the case and do nothing."""
    assert f"{question!r} is not a question of this case" in said(with_odds(question), book)


def test_all_faults_are_told_at_once_in_the_order_of_their_places(book: CodeBook) -> None:
    lines = """
 "claim": {"items": {"model_year": "1955", "paint": "no-such-paint"}},
 "sites": [{"site": "nowhere", "state": "read"}],
 "readings": [{"mark": "nothing", "text": "1"}],
 "looks": [{"site": "nowhere", "outcome": "factory"}],
 "papers": [{"mark": "nothing", "state": "lost"}]
"""
    places = [line.split(" ")[0] for line in said(lines, book).splitlines() if "case.json" in line]
    assert places == [
        "case.json:2:53:",
        "case.json:3:21:",
        "case.json:4:24:",
        "case.json:5:21:",
        "case.json:6:22:",
    ]


def test_more_readings_of_one_mark_than_examiners_are_told(book: CodeBook) -> None:
    one = '{"mark": "frame_number", "text": "4 700143"}'
    readings = f'"readings": [{", ".join([one] * 7)}]'
    found = said(f"{CLAIM},\n{readings}", book)
    assert "there are 7 readings of the mark 'frame_number'" in found
    assert "expected at most 6, one for each examiner" in found


@pytest.mark.parametrize("mark", ["frame_number", "Frame number"])
def test_thousands_of_readings_of_one_mark_are_refused_unread(
    book: CodeBook, mark: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each would be laid out on its mark and cost milliseconds, a minute and a half together."""

    def read(*_: object) -> None:
        raise AssertionError("a reading was read")

    monkeypatch.setattr("witnessmark.examination.check.parse_reading", read)
    monkeypatch.setattr("witnessmark.decoding.mark_meant.parse_reading", read)
    many = ", ".join(f'{{"mark": "{mark}", "text": "x{n} 7"}}' for n in range(5_000))
    found = said(f'{CLAIM},\n"readings": [{many}]', book)
    assert f"there are 5000 readings of the mark '{mark}'" in found


def test_a_name_of_several_marks_that_nothing_decides_is_told_with_all_of_them(
    book: CodeBook,
) -> None:
    lines = ' "readings": [{"mark": "Seat number", "text": "?"}]'
    assert said(lines, book) == (
        "case.json:2:24: 'Seat number' is a common name for 4 marks of this car\n     "
        '"readings": [{"mark": "Seat number", "text": '
        '"?"}]}\n                           ^^^^^^^^^^^^^\nexpected one of: '
        "seat_body_number, seat_chassis_tail, shell_seat_number, shell_seat_tail"
    )


def test_a_name_of_the_trade_is_no_fault(book: CodeBook) -> None:
    lines = """
 "claim": {"items": {"model": "Solent Sprint", "model_year": "1955", "body_works": "Marrick"}},
 "readings": [{"mark": "seat number", "text": "M 0912"},
              {"mark": "Rail-Number", "text": "4700137"}],
 "papers": [{"mark": "Build Card", "state": "copy", "copied_from": "day book"}]
"""
    assert said(lines, book) == ""


STATES = """
 "sites": [{"site": "bulkhead", "state": "not looked for"},
           {"site": "bulkhead", "mark": "bulkhead_body_number", "state": "read"},
           {"site": "bulkhead", "mark": "body_week", "state": "found and illegible"}],
 "readings": [{"mark": "bulkhead_body_number", "text": "M 370"},
              {"mark": "body_week", "text": "WEEK"}],
 "looks": [{"site": "bulkhead", "outcome": "factory"}]
"""


def test_each_mark_of_a_place_can_end_in_its_own_way(book: CodeBook) -> None:
    """The place was reached for one of them, whatever stands there for the rest."""
    assert said(f"{CLAIM}, {STATES.replace('WEEK', '? ??')}", book) == ""


def test_a_mark_called_illegible_and_yet_read_is_told_at_its_state(book: CodeBook) -> None:
    told = said(f"{CLAIM}, {STATES.replace('WEEK', '17 5')}", book)
    assert told.splitlines()[0].endswith(
        "the case calls the mark 'body_week' 'found and illegible', yet something was noted there"
    )
    assert told.count("yet something was noted there") == 1


@pytest.mark.parametrize("state", ["absent", "not accessible", "not looked for"])
def test_a_mark_that_was_read_is_not_called_otherwise(book: CodeBook, state: str) -> None:
    lines = STATES.replace("WEEK", "? ??").replace('"state": "read"', f'"state": "{state}"')
    assert f"the case calls the mark 'bulkhead_body_number' '{state}'" in said(
        f"{CLAIM}, {lines}", book
    )


def test_a_mark_that_does_not_stand_at_the_site_is_told(book: CodeBook) -> None:
    lines = ' "sites": [{"site": "bulkhead", "mark": "engine_number", "state": "read"}]'
    assert said(lines, book).splitlines()[0] == (
        "case.json:2:41: 'engine_number' is not a mark of the site bulkhead"
    )


VOUCHED = ' "circumstances": {{"vouched": [{{"row": "{}", "by": "IL", "reason": "Seen often."}}]}}'


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("axle_codes:BU", ""),
        ("southgate", ""),
        ("axle_codes:XX9", "'axle_codes:XX9' is not a row of the book chevrolet-1964-1972"),
        ("baltimore", "the row 'baltimore' is not from memory: its basis is 'published'"),
    ],
)
def test_only_a_row_of_the_book_that_is_from_memory_can_be_vouched_for(row: str, told: str) -> None:
    folder = find_book("chevrolet-1964-1972")
    assert folder is not None
    book = open_book(folder).book
    assert book is not None
    found = said(VOUCHED.format(row), book)
    assert (told in found) if told else "row" not in found.partition("vouched")[0]
    assert bool(told) == ("of the book" in found or "from memory" in found)
