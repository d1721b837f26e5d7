"""The tables are read against their columns, every fault with its cell."""

import csv
import io

from hypothesis import given
from hypothesis import strategies as st

from witnessmark.documents.csv_cells import parse_cells
from witnessmark.documents.entries import FileText


def test_a_row_without_a_basis_is_named(tiny):
    changed = tiny.change("codes", "January,,,,,invented,demo", "January,,,,,,demo")
    told = """\
tables/codes.csv:6:24: codes.csv needs 'basis'
    months,A,1,January,,,,,,demo
                           ^
expected one of: published, common practice, memory, invented"""
    assert changed.told() == told


def test_a_row_without_a_source_is_named(tiny):
    changed = tiny.change("codes", "January,,,,,invented,demo", "January,,,,,invented,")
    told = """\
tables/codes.csv:6:33: codes.csv needs 'source'
    months,A,1,January,,,,,invented,
                                    ^
expected text"""
    assert changed.told() == told


def test_a_row_with_too_few_cells_is_named(tiny):
    changed = tiny.change("lags", "240,,,,,invented", "240,,,,invented")
    told = """\
tables/lags.csv:2:1: the row has 11 cells, the header 12
    cast-to-car,casting_date,build_date,20,60,240,,,,invented,demo
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
expected a cell for each column; quotes around a cell that holds a comma"""
    assert changed.told() == told


def test_a_row_with_too_many_cells_is_named(tiny):
    changed = tiny.change("lags", "240,,,,,invented", "240,,,,,,invented")
    told = """\
tables/lags.csv:2:1: the row has 13 cells, the header 12
    cast-to-car,casting_date,build_date,20,60,240,,,,,,invented,demo
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
expected a cell for each column; quotes around a cell that holds a comma"""
    assert changed.told() == told


def test_an_unknown_column_is_named_with_the_nearest_and_the_missing_one(tiny):
    changed = tiny.change("lags", "most_days", "mostdays")
    told = """\
tables/lags.csv:1:40: 'mostdays' is not a column of lags.csv
    id,earlier,later,least_days,usual_days,mostdays,first_year,last_year,works,models,basis,source
                                           ^^^^^^^^
expected 'most_days', which is the nearest
tables/lags.csv:1:95: lags.csv needs a column 'most_days'
    id,earlier,later,least_days,usual_days,mostdays,first_year,last_year,works,models,basis,source
                                                                                                  ^
expected it in the header, with a cell in each row"""
    assert changed.told() == told


def test_a_column_that_stands_twice_is_named(tiny):
    changed = tiny.change("lags", "works,models", "works,works")
    told = """\
tables/lags.csv:1:77: the column 'works' is here a second time
    id,earlier,later,least_days,usual_days,most_days,first_year,last_year,works,works,basis,source
                                                                                ^^^^^
expected each column once"""
    assert changed.told() == told


def test_semicolons_between_cells_are_told_once_and_nothing_else(tiny):
    changed = tiny.table(
        "works", "id;name;role;basis;source\nellery;Ellery Coachworks;body_works;invented;demo\n"
    )
    told = """\
tables/works.csv:1:3: the cells are separated by ';'
    id;name;role;basis;source
      ^
expected commas between cells"""
    assert changed.told() == told


def test_an_empty_table_lacks_its_header(tiny):
    changed = tiny.table("works", "")
    told = """\
tables/works.csv:1: the table has no header row
expected id,name,role,first_year,last_year,basis,source"""
    assert changed.told() == told


def test_a_quote_that_never_closes_is_shown_where_it_opens(tiny):
    changed = tiny.change("codes", '"leather, tan"', '"leather, tan')
    told = """\
tables/codes.csv:4:22: the quote that opens here is never closed; nothing after it was read
    trims,L1,tan-leather,"leather, tan,1955,1957,,,invented,demo
                         ^
expected a closing " (and "" for a quote inside the cell)"""
    assert changed.told() == told


def test_text_after_a_closing_quote_is_shown(tiny):
    changed = tiny.change("codes", '"leather, tan"', '"leather, tan"s')
    told = """\
tables/codes.csv:4:36: there is text between the closing quote and the next comma
    trims,L1,tan-leather,"leather, tan"s,1955,1957,,,invented,demo
                                       ^
expected a comma (and "" for a quote inside the cell)"""
    assert changed.told() == told


def test_a_cell_that_should_hold_a_number_and_does_not_is_named(tiny):
    changed = tiny.change("lags", "20,60,240", "20,sixty,240")
    told = """\
tables/lags.csv:2:40: 'usual_days' is 'sixty' here
    cast-to-car,casting_date,build_date,20,sixty,240,,,,,invented,demo
                                           ^^^^^
expected a whole number"""
    assert changed.told() == told


def test_a_number_out_of_range_is_named(tiny):
    changed = tiny.change("lags", "20,60,240", "-40000,60,240")
    told = """\
tables/lags.csv:2:37: -40000 is too small for 'least_days'
    cast-to-car,casting_date,build_date,-40000,60,240,,,,,invented,demo
                                        ^^^^^^
expected -36525 to 36525"""
    assert changed.told() == told


def test_a_value_that_is_not_canonical_is_named(tiny):
    changed = tiny.change("codes", "grey-cloth", "Grey Cloth")
    told = """\
tables/codes.csv:5:9: 'Grey Cloth' does not have the form of 'value'
    trims,C,Grey Cloth,grey cloth,1956,1957,,solent-sprint,invented,demo
            ^^^^^^^^^^
expected lower-case words and digits, joined by hyphens"""
    assert changed.told() == told


def test_a_word_that_the_column_does_not_know_is_named(tiny):
    changed = tiny.change("works", "Marrick & Sons,body_works", "Marrick & Sons,coachworks")
    told = """\
tables/works.csv:4:24: 'coachworks' is not one of the words for 'role'
    marrick,Marrick & Sons,coachworks,,,invented,demo
                           ^^^^^^^^^^
expected one of: works, body_works"""
    assert changed.told() == told


def cells(text):
    """The texts of all cells."""
    return [[cell.text for cell in row] for row in parse_cells(FileText("t.csv", text)).rows]


def test_spaces_around_cells_and_rows_without_anything_are_left_out():
    assert cells("a, b \n,\n\n c,\n") == [["a", "b"], ["c", ""]]


def test_a_quoted_cell_may_hold_commas_quotes_and_line_ends():
    assert cells('a,"b, ""c""\r\nd"\r\ne,f') == [["a", 'b, "c"\r\nd'], ["e", "f"]]


def test_a_cell_after_a_quoted_line_end_is_placed_on_its_own_line():
    first, second = parse_cells(FileText("t.csv", '"a\nb",c')).rows[0]
    assert (first.source.line, first.source.column, first.source.width) == (1, 1, 2)
    assert (second.source.line, second.source.column, second.source.text) == (2, 4, 'b",c')


def test_a_table_reads_alike_with_either_line_end(tiny):
    codes = tiny.tables["codes"].replace("\n", "\r\n")
    assert tiny.table("codes", codes).book() == tiny.book()


texts = st.text(st.sampled_from("ab,\"\n\r ;'é\t"), max_size=6)


@given(st.lists(st.lists(texts, min_size=1, max_size=4), max_size=5))
def test_what_the_standard_writer_writes_is_read_cell_by_cell(rows):
    """Apart from the spaces around a cell and rows without anything in them."""
    written = io.StringIO(newline="")
    csv.writer(written).writerows(rows)
    stripped = [[cell.strip() for cell in row] for row in rows]
    assert cells(written.getvalue()) == [row for row in stripped if any(row)]


@given(st.text(st.sampled_from('ab,"\n\r ;x'), max_size=40))
def test_every_cell_stands_where_its_source_says(text):
    """Unquoted cells are found letter by letter; quoted ones begin with their quote."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for row in parse_cells(FileText("t.csv", text)).rows:
        for cell in row:
            place = cell.source
            assert place.text == lines[place.line - 1]
            there = place.text[place.column - 1 :]
            assert there.startswith(('"', cell.text))
