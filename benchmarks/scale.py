"""How much is measured: the quick run, and the full one."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Scale:
    """Numbers of runs, cars and plates."""

    examinations: int
    reports: int
    cold_starts: int
    posteriors: int
    many_cars: int
    sampled_cars: int
    plates: int
    numbers: int
    photographs: int
    doubtful: int


FULL = Scale(30, 20, 15, 40, 10_000, 200, 4_000, 100_000, 60, 300)
QUICK = Scale(5, 3, 3, 5, 1_000, 30, 500, 1_000, 6, 60)
