"""Do the parts tell one story? Findings across the marks of a car.

One rule a file in `rules/`, named as the sentence it tests; each is a plain
function from the car's marks to findings, and no rule knows another.
"""

from witnessmark.agreement.every_rule import RULES, compare
from witnessmark.agreement.records import CarMarks, Finding, FindingKind, Outcome, Subject

__all__ = ["RULES", "CarMarks", "Finding", "FindingKind", "Outcome", "Subject", "compare"]
