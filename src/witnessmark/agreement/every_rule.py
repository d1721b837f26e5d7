"""All rules of the folder `rules/`, one after the other, by the ranks that they say themselves."""

from collections.abc import Callable
from importlib import import_module
from pkgutil import iter_modules
from typing import Protocol, cast

from witnessmark.agreement import rules
from witnessmark.agreement.records import AgreementRule, CarMarks, Finding


class _Module(Protocol):
    """What stands in the file of a rule; its docstring is its paragraph in docs/rules.md."""

    __doc__: str | None
    RULE: AgreementRule
    compare: Callable[[CarMarks], tuple[Finding, ...]]


def _found() -> list[_Module]:
    """The files of the folder, in the order in which the rules are heard."""
    names = (each.name for each in iter_modules(rules.__path__, f"{rules.__name__}."))
    modules = (cast(_Module, import_module(name)) for name in names)
    return sorted(modules, key=lambda each: (each.RULE.rank, each.RULE.id))


_MODULES = _found()

RULES = tuple(each.RULE for each in _MODULES)


def render_rules() -> str:
    """The rules as the paragraphs of docs/rules.md, in the order in which they are heard."""
    beyond = "; what differs is unusual, and no more"
    paragraphs = (
        f"**{each.RULE.id}.** {' '.join((each.__doc__ or '').split())} "
        f"*Compared: {each.RULE.kind}{beyond if each.RULE.beyond_is_unusual else ''}.*\n\n"
        for each in _MODULES
    )
    return "".join(paragraphs)


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """The findings of every rule on the marks of one car."""
    return tuple(finding for each in _MODULES for finding in each.compare(car))
