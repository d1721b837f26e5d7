"""Tables and figures are what GitHub's markdown takes them for."""

import pytest

from benchmarks.proving.markdown import figure, table


def test_a_table_has_headings_and_numbers_to_the_right():
    rows = [["plain", 0.25, "0.21 to 0.30"], ["hard", "–", ""]]
    assert table(["world", "Cllr", "interval"], rows) == (
        "| world | Cllr | interval |\n"
        "| --- | ---: | ---: |\n"
        "| plain | 0.25 | 0.21 to 0.30 |\n"
        "| hard | – |  |\n"
    )


def test_a_column_with_a_word_stands_to_the_left():
    assert "| --- |" in table(["share"], [["12 %"], ["none"]])
    assert "| ---: |" in table(["share"], [["12 %"], ["−0.3"], ["1,200"]])


def test_a_cell_cannot_break_the_table():
    assert "| a\\|b | c<br>d |\n" in table(["x", "y"], [["a|b", "c\nd"]])


def test_a_table_without_rows_is_its_headings():
    assert table(["x", "y"], []) == "| x | y |\n| --- | --- |\n"


def test_a_short_row_is_refused():
    with pytest.raises(ValueError, match="as long as"):
        table(["x", "y"], [["a"]])


def test_a_figure_has_its_title_and_its_sentence():
    assert figure("img/a.svg", "Identity", "It holds.") == "![Identity](img/a.svg)\n\nIt holds.\n"


def test_a_title_with_brackets_and_a_path_with_blanks_stay_whole():
    assert figure("a b.svg", "P[LR]\n> 1", "So.") == "![P\\[LR\\] > 1](<a b.svg>)\n\nSo.\n"
