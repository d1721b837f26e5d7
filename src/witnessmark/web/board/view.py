"""The board: every case that this person may see, today's visits first, found as one types."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from time import monotonic
from typing import Final

from django.db.models import Count
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string

from witnessmark import store
from witnessmark.store import people
from witnessmark.store.models import IssuedReport, WrittenBeside
from witnessmark.web.board.lines import LINES_KEPT, Line, lines_of, work_out
from witnessmark.web.route import Who
from witnessmark.web.shared.saving import now

SECONDS_A_BATCH: Final = 0.8
"""How long lines are worked out in one request; one line is, however long it takes."""
LONGEST_SEARCH: Final = 200


@dataclass(frozen=True, slots=True)
class LineShown:
    """A line as it stands on the page, drawn."""

    line: Line
    html: str

    @property
    def swapped(self) -> str:
        """The same, to take the place of the one that is there."""
        return self.html.replace("<li ", '<li hx-swap-oob="true" ', 1)


def page(request: HttpRequest) -> HttpResponse:
    """All cases, a line each, or those in which what was typed is found."""
    wanted = request.GET.get("q", "")[:LONGEST_SEARCH].strip()
    lines = lines_of(each.id for each in _seen(request))
    away = lines_of(each.id for each in _seen(request, is_away=True))
    unknown = [each.case for each in (*lines, *away) if not each.is_known]
    if wanted:
        lines, away = (tuple(e for e in each if e.has(wanted)) for each in (lines, away))
    today = now().date()
    shown = _shown(request, sorted(lines, key=lambda each: _order(each, today)))
    given = {
        "today": [each for each in shown if each.line.visit == today],
        "others": [each for each in shown if each.line.visit != today],
        "away": _shown(request, away, is_away=True),
        "q": wanted,
        "day": today.isoformat(),
        "unknown": unknown,
        "found": len(lines) + len(away),
    }
    if request.htmx and request.GET.get("only"):  # type: ignore[attr-defined]
        return render(request, "board/found.html", given)
    return render(request, "board/page.html", given)


def worked_out(request: HttpRequest) -> HttpResponse:
    """The next lines that were not known, as far as one gets in a moment; the page then asks for
    the rest."""
    seen, away = _seen(request), _seen(request, is_away=True)
    lines = lines_of(each.id for each in (*seen, *away))
    asked = [each.case for each in lines if not each.is_known]
    begun, found = monotonic(), list[Line]()
    while asked and (not found or monotonic() - begun < SECONDS_A_BATCH):
        found.append(work_out(asked.pop(0)))
    out_of_sight = {each.id for each in away}
    drawn = [
        *_shown(request, [each for each in found if each.case not in out_of_sight]),
        *_shown(request, [each for each in found if each.case in out_of_sight], is_away=True),
    ]
    return render(request, "board/worked_out.html", {"lines": drawn, "unknown": asked})


def day(request: HttpRequest, day: str) -> HttpResponse:
    """All cars of one day, in the order in which their cases were opened, with minutes."""
    try:
        wanted = date.fromisoformat(day)
    except ValueError:
        raise Http404 from None
    ids = [each.id for each in reversed(_seen(request))]
    lines = [each for each in lines_of(ids) if each.visit == wanted]
    # A day has a handful of cars, and their minutes are what the page is for.
    known = [each if each.is_known else work_out(each.case) for each in lines[:8]]
    lines = [*known, *lines[8:]]
    minutes = sum(each.minutes for each in lines)
    return render(request, "board/day.html", {"day": wanted, "lines": lines, "minutes": minutes})


def put_away(request: HttpRequest) -> HttpResponse:
    """A case out of sight, or back: nothing of it goes."""
    for name, is_away in (("away", True), ("back", False)):
        case = request.POST.get(name, "")
        if case:
            if not people.may_see(request.person, case):  # type: ignore[attr-defined]
                raise Http404
            try:
                store.put_away(case, is_away)
            except store.NotKeptError as fault:
                raise Http404 from fault
    return redirect("board")


def _seen(request: HttpRequest, is_away: bool = False) -> tuple[store.KeptCase, ...]:
    """The cases of this person, the newest first."""
    seen = people.seen_by(request.person)  # type: ignore[attr-defined]
    return tuple(each for each in store.cases(is_away) if each.id in seen)


def _order(line: Line, today: date) -> tuple[bool, bool, bool]:
    """Today's first, then what does not fit; else the newest first, as they come."""
    return line.visit != today, not (line.is_known and line.blocks), not line.misfits


def _shown(request: HttpRequest, lines: Iterable[Line], is_away: bool = False) -> list[LineShown]:
    """The lines with what the store knows beside the documents: reports, what is to settle."""
    lines = list(lines)
    if not lines:
        return []
    ids = [each.case for each in lines]
    issued = dict(
        IssuedReport.objects.filter(case_id__in=ids).order_by("at").values_list("case_id", "number")
    )
    to_settle = dict(
        WrittenBeside.objects.filter(case_id__in=ids, settled_at=None)
        .values_list("case_id")
        .annotate(Count("id"))
    )
    may_write = request.person.role != Who.READER  # type: ignore[attr-defined]
    return [
        LineShown(
            each,
            _drawn(
                each, issued.get(each.case, ""), to_settle.get(each.case, 0), may_write, is_away
            ),
        )
        for each in lines
    ]


@lru_cache(LINES_KEPT)
def _drawn(line: Line, issued: str, to_settle: int, may_write: bool, is_away: bool) -> str:
    given = {
        "line": line,
        "issued": issued,
        "to_settle": to_settle,
        "may_write": may_write,
        "is_away": is_away,
    }
    return render_to_string("board/line.html", given)
