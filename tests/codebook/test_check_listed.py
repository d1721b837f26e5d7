"""A list says of itself, in one way, whether it holds all that there was."""

from tests.codebook.tiny_book import Tiny
from witnessmark.codebook.listed import ListIs

TABLE = '  table = "trims"\n'


def listed(tiny: Tiny, *lines: str) -> Tiny:
    return tiny.change("book", TABLE, TABLE + "".join(f"  {line}\n" for line in lines))


def trim_of(changed: Tiny):
    return changed.book().marks[0].fields[1]


def test_a_list_is_unknown_unless_it_says_more_and_an_old_book_is_read_as_before(tiny):
    assert trim_of(tiny).listed is ListIs.UNKNOWN
    assert trim_of(listed(tiny, "incomplete = true")).listed is ListIs.PARTIAL
    assert trim_of(listed(tiny, 'listed = "partial"')).has_gaps
    assert trim_of(listed(tiny, 'listed = "complete"')).listed is ListIs.COMPLETE


def test_the_series_of_an_item_may_be_partial(tiny):
    series = tiny.tables["series"].replace(",1956,1956,", ",1957,1957,")
    gap = tiny.table("series", series)
    assert "the ranges of 'chassis_number' leave out 1956" in gap.told()
    for line in ('listed = "partial"', "incomplete = true"):
        assert gap.change("book", "length = 6\n", f"length = 6\n{line}\n").told() == ""


def test_a_list_is_not_said_to_be_complete_and_to_leave_gaps(tiny):
    told = """\
book.toml:83:16: the list is said to be complete and to leave gaps
      incomplete = true
                   ^^^^
expected only one of them: listed, and no incomplete"""
    assert listed(tiny, 'listed = "complete"', "incomplete = true").told() == told
    assert listed(tiny, 'listed = "partial"', "incomplete = true").told() == ""


def test_a_list_with_a_row_from_memory_is_not_complete(tiny):
    codes = tiny.tables["codes"].replace("solent-sprint,invented,demo", "solent-sprint,memory,me")
    told = """\
book.toml:82:12: the table 'trims' cannot be complete: tables/codes.csv:5 is from memory
      listed = "complete"
               ^^^^^^^^^^
expected partial or unknown, or rows that somebody has published"""
    assert listed(tiny, 'listed = "complete"').table("codes", codes).told() == told
    assert listed(tiny, 'listed = "partial"').table("codes", codes).told() == ""
