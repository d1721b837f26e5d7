"""`witnessmark examine CASE CASE...`: many cases in one pass, a row for each, on the screen or as a
CSV file."""

import csv
import io
import os
import sys
from collections.abc import Iterator
from contextlib import redirect_stderr
from dataclasses import dataclass
from pathlib import Path

import typer

from witnessmark.cli.cases import checked_case
from witnessmark.cli.terminal import print_line, print_outline
from witnessmark.cli.writing import refuse_what_is_not_ours, write_or_refuse
from witnessmark.entry import KnownBooks
from witnessmark.examination import quick_answer
from witnessmark.outline.records import Outline, Paragraph, Table, TableCell
from witnessmark.weighing import Asked, weighed
from witnessmark.wording import lr_text, misfit_sentence

COLUMNS = ("case", "path", "title", "book", "misfits", "first_misfit", "stops")
"""`stops` names what makes the car a matter for the authority. Behind them stands a column for
each question that any of the cases asks: its ratio, capped as on a page, or that it has none."""

_BOOKS: KnownBooks = {}
"""The books of the cases so far, by their folders: what is worked out of a book is kept with it."""

AT_ONCE = 8
"""Cases handed to a process together."""


@dataclass(frozen=True, slots=True)
class _Ratio:
    """One question of a case: what it asks, the ratio, or the standing of one without."""

    question: Asked
    about: str
    log10_lr: float | None
    standing: str

    @property
    def name(self) -> str:
        return f"{self.question.value} {self.about}"

    def cell(self) -> str:
        """Three figures, never as a power of ten: 0.00345, 6490."""
        if self.log10_lr is None:
            return self.standing
        return f"{float(f'{10.0**self.log10_lr:.3g}'):g}"


@dataclass(frozen=True, slots=True)
class _CaseRow:
    """One case: what stands in the columns that all cases have, and its ratios."""

    texts: tuple[str, ...]
    ratios: tuple[_Ratio, ...]


@dataclass(frozen=True, slots=True)
class _CaseTold:
    """What one case gives: its row, what stands on the error stream, its exit code."""

    row: _CaseRow | None
    problems: str
    code: int


def examine_table(paths: list[str], jobs: int, file: str) -> int:
    """Print a row for every case, in the order given, or write it to a CSV file (- is stdout);
    gives the exit code: that of a case with a problem where there is one."""
    if file and file != "-":
        opening = ",".join(COLUMNS).encode()
        refuse_what_is_not_ours(Path(file), opening, "a table of cases", "--csv")
    code, rows = 0, []
    _BOOKS.clear()
    for told in _all_told(paths, jobs):
        code = max(code, told.code)
        if told.problems:
            print_line(told.problems.rstrip("\n"), sys.stderr)
        rows += [told.row] if told.row is not None else []
    if not file:
        print_outline(_page(rows))
    elif file == "-":
        print_line(_as_csv(rows).rstrip("\n"))
    else:
        write_or_refuse(Path(file), _as_csv(rows).encode())
        print_line(file)
    return code


def _all_told(paths: list[str], jobs: int) -> Iterator[_CaseTold]:
    if jobs == 1 or len(paths) == 1:
        yield from map(_told, paths)
        return
    from concurrent.futures import ProcessPoolExecutor  # late: every command loads this module
    from multiprocessing import get_context

    # New processes and no copies of this one: libraries that hold threads do not survive a copy.
    with ProcessPoolExecutor(jobs, get_context("spawn")) as pool:
        yield from pool.map(_told, paths, chunksize=AT_ONCE)


def _told(path: str) -> _CaseTold:
    """One case; whatever is wrong with it is kept for its place on the error stream."""
    problems, code, row = io.StringIO(), 0, None
    with redirect_stderr(problems):
        try:
            row = _row_of(path)
        except typer.Exit as end:
            code = end.exit_code
        except Exception as fault:
            if os.environ.get("WITNESSMARK_DEBUG") == "1":
                raise
            code = 1
            said = f"{type(fault).__name__}: {fault}".rstrip(": ")
            print_line(f"{path}: Witnessmark met a fault of its own ({said}).", sys.stderr)
    return _CaseTold(row, problems.getvalue(), code)


def _row_of(path: str) -> _CaseRow:
    checked = checked_case(path, _BOOKS)
    casefile = checked.casefile
    answer = quick_answer(casefile, checked.books.book)
    first = misfit_sentence(answer.misfits[0]) if answer.misfits else ""
    stops = " ".join(dict.fromkeys(each.about for each in answer.stops))
    return _CaseRow(
        (
            casefile.id,
            path,
            casefile.title,
            casefile.book,
            str(len(answer.misfits)),
            first,
            stops,
        ),
        tuple(
            _Ratio(
                each.question,
                each.about,
                each.log10_lr if each.standing.has_figure else None,
                each.standing.value,
            )
            for each in weighed(answer, None, casefile.circumstances)
        ),
    )


def _page(rows: list[_CaseRow]) -> Outline:
    """The identity, the lowest of the other ratios, and how much does not fit."""
    head = ("Case", "Identity", "Lowest of the others", "Does not fit")
    table = Table(head, tuple(map(_shown, rows)), (3, 1.2, 3, 2), is_dense=True)
    more = "Ratios at base rates, without bands: one CASE alone says how steady each is."
    return Outline(f"{len(rows)} cases", (table, Paragraph(more, "quiet")))


def _shown(row: _CaseRow) -> tuple[TableCell, ...]:
    case, _, _, _, misfits, _, stops = row.texts
    bearers = [each for each in row.ratios if each.question is Asked.IDENTITY]
    others = [
        (each.log10_lr, each.about)
        for each in row.ratios
        if each.question is not Asked.IDENTITY and each.log10_lr is not None
    ]
    lowest = min(others, default=None)
    told = (lr_text(e.log10_lr) if e.log10_lr is not None else e.standing for e in bearers)
    return (
        TableCell(case, tone="against" if stops else ""),
        TableCell(", ".join(told)),
        TableCell(f"{lowest[1].replace('_', ' ')} {lr_text(lowest[0])}" if lowest else ""),
        TableCell(f"{misfits}; the authority first" if stops else misfits),
    )


def _as_csv(rows: list[_CaseRow]) -> str:
    asked = list(dict.fromkeys(each.name for row in rows for each in row.ratios))
    lines = io.StringIO()
    writer = csv.writer(lines, lineterminator="\n")
    writer.writerow([*COLUMNS, *asked])
    for row in rows:
        cells = {each.name: each.cell() for each in row.ratios}
        writer.writerow([*row.texts, *(cells.get(name, "") for name in asked)])
    return lines.getvalue()
