"""A report issued: its number, its documents of one revision, kept byte for byte."""

from dataclasses import dataclass
from datetime import date, datetime
from functools import lru_cache
from pathlib import Path

from witnessmark import store
from witnessmark.casefile.records import ReportIssue
from witnessmark.examination import render_opinion
from witnessmark.report.issue.issued import Issued, parse_issued
from witnessmark.report.mask.short_name import file_stem
from witnessmark.report.paperwork import Paperwork
from witnessmark.report.records import Form, PaperSize
from witnessmark.web.report.photographs import photographs_of
from witnessmark.web.report.worker import SLOW
from witnessmark.web.shared.desk import Bench

REPORT, SUPPLEMENT = "report", "supplement"
OPINION_ENDING = "-opinion.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class ToIssue:
    """What is to be issued: of which revision, by whom and when, on which paper; a supplement
    where it follows what was `issued`, and why."""

    bench: Bench
    by: str
    at: datetime
    size: PaperSize = PaperSize.A4
    issued: Issued | None = None
    because: str = ""

    @property
    def report(self) -> ReportIssue:
        """Its number, its issue and its day, as the case has them."""
        return self.bench.casefile.report

    @property
    def kind(self) -> str:
        """Report or supplement."""
        return SUPPLEMENT if self.issued else REPORT


def proposed_number(day: date) -> str:
    """The first number of this year that no report here bears."""
    taken, at = store.numbers_issued(), 1
    while (number := f"{day.year}-{at:03}") in taken:
        at += 1
    return number


def is_issued(case: str, report: ReportIssue) -> bool:
    """Was a report of this case issued under this number, as this issue?"""
    return any(
        (each.number, each.issue) == (report.number, report.issue) for each in store.reports(case)
    )


def key_of(case: str, report: ReportIssue) -> str:
    """What the worker knows it by."""
    return f"issue {case} {report.number} {report.issue}"


def ask(order: ToIssue) -> bool:
    """Let it be made and kept behind the page; False where too much is waiting."""
    return SLOW.ask(key_of(order.bench.case, order.report), lambda: issue_now(order))


def issue_now(order: ToIssue) -> None:
    """Make all documents of the issue and keep them: all of them, or none."""
    opinion = order.bench.steady
    assert opinion is not None, "a case with faults is not issued"
    papers = Paperwork(
        opinion=opinion,
        book=order.bench.book,
        exhibits=photographs_of(opinion.casefile),
        printed=order.at.date(),
        form=Form(order.size),
    )
    store.keep_report(
        order.bench.case,
        order.bench.number,
        number=order.report.number,
        issue=order.report.issue,
        kind=order.kind,
        by=order.by,
        at=order.at,
        files=_files(order, papers),
    )


def last_issued(case: str) -> Issued | None:
    """The Opinion that was kept when a report of this case was issued last."""
    kept = store.reports(case)
    if not kept:
        return None
    name = next((each for each in kept[-1].files if each.endswith(OPINION_ENDING)), "")
    path = store.report_path(kept[-1], name)
    return _read(path, name) if path is not None and path.is_file() else None


@lru_cache(maxsize=16)
def _read(path: Path, name: str) -> Issued | None:
    found = parse_issued(path.read_text("utf-8"), name)
    return found if isinstance(found, Issued) else None


def _files(order: ToIssue, papers: Paperwork) -> dict[str, bytes]:
    stem = file_stem(order.bench.case)
    opinion = {f"{stem}{OPINION_ENDING}": render_opinion(papers.opinion).encode("utf-8")}
    if order.issued is not None:
        document = papers.supplement(order.issued, order.because)
        return {f"{stem}-supplement.pdf": document.printed().pdf, **opinion}
    report = papers.report()
    annex = report.annex()
    return {
        f"{stem}.pdf": report.report().pdf,
        f"{stem}-annex.pdf": annex.pdf,
        f"{stem}-annex.html": annex.html,
        **opinion,
    }
