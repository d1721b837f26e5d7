"""Marks, models and works are found by what people call them."""

import pytest

from witnessmark.codebook import CarContext

PLATE = 'name = "chassis plate"\n'
STAMP = 'name = "frame stamping"\n'


def named(tiny, *changes):
    """The tiny book with names added behind the names of its two marks."""
    for old, added in changes:
        tiny = tiny.change("book", old, old + added)
    return tiny


@pytest.mark.parametrize(
    "typed", ["plate", "PLATE", "Chassis Plate", "chassis-plate", "vin tag", "VIN_Tag", " vin tag "]
)
def test_a_mark_is_found_by_id_name_and_alias_however_they_are_spelt(tiny, typed):
    book = named(tiny, (PLATE, 'aliases = ["VIN tag"]\nlocal_name = "scuttle plate"\n')).book()
    assert [mark.id for mark in book.marks_named(typed)] == ["plate"]


@pytest.mark.parametrize("typed", ["", " ", "-", "plat", "engine"])
def test_what_no_mark_is_called_finds_none(tiny, typed):
    assert tiny.book().marks_named(typed) == ()


def test_a_name_of_two_marks_means_the_one_that_the_car_can_have(tiny):
    book = (
        named(
            tiny,
            (PLATE, 'aliases = ["tag"]\nfirst_year = 1955\nlast_year = 1956\n'),
            (STAMP, 'aliases = ["tag"]\nfirst_year = 1957\n'),
        )
        .parsed()
        .book
    )
    assert [m.id for m in book.marks_named("Tag", CarContext(1955))] == ["plate"]
    assert [m.id for m in book.marks_named("Tag", CarContext(1957))] == ["frame_number"]
    assert [m.id for m in book.marks_named("Tag")] == ["plate", "frame_number"]


def test_a_name_limited_to_some_years_means_the_mark_in_those_years(tiny):
    limited = '\n[[mark.alias]]\nname = "tag"\nlast_year = 1955\n'
    book = (
        named(
            tiny,
            ('always_struck = true\nbasis = "invented"\nsource = "demo"\n', limited),
            (STAMP, 'aliases = ["tag"]\nfirst_year = 1956\n'),
        )
        .parsed()
        .book
    )
    assert [m.id for m in book.marks_named("tag", CarContext(1955))] == ["plate"]
    assert [m.id for m in book.marks_named("tag", CarContext(1956))] == ["frame_number"]


def test_an_id_as_the_book_writes_it_is_that_mark_alone(tiny):
    book = (
        named(
            tiny,
            (PLATE, "first_year = 1955\nlast_year = 1955\n"),
            (STAMP, 'aliases = ["plate"]\nfirst_year = 1956\n'),
        )
        .parsed()
        .book
    )
    assert [m.id for m in book.marks_named("plate")] == ["plate"]
    assert [m.id for m in book.marks_named("Plate")] == ["plate", "frame_number"]
    assert [m.id for m in book.marks_named("plate", CarContext(1957))] == ["frame_number"]


def test_an_alias_that_is_another_marks_name_on_the_same_car_is_marked(tiny):
    changed = named(tiny, (STAMP, 'aliases = ["rail stamp", "Chassis-Plate"]\n'))
    told = """\
book.toml:88:26: 'Chassis-Plate' is also a name of the mark 'plate' on the same car
    aliases = ["rail stamp", "Chassis-Plate"]
                             ^^^^^^^^^^^^^^^
expected a name of this mark alone, or two marks that no car bears together"""
    assert changed.told() == told


def test_two_marks_of_one_car_that_share_an_alias_are_told_at_both(tiny):
    changed = named(tiny, (PLATE, 'aliases = ["tag"]\n'), (STAMP, 'aliases = ["tag"]\n'))
    told = changed.told()
    assert told.count("'tag' is also a name of the mark") == 2
    assert "the mark 'plate' on" in told
    assert "the mark 'frame_number' on" in told


def test_two_forms_of_one_mark_may_share_a_name(tiny):
    book = named(
        tiny,
        (PLATE, 'aliases = ["tag"]\n'),
        (STAMP, 'aliases = ["tag"]\nother_form_of = "plate"\n'),
    ).book()
    assert [m.id for m in book.marks_named("tag", CarContext(1955))] == ["plate", "frame_number"]


def test_the_mark_of_which_another_is_a_form_must_be_there(tiny):
    told = named(tiny, (STAMP, 'other_form_of = "frame_number"\n')).told()
    assert (
        told
        == """\
book.toml:88:17: the book has no mark, itself no other form, 'frame_number'
    other_form_of = "frame_number"
                    ^^^^^^^^^^^^^^
expected one of: plate"""
    )


def test_an_alias_in_which_there_is_nothing_is_marked(tiny):
    told = named(tiny, (STAMP, 'aliases = [" - "]\n')).told()
    assert (
        told
        == """\
book.toml:88:12: ' - ' is not a name
    aliases = [" - "]
               ^^^^^
expected what people call the mark: trim tag"""
    )


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("solent-sprint", "solent-sprint"),
        ("Solent Sprint", "solent-sprint"),
        ("SOLENTSPRINT", "solent-sprint"),
        ("Sprint", None),
        ("", None),
    ],
)
def test_a_model_is_found_by_id_or_name_in_any_case(tiny, typed, found):
    model = tiny.book().model_named(typed)
    assert (model.id if model else None) == found


def test_a_part_of_a_name_finds_a_works_where_no_other_has_it(tiny):
    changed = tiny.change("works", "Ellery Coachworks", '"Ellery (Hall Street), Leeds"')
    book = changed.change("works", "Marrick & Sons", '"Marrick & Sons, Leeds"').book()
    found = {typed: book.works_named(typed) for typed in ("hall street", "Ellery", "Leeds")}
    assert {typed: works.id if works else None for typed, works in found.items()} == {
        "hall street": "ellery",
        "Ellery": "ellery",
        "Leeds": None,
    }
    assert book.works_named("ellery", "works") is None
    assert book.works_named("ellery", "body_works").id == "ellery"


def test_the_years_of_a_limited_name_are_years_of_the_book(tiny):
    limited = '\n[[mark.alias]]\nname = "tag"\nlast_year = 1966\n'
    told = named(
        tiny, ('always_struck = true\nbasis = "invented"\nsource = "demo"\n', limited)
    ).told()
    assert (
        told
        == """\
book.toml:68:13: 1966 is not a year of the book
    last_year = 1966
                ^^^^
expected 1955 to 1957"""
    )
