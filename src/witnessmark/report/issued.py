"""An Opinion as it was kept at issue: read from its JSON, as far as a supplement needs it.

Only the case, the book's version, the names, the findings and the conclusions are read, so that
an Opinion written years ago can still be compared. A case of format 1 in it is read as one of
format 2; the digest stays that of the text as it was kept.
"""

import json
import math
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from pydantic import TypeAdapter, ValidationError

from witnessmark.agreement.records import Outcome
from witnessmark.casefile.records import Casefile
from witnessmark.casefile.upgrade import OLD_VERSION, changes_from_format_1, with_changes
from witnessmark.examination import BookVersion, Named, Opinion, render_opinion
from witnessmark.examination.render import OPINION_FORMAT, OPINION_FORMAT_VERSION
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.weighing.records import LikelihoodRatio, PropositionPair, Question, Standing

OLD_FORMAT_VERSION = 1
"""Opinions of this version are read too: they hold a case of format 1."""
MOST_LOG10 = 100.0
"""More than any ratio that was ever reported."""


@dataclass(frozen=True, slots=True)
class IssuedConclusion:
    """One conclusion as it was issued."""

    question: Question
    about: str
    pair: PropositionPair
    lr: LikelihoodRatio
    standing: Standing


@dataclass(frozen=True, slots=True)
class IssuedWeighing:
    """The conclusions as they were issued."""

    conclusions: tuple[IssuedConclusion, ...]


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

    `findings` is None where the Opinion was kept without them.
    """

    casefile: Casefile
    book: BookVersion
    weighing: IssuedWeighing
    names: tuple[Named, ...] = ()
    digest: str = ""
    findings: tuple[IssuedFinding, ...] | None = None
    beside: tuple[BookVersion, ...] = ()


@dataclass(frozen=True, slots=True)
class NoOpinion(Problem):
    """A file that is no Opinion."""

    reason: str

    def sentence(self) -> str:
        """What is wrong with it."""
        return f"it is no Opinion that can be read: {self.reason}"

    def expected(self) -> str:
        """What would be right."""
        return "the JSON kept at issue: what `witnessmark examine CASE --json` prints"


def opinion_digest(text: str) -> str:
    """SHA-256 of an Opinion's JSON, whatever spaces it is laid out with."""
    plain = json.dumps(json.loads(text), ensure_ascii=False, separators=(",", ":"))
    return sha256(plain.encode("utf-8", "surrogatepass")).hexdigest()


def issued_of(opinion: Opinion) -> Issued:
    """What a supplement needs of an Opinion at hand."""
    conclusions = tuple(
        IssuedConclusion(each.question, each.about, each.pair, each.lr, each.standing)
        for each in opinion.weighing.conclusions
    )
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
    weighing = IssuedWeighing(conclusions)
    kept = (opinion.casefile, opinion.book, weighing, opinion.names, digest, findings)
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
    if version not in (OLD_FORMAT_VERSION, OPINION_FORMAT_VERSION):
        readable = f"{OLD_FORMAT_VERSION} and {OPINION_FORMAT_VERSION}"
        return NoOpinion(
            Source(path), f"its format_version is {version!r}, and {readable} can be read"
        )
    try:
        issued = TypeAdapter(Issued).validate_python(
            document | _with_case_of_now(document) | {"digest": opinion_digest(text)}
        )
    except ValidationError as fault:
        first = fault.errors()[0]
        where = ".".join(str(part) for part in first["loc"])
        return NoOpinion(Source(path), f"{where}: {first['msg']}")
    if not all(_can_be_written(each.lr) for each in issued.weighing.conclusions):
        return NoOpinion(Source(path), "a ratio in it, or its bounds, cannot be written")
    return issued


def _with_case_of_now(document: dict[str, Any]) -> dict[str, Any]:
    """The case in a kept Opinion, in the present format; nothing where it is that already."""
    case = document.get("casefile")
    if not isinstance(case, dict) or case.get("format_version") != OLD_VERSION:
        return {}
    return {"casefile": with_changes(case, changes_from_format_1(case))}


def _can_be_written(lr: LikelihoodRatio) -> bool:
    """Are the ratio and its bounds numbers, not beyond all reason, and in order?"""
    ends = (lr.log10_lr, lr.log10_lr_low, lr.log10_lr_high)
    if not all(math.isfinite(each) and abs(each) <= MOST_LOG10 for each in ends):
        return False
    return lr.log10_lr_low <= lr.log10_lr_high
