"""What says nothing moves nothing, and what counts once counts once."""

from dataclasses import replace

import pytest

from tests.weighing.cars import SALOON
from tests.worked.situations import changes as c
from tests.worked.situations.car import (
    Car,
    Typed,
    ends,
    of_another,
    paper,
    second_reading,
    unseen,
)
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from tests.worked.situations.tried import answered
from witnessmark.agreement import CarMarks
from witnessmark.casefile import Casefile, Override, case_from
from witnessmark.codebook import Basis
from witnessmark.examination import car_marks
from witnessmark.weighing import Answer, Asked, answer, rate_values
from witnessmark.weighing.network.build import network_of, noted
from witnessmark.weighing.network.questions import questions_of, sides
from witnessmark.weighing.rates import each_with

FRAME = STANDARD["frame"]
small = pytest.mark.parametrize("name", ["frame", "coachbuilt", "order", "labels"])


def lrs(found: Answer) -> dict[tuple[Asked, str], float]:
    """The log10 LR of every question."""
    return {(each.question, each.about): each.log10_lr for each in found.conclusions}


def weighed(marks: CarMarks) -> Answer:
    """The answer alone."""
    return answer(marks, with_contributions=False, with_next_looks=False)


@small
def test_an_examiner_who_could_read_nothing_changes_nothing(name: str) -> None:
    """Beside a clear reading of the hidden number."""
    car = STANDARD[name]
    worn = "".join("?" if sign.isalnum() else sign for sign in car.values["number"])
    size = len(car.values["order"]) if name == "order" else len(worn)
    beside = car.but(second_reading(car.hidden[0], "?" * size))
    assert answered(beside).lrs == pytest.approx(answered(car).lrs, rel=1e-9)


def test_of_two_examiners_who_read_differently_neither_comes_first() -> None:
    """Which of the two was typed in first changes nothing."""
    one = FRAME.but(second_reading(FRAME.hidden[0], **FRAME.near))
    typed = one.readings[FRAME.hidden[0]]
    other = replace(one, readings={**one.readings, FRAME.hidden[0]: typed[::-1]})
    assert answered(one).lrs == pytest.approx(answered(other).lrs, rel=1e-9)
    assert answered(one).lrs["identity"] < 0.9999 * answered(FRAME).lrs["identity"]


@small
@pytest.mark.parametrize("state", ["asked for and awaited", "lost", "refused"])
def test_a_paper_not_in_hand_says_nothing(name: str, state: str) -> None:
    """Awaited, refused or lost: as if it had not been listed."""
    ledger = next(m for m in ("despatch_ledger", "delivery_note", "archive_letter")
                  if m in STANDARD[name].readings)  # fmt: skip
    without = STANDARD[name].but(unseen(ledger))
    assert answered(without.but(paper(ledger, state))).lrs == answered(without).lrs


def test_found_and_illegible_is_a_reading_of_which_nothing_could_be_made_out() -> None:
    """Against the same place without a look: told, and on neither side."""
    plain = FRAME.but(unseen("gearbox_stamp"))
    site = next(m.site for m in book_of("frame").marks if m.id == "gearbox_stamp")
    assert answered(plain.but(ends(site, "found and illegible"))).lrs == answered(plain).lrs


def test_characters_ground_away_speak_against_and_worn_ones_do_not() -> None:
    """At a place that looks as it left the works, and at one that looks disturbed."""
    for look in ("factory", "disturbed"):
        at = FRAME.but(c.hidden_look(look))
        ground = answered(at.but(c.hidden_number("~"))).lrs["identity"]
        worn = answered(at.but(c.hidden_number("?"))).lrs["identity"]
        assert ground < worn / 2


@small
def test_a_row_from_memory_explains_and_never_argues(name: str) -> None:
    """The same book with all its lags and series from memory: another number of the series, an
    early block say nothing through them; without these rows every answer is the same."""
    marks = car_marks(casefile(STANDARD[name]), book_of(STANDARD[name].book))
    remembered = {
        table: tuple(
            replace(row, citation=replace(row.citation, basis=Basis.MEMORY))
            for row in getattr(marks.book, table)
        )
        for table in ("lags", "series")
    }
    told = weighed(replace(marks, book=replace(marks.book, **remembered)))
    gone = weighed(replace(marks, book=replace(marks.book, lags=(), series=())))
    assert lrs(told) == pytest.approx(lrs(gone), abs=1e-9)
    assert lrs(told) != pytest.approx(lrs(weighed(marks)), abs=1e-6)


def test_a_mark_from_memory_says_nothing() -> None:
    """Whatever number a hidden place bears of which only memory says that it bears one."""
    book = book_of("frame")
    marks = tuple(
        replace(m, citation=replace(m.citation, basis=Basis.MEMORY))
        if m.id == FRAME.hidden[0]
        else m
        for m in book.marks
    )
    remembered = replace(book, marks=marks)
    right, other = (
        weighed(car_marks(casefile(car), remembered))
        for car in (FRAME, FRAME.but(of_another(FRAME.hidden[0])))
    )
    assert lrs(right) == pytest.approx(lrs(other), abs=1e-9)


@small
def test_an_answer_does_not_depend_on_the_odds_of_what_is_asked(name: str) -> None:
    """The pair is cut from its parents: however rare other structures are, the LR of identity is
    the same."""
    known = noted(car_marks(casefile(STANDARD[name]), book_of(STANDARD[name].book)))
    found = []
    for share in (0.001, 0.1, 0.6):
        rates = each_with(rate_values(), [{"structure.other": share}])
        identity = sides(network_of(known, rates), known, questions_of(known)[0])
        assert identity is not None
        found.append(identity.log10_lr())
    assert found == pytest.approx([found[0]] * 3, abs=1e-9)


def test_an_override_moves_what_it_is_about() -> None:
    """Where cores struck to pass are rare, a number that agrees speaks louder; the row's own
    value moves nothing."""

    def engine(value: float) -> float:
        row = Override(row="core.struck.suited", value=value, reason="A cheap car.")
        marks = car_marks(casefile(FRAME), book_of("frame"))
        known = replace(marks.casefile.circumstances, overrides=(row,))
        case = replace(marks.casefile, circumstances=known)
        return lrs(weighed(replace(marks, casefile=case)))[Asked.CORE, "engine"]

    shipped = float(rate_values()["core.struck.suited"].mean())
    assert 10 ** engine(shipped) == pytest.approx(answered(FRAME).lrs["engine"], rel=1e-9)
    assert engine(shipped / 20) > engine(shipped) + 0.1


def test_a_car_of_which_only_the_number_is_claimed_is_weighed() -> None:
    """No model, year or works: whatever is claimed, there is an answer with figures in it."""
    for name in ("frame", "numbered"):
        car = STANDARD[name]
        number = next(item for item in car.claim if "number" in item)
        bare = replace(car, claim={number: car.claim[number]}, built="")
        found = weighed(car_marks(_opened(bare), book_of(car.book)))
        assert found.conclusions
        assert all(abs(each.log10_lr) < 30 for each in found.conclusions)


def _opened(car: Car) -> Casefile:
    plain = {m: tuple(Typed(t.text, t.own) for t in read) for m, read in car.readings.items()}
    return casefile(replace(car, readings=plain))


def bare_seat(number: str, state: str) -> dict[tuple[Asked, str], float]:
    """A Sprint of 1957 whose seat pan bears no tail, by its chassis number."""
    document = {
        "format": "witnessmark-case",
        "format_version": 2,
        "id": "sprint",
        "book": "tarvane-1952-1961",
        "claim": {
            "items": {
                "chassis_number": number,
                "model": "solent-sprint",
                "model_year": "1957",
                "works": "tarvane",
                "body_works": "marrick",
            }
        },
        "readings": [
            {"mark": "plate_brass", "text": f"SP|{number}|40144|11|L2|370|H"},
            {"mark": "frame_number", "text": f"4 {number}"},
        ],
        "sites": [{"site": "seat_pan", "state": state}],
    }
    return lrs(weighed(car_marks(case_from(document), book_of(document["book"]))))


def test_an_absent_mark_that_the_book_excuses_weighs_nothing() -> None:
    """700212 is one of four bodies finished before the new numbering: they bear no tail."""
    body = (Asked.CORE, "body")
    assert bare_seat("700212", "absent") == bare_seat("700212", "not looked for")
    assert bare_seat("700236", "absent")[body] < bare_seat("700236", "not looked for")[body] - 0.5


def test_a_place_that_could_bear_a_number_in_two_forms_lacks_it_once():
    """A saloon of 1959 bears its number whole or its tail on either panel; reached and bare, the
    place lacks one number and not two, and none where the other form was read there."""
    bare = SALOON.unseen("shell_seat_number").but(sites={"seat_pan": "absent"})
    tailed = SALOON.but({"shell_seat_number": "_", "shell_seat_tail": "90321"})
    found = [
        [number.status for seen in noted(car.marks()).seen for number in seen.numbers
         if number.mark.startswith("shell_seat")]
        for car in (bare, tailed)
    ]  # fmt: skip
    assert found == [["absent"], ["read"]]
