"""A declared core on which the book knows no mark is asked about, and gives no figure."""

from dataclasses import replace
from functools import cache

import pytest

from tests.examined import ratios_alone
from tests.worked.situations.car import unseen
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.casefile import Seen
from witnessmark.codebook import CodeBook
from witnessmark.codebook.pieces import PieceKind
from witnessmark.examination import Opinion
from witnessmark.outline.records import Outline, Section, Table
from witnessmark.report import report_text
from witnessmark.report.sections.answered import concluded
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.not_seen import not_seen
from witnessmark.report.sections.open import open_section
from witnessmark.report.sections.seen import part_seen
from witnessmark.weighing import Asked, Standing, Weighed


def with_unmarked_axle(book: CodeBook) -> CodeBook:
    """The small book, which declares an axle on which nothing is ever struck."""
    engine = next(each for each in book.assemblies if each.id == "engine")
    beetle = book_of("volkswagen-1950-1979")
    body = next(each for each in beetle.pieces if each.id == "body")
    axle = replace(body, id="axle_case", name="axle case", assembly="axle", applies=engine.applies)
    return replace(
        book,
        assemblies=(*book.assemblies, replace(engine, id="axle", name="axle")),
        pieces=(*book.pieces, axle),
    )


def _without(book: CodeBook, piece: str) -> CodeBook:
    return replace(book, pieces=tuple(each for each in book.pieces if each.id != piece))


BOOKS = {
    "beetle": (book_of("volkswagen-1950-1979"), "body"),
    "order": (with_unmarked_axle(book_of("order-number")), "axle_case"),
}


@cache
def asked_of(car: str) -> Opinion:
    """A standard car with such a core."""
    return ratios_alone(casefile(STANDARD[car]), BOOKS[car][0])


def _core(opinion: Opinion, about: str) -> Weighed:
    return next(w for w in opinion.weighed if (w.question, w.about) == (Asked.CORE, about))


@pytest.mark.parametrize("car", BOOKS)
def test_it_cannot_be_established_and_moves_no_other_figure(car: str) -> None:
    book, piece = BOOKS[car]
    found = asked_of(car)
    core = _core(found, piece)
    assert (core.standing, core.log10_lr) == (Standing.CANNOT_BE_ESTABLISHED, 0.0)
    before = ratios_alone(casefile(STANDARD[car]), _without(book, piece))
    others = {(w.question, w.about): w.log10_lr for w in found.weighed if w.about != piece}
    assert others == pytest.approx({(w.question, w.about): w.log10_lr for w in before.weighed})


@pytest.mark.parametrize("car", BOOKS)
def test_the_first_page_says_so_in_one_line(car: str) -> None:
    book, piece = BOOKS[car]
    (table,) = (b for b in concluded(Matter(asked_of(car), book)) if isinstance(b, Table))
    name = next(each.name for each in book.pieces if each.id == piece)
    rows = [[cell.text for cell in row] for row in table.rows]
    told = [row[1:3] for row in rows if row[0].lower() == name.lower()]
    assert told == [["cannot be established", "no answer"]]


def test_what_could_speak_of_it_is_named_though_it_gives_no_figure() -> None:
    section: Section = open_section(Matter(asked_of("beetle"), BOOKS["beetle"][0]))
    text = report_text(Outline("", sections=(section,)))
    assert "On the car, these bear on it, and give no figure:" in text
    assert "Look closely at the outside of the body and note how these are: rear window," in text


def test_a_place_that_speaks_of_it_and_was_not_looked_at_is_among_what_was_not_seen() -> None:
    found = asked_of("beetle")
    told = " ".join(not_seen(Matter(found, BOOKS["beetle"][0])))
    assert "outside of the body (not looked for)" in told


def test_what_was_seen_there_is_told_as_not_weighed_and_not_offered_again() -> None:
    case = casefile(STANDARD["beetle"])
    window = replace(
        case.looks[0], site="body_shape", feature="rear_window", outcome="larger and square"
    )
    found = ratios_alone(replace(case, looks=(*case.looks, window)), BOOKS["beetle"][0])
    told = (
        "What was seen at the place outside of the body is told and not weighed: "
        "no mark stands there."
    )
    assert told in [each.sentence for each in found.limitations]
    assert "body_shape" not in [each.target for each in found.looks]
    assert _core(found, "body").standing is Standing.CANNOT_BE_ESTABLISHED


def test_a_core_with_a_mark_that_nobody_read_is_not_examined() -> None:
    book = book_of("jaguar-1948-1974")
    car = STANDARD["jaguar"]
    core = next(each for each in car.cores if each.assembly == "tub")
    found = ratios_alone(casefile(car.but(unseen(*core.ties))), book)
    assert _core(found, "tub").standing is Standing.NOT_EXAMINED


def test_a_core_declared_from_memory_is_not_asked_about() -> None:
    book = BOOKS["beetle"][0]
    body = next(each for each in book.pieces if each.kind is PieceKind.CORE)
    assert body.id == "body"
    memory = replace(body.citation, basis=type(body.citation.basis)("memory"))
    found = ratios_alone(
        casefile(STANDARD["beetle"]),
        replace(_without(book, "body"), pieces=(replace(body, citation=memory),)),
    )
    assert "body" not in [each.about for each in found.weighed]


def test_a_core_of_which_only_marks_from_memory_were_read_cannot_be_established() -> None:
    """The stamp of a Beetle's gearbox was read, and nothing of its place was noted: its form and
    its letters are from memory."""
    book, case = book_of("volkswagen-1950-1979"), casefile(STANDARD["beetle"])
    stamp = next(mark for mark in book.marks if mark.id == "gearbox_stamp")
    looks = tuple(look for look in case.looks if look.site != stamp.site)
    sites = tuple(seen for seen in case.sites if seen.site != stamp.site)
    readings = tuple(
        replace(each, seen=Seen.PHOTOGRAPH) if each.mark == stamp.id else each
        for each in case.readings
    )
    assert readings != case.readings
    found = ratios_alone(replace(case, looks=looks, readings=readings, sites=sites), book)
    gearbox = _core(found, "gearbox")
    assert (gearbox.standing, gearbox.log10_lr) == (Standing.CANNOT_BE_ESTABLISHED, 0.0)
    assert "whose marks the book knows from memory alone" in gearbox.conclusion.pair.first
    assert part_seen(gearbox, found, book) is Seen.PHOTOGRAPH


def test_of_a_core_without_a_mark_nothing_was_left_unseen() -> None:
    found = asked_of("beetle")
    assert part_seen(_core(found, "body"), found, BOOKS["beetle"][0]) is Seen.IN_PERSON
