"""docs/proving.md: the tables, plots and sentences of one run, and the table that is printed."""

import csv
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import numpy as np

from benchmarks.proving import words
from benchmarks.proving.bands import by_band, by_end
from benchmarks.proving.evidence import Found, WorldFound
from benchmarks.proving.markdown import figure, table
from benchmarks.proving.measures import Interval, cllr_min, reliability
from benchmarks.proving.plots import cost_plot, reliability_plot, tippett_plot
from benchmarks.proving.rivals import LEARNED
from benchmarks.proving.run import Answered
from benchmarks.proving.summary import (
    ASKED_FOR,
    DRAWS,
    LIMIT,
    TOOL,
    Scores,
    interval,
    silence,
)

EDGES = np.array([-4.0, -3.0, -2.0, -1.0, -0.5, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0])
AIM_COST = 1.25
AIM_WRONG = 0.005
PLOTTED = ("identity", "engine", "configuration")


def page_of(found: Found, docs: Path) -> str:
    """The whole page; its plots are written to docs/proving/."""
    pictures = docs / "proving"
    pictures.mkdir(parents=True, exist_ok=True)
    sections = [
        words.opening(found, f"{date.today():%-d %B %Y}"),
        "## Against the aims\n",
        words.AIMS,
        _aims(found),
        "## The figures\n",
        words.HOW_TO_READ,
        table_of(found),
        *_plots(found, pictures),
        "## Every question, in the plain world of each maker\n",
        _every_question(found),
        "## Stated against observed\n",
        words.BANDS,
        by_band(found),
        words.ENDS,
        by_end(found),
        "## Story by story\n",
        words.STORIES,
        _stories(found),
        "## Cannot be established\n",
        words.CANNOT,
        _silence(found),
        "## Where it breaks\n",
        words.BREAKS,
        _misled(found),
        words.CLOSING,
    ]
    return "\n".join(sections)


def table_of(found: Found) -> str:
    """Cost and rates of every world for the questions with aims; it is also what is printed."""
    rows = [[w.world.name, s.question, *_cells(s)] for w, s in _asked_for(found)]
    headers = ["world", "question", "answers", "Cllr", "limit", "times", LEARNED,
               "wrong > 100", "right > 10", "limit's"]  # fmt: skip
    return table(headers, rows)


def _asked_for(found: Found) -> Iterator[tuple[WorldFound, Scores]]:
    for world in found.worlds:
        for question in ASKED_FOR:
            if question in world.scores:
                yield world, world.scores[question]


def _cells(scores: Scores) -> list[str]:
    systems = scores.systems
    limit = scores.cost(LIMIT) if LIMIT in systems else float("nan")
    return [
        str(len(scores.answers)),
        _span(interval(systems[TOOL])),
        _figure(limit),
        _figure(scores.cost(TOOL) / limit if limit > 0.0 else float("nan"), 2),
        _figure(scores.cost(LEARNED) if LEARNED in systems else float("nan")),
        f"{scores.wrong(TOOL, 100):.2%}",
        f"{scores.right(TOOL, 10):.0%}",
        f"{scores.right(LIMIT, 10):.0%}" if LIMIT in systems else "",
    ]


def _figure(value: float, places: int = 3) -> str:
    return "" if np.isnan(value) else f"{value:.{places}f}"


def _span(each: Interval) -> str:
    return f"{each.value:.3f} ({each.low:.2f} to {each.high:.2f})"


def _plots(found: Found, pictures: Path) -> Iterator[str]:
    plain = found.worlds[0]
    for question in PLOTTED:
        if question in plain.scores:
            systems = plain.scores[question].systems
            curves = {name: systems[name] for name in (TOOL, LIMIT) if name in systems}
            title = f"Plain world, {question}: Tippett plot"
            name = f"tippett-{question}.svg"
            yield figure(f"proving/{name}", title, tippett_plot(curves, title, pictures / name))
            bins = reliability(systems[TOOL], EDGES, DRAWS, np.random.default_rng(2))
            title = f"Plain world, {question}: stated against observed"
            name = f"reliability-{question}.svg"
            yield figure(f"proving/{name}", title, reliability_plot(bins, title, pictures / name))
        costs: dict[str, dict[str, Interval]] = {}
        for world in found.worlds:
            if question in world.scores:
                for system, scored in world.scores[question].systems.items():
                    if system in (TOOL, LIMIT, LEARNED):
                        costs.setdefault(system, {})[world.world.name] = interval(scored)
        if costs:
            title = f"Cost by world, {question}"
            name = f"cost-{question}.svg"
            yield figure(f"proving/{name}", title, cost_plot(costs, title, pictures / name))


def _every_question(found: Found) -> str:
    rows = []
    for world in _plain(found):
        for question, scores in world.scores.items():
            systems = scores.systems
            tool = scores.cost(TOOL)
            rows.append([
                world.world.name, question, len(scores.answers), _figure(tool),
                _figure(tool - cllr_min(systems[TOOL])),
                *(_figure(scores.cost(s)) if s in systems else "" for s in (LIMIT, LEARNED)),
            ])  # fmt: skip
    headers = ["world", "question", "answers", "Cllr", "of it calibration", "limit", LEARNED]
    return table(headers, rows)


def _plain(found: Found) -> list[WorldFound]:
    """The first world of each maker."""
    first: dict[str, WorldFound] = {}
    for world in found.worlds:
        first.setdefault(world.world.maker, world)
    return list(first.values())


def _aims(found: Found) -> str:
    rows = [
        [aim, f"{sum(map(bool, met.values()))} of {len(met)}",
         "; ".join(name for name, is_met in met.items() if not is_met)]
        for aim, met in aims(found).items()
    ]  # fmt: skip
    return table(["aim", "met in", "not met"], rows)


def aims(found: Found) -> dict[str, dict[str, bool]]:
    """Each aim with the worlds and questions to which it applies, and whether each meets it."""
    met: dict[str, dict[str, bool]] = {}
    plain = _plain(found)
    for world, s in _asked_for(found):
        name = f"{s.question} in {world.world.name}"
        if LIMIT in s.systems and world in plain:
            aim = f"Cllr within {AIM_COST} times the limit, plain worlds"
            met.setdefault(aim, {})[name] = s.cost(TOOL) <= AIM_COST * s.cost(LIMIT)
        aim = "wrong beyond 100 in under 0.5 %"
        met.setdefault(aim, {})[name] = s.wrong(TOOL, 100) < AIM_WRONG
        if LEARNED in s.systems:
            aim = f"Cllr below that of {LEARNED}"
            met.setdefault(aim, {})[name] = s.cost(TOOL) < s.cost(LEARNED)
    return met


def _stories(found: Found) -> str:
    rows: list[list[object]] = []
    for world in _plain(found):
        for question in ("identity", "engine", "package"):
            if question in world.scores:
                rows += _by_story(world, question)
    headers = ["world", "question", "story", "in truth", "cars", "tool: log10 LR", "limit",
               "wrong > 100"]  # fmt: skip
    return table(headers, rows)


def _by_story(world: WorldFound, question: str) -> Iterator[list[object]]:
    groups: dict[tuple[str, bool], list[Answered]] = {}
    for answer in world.scores[question].answers:
        groups.setdefault((answer.kind, bool(answer.truth[question])), []).append(answer)
    for (kind, true), cases in sorted(groups.items()):
        if len(cases) < 5:
            continue
        tool = np.array([a.tool.ratios[question] for a in cases])
        limit = np.array([a.limit[question] for a in cases if a.limit])
        wrong = ((tool > 2) & (not true)) | ((tool < -2) & true)
        yield [
            world.world.name, question, kind, "true" if true else "false", len(cases),
            _middle(tool), _middle(limit) if len(limit) else "", f"{wrong.mean():.1%}",
        ]  # fmt: skip


def _middle(ratios: np.ndarray) -> str:
    low, middle, high = np.percentile(np.clip(ratios, -9, 9), [10, 50, 90])
    return f"{middle:+.1f} ({low:+.1f} to {high:+.1f})"


def _silence(found: Found) -> str:
    rows = []
    for world in found.worlds:
        s = silence(world.answers)
        share = f"{s.said / s.asked:.0%}" if s.asked else ""
        agrees = f"{s.limit_agrees:.0%}" if s.said else ""
        rows.append([world.world.name, s.said, share, agrees])
    headers = ["world", "said of", "of all items claimed", "the limit too is within 3"]
    return table(headers, rows)


def _misled(found: Found) -> str:
    rows = []
    for world in found.worlds:
        for m in world.misled:
            band = "" if np.isnan(m.low) else f"{m.low:+.1f} to {m.high:+.1f}"
            reach = "" if np.isnan(m.low) else "yes" if m.bounds_hold else "**no**"
            rows.append([
                m.world, m.number, m.kind, m.question, f"{m.log10_lr:+.1f}", band, reach,
                m.leading, f"{m.limit:+.1f}",
            ])  # fmt: skip
    headers = ["world", "case", "story", "question", "log10 LR", "band", "band reaches even",
               "leading row", "the limit"]  # fmt: skip
    return table(headers, rows)


def write_intervals(found: Found, path: Path) -> None:
    """The figures of the plain worlds with their spread, for the reduced run of the tests."""
    with path.open("w", encoding="utf-8", newline="") as stream:
        out = csv.writer(stream, lineterminator="\n")
        out.writerow(["world", "question", "measure", "cases", "value", "low", "high"])
        for world in _plain(found):
            for question, scores in world.scores.items():
                for system, name in ((TOOL, "tool"), (LIMIT, "limit")):
                    each = interval(scores.systems[system])
                    figures = (f"{x:.4f}" for x in (each.value, each.low, each.high))
                    row = (world.world.name, question, f"cllr {name}", len(scores.answers))
                    out.writerow([*row, *figures])
