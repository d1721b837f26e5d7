"""Exceptions that the book knows, characters ground away, odds that the examiner states,
papers that echo each other, parts kept apart or not there at all."""

import pytest

from tests.examination.cars import opinion_on
from tests.weighing.cars import conclusion, identity, saloon, weighed
from tests.weighing.test_leaning import framed, tail
from witnessmark.casefile.records import Casefile
from witnessmark.codebook import find_book, open_book
from witnessmark.weighing import Question, Weighing


def of_number(number: str, **more: object) -> Casefile:
    """The Sprint of 1957 under another chassis number, its wing found without a tail."""
    document = tail(f"M {number[2:]}").model_dump(mode="json") | more
    document["claim"]["items"]["chassis_number"] = number
    document["readings"] = [
        {"mark": "plate_brass", "text": f"SP|{number}|40144|11|L2|370|H"},
        {"mark": "frame_number", "text": f"4 {number}"},
    ]
    seat = {"site": "seat_pan", "state": "absent", "reason": "smooth primer"}
    document["sites"] = more.get("sites", [seat])
    return Casefile.model_validate(document)


def weighed_1969(sites: list[dict[str, str]]) -> dict[str, float]:
    """The ratios of a car of 1969 of which nothing is noted but how these sites ended."""
    folder = find_book("chevrolet-1964-1972")
    assert folder is not None
    book = open_book(folder).book
    assert book is not None
    claim = {"items": {"model_year": "1969"}}
    case = {"id": "a", "book": book.id, "claim": claim, "sites": sites}
    conclusions = opinion_on(Casefile.model_validate(case), book).weighing.conclusions
    return {each.about: each.lr.log10_lr for each in conclusions}


def items(weighing: Weighing) -> set[str]:
    return {item.id for item in weighing.evidence}


def test_an_absent_mark_that_the_book_excuses_weighs_nothing_and_is_said() -> None:
    """700212 is one of four bodies finished before the new numbering: they bear no tail."""
    excused, ordinary = weighed(of_number("700212")), weighed(of_number("700236"))
    assert "absence:seat_chassis_tail" in items(ordinary)
    assert "absence:seat_chassis_tail" not in items(excused)
    assert any("exception" in sentence for sentence in excused.left_out)
    assert not any("exception" in sentence for sentence in ordinary.left_out)


@pytest.mark.parametrize(("read", "is_excused"), [("700212", True), ("70021?", False)])
def test_a_half_worn_number_excuses_nothing(read: str, is_excused: bool) -> None:
    """Nobody claims a number, and 70021? may be of the four bodies or of the next five."""
    document = of_number("700212").model_dump(mode="json")
    del document["claim"]["items"]["chassis_number"]
    for reading in document["readings"]:
        reading["text"] = reading["text"].replace("700212", read)
    found = items(weighed(Casefile.model_validate(document)))
    assert ("absence:seat_chassis_tail" not in found) == is_excused


def test_characters_ground_away_are_a_look_at_their_place() -> None:
    ground = saloon(seat="E ~~~~~~", looks={"seat_pan": "factory"})
    worn = saloon(seat="E ??????", looks={"seat_pan": "disturbed"})
    assert identity(ground) == pytest.approx(identity(worn), abs=0.05)
    assert identity(ground) < identity(saloon(seat="E ??????"))


def test_stated_odds_give_a_posterior_and_serve_as_the_odds_of_the_bearer() -> None:
    stated = {"prior_odds": [{"question": "identity", "odds": 20, "reason": "known since new"}]}
    plain, told = weighed(saloon()), weighed(saloon(circumstances=stated))
    before, after = (conclusion(w, Question.IDENTITY) for w in (plain, told))
    assert before.posterior_odds is None
    assert before.lr.log10_lr == pytest.approx(after.lr.log10_lr, abs=1e-9)
    assert after.posterior_odds == pytest.approx(20 * 10**after.lr.log10_lr)
    assert told.bearer_odds == pytest.approx(20)
    assert told.bearer_odds_are_stated
    assert not plain.bearer_odds_are_stated


def with_ledger(copied_from: str) -> Casefile:
    document = framed(ledger="700157|4|40061|M|0998|18|200955").model_dump(mode="json")
    document["papers"].append({"mark": "build_card", "state": "copy", "copied_from": copied_from})
    document["readings"].append(
        {"mark": "build_card", "text": "700157|4|M|0998|40061|?????|?????|A|18|L1|200955"}
    )
    return Casefile.model_validate(document)


def test_a_paper_copied_from_another_counts_once() -> None:
    own, echo = weighed(with_ledger("")), weighed(with_ledger("despatch_ledger"))
    alone = weighed(framed(ledger="700157|4|40061|M|0998|18|200955"))
    body = [conclusion(w, Question.ASSEMBLY, "body").lr.log10_lr for w in (own, echo, alone)]
    assert body[0] > body[1] + 0.05
    assert body[1] == pytest.approx(body[2], abs=1e-9)
    assert any("one source counts once" in sentence for sentence in echo.left_out)


def test_a_plate_in_a_drawer_is_not_an_absent_plate() -> None:
    drawer = [{"site": "scuttle", "state": "read", "attachment": "present but detached"}]
    absent = [{"site": "scuttle", "state": "absent"}]
    kept = weighed(saloon(sites=drawer))
    gone = weighed(saloon(plate=None, sites=absent))
    assert "detached:plate_aluminium" in items(kept)
    assert "absence:plate_aluminium" in items(gone)
    assert (
        conclusion(kept, Question.PLATE).lr.log10_lr
        < conclusion(weighed(saloon()), Question.PLATE).lr.log10_lr
    )


def test_a_car_without_the_part_that_bears_the_number_speaks_against_it() -> None:
    there = framed()
    document = there.model_dump(mode="json")
    document["sites"] = [
        {"site": "frame_rail", "state": "read", "attachment": "the car has no such part"}
    ]
    missing = Casefile.model_validate(document)
    for question, least in ((Question.IDENTITY, 0.3), (Question.CONFIGURATION, 0.2)):
        before, after = (conclusion(weighed(c), question).lr.log10_lr for c in (there, missing))
        assert after < before - least


def test_a_row_from_memory_explains_and_never_argues() -> None:
    """The same book with its body stampings from memory: their readings weigh nothing."""
    from dataclasses import replace

    from tests.weighing.cars import demonstration_book
    from witnessmark.codebook.records import Basis

    book = demonstration_book()
    remembered = replace(
        book,
        marks=tuple(
            replace(m, citation=replace(m.citation, basis=Basis.MEMORY))
            if m.assembly == "shell"
            else m
            for m in book.marks
        ),
    )
    agree = weighed(saloon(), remembered)
    differ = weighed(saloon(wing="E 600457", seat="E 600457"), remembered)
    for one, other in zip(agree.conclusions, differ.conclusions, strict=True):
        assert one.lr.log10_lr == pytest.approx(other.lr.log10_lr, abs=1e-9)
    assert any("from memory" in sentence for sentence in agree.left_out)


def test_a_claim_that_leaves_the_bearer_open_is_weighed_on_the_first_and_says_so() -> None:
    """Without a model and year it may be a car on a frame or one with a unit body."""
    document = framed().model_dump(mode="json")
    document["claim"]["items"] = {}
    found = weighed(Casefile.model_validate(document))
    assert conclusion(found, Question.IDENTITY).about == "frame"
    assert any("frame or unit body" in sentence for sentence in found.left_out)


def test_a_car_with_more_open_items_than_letters_is_weighed() -> None:
    """`clean` with its number and year claimed and no more: its codes stand open."""
    from tests.worked.opened import case_of

    document = case_of("clean").model_dump(mode="json")
    kept = ("chassis_number", "model_year")
    items = document["claim"]["items"]
    document["claim"]["items"] = {name: items[name] for name in kept}
    found = weighed(Casefile.model_validate(document))
    assert all(abs(each.lr.log10_lr) <= 4 for each in found.conclusions)


def test_a_frame_typed_without_its_type_figure_does_not_speak_against_the_car() -> None:
    """Six characters where the mark has seven: any may stand one place further on."""
    document = framed().model_dump(mode="json")
    for reading in document["readings"]:
        if reading["mark"] == "frame_number":
            reading["text"] = "700157"
    short = weighed(Casefile.model_validate(document))
    document["readings"] = [r for r in document["readings"] if r["mark"] != "frame_number"]
    unread = weighed(Casefile.model_validate(document))
    for one, other in zip(short.conclusions, unread.conclusions, strict=True):
        assert one.lr.log10_lr == pytest.approx(other.lr.log10_lr, abs=1e-9)


def test_the_absence_of_one_mark_is_not_that_of_the_others_at_its_place() -> None:
    """An absent tail on the bulkhead weighs as before; an absent week, never always struck, not."""
    absent = {"site": "bulkhead", "state": "absent"}
    whole, tail_only, week_only = (
        weighed(of_number("700236", sites=[absent | named]))
        for named in ({}, {"mark": "bulkhead_chassis_tail"}, {"mark": "body_week"})
    )
    assert "absence:bulkhead_chassis_tail" in items(whole)
    assert conclusion(tail_only, Question.IDENTITY).lr == conclusion(whole, Question.IDENTITY).lr
    assert "absence:bulkhead_chassis_tail" not in items(week_only)


def test_marks_of_one_place_that_are_absent_count_once_in_any_order() -> None:
    """As the place that is absent as a whole: on the pad of 1969 two marks were always struck."""
    pad = [
        {"site": "engine_pad", "mark": mark, "state": "absent"}
        for mark in ("engine_pad", "partial_number_engine")
    ]
    found = [
        weighed_1969(sites)
        for sites in ([{"site": "engine_pad", "state": "absent"}], pad, pad[::-1])
    ]
    assert found[0] == found[1] == found[2] != weighed_1969([])


def test_found_and_illegible_weighs_nothing_yet() -> None:
    """As a reading of which no character could be made out: told, and on neither side."""
    found = weighed(
        of_number("700236", sites=[{"site": "seat_pan", "state": "found and illegible"}])
    )
    silent = weighed(of_number("700236", sites=[]))
    assert [c.lr for c in found.conclusions] == [c.lr for c in silent.conclusions]
