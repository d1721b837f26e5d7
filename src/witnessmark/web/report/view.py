"""Every document as it would be printed, what was issued, and what goes out of the house."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark import store
from witnessmark.catalogue import said
from witnessmark.report.issue.changes_shown import changes_table
from witnessmark.report.issue.issued import Issued
from witnessmark.report.issue.supplement_changes import case_changes
from witnessmark.store import people
from witnessmark.web.history.names import names_of
from witnessmark.web.report.document_view import card_of
from witnessmark.web.report.issuing import is_issued, key_of, last_issued, proposed_number
from witnessmark.web.report.kinds import KINDS, ON_THE_PAGE
from witnessmark.web.report.worker import SLOW
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import Saved, now
from witnessmark.wording.case_words import unnamed_examiner


def page(request: HttpRequest, case: str) -> HttpResponse:
    """The page as it stands."""
    return report_page(request, bench_of(case))


def report_page(
    request: HttpRequest, bench: Bench, saved: Saved | None = None, status: int = 200
) -> HttpResponse:
    """The page, with what is wrong with a form that was sent."""
    given = {"bench": bench, "here": "report", "saved": saved, **issues_shown(bench)}
    if not bench.faults:
        issued = last_issued(bench.case)
        given["cards"] = [
            card_of(bench, name, issued) for name in ON_THE_PAGE if _is_shown(name, bench, issued)
        ]
        given |= _changed(bench, issued) if issued else {}
    given |= {
        "today": now().date().isoformat(),
        "proposed": bench.casefile.report.number or proposed_number(now().date()),
        "typed": request.POST,
        "passes": _passes(request, bench.case),
        "unnamed": unnamed_examiner(bench.casefile),
    }
    return render(request, "report/page.html", given, status=status)


def issues_shown(bench: Bench) -> dict[str, object]:
    """What was issued, and whether an issue is being made."""
    report = bench.casefile.report
    key = key_of(bench.case, report)
    return {
        "bench": bench,
        "issued": store.reports(bench.case),
        "report": report,
        "is_being_made": SLOW.is_asked(key) and not is_issued(bench.case, report),
        "has_failed": SLOW.has_failed(key),
    }


def _is_shown(name: str, bench: Bench, issued: Issued | None) -> bool:
    """Can there be this document? Under a stop nothing is asked of the seller."""
    kind, answer = KINDS[name], bench.answer
    if kind.is_asked_of_seller:
        return answer is not None and not answer.stops
    return issued is not None or not kind.is_of_issue


def _changed(bench: Bench, issued: Issued) -> dict[str, object]:
    """What the case says otherwise than when the report was issued."""
    names = names_of(bench)
    changes = case_changes(issued.casefile, bench.casefile, names)
    table = changes_table(changes, names, said("As issued"), said("Now"))
    return {"changes": changes, "changes_table": (table,), "last": issued.casefile.report}


def _passes(request: HttpRequest, case: str) -> list[people.PassKnown]:
    """The links for later that are open, for the owner."""
    if request.person.role != "owner":  # type: ignore[attr-defined]
        return []
    open_now = (each for each in people.passes(case) if each.ended_at is None)
    return [each for each in open_now if each.kind == "executor" and each.until > now()]
