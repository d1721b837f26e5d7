"""An Opinion as it was kept at issue: read from its JSON, as far as a supplement needs it.

Only the case, the book's version, the names, the findings and the conclusions are read, so that
an Opinion written years ago can still be compared. A case of format 1 in it is read as one of
format 2; conclusions of the first way of weighing keep their ratios and bounds as issued. The
digest of an Opinion of that way is of its text as it was kept; since then it is of values
rounded to six figures, so that it is the same on every machine.
"""

import json
import math
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from pydantic import TypeAdapter, ValidationError

from witnessmark.agreement.records import Outcome
from witnessmark.casefile import Casefile, NotACaseError, case_from, render_casefile
from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import BookVersion, Named, Opinion, render_opinion
from witnessmark.examination.read_alone import ReadAlone, read_alone
from witnessmark.examination.render import OPINION_FORMAT, OPINION_FORMAT_VERSION
from witnessmark.problem import Problem
from witnessmark.report.issue.issued_before import IssuedConclusion, as_issued, kept_conclusions
from witnessmark.report.records import Attachment
from witnessmark.source import Source

FIRST_VERSIONS = (1, 2)
"""Opinions of the first way of weighing: they are read too."""
FIGURES = 6
"""Significant figures of the values of which a digest is taken."""


@dataclass(frozen=True, slots=True)
class IssuedSubject:
    """What a finding as issued speaks of: a mark and its field."""

    mark: str
    field: str


@dataclass(frozen=True, slots=True)
class IssuedFinding:
    """One finding as it was issued."""

    rule: str
    topic: str
    outcome: Outcome
    subjects: tuple[IssuedSubject, ...]


@dataclass(frozen=True, slots=True)
class Issued:
    """What a supplement needs of an Opinion; `digest` is the SHA-256 of its text.

    `findings` is None where the Opinion was kept without them; `is_first_way` where it was
    weighed in the first way, whose ratios are not those of now.
    """

    casefile: Casefile
    book: BookVersion
    conclusions: tuple[IssuedConclusion, ...]
    names: tuple[Named, ...] = ()
    digest: str = ""
    findings: tuple[IssuedFinding, ...] | None = None
    beside: tuple[BookVersion, ...] = ()
    is_first_way: bool = False


class NoOpinion(Problem):
    """A file that is not an Opinion."""

    reason: str
    says = "it is not an Opinion that can be read: {reason}"
    wants = "the JSON kept at issue: what `witnessmark examine CASE --json` prints"


class NotTheNextIssue(Problem):
    """A supplement under another number than the report that was issued, or not as its next issue.

    `issued` and `found` are a number and an issue each.
    """

    issued: str
    found: str
    number: str
    issue: int
    says = "the report was issued as {issued}, and this case says {found}"
    wants = 'in "report": "number" {number!q}, "issue" {issue}, and the day on which it is issued'


def not_the_next_issue(issued: Casefile, now: Casefile, source: Source) -> NotTheNextIssue | None:
    """Why a supplement on the case `now` cannot follow; None where the first had no number."""
    before, after = issued.report, now.report
    wanted = (before.number, before.issue + 1)
    if not before.number or (after.number, after.issue) == wanted:
        return None
    first, found = (f"{e.number or 'no number'}, issue {e.issue}" for e in (before, after))
    return NotTheNextIssue(source, first, found, *wanted)


def opinion_digest(text: str) -> str:
    """SHA-256 of an Opinion's JSON, whatever spaces it is laid out with."""
    document = json.loads(text)
    version = document.get("format_version") if isinstance(document, dict) else None
    return _digest(document if version in FIRST_VERSIONS else _rounded(document))


def answer_digest(text: str) -> str:
    """SHA-256 of the Answer alone in an Opinion's JSON."""
    return _digest(_rounded(json.loads(text)["answer"]))


def _digest(document: Any) -> str:
    plain = json.dumps(document, ensure_ascii=False, separators=(",", ":"))
    return sha256(plain.encode("utf-8", "surrogatepass")).hexdigest()


def _rounded(value: Any) -> Any:
    """A document with every number that is not a whole number rounded to six figures."""
    if isinstance(value, float):
        return float(f"{value:.{FIGURES}g}") if math.isfinite(value) else value
    if isinstance(value, dict):
        return {key: _rounded(each) for key, each in value.items()}
    if isinstance(value, list):
        return [_rounded(each) for each in value]
    return value


def issued_of(opinion: Opinion) -> Issued:
    """What a supplement needs of an Opinion at hand."""
    conclusions = tuple(map(as_issued, opinion.weighed))
    findings = tuple(
        IssuedFinding(
            each.rule,
            each.topic,
            each.outcome,
            tuple(IssuedSubject(part.mark, part.field) for part in each.subjects),
        )
        for each in opinion.findings
    )
    digest = opinion_digest(render_opinion(opinion))
    kept = (opinion.casefile, opinion.book, conclusions, opinion.names, digest, findings)
    return Issued(*kept, opinion.beside)


def parse_issued(text: str, path: str) -> Issued | NoOpinion:
    """The Opinion in this JSON text; `path` is the file as the user would write it."""
    try:
        document: Any = json.loads(text)
    except (ValueError, RecursionError) as fault:
        line, column = getattr(fault, "lineno", 1), getattr(fault, "colno", 1)
        too_deep = isinstance(fault, RecursionError)
        other = "it is nested too deeply" if too_deep else "a number in it has too many figures"
        reason = getattr(fault, "msg", "") or other
        shown = (text.splitlines() or [""])[min(line, text.count("\n") + 1) - 1 :][:1]
        place = Source(path, line, column, 1, "".join(shown)[:400])
        return NoOpinion(place, f"it is not JSON ({reason})")
    if not isinstance(document, dict) or document.get("format") != OPINION_FORMAT:
        return NoOpinion(Source(path), f"it does not say that its format is {OPINION_FORMAT}")
    version = document.get("format_version")
    if version not in (*FIRST_VERSIONS, OPINION_FORMAT_VERSION):
        readable = f"{FIRST_VERSIONS[0]} to {OPINION_FORMAT_VERSION}"
        return NoOpinion(
            Source(path), f"its format_version is {version!r}, and {readable} can be read"
        )
    try:
        issued = TypeAdapter(Issued).validate_python(
            document
            | {
                "conclusions": kept_conclusions(document),
                "digest": opinion_digest(text),
                "is_first_way": version in FIRST_VERSIONS,
                "casefile": case_from(document.get("casefile", {})),
            }
        )
    except ValidationError as fault:
        first = fault.errors()[0]
        where = ".".join(str(part) for part in first["loc"])
        return NoOpinion(Source(path), f"{where}: {first['msg']}")
    except NotACaseError as fault:
        return NoOpinion(Source(path), str(fault))
    if not all(map(_is_in_order, issued.conclusions)):
        return NoOpinion(Source(path), "a band in it ends before it begins")
    return issued


def _is_in_order(issued: IssuedConclusion) -> bool:
    """Does the band go from its lower end to its upper one?"""
    low, high = issued.log10_lr_low, issued.log10_lr_high
    return low is None or high is None or low <= high


CASE_NAME = "case.json"


@dataclass(frozen=True, slots=True)
class AtIssue:
    """What each ratio would be by one examiner's reading alone, and the digests of the Opinion
    and of its Answer."""

    alone: tuple[ReadAlone, ...] = ()
    digest: str = ""
    answer_digest: str = ""


NOT_ISSUED = AtIssue()
"""A report that is not made to be issued: without either."""


def at_issue(opinion: Opinion, book: CodeBook) -> AtIssue:
    """Weighs again with each reading that differs, and calculates the digests."""
    text = render_opinion(opinion)
    return AtIssue(read_alone(opinion, book), opinion_digest(text), answer_digest(text))


def case_attachment(opinion: Opinion) -> Attachment:
    """The case document, to go into the private report: all numbers stand in it in full."""
    return Attachment(
        CASE_NAME,
        render_casefile(opinion.casefile),
        "application/json",
        said("The case document from which this report was made, with all numbers in full"),
    )
