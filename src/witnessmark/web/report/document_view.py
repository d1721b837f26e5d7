"""One document: its first page on the report's page, all its pages, its files."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render

from witnessmark.report.issue.issued import Issued
from witnessmark.report.records import PaperSize
from witnessmark.report.sections.to_ask import may_seller_be_asked
from witnessmark.web.report.issuing import last_issued
from witnessmark.web.report.kinds import KINDS, DocumentKind, Terms
from witnessmark.web.report.making import DocumentAsked, MadeDocument, has_failed, made
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import now

SIZES = {"a4": PaperSize.A4, "letter": PaperSize.LETTER}
HTML_FORM = "html"
SECONDS = "2"
"""After so many a page that waits asks again."""


@dataclass(frozen=True, slots=True)
class CardShown:
    """A document as the page shows it."""

    name: str
    kind: DocumentKind
    made: MadeDocument | None
    has_failed: bool


def card_of(bench: Bench, name: str, issued: Issued | None) -> CardShown:
    """The document as it stands now; it is asked for where it is not there."""
    asked = DocumentAsked(kind=name, bench=bench, day=now().date(), issued=issued)
    found = made(asked)
    return CardShown(name, KINDS[name], found, found is None and has_failed(asked))


def card(request: HttpRequest, case: str, kind: str) -> HttpResponse:
    """The first page as a part of the report's page."""
    asked = _asked(request, case, kind)
    given = {"bench": asked.bench, "card": card_of(asked.bench, kind, asked.issued)}
    return render(request, "report/card.html", given)


def pages(request: HttpRequest, case: str, kind: str) -> HttpResponse:
    """Every page of it as a picture."""
    asked = _asked(request, case, kind)
    found = card_of(asked.bench, kind, asked.issued)
    numbers = range(1, found.made.pages + 1) if found.made else ()
    given = {"bench": asked.bench, "here": "report", "card": found, "numbers": numbers}
    answer = render(request, "report/pages.html", given)
    return answer if found.made or found.has_failed else _again(answer)


def picture(request: HttpRequest, case: str, kind: str, number: int) -> HttpResponseBase:
    """One page as a picture."""
    found = made(_asked(request, case, kind))
    if found is None or not 1 <= number <= found.pages:
        raise Http404
    return FileResponse(found.page(number).open("rb"), content_type="image/png")


def file(request: HttpRequest, case: str, kind: str, form: str) -> HttpResponseBase:
    """The file itself; until it is made a page that fetches it when it is."""
    asked = _asked(request, case, kind, form)
    found = made(asked)
    if found is None or found.problems:
        failed = found is None and has_failed(asked)
        given = {"bench": asked.bench, "here": "report", "kind": asked.of_kind,
                 "made": found, "has_failed": failed}  # fmt: skip
        answer = render(request, "report/waiting.html", given, status=200 if failed else 202)
        return answer if found or failed else _again(answer)
    path, ending = (found.html, "html") if form == HTML_FORM else (found.pdf, "pdf")
    return FileResponse(path.open("rb"), as_attachment=True, filename=f"{found.name}.{ending}")


def _asked(request: HttpRequest, case: str, kind: str, form: str = "a4") -> DocumentAsked:
    """What is asked for; Http404 where there can be no such document of this case."""
    bench, of_kind = bench_of(case), KINDS.get(kind)
    is_form = form in SIZES or (form == HTML_FORM and of_kind is not None and of_kind.has_html)
    if of_kind is None or not is_form or bench.faults:
        raise Http404
    answer = bench.answer
    if of_kind.is_asked_of_seller and answer is not None and not may_seller_be_asked(answer):
        raise Http404
    issued = last_issued(case) if of_kind.is_of_issue else None
    if of_kind.is_of_issue and issued is None:
        raise Http404
    size = SIZES.get(form, PaperSize.A4)
    terms, day = _terms(request.GET), now().date()
    return DocumentAsked(kind=kind, bench=bench, day=day, size=size, terms=terms, issued=issued)


def _terms(given: Mapping[str, str]) -> Terms:
    """What the address says of it; what cannot be so is left out."""
    minutes = given.get("minutes", "")
    is_number = minutes.isascii() and minutes.isdecimal() and len(minutes) < 6
    try:
        reply_by = date.fromisoformat(given.get("reply_by", ""))
    except ValueError:
        reply_by = None
    return Terms(
        minutes=int(minutes) if is_number else None,
        reply_to=given.get("reply_to", "").strip()[:200],
        reply_by=reply_by,
    )


def _again(answer: HttpResponse) -> HttpResponse:
    answer["Refresh"] = SECONDS
    return answer
