"""The demonstration maker's second way of numbering: the unit-bodied saloon of 1959 to 1961."""

import pytest

from witnessmark.codebook import CarContext, CodeBook, find_book, open_book
from witnessmark.codebook.piece_records import PieceKind, ServiceNumbers
from witnessmark.codebook.pieces import pieces_of

OF_1955 = CarContext(1955, "solent-saloon", frozenset({"tarvane", "ellery"}))
OF_1959 = CarContext(1959, "solent-saloon", frozenset({"tarvane", "ellery"}))
OF_1960 = CarContext(1960, "solent-saloon", frozenset({"tarvane", "ellery"}))


@pytest.fixture(scope="module")
def book() -> CodeBook:
    """The book of the invented maker."""
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    found = open_book(folder).book
    assert found is not None
    return found


def bearing(book: CodeBook, context: CarContext, item: str) -> dict[str, str]:
    """The marks on assemblies that say this item, with the part of it that they bear."""
    return {
        mark.id: field.part
        for mark in book.marks_for(context)
        for field in mark.fields
        if mark.assembly and field.says == item
    }


def test_the_tail_of_the_car_number_stands_on_two_places_of_the_shell_engine_and_gearbox(book):
    assert bearing(book, OF_1960, "chassis_number") == {
        "shell_wing_tail": "last 5",
        "shell_seat_tail": "last 5",
        "engine_stamp": "last 5",
        "gearbox_tail": "last 5",
    }


@pytest.mark.parametrize("item", ["engine_number", "gearbox_number", "axle_number"])
def test_no_part_has_a_serial_of_its_own_and_no_series_reaches_there(book, item):
    assert bearing(book, OF_1955, item)
    assert bearing(book, OF_1960, item) == {}
    own = [row for row in book.series if row.item == item and row.with_the_car]
    assert max(row.applies.last_year for row in own) == 1959


def test_the_first_shells_are_numbered_in_full_and_a_car_has_one_form_of_each(book):
    whole = {
        name for name, part in bearing(book, OF_1959, "chassis_number").items() if part == "all"
    }
    assert whole == {"shell_wing_number", "shell_seat_number"}
    forms = {mark.id: mark.other_form_of for mark in book.marks if mark.other_form_of}
    assert {forms["shell_wing_tail"], forms["shell_seat_tail"]} == whole
    assert (forms["gearbox_tail"], forms["axle_day"]) == ("gearbox_stamp", "axle_stamp")


def test_a_solent_ts_is_told_by_engine_type_package_and_sheet_alone(book):
    says = {
        mark.id
        for mark in book.marks_for(OF_1960)
        for field in mark.fields
        if field.says in ("engine_type", "package")
    }
    assert says == {"engine_stamp", "body_plate", "build_sheet", "owner_booklet"}
    in_1959 = {m.id for m in book.marks_for(OF_1959) for f in m.fields if f.says == "package"}
    assert in_1959 == set()


def test_an_exchange_engine_was_supplied_later_and_bears_a_number_of_its_own(book):
    stamp = book.mark("exchange_stamp")
    assert [field.says for field in stamp.fields] == ["engine_series", "exchange_engine_number"]
    rows = [row for row in book.series if row.item == "exchange_engine_number"]
    assert [row.with_the_car for row in rows] == [False]


def test_its_pieces_are_those_that_the_questions_are_about(book):
    found = pieces_of(book, OF_1960)
    kinds = {piece.id: piece.kind for piece in found.pieces}
    assert kinds == {
        "plate_aluminium": PieceKind.PLATE,
        "body_plate": PieceKind.PLATE,
        "shell": PieceKind.STRUCTURE,
        "engine": PieceKind.CORE,
        "cylinder_head": PieceKind.FITTED,
        "gearbox": PieceKind.CORE,
        "axle": PieceKind.CORE,
        "despatch_ledger": PieceKind.PAPER,
        "build_sheet": PieceKind.PAPER,
        "owner_booklet": PieceKind.PAPER,
        "service_invoice": PieceKind.PAPER,
    }
    numbers = {piece.id: piece.service_numbers for piece in found.pieces}
    assert numbers["shell"] is ServiceNumbers.OFFICE
    assert numbers["engine"] is ServiceNumbers.DEALER
    assert (found.bearers, found.numbers_follow) == (("shell",), "build")


def test_a_bolted_wing_of_a_frame_car_is_a_panel_that_was_sold(book):
    (panel,) = pieces_of(book, OF_1955).of_kind(PieceKind.PANEL)
    assert (panel.id, panel.assembly, panel.sold_in_service) == ("bolted_wing", "body", "yes")
