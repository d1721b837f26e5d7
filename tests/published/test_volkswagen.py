"""What was published about air-cooled Volkswagens and their numbers, decoded as published.

Each reading has the source that says what it means beside it. Two cannot be told as published,
and the test says so where it stands: a weekday narrows no week, and a form of date does not know
the weeks of the calendar.
The whole case at the end is an invented bus.
"""

from dataclasses import replace
from datetime import date

import pytest

from tests.agreement.readings import car_read
from tests.published.books import ANY, Marks, opened
from tests.worked.situations.document import casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.agreement import CarMarks, Outcome, compare
from witnessmark.agreement.rules import number_in_its_series
from witnessmark.answers.decoded import known_points
from witnessmark.casefile import Casefile, case_from
from witnessmark.codebook import CarContext, Point, Remark
from witnessmark.decoding.mark_meant import marks_meant
from witnessmark.examination import book_names, car_marks, in_book_words
from witnessmark.examination.check import questions_asked
from witnessmark.weighing import Answer, Asked, Conclusion, answer, names_of_question
from witnessmark.weighing.evidence.sets import with_sets

BOOK = "volkswagen-1950-1979"
MARKS = Marks(BOOK)
decoded, meant, values, days = MARKS.decoded, MARKS.meant, MARKS.values, MARKS.days
CHASSIS = "chassis number"


def car(year: int | None = None, model: str | None = None) -> CarContext:
    """A claimed car."""
    return CarContext(model_year=year, model=model)


def form(text: str, context: CarContext = ANY, name: str = CHASSIS) -> list[str]:
    """The marks that somebody may mean who types this number under that name."""
    return [mark.id for mark in marks_meant(opened(BOOK), name, text, context)]


def point(name: str) -> Point:
    """A known car or number."""
    return next(each for each in opened(BOOK).points if each.id == name)


def remark(name: str) -> Remark:
    """A remark."""
    return next(each for each in opened(BOOK).remarks if each.id == name)


def number(mark_id: str, text: str) -> str:
    """The chassis number that a mark bears, of all places that stand there."""
    return "".join(m.value for m in meant(mark_id, text).values() if m.says == "chassis_number")


# ------------------------------------------------------------------- running numbers


# V. Molenaar and E. Meltzer, Fahrgestellnummern, gerbelmann.ermel.org/mcodes/vins.html
def test_a_number_with_the_prefix_1_is_of_type_1():
    """1-143216, the 143,216th."""
    found = values("pan_number_prefixed", "1-143216")
    assert (found["line"], found["chassis"]) == ("type-1", "0143216")


# J. Walker, Model and Year Variations, Type 2 library: 19 April 1956
# Split Screen Van Club forum, t=35155: March 1951
@pytest.mark.parametrize(
    ("text", "found", "name", "day"),
    [
        ("20-178 004", "0178004", "type-2-20178004", "1956-04-19"),
        ("20-011536", "0011536", "type-2-20011536", "1951-03"),
    ],
)
def test_a_number_with_the_prefix_20_is_of_a_bus(text: str, found: str, name: str, day: str):
    assert form(text) == ["bus_number_prefixed"]
    said = values("bus_number_prefixed", text)
    assert (said["line"], said["chassis"]) == ("type-2", found)
    assert (point(name).first, point(name).date_first) == (found, day)


# Beetle engine and chassis numbers, vwheritage.com: last of the calendar year 1956, model year 1957
def test_the_last_number_of_1956_is_of_model_year_1957():
    """1 394 119."""
    assert "model year 1957" in meant("pan_number_running", "1 394 119")["chassis"].meaning
    assert point("type-1-1394119").date_first == "1956-12"


# Worked out from vwheritage.com and J. Walker: a Beetle of 1955 or a bus of 1962 or 1963
def test_a_running_number_carries_neither_line_nor_year():
    """1 005 000."""
    assert {"pan_number_running", "bus_number_running"} <= set(form("1 005 000"))
    assert decoded("pan_number_running", "1 005 000").of_car == ANY
    assert form("1 005 000", car(1963, "kombi")) == ["bus_number_running"]
    assert form("1 005 000", car(1956, "beetle"))[-1] == "pan_number_running"


# J. Walker prints it at 1959, J. Rodgers at June 1960
def test_a_number_that_two_lists_put_at_different_years_stands_between_them():
    """469 506."""
    found = point("type-2-469506")
    assert (found.date_first, found.date_last) == ("1959", "1960-06")
    assert any(row.first == "0469506" for row in opened(BOOK).exceptions)


# --------------------------------------------------------------- nine and ten figures


# R. Kuhn, Beetle Year Identification and Chassis Number Table, Type 2 library
@pytest.mark.parametrize(
    ("text", "mark", "year", "serial"),
    [
        ("115 000 001", "pan_number_1965", "1965", "0000001"),
        ("116 1 021 298", "pan_number_1965", "1966", "1021298"),
        ("117 844 892", "pan_number_1965", "1967", "0844892"),
        ("118 1 016 098", "pan_number_1965", "1968", "1016098"),
        ("119 1 093 704", "pan_number_1965", "1969", "1093704"),
        ("110 2 000 001", "pan_number_1970", "1970", "2000001"),
        ("110 3 096 945", "pan_number_1970", "1970", "3096945"),
    ],
)
def test_the_fourth_of_ten_figures_tells_the_decade(text: str, mark: str, year: str, serial: str):
    assert form(text) == [mark]
    assert values(mark, text)["year"] == year
    assert number(mark, text) == serial


# vwheritage.com: 118 2 034 030, the last saloon built in Germany, 1978; R. Kuhn for 1968
def test_the_figure_of_the_year_comes_round_after_ten_years():
    assert form("118 2 034 030") == ["pan_number_1970"]
    assert values("pan_number_1970", "118 2 034 030")["year"] == "1978"
    assert form("118 034 030") == ["pan_number_1965"]
    assert values("pan_number_1965", "118 034 030")["year"] == "1968"
    assert point("type-1-1182034030").date_first == "1978-01-19"


# Gerbelmann prints 115 1 000 042 as a form; R. Kuhn ends 1965 below one million
def test_an_example_of_form_is_no_car():
    found = meant("pan_number_1965", "115 1 000 042")
    assert found["year"].value == "1965"
    assert "not in any series" in found["chassis"].meaning
    assert "no such car" in remark("form-115-1").sentence


# Eccles, by austrosplit.com: July 1967; austrosplit.com: planned 13 July, of model year 1968
def test_old_and_new_buses_were_built_together_in_july_1967():
    assert values("bus_number_1965", "217 148 459")["year"] == "1967"
    assert point("type-2-217148459").date_first == "1967-07"
    assert values("bus_number_1965", "218 000 399")["year"] == "1968"
    assert point("type-2-218000399").date_first == "1967-07-13"
    days_built = opened(BOOK).days_built(car(1968, "kombi"), 1968, 1968)
    assert days_built.first <= date(1967, 7, 13)


# J. Rodgers, Year Identification and Changes 1949-1979, Type 2 library
def test_the_last_number_of_1979_and_its_engine():
    """219 2 153 964 with GE 0 055 786."""
    bus = decoded("bus_number_1970", "219 2 153 964")
    assert values("bus_number_1970", "219 2 153 964")["year"] == "1979"
    assert number("bus_number_1970", "219 2 153 964") == "2153964"
    assert "model year 1979" in meant("bus_number_1970", "219 2 153 964")["serial"].meaning
    [known] = known_points(bus, opened(BOOK))
    assert (known.id, known.date_first) == ("type-2-2192153964", "1979-07")
    engine = meant("engine_lettered", "GE 0 055 786", car(1979, "kombi"))
    assert engine["engine"].value == "0055786"
    assert "GE, model years 1978 and 1979" in engine["engine"].meaning
    [last] = known_points(decoded("engine_lettered", "GE 0 055 786"), opened(BOOK))
    assert last.id == "bus-engine-ge0055786"


# J. Walker, Model and Year Variations, Type 2 library: engines by letters and model year
@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("B5 050 173", "B5 listed for model year 1968"),
        ("B5 050 174", "B5 listed for model year 1969"),
        ("AE 0 529 815", "AE listed for model year 1971"),
        ("AD 0 200 000", "engine number"),
        ("?? 0 016 185", "AE listed for model year 1971, with engine letters AE"),
    ],
)
def test_a_range_of_engine_numbers_is_that_of_its_letters(text: str, told: str):
    assert told in meant("engine_lettered", text)["engine"].meaning


def test_an_engine_whose_letters_were_not_read_says_nothing_of_the_car():
    assert decoded("engine_lettered", "CA 0 010 000").cars.first_year == 1971
    unread = decoded("engine_lettered", "?? 0 010 000").cars
    assert (unread.first_year, unread.last_year) == (1950, 1979)


# R. Kuhn prints where 1971 to 1977 begin; where they end is remembered
def test_of_a_run_whose_end_is_not_known_nothing_is_said():
    assert meant("pan_number_1970", "112 2 400 000")["serial"].meaning == "chassis number"


# Split Screen Van Club forum, t=53918: no more than that it fits a replacement
def test_a_bus_of_1973_with_an_engine_of_later():
    """233 2 109 891 with AS 182193."""
    bus = values("bus_number_1970", "233 2 109 891")
    assert (bus["type"], bus["year"]) == ("kombi", "1973")
    engine = meant("engine_lettered", "AS 182193")
    assert (engine["letters"].value, engine["engine"].value) == ("as", "0182193")
    assert "replacement" in engine["letters"].meaning
    assert remark("stolen-bus").citation.basis.weighs


# S. Bartnik, Engine letter codes, Type 2 library
def test_an_x_behind_a_number_is_an_exchange_engine():
    """D0 123 456 X."""
    assert values("engine_lettered", "D0 123 456 X")["sign"] == "exchange-40-hp"


# V. Molenaar, The M-code plate, type2.com/m-codes/2005
def test_the_entry_of_a_plate_names_a_variant():
    """Typ 23-517; the number is invented."""
    found = values("bus_type_plate_1970", "23-517 | 232 2 041 236")
    assert (found["typ"], found["variant"]) == ("kombi", "variant-517")


# ------------------------------------------------------------------- equipment plates

PLATE = "62 116 450\n123 226 508 528 697\n960977 FS9 H86 008 046\n13 5 7497 HO 2650 11"


# V. Molenaar, The M-code plate, type2.com/m-codes/2005
@pytest.mark.parametrize("parting", ["\n", " / "])
def test_a_plate_as_it_stands_on_the_metal(parting: str):
    """FS9 is in no list that was found, and says nothing."""
    text = PLATE.replace("\n", parting)
    found = values("m_plate_1970", text)
    assert number("m_plate_1970", text) == "2116450"
    wanted = {
        "year": "1976",
        "m1": "radio-suppression",
        "m5": "continental-tyres",
        "paint": "army-green",
        "interior": "canyon-brown",
        "m9": "",
        "weekday": "friday",
        "planning": "7497",
        "destination": "netherlands",
        "model": "pickup",
        "model_variant": "variant-50",
        "engine": "type-1",
        "gearbox": "four-speed",
    }
    assert {name: found[name] for name in wanted} == wanted


# The page prints 6 March 1976; week 13, Friday, was 26 March by the calendar
def test_a_planned_week_holds_the_day_of_the_calendar():
    """The weekday does not narrow the week, and weeks are counted in sevens from 1 January."""
    [span] = meant("m_plate_1970", PLATE)["week"].spans
    assert span.first <= date(1976, 3, 26) <= span.last
    assert date(1976, 3, 6) < span.first
    assert "26 March" in remark("planned-date-1976").sentence


# V. Molenaar: to about 150 000 of 1969 day and month, after that week and weekday
def test_a_day_and_month_lie_in_the_run_of_the_model_year():
    assert days("m_plate_1968", "date", "13 7", car(1968)) == [date(1967, 7, 13), date(1968, 7, 13)]
    assert days("m_plate_1968", "date", "02 N", car(1968)) == [date(1967, 11, 2)]


# V. Molenaar: L87 ended at 218 059 934; paint microfiche: at 218 059 924
def test_sources_that_disagree_about_a_colour_both_stand():
    rows = [row for row in opened(BOOK).table("paints") if row.code == "87" and row.disputed]
    sources = {row.citation.source.split(",")[0] for row in rows}
    assert sources == {"J. Walker", "V. Molenaar"}


# ----------------------------------------------------------- what is carried, what argues


def test_what_is_from_memory_says_so_and_nothing_else_does():
    book = opened(BOOK)
    cited = [row.citation for row in (*book.codes, *book.series, *book.points, *book.remarks)]
    alone = {each.source.startswith("memory (") for each in cited if each.basis.weighs}
    assert alone == {False}
    assert all("memory" in each.source for each in cited if not each.basis.weighs)


# StVZO section 59; de.zxc.wiki/wiki/Motorkennbuchstaben: struck at Kassel between two marks
def test_who_struck_a_number_in_service():
    pieces = {piece.id: piece for piece in opened(BOOK).pieces}
    assert (pieces["engine"].sold_in_service, pieces["engine"].service_numbers) == (
        "yes",
        "by works",
    )
    assert pieces["pan"].service_numbers == "by office"
    assert {pieces["pan"].assembly, pieces["body"].assembly} == {"pan", "body"}


# ----------------------------------------------------------------------- a whole case

BUS = {
    "bus_number_1970": "232 2 041 236",
    "bus_type_plate_1970": "23-517 | 232 2 041 236",
    "m_plate_1970": "22 041 236\n227 506 517\n060640 616\n44 3 7123 UB 2319 31",
    "engine_lettered": "CB 0 031 455",
    "works_certificate_1970": "232 2 041 236 | CB 0 031 455 | 03.11.1971 | 19.11.1971",
}
CLAIM = {"chassis_number": "2041236", "model": "kombi", "model_year": "1972"}


def case(**changed: str) -> Casefile:
    """The invented bus, with other texts on some of its marks."""
    readings = [{"mark": mark, "text": text} for mark, text in (BUS | changed).items()]
    return case_from(
        {
            "format": "witnessmark-case",
            "format_version": 2,
            "id": "invented",
            "book": BOOK,
            "claim": {"made_by": "the seller", "items": CLAIM, "built": "1971-11-03"},
            "readings": readings,
        }
    )


def weighed(**changed: str) -> Answer:
    """What comes of it at base rates."""
    found = car_marks(case(**changed), opened(BOOK))
    return answer(found, with_contributions=False, with_next_looks=False)


def log10_lr(found: Answer, asked: Asked, about: str) -> float:
    """One answer."""
    [value] = [c.log10_lr for c in found.conclusions if (c.question, c.about) == (asked, about)]
    assert value is not None
    return value


def test_a_bus_on_which_all_agrees_is_supported():
    found = weighed()
    assert found.misfits == ()
    assert log10_lr(found, Asked.IDENTITY, "bus_body") > 0.2
    assert log10_lr(found, Asked.CORE, "engine") > 0.2


def test_an_engine_of_later_is_told_and_says_little_of_the_bus():
    found, before = weighed(engine_lettered="AS 0 207 741"), weighed()
    assert log10_lr(found, Asked.CORE, "engine") < -1
    identity = log10_lr(found, Asked.IDENTITY, "bus_body")
    assert abs(identity - log10_lr(before, Asked.IDENTITY, "bus_body")) < 0.3


def test_another_bus_is_told():
    other = {"bus_number_1970": "232 2 077 510"}
    assert log10_lr(weighed(**other), Asked.IDENTITY, "bus_body") < 0
    assert weighed(**other).misfits


# --------------------------------------------------------------------- equipment as a set

ALIKE = "22 041 236\n227 249 251\n060640 616\n44 3 7123 UB 2319 33"
FOUR_SPEED = ALIKE.replace("2319 33", "2319 31")
FOUR_SPEED_ALONE = FOUR_SPEED.replace("227 249 251", "227 506 517")
TWO = "automatic gearbox, larger-engine-1700-1800-or-2000"


def claiming(plate: str, **items: str) -> CarMarks:
    """The invented bus with this plate and more in its claim."""
    made = case(m_plate_1970=plate)
    made = replace(made, claim=replace(made.claim, items={**made.claim.items, **items}))
    return car_marks(in_book_words(made, opened(BOOK)), opened(BOOK))


def test_codes_of_one_plate_do_not_contradict_each_other():
    found = compare(claiming(ALIKE, equipment=TWO))
    assert {each.outcome for each in found if each.topic == "equipment"} == {Outcome.AGREE}


def of_codes(car: CarMarks) -> list[Conclusion]:
    """The answers about equipment codes."""
    found = answer(car, with_contributions=False, with_next_looks=False)
    return [each for each in found.conclusions if each.about.startswith("equipment ")]


def test_each_claimed_code_is_a_question_of_its_own():
    car = claiming(ALIKE, equipment=TWO)
    codes = of_codes(car)
    assert [each.pair.first for each in codes] == [
        "the claimed car was built with the claimed equipment code (automatic gearbox)",
        "the claimed car was built with the claimed equipment code "
        "(larger engine 1700 1800 or 2000)",
    ]
    assert all(each.log10_lr > 1 for each in codes)
    named = {names_of_question(each.question, each.about)[0] for each in codes}
    assert named <= set(questions_asked(car.casefile, car.book, car.context))


def test_a_code_that_no_plate_names_cannot_be_established():
    [code] = of_codes(claiming(ALIKE, equipment="camping-bus"))
    assert (code.can_be_told, code.log10_lr) == (False, 0.0)


@pytest.mark.parametrize(
    ("plate", "outcome"), [(ALIKE, Outcome.AGREE), (FOUR_SPEED, Outcome.DIFFER)]
)
def test_a_rule_asks_whether_the_car_has_a_code(plate: str, outcome: Outcome):
    found = [each for each in compare(claiming(plate)) if each.topic == "m249-is-automatic"]
    assert [each.outcome for each in found] == [outcome]


def test_a_claimed_code_that_a_rule_excludes_is_weighed_by_it():
    [code] = of_codes(claiming(FOUR_SPEED_ALONE, equipment="automatic-gearbox"))
    assert code.log10_lr < -0.5


def test_a_book_without_sets_is_weighed_as_it_is():
    beetle = car_marks(casefile(STANDARD["beetle"]), opened(BOOK))
    assert with_sets(beetle) is beetle


# B. Verbeek, VW boxer engine codes: H in Type 1 from August 1966; R. Kuhn: H5 in cars for the USA
@pytest.mark.parametrize(
    ("text", "year", "fits"),
    [("H 0 412 339", 1967, True), ("H 5 012 345", 1968, True), ("B 5 012 345", 1970, False)],
)
def test_an_engine_of_a_beetle_fits_the_range_of_its_letters(text, year, fits):
    context = car(year, "beetle")
    [found] = [
        each
        for each in number_in_its_series.compare(
            car_read(BOOK, f"engine_lettered={text}", context=context)
        )
        if each.topic == "engine_number"
    ]
    assert (found.outcome is not Outcome.DIFFER) is fits


def test_a_claimed_code_is_told_as_it_is_meant_on_a_car_of_its_year():
    """H of 1966 is an engine of the bus alone."""
    names = book_names(car_marks(casefile(STANDARD["beetle"]), opened(BOOK)))
    [told] = [each.name for each in names if each.id == "engine_letters h"]
    assert told.startswith("Type 1, 1493 cc")
