"""A book without fault becomes the records that it declares."""

from datetime import date

from witnessmark.codebook import Basis, CarContext, DatePart, DateToken, ItemKind
from witnessmark.problem import render_all


def test_a_book_without_fault_has_no_problems(tiny):
    assert tiny.told() == ""


def test_rows_without_years_hold_for_those_of_the_book(tiny):
    applies = tiny.book().codes[0].applies
    assert (applies.first_year, applies.last_year) == (1955, 1957)
    assert (applies.works, applies.models) == (frozenset(), frozenset())


def test_a_key_of_a_source_is_cited_in_full(tiny):
    assert tiny.book().codes[0].citation.source == "Invented for a test"


def test_a_key_of_a_source_may_be_any_word(tiny):
    changed = tiny.change("book", "[sources]", '[sources]\nbasis = "A book of that name"')
    assert changed.told() == ""


def test_a_source_in_words_is_kept_as_it_stands(tiny):
    book = tiny.change(
        "codes", "January,,,,,invented,demo", "January,,,,,invented,a letter of 1957"
    )
    assert book.book().codes[4].citation.source == "a letter of 1957"


def test_a_row_knows_where_it_stands(tiny):
    place = tiny.book().codes[2].citation.place
    assert (place.name, place.line) == ("tables/codes.csv", 4)
    assert place.text == 'trims,L1,tan-leather,"leather, tan",1955,1957,,,invented,demo'


def test_a_list_in_a_cell_is_separated_by_spaces(tiny):
    assert tiny.book().models[1].applies.works == frozenset({"tarvane", "marrick"})


def test_standing_items_are_there_without_being_declared(tiny):
    book = tiny.book()
    ids = ("model", "model_year", "works", "body_works", "build_date")
    kinds = [item.kind for name in ids if (item := book.item(name)) is not None]
    assert kinds == [ItemKind.CODE] * 4 + [ItemKind.DATE]


def test_a_standing_item_can_have_a_name_of_the_makers(tiny):
    declared = '[[item]]\nid = "build_date"\nname = "day of despatch"\nkind = "date"\n\n'
    book = tiny.change("book", '[[item]]\nid = "trim"', f'{declared}[[item]]\nid = "trim"').book()
    assert [item.name for item in book.items if item.id == "build_date"] == ["day of despatch"]


def test_a_form_of_date_keeps_its_parts(tiny):
    book = tiny.change("book", "first_year = 1954", "first_year = 1954\nstart = 1954-01-01").book()
    form = book.date_form("casting_day")
    assert form is not None
    assert (form.first_year, form.last_year, form.start) == (1954, 1957, date(1954, 1, 1))
    assert form.tokens[1] == DateToken(part=DatePart.MONTH_LETTER, width=1, table="months")
    assert form.placeholders[0].code == "00A0"


def test_a_number_may_stand_without_its_leading_nought(tiny):
    changed = tiny.change(
        "book", 'part = "day", width = 2', 'part = "day", width = 2, least_width = 1'
    ).change("book", "widths = [4]", "widths = [3, 4]")
    form = changed.book().date_form("casting_day")
    assert form is not None
    assert (form.tokens[0].least_width, form.tokens[0].width) == (1, 2)


def test_windows_stand_in_reading_order_whatever_their_order_in_the_file(tiny):
    changed = tiny.change("book", "column = 1", "column = 3")
    mark = changed.book().mark("plate")
    assert mark is not None
    assert [field.id for field in mark.fields] == ["trim", "type"]


def test_an_empty_field_says_something(tiny):
    mark = tiny.book().mark("plate")
    assert mark is not None
    assert mark.fields[1].empty is not None
    assert mark.fields[1].empty.value == "none"


def test_outcomes_are_read_with_their_looks(tiny):
    outcomes = tiny.book().features[0].outcomes
    assert [(o.id, o.look) for o in outcomes] == [("round red", "factory"), ("none", "doubtful")]


def test_the_row_of_a_works_goes_before_the_general_one(tiny):
    site = tiny.book().site("rail", CarContext(works=frozenset({"marrick"})))
    assert site is not None
    assert site.where == "before the hanger"


def test_a_faulty_basis_never_argues(tiny):
    parsed = tiny.change("codes", "January,,,,,invented", "January,,,,,hearsay").parsed()
    assert parsed.book is not None
    assert parsed.book.codes[4].citation.basis is Basis.MEMORY


def test_all_problems_come_at_once(tiny):
    """In every file, and each in the order of its place."""
    changed = (
        tiny.change("book", "length = 6", 'length = "6"')
        .change("lags", "20,60,240", "20,sixty,240")
        .change("codes", "grey-cloth", "Grey Cloth")
        .change("rules", "body_works,ellery", "body_works,elery")
    )
    lines = [line for line in changed.told().splitlines() if line.startswith(("book", "tables"))]
    assert [line.split(": ")[0] for line in lines] == [
        "book.toml:19:10",
        "tables/codes.csv:5:9",
        "tables/lags.csv:2:40",
        "tables/rules.csv:2:90",
    ]


def test_a_book_without_its_years_is_none_and_its_tables_are_still_read(tiny):
    changed = tiny.change("book", "first_year = 1955\n", "").change("lags", "20,60", "20,sixty")
    parsed = changed.parsed()
    assert parsed.book is None
    assert (
        render_all(parsed.problems)
        == """\
book.toml:1: a code book needs 'first_year'
expected a whole number from 1886 to 2100
tables/lags.csv:2:40: 'usual_days' is 'sixty' here
    cast-to-car,casting_date,build_date,20,sixty,240,,,,,invented,demo
                                           ^^^^^
expected a whole number"""
    )


def test_codes_may_be_spread_over_several_files(tiny):
    header, *rows = tiny.tables["codes"].splitlines()
    spread = tiny.table("codes", "\n".join([header, *rows[:4]])).table(
        "codes-months", "\n".join([header, *rows[4:]])
    )
    assert spread.told() == ""
    assert len(spread.book().codes) == 7
