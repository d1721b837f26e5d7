"""How much is measured: the quick run, and the full one."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Scale:
    """Numbers of runs, cars and plates."""

    examinations: int
    reports: int
    cold_starts: int
    plates: int
    numbers: int
    photographs: int
    doubtful: int
    pages: int
    visits: int
    cases: int


FULL = Scale(30, 20, 15, 4_000, 100_000, 60, 300, 100, 20, 200)
QUICK = Scale(5, 3, 3, 500, 1_000, 6, 60, 20, 2, 5)
