"""docs/proving.md: the tables, plots and sentences of one run, and the table that is printed."""

import csv
from datetime import date
from pathlib import Path

import numpy as np

from benchmarks.proving import words
from benchmarks.proving.evidence import Found, WorldFound
from benchmarks.proving.limit import QUESTIONS
from benchmarks.proving.markdown import figure, table
from benchmarks.proving.measures import Interval, bootstrap_difference, cllr, cllr_min, reliability
from benchmarks.proving.plots import cost_plot, reliability_plot, tippett_plot
from benchmarks.proving.rivals import RIVALS
from benchmarks.proving.summary import (
    ASKED_FOR,
    DRAWS,
    LIMIT,
    TOOL,
    Scores,
    established,
    interval,
)
from benchmarks.proving.world import KINDS

EDGES = np.array([-4.0, -3.0, -2.0, -1.0, -0.5, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0])
AIM_COST = 1.05
AIM_WRONG = 0.005
AIM_RIGHT = 0.90


def page_of(found: Found, docs: Path) -> str:
    """The whole page; its plots are written to docs/proving/."""
    pictures = docs / "proving"
    pictures.mkdir(parents=True, exist_ok=True)
    sections = [
        words.opening(found, f"{date.today():%-d %B %Y}"),
        "## The figures\n",
        words.HOW_TO_READ,
        _costs(found),
        *_plots(found, pictures),
        "## How often it misleads, and how often it says something\n",
        words.MISLEADING,
        _rates(found),
        "## Against the aims\n",
        words.AIMS,
        table(["aim", "in", "figure", ""], aims(found)),
        "## By kind of car, in the plain world\n",
        words.KINDS_TOLD,
        _kinds(found.worlds[0]),
        "## Cannot be established\n",
        words.CANNOT,
        _established(found),
        "## Where it breaks, and what the report then shows\n",
        words.BREAKS,
        _misled(found),
        words.CLOSING,
    ]
    return "\n".join(sections)


def table_of(found: Found) -> str:
    """The table that is printed: cost and rates of every world for the questions with aims."""
    rows = []
    for world in found.worlds:
        for question in ASKED_FOR:
            if question in world.scores:
                scores = world.scores[question]
                rows.append([world.world.name, question, *_cells(scores)])
    headers = [
        "world",
        "question",
        "Cllr",
        "limit",
        *RIVALS,
        "wrong > 100",
        "right > 10",
        "limit's",
    ]
    return table(headers, rows)


def _cells(scores: Scores) -> list[str]:
    systems = scores.systems
    costs = [
        f"{scores.cost(name):.3f}" if name in systems else "" for name in (TOOL, LIMIT, *RIVALS)
    ]
    right = f"{scores.right(LIMIT, 10):.0%}" if LIMIT in systems else ""
    return [*costs, f"{scores.wrong(TOOL, 100):.2%}", f"{scores.right(TOOL, 10):.0%}", right]


def _costs(found: Found) -> str:
    parts = []
    for world in found.worlds:
        rows = []
        for question in QUESTIONS:
            if question not in world.scores:
                continue
            scores = world.scores[question]
            whole = interval(scores.systems[TOOL])
            least = cllr_min(scores.systems[TOOL])
            cells: list[object] = [
                question,
                len(scores.answers),
                _span(whole),
                f"{least:.3f}",
                f"{whole.value - least:.3f}",
            ]
            for name in (LIMIT, *RIVALS):
                cells.append(f"{scores.cost(name):.3f}" if name in scores.systems else "")
            rows.append(cells)
        headers = [
            "question",
            "cases",
            "Cllr of the tool",
            "discrimination",
            "calibration",
            "the limit",
            *RIVALS,
        ]
        parts.append(f"**{world.world.name}**: {world.world.says}.\n\n{table(headers, rows)}")
    return "\n".join(parts)


def _span(each: Interval) -> str:
    return f"{each.value:.3f} ({each.low:.2f} to {each.high:.2f})"


def _plots(found: Found, pictures: Path) -> list[str]:
    made = []
    plain = found.worlds[0]
    for question in ASKED_FOR:
        if question not in plain.scores:
            continue
        systems = plain.scores[question].systems
        curves = {name: systems[name] for name in (TOOL, LIMIT) if name in systems}
        title = f"Plain world, {question}: Tippett plot"
        name = f"tippett-{question}.svg"
        made.append(figure(f"proving/{name}", title, tippett_plot(curves, title, pictures / name)))
        bins = reliability(systems[TOOL], EDGES, DRAWS, np.random.default_rng(2))
        title = f"Plain world, {question}: stated against observed"
        name = f"reliability-{question}.svg"
        made.append(
            figure(f"proving/{name}", title, reliability_plot(bins, title, pictures / name))
        )
    for question in ASKED_FOR:
        costs: dict[str, dict[str, Interval]] = {}
        for world in found.worlds:
            if question in world.scores:
                for system, scored in world.scores[question].systems.items():
                    costs.setdefault(system, {})[world.world.name] = interval(scored)
        title = f"Cost by world, {question}"
        name = f"cost-{question}.svg"
        made.append(figure(f"proving/{name}", title, cost_plot(costs, title, pictures / name)))
    return made


def _rates(found: Found) -> str:
    rows = []
    for world in found.worlds:
        for question in ASKED_FOR:
            if question not in world.scores:
                continue
            s = world.scores[question]
            cells: list[object] = [world.world.name, question]
            cells += [f"{s.wrong(TOOL, k):.2%}" for k in (10, 100, 1000)]
            for name in (LIMIT, *RIVALS):
                cells.append(f"{s.wrong(name, 100):.2%}" if name in s.systems else "")
            cells += [f"{s.right(TOOL, 10):.0%}", f"{s.right(LIMIT, 10):.0%}"]
            rows.append(cells)
    headers = ["world", "question", "wrong > 10", "wrong > 100", "wrong > 1000", "limit > 100"]
    headers += [f"{name} > 100" for name in RIVALS] + ["right > 10", "limit's"]
    return table(headers, rows)


def aims(found: Found) -> list[list[object]]:
    """Each aim with its figure and whether it is met."""
    rows: list[list[object]] = []
    plain = found.worlds[0]
    for question in ASKED_FOR:
        s = plain.scores[question]
        ratio = s.cost(TOOL) / s.cost(LIMIT)
        rows.append(
            [
                f"Cllr of {question} within 5 % of the limit",
                "plain",
                f"{ratio:.2f} times",
                _met(ratio <= AIM_COST),
            ]
        )
    for world in found.worlds:
        for question in ASKED_FOR:
            if question not in world.scores:
                continue
            s = world.scores[question]
            name = world.world.name
            wrong = s.wrong(TOOL, 100)
            rows.append(
                [
                    f"{question} wrong beyond 100 in under 0.5 %",
                    name,
                    f"{wrong:.2%}",
                    _met(wrong < AIM_WRONG),
                ]
            )
            right = s.right(TOOL, 10) / max(s.right(LIMIT, 10), 1e-9)
            rows.append(
                [
                    f"{question} right beyond 10, share of the limit's",
                    name,
                    f"{right:.0%}",
                    _met(right >= AIM_RIGHT),
                ]
            )
            for rival in RIVALS:
                if rival in s.systems:
                    gap = bootstrap_difference(
                        s.systems[TOOL], s.systems[rival], cllr, DRAWS, np.random.default_rng(3)
                    )
                    text = f"{gap.value:+.3f} ({gap.low:+.2f} to {gap.high:+.2f})"
                    rows.append(
                        [f"{question}: Cllr below that of {rival}", name, text, _met(gap.value < 0)]
                    )
    return rows


def _met(is_met: bool) -> str:
    return "met" if is_met else "**not met**"


def _kinds(world: WorldFound) -> str:
    rows = []
    for question in ASKED_FOR:
        for kind, name in enumerate(KINDS):
            for true in (True, False):
                cases = [
                    a
                    for a in world.scores[question].answers
                    if a.kind == kind and a.truth[question] == true
                ]
                if len(cases) < 5:
                    continue
                tool = np.array([a.tool.ratios[question] for a in cases])
                limit = np.array([a.limit[question] for a in cases if a.limit])
                wrong = ((tool > 2) & (not true)) | ((tool < -2) & true)
                rows.append(
                    [
                        question,
                        name,
                        "true" if true else "false",
                        len(cases),
                        _middle(tool),
                        _middle(limit),
                        f"{wrong.mean():.1%}",
                    ]
                )
    headers = [
        "question",
        "kind of car",
        "in truth",
        "cases",
        "tool: log10 LR",
        "limit",
        "wrong > 100",
    ]
    return table(headers, rows)


def _middle(ratios: np.ndarray) -> str:
    low, middle, high = np.percentile(np.clip(ratios, -9, 9), [10, 50, 90])
    return f"{middle:+.1f} ({low:+.1f} to {high:+.1f})"


def _established(found: Found) -> str:
    rows = []
    for world in found.worlds:
        e = established(world.answers)
        if e.said:
            rows.append(
                [
                    world.world.name,
                    e.said,
                    f"{e.said / len(world.answers):.0%}",
                    f"{e.limit_agrees:.0%}",
                    f"{e.stays:.0%}",
                ]
            )
        else:
            rows.append([world.world.name, 0, "0%", "", ""])
    headers = [
        "world",
        "said of",
        "of all drawn",
        "the limit too is within 3",
        "stays within 3 when all within reach is seen",
    ]
    return table(headers, rows)


def _misled(found: Found) -> str:
    rows = []
    for world in found.worlds:
        for m in world.misled:
            rows.append(
                [
                    m.world,
                    m.number,
                    m.kind,
                    m.question,
                    f"{m.log10_lr:+.1f}",
                    f"{m.low:+.1f} to {m.high:+.1f}",
                    "yes" if m.bounds_hold else "**no**",
                    m.leading,
                    f"{m.limit:+.1f}",
                ]
            )
    headers = [
        "world",
        "case",
        "kind of car",
        "question",
        "log10 LR",
        "bounds",
        "bounds reach even",
        "leading assumption",
        "the limit",
    ]
    return table(headers, rows)


def write_intervals(found: Found, path: Path) -> None:
    """The figures of the plain world with their spread, for the reduced run of the tests."""
    with path.open("w", encoding="utf-8", newline="") as stream:
        out = csv.writer(stream, lineterminator="\n")
        out.writerow(["question", "measure", "cases", "value", "low", "high"])
        for question, scores in found.worlds[0].scores.items():
            for system, name in ((TOOL, "tool"), (LIMIT, "limit")):
                each = interval(scores.systems[system])
                out.writerow(
                    [
                        question,
                        f"cllr {name}",
                        len(scores.answers),
                        *(f"{x:.4f}" for x in (each.value, each.low, each.high)),
                    ]
                )
