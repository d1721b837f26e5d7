# ruff: noqa: E501 (entries stand here as a person writes them)
"""On which piece and surface each mark stands: derived, and as a book declares it."""

import pytest

from witnessmark.codebook import Basis, CarContext, open_book, shipped_books
from witnessmark.codebook.piece_records import PieceKind, ServiceNumbers, Stage
from witnessmark.codebook.pieces import pieces_of

ENGINE = """\
[[assembly]]
id = "engine"
name = "engine"
kind = "engine"
basis = "invented"
source = "demo"

[[date_form]]
"""
BLOCK = """\
[[piece]]
id = "block"
name = "engine block"
kind = "core"
assembly = "engine"
sold_in_service = "yes"
service_numbers = "by dealer"
basis = "invented"
source = "demo"

[[date_form]]
"""
MARKS = """
[[mark]]
id = "pad"
name = "pad"
kind = "stamping"
assembly = "engine"
site = "rail"
how_made = "struck by hand"
carried = "block"
basis = "invented"
source = "demo"
field = [{ id = "chassis", name = "tail", says = "chassis_number", widths = [4], alphabet = "0123456789", part = "last 4" }]

[[mark]]
id = "head_date"
name = "date of the head"
kind = "casting"
assembly = "engine"
site = "scuttle"
how_made = "cast"
carried = "block"
basis = "invented"
source = "demo"
field = [{ id = "cast", name = "casting date", says = "casting_date", widths = [4], alphabet = "0123456789ABC", date_form = "casting_day" }]
"""


@pytest.fixture
def with_engine(tiny):
    """The tiny book with an engine, its pad and its head."""
    changed = tiny.change("book", "[[date_form]]\n", ENGINE)
    return changed.change("book", changed.top, changed.top + MARKS)


def stand(book):
    """Each mark of the book with the piece it stands on."""
    pieces = pieces_of(book, CarContext())
    kinds = {piece.id: piece.kind for piece in pieces.pieces}
    return {each.mark: (each.piece, kinds[each.piece]) for each in pieces.standings}


def test_a_book_that_declares_no_piece_has_those_that_its_marks_tell(with_engine):
    assert stand(with_engine.book()) == {
        "plate": ("plate", PieceKind.PLATE),
        "frame_number": ("frame", PieceKind.STRUCTURE),
        "pad": ("engine", PieceKind.CORE),
        "head_date": ("engine:scuttle", PieceKind.FITTED),
    }


def test_a_declared_core_goes_before_the_derived_one_for_marks_that_name_no_piece(with_engine):
    book = with_engine.change("book", "[[date_form]]\n", BLOCK).book()
    assert stand(book)["pad"] == ("block", PieceKind.CORE)
    assert stand(book)["head_date"] == ("engine:scuttle", PieceKind.FITTED)
    (block,) = pieces_of(book, CarContext()).of_kind(PieceKind.CORE)
    assert (block.sold_in_service, block.service_numbers) == ("yes", ServiceNumbers.DEALER)
    assert block.stage is Stage.CHASSIS


def test_a_mark_that_names_a_piece_and_a_surface_stands_there(with_engine):
    changed = with_engine.change("book", "[[date_form]]\n", BLOCK)
    changed = changed.change("book", 'id = "head_date"\n', 'id = "head_date"\npiece = "block"\n')
    book = changed.change("book", 'id = "pad"\n', 'id = "pad"\nsurface = "deck"\n').book()
    standings = pieces_of(book, CarContext()).marks_on("block")
    assert [(each.mark, each.surface) for each in standings] == [
        ("pad", "deck"),
        ("head_date", "scuttle"),
    ]


def test_a_piece_from_memory_never_argues(with_engine):
    """Its marks stand as if it were not declared, and nothing says that it was sold."""
    lines = BLOCK.replace('basis = "invented"', 'basis = "memory"')
    book = with_engine.change("book", "[[date_form]]\n", lines).book()
    assert stand(book) == stand(with_engine.book())
    (core,) = pieces_of(book, CarContext()).of_kind(PieceKind.CORE)
    assert core.sold_in_service == "unknown"
    assert [each.citation.basis for each in book.pieces] == [Basis.MEMORY]


def test_a_piece_of_other_years_is_not_this_cars(with_engine):
    lines = BLOCK.replace('source = "demo"\n', 'source = "demo"\nfirst_year = 1957\n')
    book = with_engine.change("book", "[[date_form]]\n", lines).book()
    of_1956 = pieces_of(book, CarContext(model_year=1956))
    assert of_1956.marks_on("block") == ()
    assert of_1956.marks_on("engine") != ()
    assert pieces_of(book, CarContext(model_year=1957)).marks_on("block") != ()


def test_two_assemblies_may_both_bear_the_identity(with_engine):
    body = ENGINE.replace("engine", "body").replace(
        'name = "body"\n', 'name = "body"\nidentity_bearer = true\n'
    )
    book = with_engine.change("book", "[[date_form]]\n", body).book()
    assert pieces_of(book, CarContext()).bearers == ("frame", "body")


@pytest.mark.parametrize("folder", shipped_books(), ids=lambda folder: folder.name)
def test_in_every_shipped_book_each_mark_of_a_car_stands_on_one_piece(folder):
    book = open_book(folder).book
    assert book is not None
    for year in range(max(book.first_year, 1950), min(book.last_year, 1975) + 1):
        for model in (None, *(model.id for model in book.models)):
            context = CarContext(year, model)
            found = pieces_of(book, context)
            ids = {piece.id for piece in found.pieces}
            assert {each.mark for each in found.standings} == {
                mark.id for mark in book.marks_for(context)
            }
            assert {each.piece for each in found.standings} <= ids
            cores = [p.assembly for p in found.pieces if p.kind.is_whole]
            assert len(cores) == len(set(cores)), (year, model)
            assert all(piece.stage is not None for piece in found.pieces)
