"""Twelve minutes on a sale's floor: the looks that need no lift and nothing taken off."""

from dataclasses import dataclass
from typing import Final

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse

from witnessmark.examination import book_names, car_marks, in_book_words
from witnessmark.examination.looks import LookLeft, in_time, looks_left, minutes_of
from witnessmark.plan.records import needed
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.weighing import Answer
from witnessmark.wording import Names, cautions_at_a_car, look_name, look_text
from witnessmark.wording.amounts import capital

MINUTES: Final = 12
LONGEST_ACCESS: Final = 5
"""Minutes of getting there that a floor allows: a bonnet or a door opened, no lift."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorPlace:
    """One place of the walk: what is done there, and how long it takes."""

    name: str
    where: str
    address: str
    tasks: tuple[str, ...]
    cautions: tuple[str, ...]
    minutes: int


def page(request: HttpRequest, case: str) -> HttpResponse:
    """The walk; what is to be read again needs the whole answer, so it is asked for behind."""
    bench = bench_of(case)
    answer = bench.answer
    is_again = request.GET.get("again") == "1"
    if is_again and bench.opinion is not None:
        answer = bench.opinion.answer
    looks = _looks(bench, answer) if answer is not None else ()
    taken = in_time(looks, MINUTES)
    given = {
        "bench": bench,
        "here": "plan",
        "stops": _stops(bench, taken),
        "minutes": minutes_of(taken),
        "most": MINUTES,
        "cautions": cautions_at_a_car(),
        "waits": bool(bench.misfits) and not is_again,
    }
    part = is_again and request.htmx  # type: ignore[attr-defined]
    return render(request, "board/triage_walk.html" if part else "board/triage.html", given)


def _looks(bench: Bench, answer: Answer) -> tuple[LookLeft, ...]:
    """What is left that a sale's floor allows, in the order in which looks are proposed; of
    those that were never read, the quickest first."""
    car = car_marks(in_book_words(bench.casefile, bench.book), bench.book)
    return tuple(
        each
        for each in looks_left(car, answer)
        if each.is_reachable and each.access_minutes <= LONGEST_ACCESS
        if not needed(each.dismantling)
    )


def _stops(bench: Bench, looks: tuple[LookLeft, ...]) -> tuple[FloorPlace, ...]:
    """The looks place by place, in the order in which a place is first come to."""
    car = car_marks(in_book_words(bench.casefile, bench.book), bench.book)
    names = Names(book_names(car))
    found = []
    for site_id in dict.fromkeys(each.site for each in looks):
        here = tuple(each for each in looks if each.site == site_id)
        site = bench.book.site(site_id, car.context)
        tasks = dict.fromkeys(look_text(each).prompt for each in here)
        told = dict.fromkeys(look_text(each).caution for each in here)
        name = site.name if site else look_name(here[0], names)
        found.append(
            FloorPlace(
                name=capital(name),
                where=site.where if site else "",
                address=f"{reverse('evidence', args=[bench.case])}/{site_id}",
                tasks=tuple(tasks),
                cautions=tuple(filter(None, told)),
                minutes=minutes_of(here),
            )
        )
    return tuple(found)
