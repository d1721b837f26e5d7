"""`witnessmark examine CASE... --csv`: many cases in one pass, a row for each question."""

import csv
import io
import os
import sys
from collections.abc import Iterator
from contextlib import redirect_stderr
from dataclasses import dataclass

import typer

from witnessmark.casefile import Casefile
from witnessmark.cli.cases import KnownBooks, checked_case
from witnessmark.cli.terminal import print_line
from witnessmark.examination import quick_answer
from witnessmark.weighing import Answer, weighed
from witnessmark.wording import misfit_sentence

COLUMNS = (
    "case", "question", "about", "lr", "log10_lr", "standing", "misfits", "first_misfit", "stops",
)  # fmt: skip
"""`standing` is empty where there is an answer; `stops` names what makes the car a matter for
the authority; ratios are capped as on a page."""

_BOOKS: KnownBooks = {}
"""The books of the cases so far, by their folders: what is worked out of a book is kept with it."""

AT_ONCE = 8
"""Cases handed to a process together."""


@dataclass(frozen=True, slots=True)
class _CaseRows:
    """What one case gives: its rows as CSV, what stands on the error stream, its exit code."""

    rows: str
    problems: str
    code: int


def examine_table(paths: list[str], jobs: int) -> int:
    """Print the rows of every case, in the order given; gives the exit code: that of a case
    with a problem where there is one."""
    code = 0
    _BOOKS.clear()
    print_line(_as_csv([COLUMNS]).rstrip("\n"))
    for told in _all_told(paths, jobs):
        code = max(code, told.code)
        if told.problems:
            print_line(told.problems.rstrip("\n"), sys.stderr)
        if told.rows:
            print_line(told.rows.rstrip("\n"))
    return code


def _all_told(paths: list[str], jobs: int) -> Iterator[_CaseRows]:
    if jobs == 1 or len(paths) == 1:
        yield from map(_told, paths)
        return
    from concurrent.futures import ProcessPoolExecutor  # late: every command loads this module
    from multiprocessing import get_context

    # New processes and no copies of this one: libraries that hold threads do not survive a copy.
    with ProcessPoolExecutor(jobs, get_context("spawn")) as pool:
        yield from pool.map(_told, paths, chunksize=AT_ONCE)


def _told(path: str) -> _CaseRows:
    """One case; whatever is wrong with it is kept for its row of the error stream."""
    problems, code, rows = io.StringIO(), 0, ""
    with redirect_stderr(problems):
        try:
            rows = _rows_of(path)
        except typer.Exit as end:
            code = end.exit_code
        except Exception as fault:
            if os.environ.get("WITNESSMARK_DEBUG") == "1":
                raise
            code = 1
            said = f"{type(fault).__name__}: {fault}".rstrip(": ")
            print_line(f"{path}: Witnessmark met a fault of its own ({said}).", sys.stderr)
    return _CaseRows(rows, problems.getvalue(), code)


def _rows_of(path: str) -> str:
    checked = checked_case(path, _BOOKS)
    answer = quick_answer(checked.casefile, checked.books.book)
    return _as_csv(list(_rows(checked.casefile, answer)))


def _rows(casefile: Casefile, answer: Answer) -> Iterator[tuple[str, ...]]:
    first = misfit_sentence(answer.misfits[0]) if answer.misfits else ""
    stops = " ".join(dict.fromkeys(each.about for each in answer.stops))
    for each in weighed(answer, None, casefile.circumstances):
        # A figure without its band bears no word, so what is answered or open is not told.
        is_figure = each.standing.has_figure
        yield (
            casefile.id,
            each.question.value,
            each.about,
            # Three figures, never as a power of ten: 0.00345, 6490.
            f"{float(f'{10.0**each.log10_lr:.3g}'):g}" if is_figure else "",
            f"{each.log10_lr:.3f}" if is_figure else "",
            "" if is_figure else each.standing.value,
            str(len(answer.misfits)),
            first,
            stops,
        )


def _as_csv(rows: list[tuple[str, ...]]) -> str:
    lines = io.StringIO()
    csv.writer(lines, lineterminator="\n").writerows(rows)
    return lines.getvalue()
