"""What is never said, and a check that finds it in a text.

The tool reports features and how strongly they speak; it does not accuse, does
not promise, and does not turn a likelihood ratio round into a probability that
the car is this or that. The check is for our own sentences: what a client or a
seller has typed stands in the report in their words and is passed as `quoted`.

>>> never_said("In short: a genuine car.")
(NeverSaid(words='genuine', instead='factory-made for the claimed car'),)
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class NeverSaid:
    """Words that do not stand in a report, and what is said instead."""

    words: str
    instead: str


NEVER: tuple[NeverSaid, ...] = (
    NeverSaid("fake", "consistent with having been struck later"),
    NeverSaid("faked", "consistent with having been struck later"),
    NeverSaid("faker", "whoever struck it"),
    NeverSaid("genuine", "factory-made for the claimed car"),
    NeverSaid("forged", "consistent with having been made later"),
    NeverSaid("forger", "whoever made it"),
    NeverSaid("forgery", "a mark made later"),
    NeverSaid("counterfeit", "made later"),
    NeverSaid("bogus", "not consistent with"),
    NeverSaid("fraud", "what was seen, without a motive"),
    NeverSaid("fraudulent", "what was seen, without a motive"),
    NeverSaid("crook", "nobody is named"),
    NeverSaid("culprit", "nobody is named"),
    NeverSaid("stolen", "a matter for the police"),
    NeverSaid("thief", "nobody is named"),
    NeverSaid("guaranteed", "supported, with how strongly"),
    NeverSaid("guarantee", "supported, with how strongly"),
    NeverSaid("guarantees", "supported, with how strongly"),
    NeverSaid("certified original", "examined"),
    NeverSaid("authenticated", "examined"),
    NeverSaid("verified", "compared, with what"),
    NeverSaid("proves", "supports"),
    NeverSaid("proven", "supported"),
    NeverSaid("proof that", "support for"),
    NeverSaid("beyond doubt", "with the likelihood ratio"),
    NeverSaid("without doubt", "with the likelihood ratio"),
    NeverSaid("undoubtedly", "with the likelihood ratio"),
    NeverSaid("definitely", "with the likelihood ratio"),
    NeverSaid("matching numbers", "numbers-matching, with the parts listed"),
    NeverSaid("clone", "made in likeness"),
    NeverSaid("restamp", "struck again later"),
    NeverSaid("restamped", "struck again later"),
    NeverSaid("probably original", "support for the first proposition"),
    NeverSaid("probability of being", "the findings are more probable if"),
    NeverSaid("probability that the car", "the findings are more probable if"),
    NeverSaid("probability that this car", "the findings are more probable if"),
    NeverSaid("confidence score", "likelihood ratio"),
    NeverSaid("match score", "likelihood ratio"),
)
"""Whole words or phrases, compared without regard to case and spacing."""


def _pattern(words: str) -> re.Pattern[str]:
    return re.compile(r"(?<!\w)" + r"\s+".join(map(re.escape, words.split())) + r"(?!\w)", re.I)


_PATTERNS = tuple((entry, _pattern(entry.words)) for entry in NEVER)


def never_said(text: str, quoted: Iterable[str] = ()) -> tuple[NeverSaid, ...]:
    """The entries of `NEVER` that stand in the text, outside what is quoted.

    White space of any kind and length counts as one space, so that a line end
    in the middle of a phrase hides nothing.
    """
    text = " ".join(text.split())
    for words in sorted({" ".join(each.split()) for each in quoted}, key=len, reverse=True):
        if words:
            text = text.replace(words, " ")
    return tuple(entry for entry, pattern in _PATTERNS if pattern.search(text))
