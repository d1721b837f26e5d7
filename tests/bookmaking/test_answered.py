# ruff: noqa: E501 (rows stand here as a person writes them)
"""What a book can answer, in the words of somebody who looks at a car."""

from dataclasses import replace

from tests.codebook.tiny_book import CHASSIS_FIELD, plate
from witnessmark.bookmaking.answered import Answered, AskedOf, answered
from witnessmark.bookmaking.listing import list_book
from witnessmark.bookmaking.listing_page import render_listing_page


def lines(tiny):
    return {each.subject: each for each in answered(list_book(tiny.parsed().book, "0" * 64))}


def from_memory(tiny, table, old):
    """The book, with one row that is from memory."""
    return tiny.change(table, old, old.replace("invented", "memory"))


def test_every_line_is_there_once_and_a_book_is_told_in_a_dozen(tiny):
    found = answered(list_book(tiny.book(), "0" * 64))
    assert [each.subject for each in found] == list(AskedOf)
    assert len(found) <= 12


def test_what_nobody_has_described_is_told_as_not_at_all(tiny):
    found = lines(tiny)
    for subject in (AskedOf.ENGINE, AskedOf.GEARBOX, AskedOf.AXLE, AskedOf.OPTIONS):
        assert found[subject] == Answered(subject, (), (), ("no mark is described",))
    assert found[AskedOf.PAPERS].open == ("no paper is described",)


def test_an_item_stands_under_what_a_person_would_ask(tiny):
    found = lines(tiny)
    assert found[AskedOf.IDENTITY].answered == ("chassis number",)
    assert found[AskedOf.PAINT].answered == ("trim",)
    assert found[AskedOf.DATES].answered == ("casting date",)
    assert found[AskedOf.YEARS] == Answered(AskedOf.YEARS, ("1955 to 1957",), (), ())


def test_an_item_of_an_assembly_stands_under_it(tiny):
    engine = '[[assembly]]\nid = "engine"\nname = "engine"\nkind = "engine"\nbasis = "invented"\nsource = "demo"\n\n[[date_form]]'
    changed = tiny.change("book", "[[date_form]]", engine)
    changed = changed.change(
        "book",
        'id = "trim"\nname = "trim"\nkind = "code"',
        'id = "trim"\nname = "crank"\nkind = "code"\nhome = "engine"',
    )
    assert lines(changed)[AskedOf.ENGINE].answered == ("crank",)


def test_a_row_from_memory_only_explains(tiny):
    one = from_memory(
        tiny, "codes", "trims,C,grey-cloth,grey cloth,1956,1957,,solent-sprint,invented,demo"
    )
    assert lines(one)[AskedOf.PAINT].answered == ("trim",)
    both = from_memory(
        one, "codes", 'trims,L1,tan-leather,"leather, tan",1955,1957,,,invented,demo'
    )
    found = lines(both)[AskedOf.PAINT]
    assert (found.answered, found.explained, found.open) == ((), ("trim",), ())


def test_a_list_that_is_mostly_from_memory_stands_under_both(tiny):
    rows = "trims,L2,red-leather,red,1956,1957,,,memory,demo\ntrims,L,black-leather,black,1956,1957,,,memory,demo"
    found = lines(tiny.add("codes", rows))[AskedOf.PAINT]
    # Of 1955 the book has the one row that weighs; in 1956 and 1957 two of four do.
    assert found.answered == ("trim",)
    third = tiny.add("codes", f"{rows}\ntrims,C1,cloth,cloth,1956,1957,,,memory,demo")
    found = lines(third)[AskedOf.PAINT]
    assert found.answered == ("trim (1955)", "trim (1956 to 1957, little of it)")
    assert found.explained == ("trim (1956 to 1957, the rest)",)


def test_a_mark_from_memory_answers_nothing(tiny):
    stamp = 'carried = "frame rail"\nbasis = "invented"'
    found = lines(tiny.change("book", stamp, stamp.replace("invented", "memory")))
    assert found[AskedOf.IDENTITY].explained == ("chassis number",)
    assert found[AskedOf.YEARS] == Answered(AskedOf.YEARS, (), ("1955 to 1957",), ())


def test_years_without_a_row_are_open_and_a_partial_list_says_so(tiny):
    trims = tiny.change("codes", '"leather, tan",1955,1957', '"leather, tan",1955,1955')
    trims = trims.change("codes", "grey cloth,1956,1957", "grey cloth,1956,1956")
    found = lines(
        trims.change("book", '  table = "trims"', '  table = "trims"\n  listed = "partial"')
    )
    assert found[AskedOf.PAINT].answered == ("trim (1955 to 1956, in part)",)
    assert found[AskedOf.PAINT].open == ("trim (1957)",)


SECOND = plate("bonnet_number", "bonnet plate", CHASSIS_FIELD)


def test_a_number_without_its_series_is_compared_where_two_marks_bear_it(tiny):
    without = tiny.table("series", tiny.tables["series"].splitlines()[0] + "\n")
    assert lines(without)[AskedOf.IDENTITY].open == ("chassis number",)
    found = lines(replace(without, top=without.top + SECOND))[AskedOf.IDENTITY]
    assert (found.answered, found.open) == (("chassis number (by comparison)",), ())


POINTS = "id,item,first,dated,date_first,meaning,first_year,last_year,basis,source\n"


def test_a_known_car_tells_when_cars_of_its_year_were_built(tiny):
    first = "when the car was built, by its number"
    assert lines(tiny)[AskedOf.DATES].open == (first,)
    row = "one,chassis_number,560001,built,1956-01,x,1956,1956,invented,demo\n"
    found = lines(tiny.table("points", POINTS + row))[AskedOf.DATES]
    assert found.answered == (f"{first} (1956, in part)", "casting date")
    assert found.open == (f"{first} (1955, 1957)",)


def test_the_page_has_the_table_before_the_figures(tiny):
    page = render_listing_page([list_book(tiny.book(), "0" * 64)])
    assert page.index("| paint and trim | trim |") < page.index("## The figures")
    assert "### Tarvane, 1955 to 1957 (an invented maker)" in page


def test_a_book_without_models_is_no_makers_and_has_only_figures(tiny):
    book = replace(tiny.parsed().book, models=())
    page = render_listing_page([list_book(book, "0" * 64)])
    assert "### Tarvane" not in page
    assert "## tarvane-1955-1957" in page


def test_more_names_than_a_cell_holds_are_counted(tiny):
    names = "".join(
        f'[[item]]\nid = "letter_{n}"\nname = "letter {n}"\nkind = "number"\nlength = 1\n\n'
        for n in range(10)
    )
    fields = "".join(
        f'\n  [[mark.field]]\n  id = "l{n}"\n  name = "letter"\n  says = "letter_{n}"\n  widths = [1]\n'
        f'  alphabet = "01"\n  column = {n + 3}\n'
        for n in range(10)
    )
    old = '[[mark]]\nid = "frame_number"'
    changed = tiny.change("book", '[[item]]\nid = "trim"', f'{names}[[item]]\nid = "trim"')
    changed = changed.change("book", old, f"{fields}\n{old}")
    page = render_listing_page([list_book(changed.parsed().book, "0" * 64)])
    assert "letter 7; and 2 more |" in page
