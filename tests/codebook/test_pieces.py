"""Pieces derived from what a book has: structure, cores, fitted pieces, panels, plates, papers."""

import pytest

from tests.weighing.second.cars import book
from witnessmark.codebook import CarContext, shipped_books
from witnessmark.codebook.pieces import PieceKind, Pieces, pieces_of


def kinds(pieces: Pieces) -> dict[str, str]:
    return {each.mark: next(p.kind.value for p in pieces.pieces if p.id == each.piece)
            for each in pieces.standings}  # fmt: skip


def test_a_unit_body_bears_the_identity_and_a_block_is_the_core_of_its_engine():
    """Pad, number and casting date on one core; the head is fitted to it."""
    pieces = pieces_of(book("chevrolet-1964-1972"), CarContext(1969, "camaro"))
    found = kinds(pieces)
    assert pieces.bearers == ("body",)
    assert pieces.numbers_follow == "line"
    assert found["hidden_number_cowl"] == "structure"
    on_core = ("engine_pad", "partial_number_engine", "block_cast_date")
    assert {found[mark] for mark in on_core} == {"core"}
    assert found["head_cast_date"] == "fitted"
    assert found["number_plate"] == "plate"
    assert found["build_sheet"] == "paper"
    pad = {each.surface for each in pieces.standings if each.mark in on_core[:2]}
    assert pad == {"engine_pad"}


def test_a_separate_body_is_a_core_and_its_bolted_wing_a_panel():
    """On a frame car of the demonstration book."""
    pieces = pieces_of(book("tarvane-1952-1961"), CarContext(1955, "solent-sprint"))
    found = kinds(pieces)
    assert found["frame_number"] == "structure"
    assert found["seat_body_number"] == "core"
    assert found["wing_body_number"] == "panel"


@pytest.mark.parametrize("name", [folder.name for folder in shipped_books()])
def test_every_mark_of_a_shipped_book_stands_on_one_piece(name):
    """And no piece stands alone."""
    shipped = book(name)
    pieces = pieces_of(shipped, CarContext())
    own = [mark.id for mark in shipped.marks if not mark.book]
    assert [each.mark for each in pieces.standings] == own
    assert {each.piece for each in pieces.standings} == {piece.id for piece in pieces.pieces}
    assert all(piece.kind in PieceKind for piece in pieces.pieces)
