"""The published verbal scale: words for ranges of likelihood ratio, never rounded up.

The bands stand in `tables/verbal_scale.csv`, each with its basis and source.
Below 1 the ratio is inverted and the words name the second proposition. What is
said between 1 and 2, which the printed scales leave open or disagree about, is
a choice of ours: see docs/decisions/0005-verbal-scale.md.

>>> verbal_equivalent(1.4).words
'moderate support'
>>> verbal_equivalent(-2.0).favours
<Favours.SECOND: 'second'>
"""

import csv
import math
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from pathlib import Path

from witnessmark.catalogue import as_said, said
from witnessmark.codebook.records import Basis, Citation
from witnessmark.source import Source

TABLE = Path(__file__).with_name("tables") / "verbal_scale.csv"


class Favours(StrEnum):
    """Which proposition the words name."""

    FIRST = "first"
    SECOND = "second"
    NEITHER = "neither"


@dataclass(frozen=True, slots=True)
class VerbalBand:
    """One row of the scale: its words hold from this likelihood ratio upwards."""

    lr_from: float
    words: str
    citation: Citation

    @property
    def log10_lr_from(self) -> float:
        """The lower edge of the band as a base-10 logarithm."""
        return math.log10(self.lr_from)


@dataclass(frozen=True, slots=True)
class VerbalScale:
    """The bands in ascending order; the first begins at 1 and is the neutral one."""

    bands: tuple[VerbalBand, ...]

    def band(self, log10_lr: float) -> VerbalBand:
        """The highest band whose lower edge the ratio, turned above 1, has reached."""
        strength = abs(log10_lr)
        return max(
            (band for band in self.bands if band.log10_lr_from <= strength),
            key=lambda band: band.lr_from,
        )


@dataclass(frozen=True, slots=True)
class VerbalEquivalent:
    """The words for one likelihood ratio, in the language of the page, and the proposition
    they name."""

    words: str
    favours: Favours

    def phrase(self) -> str:
        """The words with the proposition that they name.

        >>> verbal_equivalent(-1.2).phrase()
        'moderate support for the second proposition'
        """
        if self.favours is Favours.NEITHER:
            return said("the findings {words}", words=self.words)
        if self.favours is Favours.FIRST:
            return said("{words} for the first proposition", words=self.words)
        return said("{words} for the second proposition", words=self.words)


@cache
def shipped_scale() -> VerbalScale:
    """The scale that is shipped in `tables/verbal_scale.csv`."""
    text = TABLE.read_text("utf-8")
    bands = [
        VerbalBand(
            float(row["lr_from"]),
            row["words"],
            Citation(Basis(row["basis"]), row["source"], Source(TABLE.name, line)),
        )
        for line, row in enumerate(csv.DictReader(text.splitlines()), start=2)
    ]
    return VerbalScale(tuple(sorted(bands, key=lambda band: band.lr_from)))


def verbal_equivalent(log10_lr: float) -> VerbalEquivalent:
    """The words of the shipped scale for a log10 LR; the lower band always holds."""
    scale = shipped_scale()
    band = scale.band(log10_lr)
    words = as_said(band.words)
    if band is scale.bands[0]:
        return VerbalEquivalent(words, Favours.NEITHER)
    return VerbalEquivalent(words, Favours.FIRST if log10_lr > 0 else Favours.SECOND)


def scale_sentence() -> str:
    """Says which scale the words come from."""
    cited = [band for band in shipped_scale().bands if band.citation.basis is Basis.PUBLISHED]
    return said(
        "The words beside a likelihood ratio are those of a published verbal scale ({source}). A "
        "ratio below 2 either way is said to support neither proposition; words and figures are "
        "never rounded up.",
        source=cited[-1].citation.source,
    )
