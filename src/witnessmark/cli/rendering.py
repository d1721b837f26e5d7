"""What machines read, for what has no shape of its own in a room below: problems and findings."""

from typing import TYPE_CHECKING, Any

from witnessmark.problem import Problem

if TYPE_CHECKING:
    from witnessmark.agreement.records import Finding


def problem_outline(problem: Problem) -> dict[str, Any]:
    """A problem with its place, in the order in which a reader wants it."""
    source = problem.source
    return {
        "file": source.name,
        "line": source.line,
        "column": source.column,
        "width": source.width,
        "sentence": problem.sentence(),
        "expected": problem.expected(),
    }


def finding_outline(finding: "Finding") -> dict[str, Any]:
    """A finding with all that it says."""
    return {
        "rule": finding.rule,
        "topic": finding.topic,
        "outcome": finding.outcome.value,
        "subjects": [
            {"mark": each.mark, "field": each.field, "shown": each.shown}
            for each in finding.subjects
        ],
        "observation": finding.observation,
        "inference": finding.inference,
        "basis": finding.basis.value,
        "source": finding.source,
        "agreement_share": finding.agreement_share,
        "strength": finding.strength,
        "brief": finding.brief,
    }
