"""Every measure runs and gives finite figures; no test says how long anything may take."""

import json
import math

import pytest

from benchmarks import __main__ as bench
from benchmarks import (
    answering,
    books,
    cold_start,
    decoding,
    drawn,
    examining,
    memory,
    photographs,
    weighing,
)
from benchmarks.cars import opened_car
from benchmarks.figure import Aim, Figure, ratio_of
from benchmarks.scale import Scale
from benchmarks.table import render_table
from witnessmark.codebook import shipped_books

ONCE = Scale(1, 1, 1, 40, 20, 1, 20, 1, 1, 1)


@pytest.fixture(scope="module")
def car():
    return opened_car("panel")


def assert_finite(figures: list[Figure]) -> None:
    """Something was measured, and all of it is a number that can be printed."""
    assert figures
    for figure in figures:
        found = [figure.value, figure.least, figure.most, figure.ratio]
        assert all(math.isfinite(each) for each in found if each is not None), figure
    assert all(figure.name in render_table(figures) for figure in figures)


def test_opinion_and_report_are_measured(car):
    figures = examining.measure(car, ONCE)
    assert_finite(figures)
    names = [figure.name for figure in figures]
    assert names == ["opinion of panel", "report of panel", "changed report of panel"]


def test_answers_while_somebody_types_stand_beside_those_made_afresh(car):
    figures = answering.measure(car, ONCE)
    assert_finite(figures)
    assert [figure.name for figure in figures] == [
        "live answer of panel",
        "Opinion at once of panel",
        "Opinion of panel",
    ]
    assert all("afresh" in figure.ratio_to for figure in figures)


def test_peak_memory_is_that_of_an_interpreter_of_its_own(car):
    """One that examines a car holds more than one that has done nothing."""
    figures = [*memory.measure_bare(), *memory.measure(car)]
    assert_finite(figures)
    assert figures[2].value >= figures[1].value > figures[0].value > 1


def test_one_tree_of_messages_gives_what_plain_sums_give(car):
    """Of every question, to the last places; and the draws, summed over what counts, closely."""
    figures = weighing.measure(car, ONCE)
    assert_finite(figures)
    assert figures[-1].value < 1e-9
    assert figures[-2].value < 0.03


def test_a_report_with_photographs_stands_beside_one_without():
    figures = photographs.measure(ONCE)
    assert_finite(figures)
    assert all(figure.ratio is not None and figure.ratio > 0 for figure in figures)


def test_cold_starts_stand_beside_bare_starts_and_decoding_beside_its_libraries(monkeypatch):
    monkeypatch.setattr(cold_start, "CARS", ("panel",))
    figures = cold_start.measure(ONCE)
    assert_finite(figures)
    assert len(figures) == len(cold_start.COMMANDS) * len(cold_start.BESIDE) + 2
    assert "libraries" in figures[-2].ratio_to
    assert "a run for each case" in figures[-1].ratio_to
    assert all(figure.ratio is not None and figure.ratio_to for figure in figures)


def test_every_shipped_book_is_opened_and_decoded_by():
    figures = books.measure(ONCE)
    assert_finite(figures)
    ids = [folder.name for folder in shipped_books()]
    assert [figure.name.rpartition(" ")[2] for figure in figures[::2]] == ids


def test_decoding_is_measured_beside_the_naive_one_and_only_cutting_the_text(car):
    figures = decoding.measure(car, ONCE)
    assert_finite(figures)
    assert all(each.ratio and each.ratio_to and each.aim for each in figures[3:])


def test_plates_are_drawn_of_every_mark_in_turn(car):
    """Of each as many, and all of them well formed."""
    marks = [mark for mark in car.book.marks if mark.windows]
    plates = decoding.drawn_of(car.book, marks, 3 * len(marks))
    assert [plate.mark for plate in plates] == marks * 3
    assert all(drawn.fits(plate.mark, plate.text) for plate in plates)


def test_the_naive_decoding_reads_the_plates_it_is_given(car):
    """Else it would be quick because it does nothing."""
    plates = decoding.drawn_plates(car.book, 60)
    read = [decoding.naive_of(plate.mark, car.book).decoded(plate.text) for plate in plates]
    assert all(read)


def test_clear_plates_decode_and_doubtful_ones_are_doubtful(car):
    plates = decoding.drawn_plates(car.book, 60)
    found = [decoding.decoded(plate.mark, plate.text, car.book) for plate in plates]
    assert all(not each.reading.problems for each in found)
    assert any("?" in plate.doubtful or "[" in plate.doubtful for plate in plates)


def test_an_aim_is_met_or_not_met_by_the_value_or_by_the_ratio():
    aim = Aim("under", 50)
    assert Figure("opinion", 49.0, "ms", 3, aim=aim).verdict == "under 50: met"
    assert Figure("opinion", 50.0, "ms", 3, aim=aim).verdict == "under 50: not met"
    faster = Aim("under", 1, of_ratio=True)
    assert Figure("answers", 5.0, "ms", 3, ratio=0.5, aim=faster).verdict == "ratio under 1: met"
    assert Figure("memory", 5.0, "MB", 1).verdict == ""


def test_ratios_are_taken_pair_by_pair():
    """The median of 2, 2 and 1, whatever noise both sides met."""
    assert ratio_of([2.0, 200.0, 30.0], [1.0, 100.0, 30.0]) == 2.0


def test_the_figures_go_to_a_json_file_as_well(tmp_path, monkeypatch, capsys):
    """--json FILE: the same figures with their verdicts."""
    figure = Figure("opinion", 49.0, "ms", 3, aim=Aim("under", 50))
    monkeypatch.setattr(bench, "measured", lambda scale: [figure])
    file = tmp_path / "figures.json"
    assert bench.main(["--quick", "--json", str(file)]) == 0
    written = json.loads(file.read_text("utf-8"))
    assert written["figures"][0]["verdict"] == "under 50: met"
    assert "opinion" in capsys.readouterr().out
