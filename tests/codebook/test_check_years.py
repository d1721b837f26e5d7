"""Years stand in order and inside those of the book."""


def test_years_in_the_wrong_order_are_named(tiny):
    changed = tiny.add("codes", "types,SD,solent-saloon,x,1957,1955,,,invented,demo")
    told = """\
tables/codes.csv:9:31: the last year, 1955, lies before the first, 1957
    types,SD,solent-saloon,x,1957,1955,,,invented,demo
                                  ^^^^
expected 1957 or later"""
    assert changed.told() == told


def test_a_year_that_the_book_does_not_cover_is_named(tiny):
    changed = tiny.add("codes", "types,SD,solent-saloon,x,1954,1955,,,invented,demo")
    told = """\
tables/codes.csv:9:26: 1954 is not a year of the book
    types,SD,solent-saloon,x,1954,1955,,,invented,demo
                             ^^^^
expected 1955 to 1957"""
    assert changed.told() == told


def test_a_form_of_date_may_begin_before_the_book_and_not_end_before_it_begins(tiny):
    changed = tiny.change("book", "first_year = 1954", "first_year = 1954\nlast_year = 1950")
    told = """\
book.toml:43:13: the last year, 1950, lies before the first, 1954
    last_year = 1950
                ^^^^
expected 1954 or later"""
    assert changed.told() == told
