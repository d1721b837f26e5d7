"""How long a case takes in a running interpreter: its opinion, and its report."""

from datetime import date

from benchmarks.cars import Car
from benchmarks.figure import Aim, Figure, of_times, timed
from benchmarks.scale import Scale
from witnessmark.report import render_report

OPINION_AIM = Aim("under", 50.0)
REPORT_AIM = Aim("under", 200.0)
PRINTED = date(2026, 1, 1)
"""The day printed on the reports: any will do."""


def measure(car: Car, scale: Scale) -> list[Figure]:
    """The opinion of a car that is already opened, and the report of that opinion."""
    opinion = car.examined()
    examinations = timed(car.examined, scale.examinations)
    reports = timed(lambda: render_report(opinion, car.book, car.exhibits, PRINTED), scale.reports)
    return [
        of_times(f"opinion of {car.name}", examinations, aim=OPINION_AIM, note="warm"),
        of_times(f"report of {car.name}", reports, aim=REPORT_AIM, note="warm, opinion given"),
    ]
