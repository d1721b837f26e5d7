"""`witnessmark report`: the report of a case as a PDF, or a supplement to one that was issued."""

from pathlib import Path
from typing import Annotated

from witnessmark.cli.arguments import (
    CasePath,
    LanguageOption,
    OutOption,
    PaperName,
    PaperOption,
    option,
)
from witnessmark.cli.cases import Examined, examined_case
from witnessmark.cli.document.printing import (
    paperwork_of,
    refuse_what_is_no_document,
    write_named,
)
from witnessmark.cli.problems import NothingThere, typed
from witnessmark.cli.terminal import refuse, show_problems
from witnessmark.cli.writing import read_named
from witnessmark.entry import NotAllowed
from witnessmark.report.issue.issued import Issued, not_the_next_issue, parse_issued
from witnessmark.report.press.html.page import OPENING
from witnessmark.source import Source

HELP = """The first page alone tells a client what was concluded, how strongly, and what was
not seen. The report shows all numbers in full, contains the case document, and is
meant for its intended users only. What stands behind it (every comparison, curve,
row used, photograph log) is written beside it, as CASE-ID-annex.pdf and, for a browser,
as CASE-ID-annex.html: one file, which needs no network. Without --out they are written to
the current folder. --html writes the report itself in that form as well.

An issued report is never altered. Keep its Opinion when you issue it; when the
case has changed, --supplement-to writes what changed and why, with every
conclusion before and after, as CASE-ID-supplement.pdf.

\b
Example:
  witnessmark report demo/panel --out panel.pdf
"""

MOST_MEGABYTES = 50


def report(
    case: CasePath,
    out: OutOption = None,
    paper: PaperOption = PaperName.A4,
    supplement_to: Annotated[
        Path | None, option("FILE", "The Opinion (JSON) kept at issue.")
    ] = None,
    because: Annotated[str, option("TEXT", "The reason for the supplement.")] = "",
    language: LanguageOption = None,
    html: Annotated[Path | None, option("FILE", "The report for a browser, as well.")] = None,
) -> None:
    """Write one report or supplement, whole or not at all."""
    issued = _issued(supplement_to, because)
    if issued is not None and html is not None:
        reason = "is for a report, and a supplement was asked for"
        refuse((NotAllowed(Source("--html"), str(html), reason, "no --html"),))
    examined = examined_case(case)
    case_id = examined.opinion.casefile.id
    path = out or Path(f"{case_id}-supplement.pdf" if issued else f"{case_id}.pdf")
    refuse_what_is_no_document(path)
    show_problems(examined.left_out)
    if issued is None:
        _write_report(examined, path, html, paper)
    else:
        if issued.casefile.id != case_id:
            reason = f"is the Opinion of the case {issued.casefile.id!r}, not of {case_id!r}"
            source, wanted = Source("--supplement-to"), "the Opinion of this case"
            refuse((NotAllowed(source, str(supplement_to), reason, wanted),))
        source = examined.opened.places.source(("report",))
        unfit = not_the_next_issue(issued.casefile, examined.opinion.casefile, source)
        if unfit is not None:
            refuse((unfit,))
        supplement = paperwork_of(examined, paper).supplement(issued, because)
        write_named(path, supplement.printed().pdf)


def _write_report(examined: Examined, path: Path, html: Path | None, paper: PaperName) -> None:
    """The report, its annex in both forms, and the report for a browser where one was asked for."""
    behind = path.with_name(f"{path.stem}-annex{path.suffix}")
    read = behind.with_suffix(".html")
    refuse_what_is_no_document(behind)
    refuse_what_is_no_document(read, OPENING)
    if html is not None:
        refuse_what_is_no_document(html, OPENING, "--html")
        if html in (path, behind, read):
            reason = "is where another of these documents goes"
            refuse((NotAllowed(Source("--html"), str(html), reason, "a file name of its own"),))
    order = paperwork_of(examined, paper).report()
    annex = order.annex()
    written = {path: order.report().pdf, behind: annex.pdf, read: annex.html}
    if html is not None:
        written[html] = order.report_html()
    for each, whole in written.items():
        write_named(each, whole)


def _issued(path: Path | None, because: str) -> Issued | None:
    """The Opinion kept at issue; None where an ordinary report is asked for."""
    if path is None:
        if because.strip():
            reason = "is a reason for a supplement, and no supplement was asked for"
            wanted = "--supplement-to FILE beside it"
            refuse((NotAllowed(typed("--because", because), because, reason, wanted),))
        return None
    if not because.strip():
        wanted = "--because TEXT: why there is a supplement"
        refuse((NotAllowed(Source("--because"), because, "gives no reason", wanted),))
    found = parse_issued(_text_of(path), str(path))
    if not isinstance(found, Issued):
        refuse((found,))
    return found


def _text_of(path: Path) -> str:
    wanted = "the JSON kept at issue: what `witnessmark examine CASE --json` prints"
    try:
        return read_named(path, MOST_MEGABYTES * 1_000_000).decode("utf-8-sig")
    except (OSError, ValueError):
        pass  # no file, or no text: the same problem
    source = Source("--supplement-to")
    refuse((NothingThere(source, str(path), "Opinion that can be read", wanted),))
