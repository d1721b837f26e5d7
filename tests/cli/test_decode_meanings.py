"""Meanings on the page of `witnessmark decode`."""

from dataclasses import replace

from witnessmark.answers.decoded import answer_to
from witnessmark.answers.decoded_page import decoded_page
from witnessmark.answers.meanings import Shown, merged
from witnessmark.codebook import Basis, CarContext, open_book, shipped_books
from witnessmark.decoding import Alternative, FieldMeaning
from witnessmark.decoding.mark_meant import best_marks
from witnessmark.outline.text import text_lines

TRIM = FieldMeaning(
    field="trim",
    code="L2",
    says="trim",
    value="tan-leather",
    meaning="tan leather",
    basis=Basis.INVENTED,
    source="a list",
)


def test_alternatives_that_mean_the_same_by_other_codes_are_one():
    """Two codes of one trim: their shares together, both codes told, the likelier first."""
    other = replace(TRIM, code="L4")
    green = replace(TRIM, code="L3", value="green-leather", meaning="green leather")
    found = merged(
        (
            Alternative(0.4, (green,)),
            Alternative(0.35, (TRIM,)),
            Alternative(0.25, (other,)),
        )
    )
    assert [(round(each.share, 2), each.codes) for each in found] == [
        (0.6, (("L2", "L4"),)),
        (0.4, (("L3",),)),
    ]


def test_codes_that_the_book_does_not_list_stay_apart():
    """Nobody knows whether they mean the same."""
    unlisted = replace(TRIM, code="L9", value="", meaning="not listed", listed=False)
    found = merged((Alternative(0.5, (TRIM,)), Alternative(0.5, (unlisted,))))
    assert len(found) == 2


def marks_of(book, *names):
    return tuple(book.mark(name) for name in names)


def chevrolet():
    return open_book(next(p for p in shipped_books() if p.name.startswith("chevrolet"))).book


def test_of_marks_that_share_a_name_the_one_is_chosen_whose_form_fits():
    """A number of 1964, of 1969, of 1972; words fit none."""
    book = chevrolet()
    plates = marks_of(book, "number_plate_1964", "number_plate", "number_plate_1972")

    def chosen(text):
        return [mark.id for mark in best_marks(plates, text, book, CarContext())]

    assert chosen("45767K123456") == ["number_plate_1964"]
    assert chosen("124379N506070") == ["number_plate"]
    assert chosen("1Q87L2N500001") == ["number_plate_1972"]
    assert chosen("hello world") == [mark.id for mark in plates]


def test_of_plates_of_one_form_the_one_is_chosen_on_whose_car_it_is():
    """The plate says its year and its works."""
    book = chevrolet()
    plates = marks_of(
        book, "body_plate_los_angeles_1969", "body_plate_norwood_1968", "body_plate_norwood_1969"
    )
    text = "ST 69-12437 NOR 211785 BDY\nTR 711\nPNT 72 B\n01C X33"
    assert best_marks(plates, text, book, CarContext()) == (plates[2],)


def test_of_marks_that_a_text_fits_alike_none_is_chosen():
    """The same mark twice under another name."""
    book = chevrolet()
    plate = book.mark("number_plate")
    twin = replace(plate, id="number_plate_again")
    assert best_marks((plate, twin), "124379N506070", book, CarContext()) == (plate, twin)
    assert best_marks((plate,), "hello world", book, CarContext()) == (plate,)


def test_a_code_that_is_not_what_was_clearly_read_says_what_was_typed():
    """Where the rest of a mark outweighs one character, nobody takes the code for what stands
    there."""
    book = open_book(next(p for p in shipped_books() if p.name.startswith("tarvane"))).book
    answer = answer_to(book, book.mark("frame_number"), "4700143", CarContext())
    first = answer.decoding.alternatives[0]
    figure = replace(first.fields[0], code="9")
    other = replace(first, fields=(figure, *first.fields[1:]))
    decoding = replace(answer.decoding, alternatives=(other,))
    lines = text_lines(decoded_page(replace(answer, decoding=decoding), Shown()), 80)
    told = "  9       type figure: Solent Sprint, two litres [1]; 4 was typed"
    assert told in [line.text for line in lines]
