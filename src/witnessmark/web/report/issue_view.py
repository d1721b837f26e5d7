"""A report issued, frozen under its number, and supplements to it."""

from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render

from witnessmark import store
from witnessmark.entry import CaseDraft, Entered, NotAllowed, set_field
from witnessmark.report.issue.issued import Issued
from witnessmark.report.records import PaperSize
from witnessmark.source import Source
from witnessmark.store.digest_files import digest_of
from witnessmark.web.report.document_view import SIZES
from witnessmark.web.report.issuing import ToIssue, ask, last_issued
from witnessmark.web.report.view import issues_shown, report_page
from witnessmark.web.shared.desk import bench_of
from witnessmark.web.shared.saving import Saved, change, now, typed

NUMBER, ISSUE, DAY, BECAUSE = "number", "issue", "date", "because"


def issue(request: HttpRequest, case: str) -> HttpResponse:
    """Freeze the report as it stands: its number goes into the case, then all is made of that
    revision."""
    if request.method != "POST":
        return redirect("report", case)
    bench = bench_of(case)
    if bench.faults or store.reports(case):
        return redirect("report", case)

    def entered(draft: CaseDraft) -> list[str]:
        number = typed(request, NUMBER)
        if not str(number.value).strip():
            draft.problems.append(_asks(NUMBER, "names no report", "such as 2026-001"))
        return [_set(draft, NUMBER, number), _set(draft, DAY, typed(request, DAY))]

    return _answered(request, change(request, case, "report issued", entered))


def supplement(request: HttpRequest, case: str) -> HttpResponse:
    """Issue what changed since, as the next issue of the same number, with its reason."""
    issued = last_issued(case) if request.method == "POST" else None
    if issued is None or bench_of(case).faults:
        return redirect("report", case)
    before, because = issued.casefile.report, request.POST.get(BECAUSE, "").strip()

    def entered(draft: CaseDraft) -> list[str]:
        if not because:
            draft.problems.append(_asks(BECAUSE, "gives no reason", "why there is a supplement"))
        after = {NUMBER: before.number, ISSUE: str(before.issue + 1)}
        told = [_set(draft, name, Entered(each, Source(name))) for name, each in after.items()]
        return [*told, _set(draft, DAY, typed(request, DAY))]

    did = f"supplement issued because {because}"
    return _answered(request, change(request, case, did, entered), issued, because)


def issues(request: HttpRequest, case: str) -> HttpResponse:
    """What was issued, as a part of the report's page."""
    return render(request, "report/issues.html", issues_shown(bench_of(case)))


def issued_file(request: HttpRequest, case: str, number: int, name: str) -> HttpResponseBase:
    """A document as it was issued, byte for byte; one that is spoilt is told, not given."""
    kept = next((each for each in store.reports(case) if each.id == number), None)
    path = store.report_path(kept, name) if kept else None
    if kept is None or path is None:
        raise Http404
    if digest_of(path) != kept.files[name]:
        return render(request, "report/spoilt.html", {"bench": bench_of(case), "name": name},
                      status=500)  # fmt: skip
    return FileResponse(path.open("rb"), as_attachment=True, filename=name)


def _answered(
    request: HttpRequest, saved: Saved, issued: Issued | None = None, because: str = ""
) -> HttpResponse:
    """Let the issue be made of what was saved; or the page with what is wrong."""
    if saved.problems:
        return report_page(request, saved.bench, saved, status=422)
    order = ToIssue(
        bench=saved.bench,
        by=request.person.name,  # type: ignore[attr-defined]
        at=now(),
        size=SIZES.get(request.POST.get("size", ""), PaperSize.A4),
        issued=issued,
        because=because,
    )
    ask(order)
    return redirect("report", saved.bench.case)


def _set(draft: CaseDraft, name: str, given: Entered) -> str:
    return set_field(draft, Entered(f"report.{name}", given.source), given)


def _asks(name: str, reason: str, wanted: str) -> NotAllowed:
    return NotAllowed(Source(name), "", reason, wanted)
