"""What each item does to a conclusion: largest first, each on its side, the rest in one row."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.figures.laid_out import SVG, assert_well_laid_out, flowing, lines_of, root_of
from tests.weighed import with_lr, with_more
from tests.worked.opened import CARS, opinion_of
from witnessmark.figures import contributions
from witnessmark.figures.contributions import AXIS, LEAST_LOG10_LR, ROWS_SHOWN, factor_text
from witnessmark.weighing import Contribution
from witnessmark.wording import Names
from witnessmark.wording.conclusions import heading

CHANGES = st.lists(st.floats(-4, 4), min_size=1, max_size=40)


def with_changes(conclusion, changes, sentence="Item {at} was seen"):
    """The conclusion with one item for each change."""
    items = tuple(
        Contribution("frame", "look", sentence.format(at=f"n{at}n"), change)
        for at, change in enumerate(changes)
    )
    return with_more(conclusion, contributions=items)


def drawn(conclusion):
    figure = contributions(conclusion, Names())
    assert figure is not None
    return figure


def bars(figure):
    """From where to where each bar goes: (start, end)."""
    return [
        (float(each.get("x1", "")), float(each.get("x2", "")))
        for each in root_of(figure).iter(f"{SVG}line")
        if each.get("stroke-width") == "4"
    ]


@pytest.mark.parametrize("car", CARS)
def test_the_figure_of_every_conclusion_of_the_demonstration_cars_is_well_laid_out(car):
    opinion = opinion_of(car)
    for conclusion in opinion.weighed:
        figure = contributions(conclusion, Names(opinion.names))
        if not conclusion.contributions:
            continue
        assert figure is not None
        assert_well_laid_out(figure)
        assert heading(conclusion, Names(opinion.names)) in figure.title
        assert float(root_of(figure).get("viewBox", "").split()[3]) <= 620


def test_items_stand_in_order_of_what_they_do_and_the_whole_stands_last(opinion):
    figure = drawn(opinion.weighed[0])
    lines = lines_of(figure)
    factors = [text for text in lines if text.startswith(("× ", "÷ ")) and text[2].isdigit()]
    assert factors == ["× 6.9", "÷ 2.6", "× 2", "× 1.2"]
    assert lines.index("The number of the frame stamping.") < lines.index(
        "How the metal looks at the scuttle."
    )
    assert "All findings together" in lines
    assert "LR 21" in lines


def test_the_first_proposition_is_to_the_right_and_more_is_longer(opinion):
    figure = drawn(with_changes(opinion.weighed[0], (1.5, -1.0, 0.5)))
    first, second, third, whole = bars(figure)
    assert first[0] == second[0] == third[0] == pytest.approx(AXIS.x(0), abs=0.01)
    assert first[1] > third[1] > AXIS.x(0) > second[1]
    assert first[1] == pytest.approx(AXIS.x(1.5), abs=0.01)
    assert whole[1] == pytest.approx(AXIS.x(1.33), abs=0.01)


@given(changes=CHANGES)
def test_whatever_the_items_do_rows_are_few_and_none_is_lost(changes):
    conclusion = with_changes(opinion_of("clean").weighed[0], changes)
    figure = drawn(conclusion)
    assert_well_laid_out(figure)
    read = flowing(figure)
    named = [at for at in range(len(changes)) if f"Item n{at}n was seen." in read]
    lengths = [abs(changes[at]) for at in named]
    hidden = [abs(change) for at, change in enumerate(changes) if at not in named]
    rest = [
        int(line.split()[0])
        for line in lines_of(figure)
        if line.split()[0].isdigit() and "item" in line
    ]
    assert len(named) + sum(rest) == len(changes)
    assert len(named) + len(rest) <= ROWS_SHOWN
    assert all(length >= LEAST_LOG10_LR for length in lengths)
    assert not hidden or not lengths or max(hidden) <= min(lengths)
    assert len(bars(figure)) == len(named) + len(rest) + 1


def test_the_rest_is_added_in_one_row(opinion):
    changes = (1.0, *[0.02] * 20)
    figure = drawn(with_changes(opinion.weighed[0], changes))
    assert "20 further items, each smaller than those above, added" in lines_of(figure)
    assert "× 2.5" in lines_of(figure)


def test_items_that_move_hardly_anything_are_told_in_one_row_alone(opinion):
    figure = drawn(with_changes(opinion.weighed[0], (0.01, 0.0)))
    assert "hardly any" in lines_of(figure)
    assert "2 items, each of which moves the ratio by less than a tenth, added" in lines_of(figure)


def test_a_whole_that_supports_neither_is_a_ring_whatever_the_items(opinion):
    conclusion = opinion.weighed[0]
    figure = drawn(with_lr(with_changes(conclusion, (0.6, -0.5)), 0.1))
    whole = list(root_of(figure).iter(f"{SVG}g"))[-1]
    ring = whole.find(f"{SVG}circle")
    assert ring is not None
    assert ring.get("fill") == "#ffffff"


def test_long_sentences_keep_the_figure_on_its_page(opinion):
    told = "A very long sentence about what was seen on item {at} of the car, " * 6
    figure = drawn(with_changes(opinion.weighed[0], [1.0] * 30, told))
    assert_well_laid_out(figure)
    assert float(root_of(figure).get("viewBox", "").split()[3]) <= 620


def test_without_items_there_is_no_figure(opinion):
    conclusion = with_more(opinion.weighed[0], contributions=())
    assert contributions(conclusion, Names()) is None


@given(change=st.floats(-4, 4))
def test_a_factor_never_says_more_than_the_item_does(change):
    said = factor_text(change)
    if abs(change) < LEAST_LOG10_LR:
        assert said == "hardly any"
        return
    assert said[0] == ("×" if change > 0 else "÷")
    times = float(said[2:].replace(",", ""))
    assert 1 <= times <= 10 ** abs(change) * (1 + 1e-9)
