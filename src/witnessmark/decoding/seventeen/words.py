"""Positions in words."""

from collections.abc import Sequence

from witnessmark.catalogue import all_of, counted, from_to, one_of, said


def positions(numbers: Sequence[int]) -> str:
    """Positions of the number.

    >>> positions([4]), positions([4, 5])
    ('position 4', 'positions 4 and 5')
    """
    listed = all_of([str(each) for each in numbers])
    return counted("position {listed}", "positions {listed}", len(numbers), listed=listed)


def any_position(numbers: Sequence[int]) -> str:
    """One of these positions of the number.

    >>> any_position([4, 5])
    'position 4 or 5'
    """
    return said("position {listed}", listed=one_of([str(each) for each in numbers]))


def pairs(neighbours: Sequence[tuple[int, int]]) -> str:
    """Pairs of neighbouring positions, of which one is meant.

    >>> pairs([(5, 6), (10, 11)])
    '5 and 6 or 10 and 11'
    """
    return one_of([all_of([str(one), str(other)]) for one, other in neighbours])


def spans(numbers: Sequence[int]) -> str:
    """Numbers in order, those that follow each other as one span, of which one is meant.

    >>> spans([9, 11, 12, 13]), spans([4])
    ('9 or 11 to 13', '4')
    """
    runs: list[list[int]] = []
    for each in numbers:
        if runs and runs[-1][-1] == each - 1:
            runs[-1].append(each)
        else:
            runs.append([each])
    return one_of([from_to(run[0], run[-1]) for run in runs])
