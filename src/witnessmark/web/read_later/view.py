"""The page for an heir or executor: opened by its link alone, in any language there is."""

import threading

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark import store
from witnessmark.catalogue import speaking
from witnessmark.outline.records import Outline
from witnessmark.report.sheets.read_later import HandedOver, read_later
from witnessmark.store import people
from witnessmark.web.read_later.languages import LanguageOffered, languages
from witnessmark.web.report.worker import SLOW
from witnessmark.web.shared.blocks import drawn_outline
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import now

KIND = "executor"
MOST_KEPT = 24

_MADE: dict[str, Outline] = {}
_LOCK = threading.Lock()


def page(request: HttpRequest, token: str) -> HttpResponse:
    """What was found, what to keep safe, whom to write to; nothing without a link that is open."""
    found = people.pass_of(token, KIND, now())
    if found is None:
        raise Http404
    bench, offered = bench_of(found.case), languages()
    asked = request.GET.get("language", "")
    language = next((each for each in offered if each.tag == asked), offered[0])
    outline = None if bench.faults else _outline(bench, language)
    given = {
        "until": found.until.date(),
        "offered": offered,
        "language": language.tag,
        "outline": outline,
        "sections": _sections(outline, language),
        "has_faults": bool(bench.faults),
    }
    answer = render(request, "read_later/page.html", given)
    if outline is None and not bench.faults:
        answer["Refresh"] = "3"
    answer["Referrer-Policy"] = "no-referrer"
    answer["X-Robots-Tag"] = "noindex"
    return answer


def _sections(outline: Outline | None, language: LanguageOffered) -> object:
    if outline is None:
        return ()
    with speaking(language.catalogue):
        return drawn_outline(outline)


def _outline(bench: Bench, language: LanguageOffered) -> Outline | None:
    """The page as it was made of this revision, these reports and this day; None while it is
    made behind."""
    handed = tuple(
        HandedOver(each.number, each.issue, each.at.date(), each.by)
        for each in store.reports(bench.case)
    )
    day = now().date()
    key = f"later {bench.kept.sha256} {language.tag} {day} {len(handed)}"
    if key not in _MADE:
        SLOW.ask(key, lambda: _make(key, bench, language, handed))
    return _MADE.get(key)


def _make(
    key: str, bench: Bench, language: LanguageOffered, handed: tuple[HandedOver, ...]
) -> None:
    opinion = bench.steady
    assert opinion is not None, "a case with faults has no page"
    with speaking(language.catalogue):
        made = read_later(opinion, bench.book, handed, now().date())
    with _LOCK:
        while len(_MADE) >= MOST_KEPT:
            _MADE.pop(next(iter(_MADE)))
        _MADE[key] = made
