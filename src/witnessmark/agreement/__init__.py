"""Do the parts tell one story? Findings across the marks of a car.

One rule a file in `rules/`, named as the sentence it tests; each is a plain
function from the car's marks to findings, and no rule knows another.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from witnessmark.agreement.every_rule import RULES, compare
    from witnessmark.agreement.records import CarMarks, Finding, FindingKind, Outcome, Subject

__all__ = ["RULES", "CarMarks", "Finding", "FindingKind", "Outcome", "Subject", "compare"]


def __getattr__(name: str) -> object:
    """Fetch what is asked for when it is first asked for: one mark is decoded without rules."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    home = "every_rule" if name in ("RULES", "compare") else "records"
    found: object = getattr(import_module(f"{__name__}.{home}"), name)
    globals()[name] = found
    return found
