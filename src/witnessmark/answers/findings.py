"""A finding for a machine, with all that it says."""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from witnessmark.agreement.records import Finding


def render_finding(finding: "Finding") -> dict[str, Any]:
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
