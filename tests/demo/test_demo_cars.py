"""The six demonstration cars say what their code book knows, and their pictures are theirs."""

import hashlib
import importlib
from pathlib import Path

import pytest

from witnessmark.casefile import Casefile, OriginSaid, Seen, open_case
from witnessmark.codebook import CarContext, CodeBook, MarkKind, find_book, open_book
from witnessmark.examination import car_marks
from witnessmark.problem import render_all

DEMO = Path(__file__).resolve().parents[2] / "demo"
CARS = ("clean", "no-papers", "panel", "altered", "swapped", "dressed")
LARGEST_PICTURE_BYTES = 150_000

every_car = pytest.mark.parametrize("car", CARS)


@pytest.fixture(scope="module")
def book() -> CodeBook:
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    opened = open_book(folder)
    assert opened.book is not None, render_all(opened.problems)
    return opened.book


def case_of(car: str) -> Casefile:
    opened = open_case(DEMO / car)
    assert opened.casefile is not None, render_all(opened.problems)
    return opened.casefile


def context_of(casefile: Casefile) -> CarContext:
    items = casefile.claim.items
    return CarContext(
        int(items["model_year"]), items["model"], frozenset({items["works"], items["body_works"]})
    )


def test_the_demonstration_book_is_without_a_fault():
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    assert render_all(open_book(folder).problems) == ""


@every_car
def test_a_demonstration_case_is_without_a_fault(car: str):
    assert render_all(open_case(DEMO / car).problems) == ""


@every_car
def test_every_site_of_this_car_has_an_outcome_and_no_other_is_named(car: str, book: CodeBook):
    casefile = case_of(car)
    expected = {m.site for m in book.marks_for(context_of(casefile)) if m.site}
    assert sorted(seen.site for seen in casefile.sites) == sorted(expected)


@every_car
def test_a_site_that_was_not_read_says_why(car: str):
    unread = [seen for seen in case_of(car).sites if seen.state.value != "read"]
    assert all(seen.reason for seen in unread)


@every_car
def test_only_marks_of_this_car_are_read(car: str, book: CodeBook):
    casefile = case_of(car)
    marks = {mark.id for mark in book.marks_for(context_of(casefile))}
    assert {reading.mark for reading in casefile.readings} - marks == set()
    read = {seen.site for seen in casefile.sites if seen.state.value == "read"}
    sites = {mark.id: mark.site for mark in book.marks}
    assert {sites[r.mark] for r in casefile.readings if sites[r.mark]} == read


@pytest.mark.parametrize("car", ["swapped", "dressed"])
def test_every_mark_of_a_saloon_has_one_meaning_that_the_book_lists(car: str, book: CodeBook):
    """The type of which one letter is lost as well: whichever it was, the engine is a plain one."""
    for decoding in car_marks(case_of(car), book).decodings:
        shares: dict[tuple[str, ...], float] = {}
        for each in decoding.alternatives:
            if all(field.listed for field in each.fields):
                values = tuple(field.value for field in each.fields)
                shares[values] = shares.get(values, 0.0) + each.share
        assert max(shares.values()) > 0.95, decoding.mark


def test_the_other_car_s_engine_is_declared_and_the_rest_is_one_car():
    """All that bears the number in `swapped` says 600283 or its tail, but for the engine."""
    casefile = case_of("swapped")
    declared = {each.about: each.origin for each in casefile.claim.statements}
    assert declared["engine"] is OriginSaid.ANOTHER_CARS
    foreign = {r.mark for r in casefile.readings if "00194" in r.text}
    own = {r.mark for r in casefile.readings if "0283" in r.text or "[08]283" in r.text}
    assert foreign == {"engine_stamp"}
    assert own == {
        "plate_aluminium", "shell_wing_tail", "shell_seat_tail", "gearbox_tail",
        "despatch_ledger", "owner_booklet",
    }  # fmt: skip


@every_car
def test_every_look_is_an_outcome_that_the_book_lists_for_this_car(car: str, book: CodeBook):
    casefile = case_of(car)
    listed = {
        (feature.site, feature.id, outcome.id)
        for feature in book.features
        if feature.applies.covers(context_of(casefile))
        for outcome in feature.outcomes
    }
    seen = {(look.site, look.feature, look.outcome) for look in casefile.looks}
    assert seen - listed == set()


@every_car
def test_the_claim_speaks_of_items_assemblies_and_marks_of_the_book(car: str, book: CodeBook):
    casefile = case_of(car)
    context = context_of(casefile)
    assert set(casefile.claim.items) - {item.id for item in book.items} == set()
    known = {"car"} | {a.id for a in book.assemblies_for(context)}
    known |= {mark.id for mark in book.marks_for(context)}
    assert {statement.about for statement in casefile.claim.statements} - known == set()


@every_car
def test_every_paper_of_this_car_has_its_state(car: str, book: CodeBook):
    marks = book.marks_for(context_of(case_of(car)))
    papers = {mark.id for mark in marks if mark.kind is MarkKind.PAPER}
    assert {paper.mark for paper in case_of(car).papers} == papers


@every_car
def test_two_examiners_read_one_mark_and_something_was_not_seen_in_person(car: str):
    readings = case_of(car).readings
    examiners: dict[str, set[str]] = {}
    for reading in readings:
        examiners.setdefault(reading.mark, set()).add(reading.by)
    assert max(len(names) for names in examiners.values()) == 2
    assert any(reading.seen is Seen.PHOTOGRAPH for reading in readings)


@every_car
def test_an_exhibit_is_the_picture_whose_digest_it_bears(car: str):
    folder = DEMO / car / "exhibits"
    entries = case_of(car).exhibits
    assert {file.name for file in folder.iterdir()} == {entry.file for entry in entries}
    for entry in entries:
        picture = (folder / entry.file).read_bytes()
        assert hashlib.sha256(picture).hexdigest() == entry.sha256
        assert entry.file == f"{entry.sha256}.jpg"
        assert len(picture) < LARGEST_PICTURE_BYTES


@every_car
def test_every_exhibit_is_tied_to_something_seen_or_shows_the_whole_car(car: str):
    """From a corner and from the side; of `no-papers` nobody took a picture of the whole car."""
    casefile = case_of(car)
    seen = (*casefile.sites, *casefile.readings, *casefile.looks, *casefile.papers)
    named = {exhibit for each in seen for exhibit in each.exhibits}
    whole = {entry.id for entry in casefile.exhibits if entry.shows_whole_car}
    assert whole == (set() if car == "no-papers" else {"corner", "side"})
    assert named == {entry.id for entry in casefile.exhibits} - whole


@pytest.mark.parametrize(
    ("car", "exhibit"),
    [
        pytest.param("panel", "corner", marks=pytest.mark.prove),
        pytest.param("swapped", "tag", marks=pytest.mark.prove),
        ("dressed", "engine"),
    ],
)
def test_a_picture_drawn_twice_has_the_same_bytes(
    car: str, exhibit: str, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.syspath_prepend(str(DEMO))
    draw = importlib.import_module("drawing.saloons").PHOTOGRAPHS[car][exhibit]
    assert draw() == draw()


@every_car
def test_the_script_draws_exactly_the_exhibits_of_a_case(car: str, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.syspath_prepend(str(DEMO))
    photographs = importlib.import_module("drawing.saloons").PHOTOGRAPHS[car]
    assert set(photographs) == {entry.id for entry in case_of(car).exhibits}


def test_a_car_has_one_bearer_of_its_identity_in_every_year(book: CodeBook):
    """A frame until 1958, the shell of the saloon from 1959."""
    bearers = {
        year: [
            assembly.id
            for assembly in book.assemblies_for(CarContext(year, "solent-saloon"))
            if assembly.identity_bearer
        ]
        for year in range(1952, 1962)
    }
    assert bearers == {y: ["frame"] if y < 1959 else ["shell"] for y in range(1952, 1962)}


def test_a_body_of_1956_bears_its_own_number_and_one_of_1957_the_cars(book: CodeBook):
    def says(year: int) -> set[str]:
        marks = book.marks_for(CarContext(year, "solent-sprint", frozenset({"marrick"})))
        body = [mark for mark in marks if mark.assembly == "body" and mark.always_struck]
        return {f"{field.says} {field.part}" for mark in body for field in mark.fields}

    assert says(1956) == {"body_works all", "body_number all"}
    assert says(1957) == {"body_works all", "chassis_number last 4"}


def test_the_book_knows_140_sprints(book: CodeBook):
    ranges = [
        (int(series.first), int(series.last))
        for series in book.series
        if series.item == "chassis_number" and "solent-sprint" in series.applies.models
    ]
    assert sum(last - first + 1 for first, last in ranges) == 140
