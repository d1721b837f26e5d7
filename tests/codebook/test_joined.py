"""Further books beside a maker's: one book, in which no name of one is ever the other's."""

from dataclasses import fields, replace
from itertools import chain

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.published.books import CHEVROLET, FORD, REAL, TARVANE, opened
from witnessmark.codebook import CarContext, CodeBook, Mark, joined, makers_own
from witnessmark.codebook.pieces import pieces_of
from witnessmark.decoding import Decoding, decode
from witnessmark.reading import parse_reading

MAKERS = (*REAL, TARVANE)
DATED, SEVENTEEN = "dated-parts", "seventeen-characters"
FURTHER = ((DATED,), (SEVENTEEN,), (DATED, SEVENTEEN))
NUMBER = "1TVDA22E6FP123456"
"""An invented number of seventeen characters."""

pairs = pytest.mark.parametrize(
    ("maker", "further"), [(maker, further) for maker in MAKERS for further in FURTHER]
)


def both(maker: str, further: tuple[str, ...] = (DATED, SEVENTEEN)) -> CodeBook:
    """A shipped maker's book with these beside it."""
    return joined(opened(maker), tuple(map(opened, further)))


JOINED = {maker: both(maker) for maker in MAKERS}
"""Each with both, joined once."""


def names(book: CodeBook) -> set[str]:
    """Every name by which something in a book is looked up."""
    kinds = ("marks", "items", "date_forms", "sites", "rules", "lags", "remarks", "points")
    kinds += ("pieces",)
    found = {row.id for kind in kinds for row in getattr(book, kind)}
    return found | {row.table for row in book.codes} | {row.id for row in book.exceptions}


@pairs
def test_all_rows_of_the_maker_stand_first_and_as_they_were(maker, further):
    """Every field of the book: rows are added behind, and nothing else is another."""
    own, book = opened(maker), both(maker, further)
    for field in fields(CodeBook):
        before, now = getattr(own, field.name), getattr(book, field.name)
        if isinstance(before, tuple):
            now = now[: len(before)]
        assert now == before, field.name


@pairs
def test_no_name_of_a_further_book_is_one_of_the_makers(maker, further):
    """They have the book's id in front, whether they collide or not."""
    own, book = opened(maker), both(maker, further)
    added = names(book) - names(own)
    assert {name.partition(".")[0] for name in added} == set(further)
    by_kind = ("marks", "items", "date_forms", "sites", "remarks")
    for rows in (getattr(book, kind)[len(getattr(own, kind)) :] for kind in by_kind):
        assert not {row.id for row in rows} & names(own)


@pairs
def test_every_name_that_a_further_book_uses_leads_somewhere(maker, further):
    """Items, tables, forms of date, sites: under their new names."""
    book = both(maker, further)
    tables = {row.table for row in book.codes}
    for mark in (mark for mark in book.marks if mark.book):
        assert book.site(mark.site) is not None
        assert mark.assembly == ""
        for field in mark.fields:
            assert book.item(field.says) is not None
            assert field.table == "" or field.table in tables
            assert field.date_form == "" or book.date_form(field.date_form) is not None
    about = names(book) | {f"{each}.book" for each in further} | {f"{SEVENTEEN}.model_year"}
    added = book.remarks[len(opened(maker).remarks) :]
    assert {remark.about for remark in added} <= about


def test_the_items_of_a_rule_and_the_other_form_of_a_mark_get_their_new_names():
    """No further book of ours has a rule of three items: one of a maker's is lent to it."""
    rule = next(rule for rule in opened(FORD).rules if rule.also)
    dated = opened(DATED)
    book = joined(opened(CHEVROLET), (replace(dated, rules=(rule,)),))
    assert book.rules[-1].items == {f"{DATED}.{item}" for item in rule.items}
    own = [f"{DATED}.{m.other_form_of}" if m.other_form_of else "" for m in dated.marks]
    assert any(own)
    assert [mark.other_form_of for mark in book.marks if mark.book] == own


@pairs
def test_which_cars_there_are_is_the_makers_to_say(maker, further):
    """No second bearer of identity, no number that names the car, no year more or less."""
    own, book = opened(maker), both(maker, further)
    for kind in ("works", "models", "body_families", "assemblies", "runs", "settlements"):
        assert getattr(book, kind) == getattr(own, kind)
    identified = [item.id for item in book.items if item.identification]
    assert identified == [item.id for item in own.items if item.identification]


def test_a_mark_of_a_further_book_holds_for_every_car_of_its_years():
    """Whatever the model; and for no car of other years."""
    car = CarContext(1967, "mustang", frozenset({"san-jose"}))
    marks = {mark.id for mark in both(FORD).marks_for(car)}
    assert {f"{DATED}.tire_week_4", f"{DATED}.seat_belt_label"} <= marks
    assert f"{DATED}.certification_numerals" not in marks
    assert f"{SEVENTEEN}.vehicle_number" not in marks


def text_of(mark: Mark, book: CodeBook, choose: st.DataObject) -> str:
    """Something that could be typed for a mark: codes, characters, doubt."""
    windows = []
    for window in mark.windows_in_order():
        text = ""
        for field in window:
            codes = [row.code for row in book.codes if row.table == field.table and field.table]
            width = choose.draw(st.sampled_from(field.widths or (1,)))
            free = st.text(st.sampled_from(field.alphabet + "?"), min_size=width, max_size=width)
            text += choose.draw(st.sampled_from(codes) | free if codes else free)
        windows.append(text)
    return " | ".join(windows)


@pytest.mark.parametrize("maker", MAKERS)
@given(choose=st.data())
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
def test_joining_changes_no_decoding_of_the_makers_own_marks(maker, choose):
    """To the last figure, for any mark, car and text."""
    own, book = opened(maker), JOINED[maker]
    mark = choose.draw(st.sampled_from(own.marks))
    year = choose.draw(st.none() | st.integers(own.first_year, own.last_year))
    reading = parse_reading(text_of(mark, own, choose), mark)
    car = CarContext(year)
    assert decode(reading, book, mark, car) == decode(reading, own, mark, car)
    assert book.remarks_on(mark, car) == own.remarks_on(mark, car)


def meant(decoding: Decoding) -> list[tuple[object, ...]]:
    """What a decoding says, without the names of items."""
    found = (
        (round(alternative.share, 12), each.field, each.code, each.value, each.meaning, each.spans)
        for alternative in decoding.alternatives
        for each in alternative.fields
    )
    return [*found, (decoding.notes, decoding.unread, decoding.missing, decoding.book)]


TYPED = (
    (DATED, "tire_number_3", "DOT A1 XYZ 2?5"),
    (DATED, "certification_words", "MAY 1970"),
    (DATED, "glazing_item", "AS-1"),
    (DATED, "brake_hose_day", "10/1/74"),
    (SEVENTEEN, "vehicle_number", NUMBER),
    (SEVENTEEN, "vehicle_number", "1TVDA22?6FP123456"),
    (SEVENTEEN, "vehicle_number_other", NUMBER),
)


@pytest.mark.parametrize("maker", MAKERS)
@pytest.mark.parametrize(("further", "name", "text"), TYPED)
def test_a_mark_of_a_further_book_is_decoded_as_by_that_book_alone(maker, further, name, text):
    """The check digit and the years by its own tables, of whatever name the maker's are."""
    alone, book = opened(further), JOINED[maker]
    mark, own = book.mark(f"{further}.{name}"), alone.mark(name)
    assert mark is not None
    assert own is not None
    found = decode(parse_reading(text, mark), book, mark)
    assert meant(found) == meant(decode(parse_reading(text, own), alone, own))
    told = [remark.sentence for remark in book.remarks_on(mark)]
    assert told == [remark.sentence for remark in alone.remarks_on(own)]


def test_the_cars_year_says_nothing_of_a_tires():
    """Week 10 of 1971, 1981 or 1991, on a car of 1971 as on any."""
    book = JOINED[CHEVROLET]
    mark = book.mark(f"{DATED}.tire_week_3")
    assert mark is not None
    found = decode(parse_reading("101", mark), book, mark, CarContext(1971))
    years = [span.first.year for each in found.alternatives[0].fields for span in each.spans]
    assert years == [1971, 1981, 1991]


def test_a_model_year_is_the_cars_only_where_both_books_speak_of_the_same_years():
    """A number of seventeen characters on a car of 1967 states another thing's year."""

    def says(maker: CodeBook) -> str:
        book = joined(maker, (opened(SEVENTEEN),))
        mark = book.mark(f"{SEVENTEEN}.vehicle_number")
        assert mark is not None
        return next(field.says for field in mark.fields if field.id == "year")

    ford = opened(FORD)
    assert says(ford) == f"{SEVENTEEN}.model_year"
    assert says(replace(ford, last_year=1985)) == "model_year"


def test_a_shared_model_year_is_decoded_for_the_car_and_brings_the_maker_no_remarks():
    """F is 1985 or 2015, and the car is of 1985."""
    late = replace(opened(FORD), last_year=1990)
    book = joined(late, (opened(SEVENTEEN),))
    mark, own = book.mark(f"{SEVENTEEN}.vehicle_number"), book.mark("dash_plate")
    assert mark is not None
    assert own is not None
    found = decode(parse_reading("VTVDA22E6FP123456", mark), book, mark, CarContext(1985))
    assert {each.value for each in found.alternatives[0].fields if each.field == "year"} == {"1985"}
    assert book.remarks_on(own) == late.remarks_on(own)
    assert "Position 10 is also never U, Z or 0." in [r.sentence for r in book.remarks_on(mark)]


def test_a_makers_own_book_stands_beside_no_other():
    """Two would say which cars there are."""
    assert makers_own(opened("tarvane-1952-1961")) == ("works", "models")
    assert list(chain(*map(makers_own, map(opened, (DATED, SEVENTEEN))))) == []
    with pytest.raises(ValueError, match="tarvane-1952-1961 cannot stand beside ford-1964-1973"):
        both(FORD, ("tarvane-1952-1961",))
    with pytest.raises(ValueError, match="dated-parts cannot stand beside ford-1964-1973"):
        both(FORD, (DATED, DATED))


def test_a_lag_to_the_cars_own_date_stays_out_and_one_between_parts_comes_in():
    """So that no late part is ever out of order with the car."""
    dated = opened(DATED)
    lag = replace(opened(FORD).lags[0], id="a", earlier="rim_date", later="tire_date")
    with_lags = replace(dated, lags=(lag, replace(lag, id="b", later="build_date")))
    book = joined(opened("tarvane-1952-1961"), (with_lags,))
    added = book.lags[len(opened("tarvane-1952-1961").lags) :]
    assert [(each.id, each.earlier, each.later) for each in added] == [
        (f"{DATED}.a", f"{DATED}.rim_date", f"{DATED}.tire_date")
    ]


@pairs
def test_a_piece_of_a_further_book_is_no_piece_of_the_car(maker, further):
    """It keeps what it says, under its book's name; no mark of the car stands on it."""
    book = both(maker, further)
    found = pieces_of(book, CarContext())
    assert found == pieces_of(opened(maker), CarContext())
    added = book.pieces[len(opened(maker).pieces) :]
    assert [(each.id, each.assembly) for each in added] == [
        (f"{name}.{each.id}", "") for name in further for each in opened(name).pieces
    ]
    marks = [mark for mark in book.marks if mark.piece and mark.book]
    assert {mark.piece for mark in marks} <= {each.id for each in added}
