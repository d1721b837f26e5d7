"""How strongly it speaks: every conclusion, at first without its band, which follows when it is
worked out; what is taken otherwise in this case, entered and taken back."""

from collections.abc import Callable, Sequence
from typing import Any

from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.safestring import SafeString

from witnessmark.catalogue import voiced
from witnessmark.entry import CaseDraft
from witnessmark.examination import Opinion
from witnessmark.figures import strip_axis, strip_legend
from witnessmark.report.sections.known import rows_to_vouch_for
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.open import moving_blocks
from witnessmark.web.shared import books
from witnessmark.web.shared.asked import whole_number
from witnessmark.web.shared.blocks import drawn, figure
from witnessmark.web.shared.desk import Bench, Depth, bench_of
from witnessmark.web.shared.findings import findings_of
from witnessmark.web.shared.kept import kept_by_text
from witnessmark.web.shared.leads import Leads
from witnessmark.web.shared.saving import Saved, change, typed
from witnessmark.web.weight.answers import conclusions_of
from witnessmark.web.weight.one_at_a_time import BEHIND
from witnessmark.web.weight.stated import (
    as_number,
    enter_override,
    enter_vouched,
    overridden,
    take_back_override,
    vouched_for,
    withdraw_vouched,
)
from witnessmark.wording import steadiness_sentence

type Deed = Callable[[HttpRequest, CaseDraft], Sequence[str]]


def page(request: HttpRequest, case: str) -> HttpResponse:
    """The page; a form on it takes something otherwise, or takes that back."""
    bench = bench_of(case)
    if request.method == "POST" and not bench.faults:
        return _done(request, case)
    return _shown(request, bench)


def steady(request: HttpRequest, case: str) -> HttpResponse:
    """What the page asks for behind itself, each in its place: first what each thing does and what
    is left to look at, then the bands once they are there, until then that they are being worked
    out. Without script the whole page, which then has them."""
    bench = bench_of(case, _number(request.GET))
    if bench.faults:
        return redirect("weight", case)
    if not request.htmx:  # type: ignore[attr-defined]
        status = 200 if _worked_out(bench) else 202
        return _shown(request, bench, status=status, is_whole=True)
    has_why = bool(request.GET.get("why"))
    assert has_why or bench.opinion, "what each thing does is worked out before the bands"
    status = 200 if _worked_out(bench) else 202
    given: dict[str, Any] = {"bench": bench, "has_why": True}
    if status == 202 and has_why:
        return render(request, "weight/working.html", given, status=status)
    given |= {"swapped": True, "is_steady": status == 200, "brings_why": not has_why}
    given |= _told(bench, Depth.STEADY if status == 200 else Depth.WHOLE, bench.number)
    return render(request, "weight/steady.html", given, status=status)


def _key(bench: Bench) -> tuple[str, str]:
    return bench.kept.text, books.state()


def _worked_out(bench: Bench) -> Opinion | None:
    """The whole Opinion, or None until it is there."""
    return BEHIND.ask(("steady", bench.case), _key(bench), lambda: bench.steady)


def _shown(
    request: HttpRequest,
    bench: Bench,
    saved: Saved | None = None,
    *,
    status: int = 200,
    is_whole: bool = False,
) -> HttpResponse:
    """The page as far as it is worked out already, or without the bands but else whole."""
    given: dict[str, Any] = {"bench": bench, "here": "weight", "saved": saved}
    given["given"] = request.POST
    if not bench.faults:
        depth = _depth(bench, is_whole)
        given |= _told(bench, depth, bench.number)
        given["is_steady"] = depth is Depth.STEADY
        given["has_why"] = depth is not Depth.AT_ONCE
        given["is_asked"] = status == 202
    return render(request, "weight/page.html", given, status=status)


def _depth(bench: Bench, is_whole: bool) -> Depth:
    """How much of the Opinion is there, or is to be waited for."""
    if BEHIND.made(_key(bench)) is not None:
        return Depth.STEADY
    opinion = bench.opinion if is_whole else bench.at_once
    assert opinion is not None, "a case without faults has one"
    return Depth.AT_ONCE if opinion.is_at_once else Depth.WHOLE


@kept_by_text
def _told(bench: Bench, depth: Depth, _: int) -> dict[str, Any]:
    """What the page tells of an Opinion. Who took a row otherwise, and when, hangs on the revisions
    as well: so the number is asked by too."""
    steady = BEHIND.made(_key(bench)) or bench.steady if depth is Depth.STEADY else None
    opinion = steady or (bench.at_once if depth is Depth.AT_ONCE else bench.opinion)
    assert opinion is not None, "a case without faults has one"
    matter = Matter(voiced(opinion), bench.book)
    leads, stated = Leads(matter), overridden(bench)
    conclusions = conclusions_of(matter, leads, stated)
    steadiness, axis = opinion.steadiness, strip_axis()
    return {
        "findings": findings_of(matter, leads),
        "conclusions": [each for each in conclusions if each.has_figure],
        "no_answer": [each for each in conclusions if not each.has_figure],
        "axis": figure(axis.svg, axis.caption),
        "legend": strip_legend(is_tried=steadiness is not None),
        "what_a_band_is": steadiness_sentence(steadiness.draws) if steadiness else "",
        "overridden": tuple(stated.values()),
        "vouched": vouched_for(bench),
        "to_vouch": _to_vouch(matter),
        "looks": "" if depth is Depth.AT_ONCE else _looks(matter, leads),
    }


def _looks(matter: Matter, leads: Leads) -> SafeString:
    return drawn(tuple(moving_blocks(matter))[1:], 2, leads.pairs)


def _to_vouch(matter: Matter) -> dict[str, str]:
    """The rows from memory that would speak if somebody answered for them, with their mark."""
    opinion, book = matter.opinion, matter.book
    found: dict[str, str] = {}
    for each in opinion.weighed:
        for mark, rows in rows_to_vouch_for(each, opinion, book):
            found |= dict.fromkeys(rows, mark)
    return found


# --------------------------------------------------------------------------------- what is done


def _done(request: HttpRequest, case: str) -> HttpResponse:
    did, deed = _DEEDS.get(request.POST.get("deed", ""), ("", None))
    if deed is None:
        return redirect("weight", case)
    saved = change(request, case, did, lambda draft: deed(request, draft))
    if saved.problems:
        return _shown(request, saved.bench, saved, status=422)
    if saved.beside:
        return redirect("beside", case)
    return redirect(f"{reverse('weight', args=[case])}#taken")


def _override(request: HttpRequest, draft: CaseDraft) -> Sequence[str]:
    value = as_number(typed(request, "value"))
    fields = {"row": typed(request, "row"), "value": value, "reason": typed(request, "reason")}
    return enter_override(draft, fields)


def _take_back(request: HttpRequest, draft: CaseDraft) -> Sequence[str]:
    return take_back_override(draft, request.POST.get("row", ""))


def _vouch(request: HttpRequest, draft: CaseDraft) -> Sequence[str]:
    return enter_vouched(draft, {name: typed(request, name) for name in ("row", "by", "reason")})


def _withdraw(request: HttpRequest, draft: CaseDraft) -> Sequence[str]:
    return withdraw_vouched(draft, request.POST.get("row", ""))


_DEEDS: dict[str, tuple[str, Deed]] = {
    "override": ("assumed otherwise", _override),
    "take back": ("assumption taken back", _take_back),
    "vouch": ("vouched for", _vouch),
    "withdraw": ("vouching withdrawn", _withdraw),
}


def _number(given: QueryDict) -> int | None:
    """The revision that is asked for; the latest where none is."""
    return whole_number(given.get("revision", ""))
