"""A row can be invented only where the maker is; a source is a key or words."""


def test_an_invented_row_in_the_book_of_a_real_maker_is_refused(tiny):
    changed = (
        tiny.change("book", "invented = true\n", "")
        .all_published()
        .change("codes", "January,,,,,published", "January,,,,,invented")
    )
    told = """\
tables/codes.csv:6:24: a row can be invented only where the maker is
    months,A,1,January,,,,,invented,demo
                           ^^^^^^^^
expected another basis, or invented = true in book.toml if the maker is invented"""
    assert changed.told() == told


def test_a_placeholder_has_a_basis_of_its_own(tiny):
    changed = (
        tiny.change("book", "invented = true\n", "")
        .all_published()
        .change(
            "book",
            '"date wheels lost", basis = "published"',
            '"date wheels lost", basis = "invented"',
        )
    )
    told = """\
book.toml:48:58: a row can be invented only where the maker is
      { code = "00A0", meaning = "date wheels lost", basis = "invented", source = "demo" },
                                                             ^^^^^^^^^^
expected another basis, or invented = true in book.toml if the maker is invented"""
    assert changed.told() == told


def test_a_mistyped_key_of_a_source_is_named(tiny):
    changed = tiny.change("codes", "January,,,,,invented,demo", "January,,,,,invented,demm")
    told = """\
tables/codes.csv:6:33: [sources] has no key 'demm'
    months,A,1,January,,,,,invented,demm
                                    ^^^^
expected 'demo', which is the nearest; or the source in words"""
    assert changed.told() == told


def test_memory_may_be_named_as_a_source_in_that_one_word(tiny):
    changed = tiny.change("codes", "January,,,,,invented,demo", "January,,,,,memory,memory")
    assert changed.told() == ""
