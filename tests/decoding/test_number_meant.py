"""A number is stated as it stands on the car, in a claim and on a title alike."""

import pytest

from tests.published.books import CHEVROLET, FORD, JAGUAR, SHIPPED, TARVANE, VOLKSWAGEN, opened
from witnessmark.casefile import Casefile, Claim
from witnessmark.codebook import CarContext, ItemKind
from witnessmark.decoding import as_written, number_meant
from witnessmark.decoding.slips import example_of
from witnessmark.examination import in_book_words


@pytest.mark.parametrize("book_id", SHIPPED)
def test_every_form_with_codes_gives_the_number_that_stands_in_it(book_id):
    """1 then 2 then 3 in the places of the number, on each mark that bears it on one line."""
    book = opened(book_id)
    for mark in book.marks:
        said = [book.item(field.says) for field in mark.fields]
        numbers = {i for i in said if i is not None and i.kind is ItemKind.NUMBER}
        example = example_of(book, mark, mark.applies)
        wholly = all(f.part == "all" for f in mark.fields)
        open_ended = any(field.date_form for field in mark.fields)
        # 11231231 is 1 and seven figures, or 11 and six: where nothing parts them, nobody knows.
        open_ended = open_ended or sum(len(field.widths) > 1 for field in mark.fields) > 1
        if mark.book or mark.windows or len(numbers) != 1 or not wholly or open_ended:
            continue
        [item] = numbers
        if not set("123") <= set(item.alphabet) or example.count("?") != item.length:
            continue
        number = "123" * 6
        typed = "".join(number[example[:k].count("?")] if c == "?" else c
                        for k, c in enumerate(example))  # fmt: skip
        year = max(mark.applies.first_year, book.first_year)
        meant = number_meant(book, item, typed, CarContext(year))
        assert meant is not None, (mark.id, typed)
        assert meant.number == number[: item.length], (mark.id, typed)


@pytest.mark.parametrize("book_id", SHIPPED)
def test_a_number_in_full_is_itself_and_says_nothing_else(book_id):
    book = opened(book_id)
    for item in book.items:
        if item.kind is ItemKind.NUMBER and item.length:
            number = (item.alphabet * 20)[: item.length]
            meant = number_meant(book, item, f" {number.lower()} ")
            assert meant is not None
            assert (meant.number, meant.beside) == (number, ())
            assert number_meant(book, item, number + "&") is None


@pytest.mark.parametrize(
    ("book_id", "typed", "claimed", "others"),
    [
        (VOLKSWAGEN, "117 345 612", "0345612", {"model": "beetle", "model_year": "1967"}),
        (VOLKSWAGEN, "345612", "0345612", {}),
        (VOLKSWAGEN, "1-143216", "0143216", {"line": "type-1"}),
        # Of 1969 and of 1979: what both say, and no more.
        (VOLKSWAGEN, "2192153964", "2153964", {"model": "panel-van"}),
        (JAGUAR, "1E12345", "012345", {"line": "series-1-42"}),
        (JAGUAR, "12345", "012345", {}),
        # What S means on a car of no named model is not told; DN is one thing on all.
        (JAGUAR, "S815512DN", "815512", {"gearbox_kind": "overdrive"}),
        (TARVANE, "2582063", "582063", {"model": "solent-drophead"}),
    ],
)
def test_what_a_claim_says_as_it_was_typed(book_id, typed, claimed, others):
    """The codes beside the number are claimed with it, where they say one thing."""
    case = Casefile(id="x", book=book_id, claim=Claim(items={"chassis_number": typed}))
    items = in_book_words(case, opened(book_id)).claim.items
    assert items["chassis_number"] == claimed
    assert items.items() >= others.items()
    assert set(items) - {"chassis_number", "line_figure"} == set(others)


@pytest.mark.parametrize(
    ("book_id", "typed", "claimed", "said"),
    [
        (VOLKSWAGEN, "117345612", "0345612", {"model_year": "1968"}),
        # Nor the year, which nobody contradicts: the number is said of another car.
        (VOLKSWAGEN, "117345612", "0345612", {"model": "karmann-ghia"}),
        (JAGUAR, "S815512DN", "815512", {"gearbox_kind": "manual"}),
        (TARVANE, "2582063", "582063", {"model": "solent-saloon"}),
    ],
)
def test_codes_that_contradict_the_claim_are_not_claimed(book_id, typed, claimed, said):
    """What the seller claims stays as it was said, and nothing is added to it."""
    case = Casefile(id="x", book=book_id, claim=Claim(items={"chassis_number": typed, **said}))
    read = in_book_words(case, opened(book_id)).claim.items
    assert read == {"chassis_number": claimed, **said}


@pytest.mark.parametrize(
    ("book_id", "typed"),
    [
        (VOLKSWAGEN, "12345"),  # five figures stand on no car
        (JAGUAR, "9Z12345"),
        (CHEVROLET, "124379Q555014"),  # no works Q
        (FORD, "12345"),
        (TARVANE, "58?063"),
    ],
)
def test_what_no_mark_can_hold_is_no_number(book_id, typed):
    book = opened(book_id)
    [item] = (each for each in book.items if each.identification)
    assert number_meant(book, item, typed) is None


@pytest.mark.parametrize(
    ("book_id", "number", "year", "model", "written"),
    [
        (VOLKSWAGEN, "0345612", 1967, "beetle", "345612"),
        (VOLKSWAGEN, "0000012", 1967, "beetle", "000012"),
        (VOLKSWAGEN, "1005000", 1957, "beetle", "1005000"),
        (VOLKSWAGEN, "0929746", 1957, "beetle", "929746"),
        (JAGUAR, "012345", 1966, "e-type-42-open", "12345"),
        (TARVANE, "000143", 1955, "solent-sprint", "000143"),
    ],
)
def test_a_number_is_written_as_the_mark_of_its_year_writes_it(
    book_id, number, year, model, written
):
    """Without noughts for which the mark has no place, and with those that it strikes."""
    book = opened(book_id)
    item = next(each for each in book.items if each.identification)
    assert as_written(book, item, number, CarContext(year, model)) == written
