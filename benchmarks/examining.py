"""How long a case takes in a running interpreter: its opinion, its report, a changed report."""

from dataclasses import replace
from datetime import date
from itertools import count

from benchmarks.cars import Car
from benchmarks.figure import Aim, Figure, of_times, timed
from benchmarks.scale import Scale
from witnessmark.report import render_report

OPINION_AIM = Aim("under", 50.0)
REPORT_AIM = Aim("under", 200.0)
CHANGED_AIM = Aim("under", 250.0)
PRINTED = date(2026, 1, 1)
"""The day printed on the reports: any will do."""


def measure(car: Car, scale: Scale) -> list[Figure]:
    """The opinion of a car that is already opened, the report of it, and the same with another
    title each time, which stands on every page."""
    opinion = car.examined()
    examinations = timed(car.examined, scale.examinations)
    reports = timed(lambda: render_report(opinion, car.book, car.exhibits, PRINTED), scale.reports)
    titles = (f"{opinion.casefile.title}, {number}" for number in count(1))

    def changed() -> bytes:
        casefile = replace(opinion.casefile, title=next(titles))
        retitled = replace(opinion, casefile=casefile)
        return render_report(retitled, car.book, car.exhibits, PRINTED)

    changes = timed(changed, scale.reports)
    return [
        of_times(f"opinion of {car.name}", examinations, aim=OPINION_AIM, note="warm"),
        of_times(f"report of {car.name}", reports, aim=REPORT_AIM, note="warm, opinion given"),
        of_times(f"changed report of {car.name}", changes, aim=CHANGED_AIM, note="warm, retitled"),
    ]
