"""What an outline says is laid out for a terminal, and is what stands there, nothing else."""

import doctest

from hypothesis import given
from hypothesis import strategies as st

from witnessmark.outline import text as press
from witnessmark.outline.records import (
    Bullets,
    Fact,
    Facts,
    Heading,
    Outline,
    Paragraph,
    Pointed,
    Section,
    Table,
    TableCell,
)
from witnessmark.outline.text import report_text, text_lines


def lines_of(*blocks, width, title="T"):
    """The lines below the title."""
    return [line.text for line in text_lines(Outline(title, blocks), width)][1:]


def table(*rows, head=(), shares=(), is_dense=False):
    return Table(head, tuple(tuple(map(TableCell, row)) for row in rows), shares, is_dense=is_dense)


def test_text_in_brackets_stands_as_it_was_typed():
    """Brackets are part of the notation and must never be taken for mark-up."""
    blocks = (Paragraph("[red]x[/red] \\\\[y]"), table(("[link=a]b", "[/]")))
    told = text_lines(Outline("[bold]10[38]7[/bold]", blocks), 60)
    assert [line.text for line in told] == [
        "[bold]10[38]7[/bold]",
        "  [red]x[/red] \\\\[y]",
        "  [link=a]b  [/]",
    ]


CELLS = st.tuples(st.text("ab -…[", max_size=40), st.text("xy ", max_size=200))


@given(rows=st.lists(CELLS, max_size=5), width=st.integers(40, 92))
def test_lines_stay_within_the_width_and_no_word_is_lost(rows, width):
    """Whatever stands in the cells; what is too long for its column is parted."""
    for block in (table(*rows), Facts(tuple(Fact(*row) for row in rows))):
        lines = lines_of(block, width=width)
        assert all(len(line) <= width for line in lines)
        signs = sorted("".join(lines).replace(" ", ""))
        assert signs == sorted("".join(a + b for a, b in rows).replace(" ", ""))


def test_rows_of_several_lines_stand_apart_unless_the_table_is_dense():
    """A head of its own, in bold."""
    rows = (("axle", "a text of some length that is wrapped"), ("engine", "short"))
    for is_dense in (False, True):
        block = table(*rows, head=("About", "What"), is_dense=is_dense)
        told = text_lines(Outline("T", (block,)), 30)
        assert [line.text for line in told if line.is_bold] == ["T", "  About   What"]
        assert ("" in [line.text for line in told[3:]]) is not is_dense


def test_where_columns_have_no_room_each_cell_has_lines_of_its_own():
    """Six columns on a narrow page."""
    cells = ("chassis", "number", "engine", "gearbox", "axle", "extras")
    lines = lines_of(table(tuple(each * 2 for each in cells)), width=40)
    assert lines == ["  chassischassis", *(f"      {each * 2}" for each in cells[1:])]


def test_below_a_heading_all_stands_further_in():
    """Blocks before it, and the heading itself, do not."""
    blocks = (Paragraph("before"), Heading("Marks"), Bullets(("one",)))
    section = Section("Seen", blocks)
    told = [line.text for line in text_lines(Outline("T", (), (section,)), 40)]
    assert told == ["T", "", "1. Seen", "  before", "", "  Marks", "    - one"]
    told = [line.text for line in text_lines(Outline("T", blocks), 40)]
    assert told == ["T", "  before", "", "Marks", "  - one"]


def test_a_sign_is_pointed_at_in_its_own_line():
    """A reading of two rows, a tab in it: the mark stands under the sign that is meant."""
    block = Pointed("ST 69\nTR\t7J1", 11, "a letter stands where figures do")
    assert lines_of(block, width=60) == [
        "  TR 7J1",
        "      ^ a letter stands where figures do",
    ]


def test_what_is_said_of_a_sign_far_to_the_right_stands_on_the_next_line():
    """Else there would be no room for it."""
    block = Pointed("1" * 35, 30, "a letter stands where figures do")
    assert lines_of(block, width=40)[1:] == [
        " " * 31 + "^",
        "  a letter stands where figures do",
    ]


def test_no_line_begins_with_the_sign_of_a_percentage():
    """A number stays with its %."""
    lines = lines_of(Paragraph("of all that a plate can say it has 74 %"), width=40)
    assert lines == ["  of all that a plate can say it has", "    74 %"]


def test_without_a_width_it_is_one_thing_a_line():
    """As whoever checks a document reads it."""
    cell = TableCell("E20", ("as read",))
    blocks = (Facts((Fact("mark", "plate"),)), Table(("Mark", "Read"), ((TableCell("pad"), cell),)))
    assert report_text(Outline("A title", blocks, case_id="c")).splitlines() == [
        "A title", "Case c", "mark: plate", "Mark | Read", "pad | E20 / as read",
    ]  # fmt: skip


def test_a_case_without_a_title_is_named_once():
    assert report_text(Outline("Case c", (), case_id="c")).split("\n")[0:2] == ["Case c", ""]


def test_the_examples_in_the_docstrings_hold():
    """How wide columns are."""
    tried = doctest.testmod(press)
    assert tried.attempted >= 1
    assert tried.failed == 0
