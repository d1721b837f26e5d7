"""What a book knows is counted by basis and year, and what it does not know is named."""

import pytest

from witnessmark.bookmaking.listing import FieldListed, Listed, YearsListed, list_book
from witnessmark.bookmaking.listing_page import render_listing_page
from witnessmark.codebook import Basis, Citation, open_book, shipped_books


def listed(tiny):
    """The book of a test, counted; rows that nothing reaches are faults, and counted too."""
    return list_book(tiny.parsed().book, "0" * 64)


def field(tiny, mark, name):
    """One field of it."""
    marks = {each.mark.id: each for each in listed(tiny).marks}
    return next(each for each in marks[mark].fields if each.id == name)


def missing(tiny):
    """What it lacks, in its words."""
    return [f"{each.about}: {each.sentence}" for each in listed(tiny).missing]


def test_rows_are_counted_by_basis():
    bases = [Basis.PUBLISHED, Basis.MEMORY, Basis.PUBLISHED, Basis.INVENTED, Basis.COMMON_PRACTICE]
    counted = Listed.of(Citation(basis, "") for basis in bases)
    assert counted == Listed(2, 1, 1, 1)
    assert counted.words() == "2 published, 1 common practice, 1 memory, 1 invented"
    assert (counted.total(), Listed().words()) == (5, "none")


def test_every_table_is_counted(tiny):
    counted = {each.name: each.listed.total() for each in listed(tiny).tables}
    assert counted == {
        "works": 3, "body_families": 1, "models": 2, "assemblies": 1, "series": 3, "codes": 7,
        "date_forms": 1, "marks": 2, "rules": 1, "lags": 1, "sites": 3, "features": 2,
        "exceptions": 1, "settlements": 1, "placeholders": 1, "empty fields": 1,
    }  # fmt: skip
    assert listed(tiny).listed == Listed(invented=sum(counted.values()))


def test_a_field_counts_the_rows_of_its_table_in_each_year(tiny):
    assert field(tiny, "plate", "type").years == (
        YearsListed(1955, 1955, Listed(invented=1)),
        YearsListed(1956, 1957, Listed(invented=2)),
    )
    assert field(tiny, "plate", "type").reads == "table types"


def test_a_row_of_another_model_is_not_counted_for_a_mark(tiny):
    """A plate of saloons does not read the Sprint's trims."""
    saloons = tiny.change(
        "book", "always_struck = true\n", 'always_struck = true\nmodels = ["solent-saloon"]\n'
    )
    assert field(saloons, "plate", "trim").years == (YearsListed(1955, 1957, Listed(invented=1)),)


def test_a_number_counts_its_series_and_a_date_its_form(tiny):
    assert field(tiny, "frame_number", "chassis").reads == "series"
    assert field(tiny, "frame_number", "chassis").years == (
        YearsListed(1955, 1957, Listed(invented=1)),
    )
    assert field(tiny, "frame_number", "cast").reads == "form casting_day"


def test_years_with_rows_on_several_bases_are_told_apart():
    years = (YearsListed(1955, 1955, Listed(2, 0, 1)), YearsListed(1956, 1957, Listed()))
    told = FieldListed("a", "a", "a", "series", years).words()
    assert told == "1955: 2 published, 1 memory; 1956 to 1957: none"


def test_a_basis_that_all_rows_share_is_told_once():
    years = (YearsListed(1955, 1955, Listed(memory=2)), YearsListed(1956, 1957, Listed()))
    assert (
        FieldListed("a", "a", "a", "series", years).words()
        == "memory: 2 in 1955, none in 1956 to 1957"
    )


def test_nothing_is_missing_from_the_tiny_book(tiny):
    assert missing(tiny) == []


def test_codes_that_are_missing_for_a_year_or_model_are_named(tiny):
    gap = tiny.change("codes", "1955,1957,,,invented", "1955,1955,,,invented")
    gap = gap.change("book", 'table = "trims"', 'table = "trims"\n  incomplete = true')
    assert missing(gap) == [
        "plate: no code of trims is listed for 1956 to 1957 (solent-saloon)",
        "trims: the list is known to have gaps; it has 2 codes",
    ]


def test_models_that_lack_the_same_years_are_named_together(tiny):
    """The years that all lack come first."""
    codes = tiny.tables["codes"].replace(
        "types,SP,solent-sprint,Solent Sprint,1956,1957",
        "types,SP,solent-sprint,Solent Sprint,1957,1957",
    )
    models = (
        tiny.tables["models"] + "solent-coupe,Solent coupe,closed,tarvane,1956,,invented,demo\n"
    )
    book = tiny.table(
        "codes",
        codes.replace(
            "types,SA,solent-saloon,Solent saloon,,,,",
            "types,SA,solent-saloon,Solent saloon,1956,,,solent-saloon",
        ),
    )
    book = book.table("models", models).change(
        "book", 'table = "types"', 'table = "types"\n  incomplete = true'
    )
    assert missing(book) == [
        "plate: no code of types is listed for 1955; 1956 (solent-sprint, solent-coupe)",
        "types: the list is known to have gaps; it has 2 codes",
    ]


def test_a_number_without_a_series_is_named(tiny):
    header = tiny.tables["series"].splitlines()[0] + "\n"
    assert missing(tiny.table("series", header)) == [
        "chassis_number: no series of the chassis number is listed"
    ]


def test_years_without_a_series_are_named(tiny):
    rows = tiny.tables["series"].splitlines()[:-1]
    assert missing(tiny.table("series", "\n".join(rows))) == [
        "chassis_number: no series is listed for 1957"
    ]


def test_a_form_that_does_not_say_the_year_is_named(tiny):
    form = tiny.change("book", '  { part = "year_digit", width = 1 },\n', "")
    form = form.change("book", "widths = [4]", "widths = [3]").change(
        "book", 'code = "00A0"', 'code = "00A"'
    )
    assert missing(form) == ["casting_day: a code of this form does not say the year"]


def test_a_date_that_no_lag_ties_is_named(tiny):
    header = tiny.tables["lags"].splitlines()[0] + "\n"
    assert missing(tiny.table("lags", header)) == [
        "casting_date: no lag ties the casting date to another date"
    ]


def test_an_item_that_no_mark_says_is_named(tiny):
    item = '[[item]]\nid = "paint"\nname = "paint"\nkind = "code"\n\n[[item]]\nid = "trim"'
    assert missing(tiny.change("book", '[[item]]\nid = "trim"', item)) == [
        "paint: no mark says the paint"
    ]


def test_years_of_which_no_mark_and_no_model_is_described_are_named(tiny):
    marks = tiny.top.replace(
        'how_made = "struck by hand"\n', 'how_made = "struck by hand"\nfirst_year = 1956\n'
    )
    late = type(tiny)(marks, tiny.tables)
    assert missing(late) == ["book: no mark is described for 1955"]


def test_a_year_without_a_model_is_named(tiny):
    models = tiny.tables["models"].replace("tarvane ellery,,", "tarvane ellery,1956,")
    assert "book: no model is listed for 1955" in missing(tiny.table("models", models))


def test_a_run_that_is_missing_is_named(tiny):
    runs = (
        "id,model_year,first_day,last_day,meaning,works,models,basis,source\n"
        "r-1955,1955,1954-09-01,1955-07-01,a run,,,invented,demo\n"
        "r-1956,1956,1955-09-01,1956-07-01,a run,,,invented,demo\n"
    )
    within = tiny.table("runs", runs).change(
        "book", "first_year = 1954", 'first_year = 1954\nwithin = "run"'
    )
    assert missing(within) == ["casting_day: no run is listed for 1957"]


def test_the_page_tells_the_same(tiny):
    page = render_listing_page([listed(tiny)])
    assert (
        "\n| [tarvane-1955-1957](#tarvane-1955-1957) | 1955 to 1957 | 2 |  |  |  | 31 | 0 |\n"
        in page
    )
    assert (
        "\n| `plate` | trim | trim | table trims | invented: 1 in 1955, 2 in 1956 to 1957 |\n"
        in page
    )
    assert "\nNothing that is looked for is missing.\n" in page
    assert page.endswith("\n")
    assert not page.endswith("\n\n")


@pytest.mark.parametrize("folder", shipped_books(), ids=lambda folder: folder.name)
def test_every_row_of_a_shipped_book_is_counted(folder):
    """Rows of the tables on disk against the counts."""
    opened = open_book(folder)
    if opened.book is None:
        pytest.fail("the book cannot be read")
    counted = {each.name: each.listed.total() for each in list_book(opened.book, "").tables}
    for name in ("codes", "series", "remarks", "points"):
        assert counted.get(name, 0) == len(getattr(opened.book, name))
    assert counted["marks"] == len(opened.book.marks)
