"""What each item does to a conclusion: largest first, none lost, the whole last."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.weighed import with_more
from tests.worked.opened import CARS, opinion_of
from witnessmark.outline.records import Table
from witnessmark.report.sections.weight import LEAST_LOG10_LR, ROWS_SHOWN, drivers, step_words
from witnessmark.weighing import Contribution

CHANGES = st.lists(st.floats(-4, 4), min_size=1, max_size=40)


def with_changes(conclusion, changes):
    """The conclusion with one item for each change."""
    items = tuple(
        Contribution("frame", "look", f"Item n{at}n was seen", change)
        for at, change in enumerate(changes)
    )
    return with_more(conclusion, contributions=items)


def rows_of(conclusion):
    """The rows as (what it is, what it does, how far its bar goes)."""
    (table,) = drivers(conclusion)
    assert isinstance(table, Table)
    return [(item.text, does.text, bar.bar) for item, does, bar in table.rows]


@pytest.mark.parametrize("car", CARS)
def test_the_whole_stands_last_for_every_conclusion_of_the_demonstration_cars(car):
    for conclusion in opinion_of(car).weighed:
        if any(abs(each.log10_lr_change) >= LEAST_LOG10_LR for each in conclusion.contributions):
            *_, (name, does, bar) = rows_of(conclusion)
            assert name == "All findings together"
            assert does.startswith("LR ")
            assert bar == conclusion.log10_lr


def test_items_stand_in_order_of_what_they_do(opinion):
    conclusion = with_changes(opinion.weighed[0], (0.3, -1.5, 1.0))
    assert [each[:2] for each in rows_of(conclusion)[:-1]] == [
        ("Item n1n was seen.", "× 31 toward the second"),
        ("Item n2n was seen.", "× 10 toward the first"),
        ("Item n0n was seen.", "× 1.9 toward the first"),
    ]


@tried_on(60)
@given(changes=CHANGES)
def test_whatever_the_items_do_rows_are_few_and_none_is_lost(changes):
    if max(map(abs, changes)) < LEAST_LOG10_LR:
        return
    *rows, _ = rows_of(with_changes(opinion_of("clean").weighed[0], changes))
    named = [each for each in rows if each[0].startswith("Item")]
    rest = [int(each[0].split()[0]) for each in rows if not each[0].startswith("Item")]
    assert len(named) + sum(rest) == len(changes)
    assert len(rows) <= ROWS_SHOWN
    assert all(abs(each[2]) >= LEAST_LOG10_LR for each in named)
    assert sum(each[2] for each in rows) == pytest.approx(sum(changes))


def test_the_rest_is_added_in_one_row(opinion):
    rows = rows_of(with_changes(opinion.weighed[0], (1.0, *[0.02] * 20)))
    told = "20 further items, each smaller than those above, added"
    assert rows[1][:2] == (told, "× 2.5 toward the first")


def test_items_that_move_hardly_anything_are_told_in_a_sentence(opinion):
    (block,) = drivers(with_changes(opinion.weighed[0], (0.01, 0.0)))
    assert block.text == "No single item moves this ratio by a tenth or more."


@given(change=st.floats(-4, 4))
def test_a_step_never_says_more_than_the_item_does(change):
    told = step_words(change)
    if abs(change) < LEAST_LOG10_LR:
        assert told == "hardly any"
        return
    assert told.endswith("first" if change > 0 else "second")
    assert 1 <= float(told.split()[1].replace(",", "")) <= 10 ** abs(change) * (1 + 1e-9)
