"""Readings as people type them, what each should say, and whether an answer says it.

An answer is what `witnessmark decode --json` or `compare --json` prints. It is read
tolerantly: keys that it has beyond those asked for are let be.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from tests.published.says import ANY, Says

Answer = Mapping[str, Any]
SHORT = r"(place|character|figure|digit)s? (too )?(short|few)|1 (character )?is missing"
LONG = r"(place|character|figure|digit)s? (too )?(long|many)|1 more than"
EXCHANGED = r"exchang"
LETTER = (
    r"letter\b.*\b(figure|digit|number)|(figure|digit|number)s? (is|are|was|were|stand).*letter"
)
UNLIKE = r"does not look like"
TWO_MARKS = r"\b(two|three|several) (marks|stamps|stampings|numbers)\b|\banother mark\b|\bsplit\b"
"""What a sentence must hold to say that: wide on purpose, the wording is the catalogue's."""

QUIET = {
    "remarks",
    "points",
    "source",
    "sources",
    "reading",
    "normalised",
    "does_not_show",
    "value",
}
"""Keys under which no sentence about this reading stands."""


# ---------------------------------------------------------------------------- what is typed


@dataclass(frozen=True)
class Typed:
    """One reading typed for one mark, and what it should say.

    `says`: field to what it says, in alternatives that hold `at_least` of the shares; the
    field `ANY` is whichever says so. `also`: what others, with as much of them, say.
    `told`: patterns, each in some sentence of the answer. `with_mark`: what a second
    mark in the same reading says, or a sentence that there are two. `is_one`: a single
    alternative has 95 %. `is_whole`: no character is left over.
    """

    promise: str
    book: str
    mark: str
    text: str
    says: Mapping[str, Says]
    basis: str
    source: str
    options: tuple[str, ...] = ()
    also: Mapping[str, Says] = field(default_factory=dict)
    told: tuple[str, ...] = ()
    with_mark: Mapping[str, Says] = field(default_factory=dict)
    answered_as: str = ""
    at_least: float = 0.9
    is_one: bool = False
    is_whole: bool = False

    def command(self) -> tuple[str, ...]:
        return ("decode", self.book, self.mark, self.text, *self.options, "--json")

    def typed(self) -> str:
        return " ".join((f"{self.mark}={self.text!r}", *self.options))

    def wanted(self) -> str:
        parts = [f"{name} {each.shown}" for name, each in self.says.items()]
        parts += [f"or {name} {each.shown}" for name, each in self.also.items()]
        parts += [f"told: {_plain(each)}" for each in self.told]
        if self.with_mark:
            second = ", ".join(f"{name} {each.shown}" for name, each in self.with_mark.items())
            parts.append(f"and the second mark's {second}, or that they are two")
        if self.is_one:
            parts.append("one alternative, 95 %")
        return "; ".join(parts)

    def faults(self, answer: Answer, error: str = "") -> list[str]:
        """What the answer does not say, in words; nothing where it says all."""
        if "alternatives" not in answer:
            return [f"no answer: {' '.join(error.split())[:160]}"]
        found = _not_said(self.says, answer, self.at_least)
        found += _not_said(self.also, answer, self.at_least, is_first=False)
        if not self.told:  # what is typed is no fault; a slip may be told as one
            found += [f"a problem: {each['sentence']}" for each in answer.get("problems", [])][:1]
        if self.answered_as and answer.get("mark") != self.answered_as:
            found.append(f"mark {answer.get('mark')}")
        told = [*sentences(answer), error]
        found += [f"not told: {_plain(each)}" for each in self.told if not _is_told(each, told)]
        if self.with_mark and not _second_said(self.with_mark, answer, told):
            found.append("the second mark is not split off, nor said to be there")
        if self.is_whole and answer.get("unread"):
            found.append(f"left over: {answer['unread']}")
        if self.is_one and not _is_one(answer):
            found.append(_many(answer))
        return found


@dataclass(frozen=True)
class Unlike:
    """A text that is no reading of this mark: no share, and that it does not look like one."""

    promise: str
    book: str
    mark: str
    text: str
    basis: str = "assumed"
    source: str = "no form of the book fits it"

    def command(self) -> tuple[str, ...]:
        return ("decode", self.book, self.mark, self.text, "--json")

    def typed(self) -> str:
        return f"{self.mark}={self.text!r}"

    def wanted(self) -> str:
        return "no share; told: does not look like"

    def faults(self, answer: Answer, error: str = "") -> list[str]:
        shares = [each.get("share") for each in answer.get("alternatives", [])]
        found = [f"a share of {share:.3f}" for share in shares[:1] if share is not None]
        if not _is_told(UNLIKE, [*sentences(answer), error]):
            found.append("not told that it does not look like one")
        return found


@dataclass(frozen=True)
class Compared:
    """Several readings of one car.

    `agree` and `differ`: topics of findings with that outcome. `nothing_differs`: no
    finding of that outcome at all. `tied`: two marks that one agreeing finding names.
    `asks`: a rule and topic of which no finding agrees. `says`: of a mark, by field.
    """

    promise: str
    book: str
    readings: tuple[str, ...]
    basis: str
    source: str
    options: tuple[str, ...] = ()
    agree: tuple[str, ...] = ()
    differ: tuple[str, ...] = ()
    nothing_differs: bool = False
    tied: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
    year: int | None = None
    says: Mapping[str, Mapping[str, Says]] = field(default_factory=dict)

    def command(self) -> tuple[str, ...]:
        return ("compare", self.book, *self.readings, *self.options, "--json")

    def typed(self) -> str:
        return " ".join((*map(repr, self.readings), *self.options))

    def wanted(self) -> str:
        parts = [f"{topic} agrees" for topic in self.agree]
        parts += [f"{topic} differs" for topic in self.differ]
        parts += ["nothing differs"] if self.nothing_differs else []
        parts += [f"{' and '.join(self.tied)} agree"] if self.tied else []
        parts += [f"{' of '.join(self.asks)} does not agree"] if self.asks else []
        parts += [f"year {self.year}"] if self.year else []
        for mark, fields in self.says.items():
            parts += [f"{mark} {name} {each.shown}" for name, each in fields.items()]
        return "; ".join(parts)

    def faults(self, answer: Answer, error: str = "") -> list[str]:
        if "findings" not in answer:
            return [f"no answer: {' '.join(error.split())[:160]}"]
        found = [f"{topic} not found to agree" for topic in self.agree
                 if (topic, "agree") not in _outcomes(answer)]  # fmt: skip
        found += [f"{topic} not found to differ" for topic in self.differ
                  if (topic, "differ") not in _outcomes(answer)]  # fmt: skip
        if self.nothing_differs:
            found += [f"{topic} differs" for topic, how in _outcomes(answer) if how == "differ"]
        if self.tied and not _is_tied(self.tied, answer):
            found.append(f"nothing ties {' and '.join(self.tied)}")
        if self.asks and any(_is_agreed(self.asks, each) for each in answer["findings"]):
            found.append(f"{' of '.join(self.asks)} agrees")
        if self.year and not _is_year_known(self.year, answer):
            found.append(f"the year {self.year} is not taken up")
        for mark, fields in self.says.items():
            of_mark = [each for each in answer["decodings"] if each["mark"] == mark]
            found += [f"no {mark}"] if not of_mark else _not_said(fields, of_mark[0], 0.9)
        return found


# ------------------------------------------------------------------------ reading an answer


def fields_of(alternative: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    """The fields of an alternative by their names, or fields of a list made into them."""
    return {each["field"]: each for each in alternative.get("fields", [])}


def sentences(node: object) -> Iterator[str]:
    """Every string of an answer that may be a sentence about the reading."""
    if isinstance(node, str):
        yield node
    elif isinstance(node, Mapping):
        for key, inner in node.items():
            if key not in QUIET:
                yield from sentences(inner)
    elif isinstance(node, list):
        for inner in node:
            yield from sentences(inner)


def _not_said(
    says: Mapping[str, Says], answer: Answer, at_least: float, is_first: bool = True
) -> list[str]:
    """Nothing where alternatives that say all of it hold enough of the shares.

    `is_first`: the likeliest must be one of them.
    """
    alternatives = answer.get("alternatives", [])
    if not says:
        return []
    if not alternatives:
        return ["no alternative"]
    saying, best = 0.0, [f"no {name}" for name in says]
    for each in alternatives:
        wrong = _wrong(says, fields_of(each))
        if not wrong:
            share = each.get("share")
            saying += 1.0 / len(alternatives) if share is None else share
        if each is alternatives[0]:
            best = wrong
    if best and is_first:
        return best
    return [] if saying >= at_least else [f"only {saying:.0%} of the shares say so"]


def _wrong(says: Mapping[str, Says], found: Mapping[str, Mapping[str, Any]]) -> list[str]:
    return [
        f"{name} {_shown(found[name])}" if name in found else f"no {name}"
        for name, wanted in says.items()
        if not any(wanted.holds(each) for each in _of(name, found))
    ]


def _of(name: str, found: Mapping[str, Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    return list(found.values()) if name == ANY else [found[name]] if name in found else []


def _shown(each: Mapping[str, Any]) -> str:
    told = str(each.get("value") or each.get("meaning") or "nothing")
    code_seen = str(each.get("code", ""))
    return told if told == code_seen else f"{code_seen}: {told}"


def _second_said(says: Mapping[str, Says], answer: Answer, told: list[str]) -> bool:
    """A second decoding anywhere in the answer says it, or a sentence that there are two."""
    if _is_told(TWO_MARKS, told):
        return True
    return any(not _wrong(says, fields_of(each)) for each in _alternatives(answer))


def _alternatives(node: object) -> Iterator[Mapping[str, Any]]:
    """Everything in an answer that has fields."""
    if isinstance(node, Mapping):
        if isinstance(node.get("fields"), list) and node["fields"]:
            yield node
        for inner in node.values():
            yield from _alternatives(inner)
    elif isinstance(node, list):
        for inner in node:
            yield from _alternatives(inner)


def _is_one(answer: Answer) -> bool:
    alternatives = answer["alternatives"]
    share = alternatives[0].get("share") if alternatives else 0.0
    return len(alternatives) == 1 or (share is not None and share >= 0.95)


def _many(answer: Answer) -> str:
    alternatives = answer["alternatives"]
    share = alternatives[0].get("share") if alternatives else None
    return f"{len(alternatives)} alternatives, the first with {share or 0:.0%}"


def _outcomes(answer: Answer) -> set[tuple[str, str]]:
    return {(each["topic"], each["outcome"]) for each in answer["findings"]}


def _is_tied(marks: tuple[str, ...], answer: Answer) -> bool:
    """One finding that agrees names all of these marks."""
    return any(
        each["outcome"] == "agree"
        and set(marks) <= {subject["mark"] for subject in each["subjects"]}
        for each in answer["findings"]
    )


def _is_agreed(asks: tuple[str, ...], finding: Mapping[str, Any]) -> bool:
    return (finding["rule"], finding["topic"], finding["outcome"]) == (*asks, "agree")


def _is_year_known(year: int, answer: Answer) -> bool:
    """Said of the car, as a key of the whole answer."""
    whole = {"decodings", "findings", "does_not_show"}
    return any(str(year) in str(each) for key, each in answer.items() if key not in whole)


def _is_told(pattern: str, told: list[str]) -> bool:
    return any(re.search(pattern, each, re.IGNORECASE) for each in told)


NAMES = {
    SHORT: "one short",
    LONG: "one long",
    EXCHANGED: "exchanged",
    LETTER: "a letter for a figure",
    UNLIKE: "does not look like",
}


def _plain(pattern: str) -> str:
    return NAMES.get(pattern, pattern)
