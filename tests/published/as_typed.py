"""Readings as people type them, what each should say, and whether an answer says it.

An answer is what `witnessmark decode --json` or `compare --json` prints. It is read
tolerantly: keys that it has beyond those asked for are let be, and a date may stand as
spans, as a list of dates, or in its value.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

Answer = Mapping[str, Any]
Span = tuple[date, date]

SHORT = r"(place|character|figure|digit)s? (too )?(short|few)|(lacks|lacking|missing) (one|a) "
LONG = r"(place|character|figure|digit)s? (too )?(long|many)"
EXCHANGED = r"exchang"
LETTER = r"letter\b.*\b(figure|digit|number)|(figure|digit|number)s? (is|are|was|were|stand).*letter"
UNLIKE = r"does not look like"
TWO_MARKS = r"\btwo (marks|stamps|stampings|numbers)\b|\banother mark\b|\bis split\b|\bare split\b"
"""What a sentence must hold to say that: wide on purpose, the wording is the catalogue's."""

QUIET = {"remarks", "points", "source", "sources", "reading", "normalised", "does_not_show", "value"}
"""Keys under which no sentence about this reading stands."""


# ------------------------------------------------------------------ what a field should say


@dataclass(frozen=True)
class Says:
    """What is expected of one field: a check, and how the table shows it."""

    shown: str
    holds: Callable[[Mapping[str, Any]], bool]


def value(wanted: str) -> Says:
    """The canonical value."""
    return Says(wanted, lambda each: each.get("value") == wanted)


def code(wanted: str) -> Says:
    """The characters that the field was given."""
    return Says(f"code {wanted}", lambda each: each.get("code") == wanted)


def meaning(pattern: str) -> Says:
    """Words of the meaning."""
    return Says(f"“{pattern}”", lambda each: bool(re.search(pattern, str(each.get("meaning")))))


def span(first: str, last: str = "") -> Says:
    """One date and no other: a day, or the days from first to last."""
    wanted = (date.fromisoformat(first), date.fromisoformat(last or first))
    shown = f"{first} to {last}" if last else first
    return Says(shown, lambda each: spans_of(each) == [wanted])


def spans(*days: str) -> Says:
    """These days and no others, in any order."""
    wanted = {(date.fromisoformat(day), date.fromisoformat(day)) for day in days}
    return Says(" or ".join(days), lambda each: set(spans_of(each)) == wanted)


def first_of(day: str) -> Says:
    """This day first, whatever else stays possible."""
    wanted = date.fromisoformat(day)
    return Says(f"{day} first", lambda each: [s[0] for s in spans_of(each)][:1] == [wanted])


def among(day: str, *years: int) -> Says:
    """This day among the dates, all of which lie in these years."""
    wanted = date.fromisoformat(day)

    def holds(each: Mapping[str, Any]) -> bool:
        found = [first for first, _ in spans_of(each)]
        return wanted in found and {first.year for first in found} <= set(years)

    return Says(f"{day}, in {' or '.join(map(str, years))} alone", holds)


def never(pattern: str) -> Says:
    """Neither code nor value is of this form."""

    def holds(each: Mapping[str, Any]) -> bool:
        return not any(re.search(pattern, str(each.get(key))) for key in ("code", "value"))

    return Says(f"not {pattern}", holds)


def both(*parts: Says) -> Says:
    """All of these."""
    return Says(
        ", ".join(part.shown for part in parts),
        lambda each: all(part.holds(each) for part in parts),
    )


def spans_of(each: Mapping[str, Any]) -> list[Span]:
    """The dates of a field, wherever the answer has them; none where it only counts them."""
    for key in ("spans", "dates"):
        if isinstance(each.get(key), list) and each[key]:
            return [_span(item) for item in each[key]]
    told = str(each.get("value", ""))
    parts = [part.strip() for part in re.split(r" or |, ", told)]
    return [_span(part) for part in parts] if _is_dated(parts) else []


def _is_dated(parts: list[str]) -> bool:
    return all(re.fullmatch(r"\d{4}-\d\d-\d\d( to \d{4}-\d\d-\d\d)?", part) for part in parts)


def _span(item: object) -> Span:
    """A span written as a pair, as a mapping with first and last, or in words."""
    if isinstance(item, str):
        ends = item.split(" to ")
    elif isinstance(item, Mapping):
        ends = [str(item["first"]), str(item.get("last", item["first"]))]
    else:
        assert isinstance(item, list), item
        ends = [str(end) for end in item]
    return date.fromisoformat(ends[0]), date.fromisoformat(ends[-1])


# ---------------------------------------------------------------------------- what is typed


@dataclass(frozen=True)
class Typed:
    """One reading typed for one mark, and what it should say.

    `says`: field to what it says, in alternatives that hold `at_least` of the shares.
    `told`: patterns, each in some sentence of the answer. `with_mark`: what a second
    mark in the same reading says, or a sentence that there are two.
    """

    promise: str
    book: str
    mark: str
    text: str
    says: Mapping[str, Says]
    basis: str
    source: str
    options: tuple[str, ...] = ()
    told: tuple[str, ...] = ()
    with_mark: Mapping[str, Says] = field(default_factory=dict)
    answered_as: str = ""
    at_least: float = 0.9
    is_one: bool = False

    def command(self) -> tuple[str, ...]:
        return ("decode", self.book, self.mark, self.text, *self.options, "--json")

    def typed(self) -> str:
        return " ".join((f"{self.mark}={self.text!r}", *self.options))

    def wanted(self) -> str:
        parts = [f"{name} {each.shown}" for name, each in self.says.items()]
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
        if self.answered_as and answer.get("mark") != self.answered_as:
            found.append(f"mark {answer.get('mark')}")
        told = [*sentences(answer), error]
        found += [f"not told: {_plain(each)}" for each in self.told if not _is_told(each, told)]
        if self.with_mark and not _second_said(self.with_mark, answer, told):
            found.append("the second mark is not split off, nor said to be there")
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
    finding of that outcome at all. `says`: of a mark's first reading, by field.
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
        if self.year and str(answer.get("year")) != str(self.year):
            found.append(f"year {answer.get('year')}")
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


def _not_said(says: Mapping[str, Says], answer: Answer, at_least: float) -> list[str]:
    """Nothing where alternatives that say all of it hold enough of the shares."""
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
    if best:
        return best
    return [] if saying >= at_least else [f"only {saying:.0%} of the shares say so"]


def _wrong(says: Mapping[str, Says], found: Mapping[str, Mapping[str, Any]]) -> list[str]:
    return [
        f"{name} {_shown(found[name])}" if name in found else f"no {name}"
        for name, wanted in says.items()
        if name not in found or not wanted.holds(found[name])
    ]


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


def _is_told(pattern: str, told: list[str]) -> bool:
    return any(re.search(pattern, each, re.IGNORECASE) for each in told)


NAMES = {SHORT: "one short", LONG: "one long", EXCHANGED: "exchanged", LETTER: "a letter for a figure",
         UNLIKE: "does not look like", TWO_MARKS: "two marks"}  # fmt: skip


def _plain(pattern: str) -> str:
    return NAMES.get(pattern, pattern)
