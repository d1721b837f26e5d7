"""Faults of pieces are told with their place."""

import pytest

from tests.codebook.test_pieces import BLOCK, with_engine

__all__ = ["with_engine"]


def declared(book, lines):
    """The book with these pieces declared."""
    return book.change("book", "[[date_form]]\n", lines)


def test_a_mark_cannot_name_a_piece_that_is_not_there(with_engine):
    changed = with_engine.change("book", 'id = "pad"\n', 'id = "pad"\npiece = "blocks"\n')
    assert (
        declared(changed, BLOCK)
        .told()
        .endswith("""\
the book has no piece 'blocks'
    piece = "blocks"
            ^^^^^^^^
expected 'block', which is the nearest""")
    )


def test_a_core_needs_an_assembly(with_engine):
    told = declared(with_engine, BLOCK.replace('assembly = "engine"\n', "")).told()
    assert "the piece 'block' is a core and belongs to no assembly" in told


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        (
            '"core"',
            '"structure"',
            "'block' is a structure, and 'engine' does not bear the identity",
        ),
        ('"engine"', '"frame"', "'block' is a core, and 'frame' bears the identity"),
        ('"yes"', '"no"', "'block' was not sold in service, and was numbered there by dealer"),
        ('"by dealer"', '"by nobody"', "by nobody"),
        ('"demo"', '"demo"\nlast_year = 1960', "1960"),
    ],
)
def test_what_a_piece_cannot_be_is_told(with_engine, old, new, sentence):
    assert BLOCK.count(old) == 1
    assert sentence in declared(with_engine, BLOCK.replace(old, new)).told()


def test_an_assembly_has_one_core(with_engine):
    two = BLOCK.replace("[[date_form]]\n", "") + BLOCK.replace('"block"', '"other_block"')
    assert (
        declared(with_engine, two)
        .told()
        .endswith("""\
'other_block' and 'block' are both the main piece of 'engine'
    id = "other_block"
         ^^^^^^^^^^^^^
expected one structure or core for each assembly of a car; a piece on it is of kind fitted""")
    )


def test_cores_of_other_years_are_two(with_engine):
    early = BLOCK.replace("[[date_form]]\n", "").replace('"demo"', '"demo"\nlast_year = 1956')
    late = BLOCK.replace('"block"', '"late"').replace('"demo"', '"demo"\nfirst_year = 1957')
    assert declared(with_engine, early + late).parsed().problems == ()


@pytest.mark.parametrize(
    ("mark", "reason"),
    [
        ("frame_number", "one is of 'frame', the other of 'engine'"),
        ("plate", None),
    ],
)
def test_a_mark_stands_on_a_piece_of_its_own_assembly(with_engine, mark, reason):
    changed = with_engine.change("book", f'id = "{mark}"\n', f'id = "{mark}"\npiece = "block"\n')
    told = declared(changed, BLOCK).told()
    assert (f"cannot stand on the piece 'block': {reason}" in told) == (reason is not None)


def test_every_car_that_has_the_mark_has_its_piece(with_engine):
    changed = with_engine.change("book", 'id = "pad"\n', 'id = "pad"\npiece = "block"\n')
    late = BLOCK.replace('"demo"', '"demo"\nfirst_year = 1956')
    assert "the piece 'block'" in declared(changed, late).told()
    assert "1955" in declared(changed, late).told()


def test_a_surface_belongs_to_one_piece(with_engine):
    changed = with_engine.change("book", 'id = "pad"\n', 'id = "pad"\nsurface = "deck"\n')
    changed = changed.change(
        "book", 'id = "frame_number"\n', 'id = "frame_number"\nsurface = "deck"\n'
    )
    assert changed.told().endswith("""\
the surface 'deck' bears 'pad' and, on another piece, 'frame_number'
    surface = "deck"
              ^^^^^^
expected a surface that belongs to one piece""")


def test_three_identity_bearers_are_one_too_many(with_engine):
    body = """\
[[assembly]]
id = "body"
name = "body"
kind = "body"
identity_bearer = true
basis = "invented"
source = "demo"

[[date_form]]
"""
    two = with_engine.change("book", "[[date_form]]\n", body)
    assert two.parsed().problems == ()
    three = two.change("book", "[[date_form]]\n", body.replace("body", "shell"))
    assert three.told().endswith("""\
'shell' bears the identity of cars that already have two bearers, 'frame' and 'body'
    identity_bearer = true
                      ^^^^
expected one or two identity bearers for each car""")


def test_no_part_is_made_after_its_car(tiny):
    told = """\
tables/lags.csv:2:37: 'casting_date' is on a part, which cannot be made 20 days after its car
    cast-to-car,casting_date,build_date,-20,60,240,,,,,invented,demo
                                        ^^^
expected least_days of 0 or more; only what a plate or paper states may follow the car"""
    assert tiny.change("lags", "20,60,240", "-20,60,240").told() == told


def test_what_a_plate_states_may_lie_on_either_side_of_the_day_of_building(tiny):
    """A planned week: no part bears it."""
    item = '[[item]]\nid = "week"\nname = "week"\nkind = "date"\n\n[[assembly]]\n'
    changed = tiny.change("book", "[[assembly]]\n", item)
    changed = changed.add("lags", "plan-to-car,week,build_date,-7,3,14,,,,,invented,demo")
    assert changed.told() == ""
