"""How strong an answer was said to be, against how often answers so strong were right."""

from collections.abc import Callable, Iterator

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.evidence import Found
from benchmarks.proving.markdown import table
from benchmarks.proving.measures import Scored, class_weights
from benchmarks.proving.summary import LIMIT, TOOL, nearer_of

STEPS = ((-4.01, -3.0), (-3.0, -2.0), (-2.0, -1.0), (-1.0, -0.5), (-0.5, 0.5), (0.5, 1.0),
         (1.0, 2.0), (2.0, 3.0), (3.0, 4.01))  # fmt: skip
"""Bands of log10 LR."""
FEWEST = 3
"""Answers in a band that is told."""
POOLED = ("identity", "engine", "body", "package", "paint", "trim")


def by_band(found: Found) -> str:
    """A row for each question and band, over the plain worlds and over all others."""
    plain = {w.world.maker: w for w in reversed(found.worlds)}.values()
    rows = []
    for question in POOLED:
        for name, worlds in (
            ("plain", list(plain)),
            ("stressed", [w for w in found.worlds if w not in plain]),
        ):
            scores = [w.scores[question] for w in worlds if question in w.scores]
            parts = [s.systems[TOOL] for s in scores]
            limits = [s.systems[LIMIT] for s in scores if LIMIT in s.systems]
            told = _rows(parts, limits if len(limits) == len(parts) else [])
            rows += [[question, name, *row] for row in told]
    headers = ["question", "worlds", "log10 LR", "true", "false", "stated", "observed", "limit's"]
    return table(headers, rows)


def by_end(found: Found) -> str:
    """The same by the band's end nearer 1, over the cases whose bands were drawn."""
    rows: list[list[str]] = []
    for question in POOLED:
        ends = [
            nearer[question]
            for world in found.worlds
            if "good forgers" not in world.world.name
            and question in (nearer := nearer_of(world.answers))
        ]
        rows += [[question, *row[:-1]] for row in _rows(ends, [])]
    if not rows:
        return "No bands were drawn in this run.\n"
    headers = ["question", "end nearer 1", "true", "false", "stated there", "observed"]
    return table(headers, rows)


def _rows(placed: list[Scored], limits: list[Scored]) -> Iterator[list[str]]:
    """Bands that hold answers: how many, the mean stated, what was observed, the limit's mean."""
    if not placed:
        return
    for low, high in STEPS:
        inside = [(s.log10_lr >= low) & (s.log10_lr < high) for s in placed]
        true = _sum(placed, inside, lambda s: s.is_true)
        false = _sum(placed, inside, lambda s: ~s.is_true)
        if false + true < FEWEST:
            continue
        shares = [class_weights(s) for s in placed]
        of_true = sum(float(np.nansum(w[0][i])) for w, i in zip(shares, inside, strict=True))
        of_false = sum(float(np.nansum(w[1][i])) for w, i in zip(shares, inside, strict=True))
        weights = [np.nan_to_num(w[0]) + np.nan_to_num(w[1]) for w in shares]
        observed = f"{np.log10(of_true / of_false):+.1f}" if of_true and of_false else (
            "beyond" if of_true else "below"
        )  # fmt: skip
        yield [
            f"{max(low, -4.0):+.1f} to {min(high, 4.0):+.1f}",
            str(true),
            str(false),
            _mean(placed, inside, weights),
            observed,
            _mean(limits, inside, weights) if limits else "",
        ]


def _sum(
    parts: list[Scored],
    inside: list[NDArray[np.bool_]],
    chosen: Callable[[Scored], NDArray[np.bool_]],
) -> int:
    return sum(int((chosen(s) & i).sum()) for s, i in zip(parts, inside, strict=True))


def _mean(
    parts: list[Scored], inside: list[NDArray[np.bool_]], weights: list[NDArray[np.float64]]
) -> str:
    ratios = np.concatenate(
        [np.clip(s.log10_lr[i], -6, 6) for s, i in zip(parts, inside, strict=True)]
    )
    chosen = np.concatenate([w[i] for w, i in zip(weights, inside, strict=True)])
    return f"{np.average(ratios, weights=chosen):+.1f}" if chosen.sum() > 0.0 else ""
