"""`witnessmark decode --column`: many readings of one mark, one on each line of a file."""

import json as machine
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import batched, groupby
from pathlib import Path

from witnessmark.answers.decoded import Decoded, answers_to, render_decoded
from witnessmark.answers.decoded_page import one_line
from witnessmark.answers.meanings import CLEAR, merged, shortened, told_of
from witnessmark.catalogue import for_any_page, percent, said, voiced
from witnessmark.cli.problems import typed
from witnessmark.cli.terminal import page_width, print_json, print_line, refuse
from witnessmark.cli.writing import read_named
from witnessmark.codebook import CarContext, CodeBook, Mark
from witnessmark.decoding.render import render_problem
from witnessmark.entry import NotAllowed, found_marks, mark_read, unknown_mark
from witnessmark.problem import Problem
from witnessmark.source import Source

MOST_BYTES = 50_000_000
"""A larger file is not a column of readings."""

AT_ONCE = 200
"""Lines that are printed together."""

WIDEST_READING = 30
"""Of a longer reading its beginning stands in a line of the page."""


def decode_column(
    book: CodeBook, mark_name: str, file: str, given: CarContext, as_json: bool
) -> tuple[Problem, ...]:
    """Print one line for each reading; gives the problems of all, each with its line.

    A JSON line has the shape of one reading, with its `line` in front and without the
    remarks, which are those of the mark.
    """
    problems: list[Problem] = []
    mark_of = _mark_of(book, mark_name, given)
    for lines in batched(_readings(file), AT_ONCE):
        told = []
        for mark, of_mark in groupby(lines, key=lambda line: mark_of(line[1])):
            places = [(Source(file, number), text) for number, text in of_mark]
            if mark is None:
                for at, text in places:
                    place = replace(at, column=1, width=len(text), text=text)
                    problems.append(
                        unknown_mark(book, mark_name, text, place, given, year="--year")
                    )
                continue
            with for_any_page():
                answers = list(answers_to(book, mark, [text for _, text in places], given))
            for (place, _), answer in zip(places, answers, strict=True):
                problems += [_at(each, place) for each in answer.problems]
                told.append(_json_line(answer, place) if as_json else _page_line(voiced(answer)))
        if told:
            (print_json if as_json else print_line)("\n".join(told))
    return tuple(problems)


def _mark_of(book: CodeBook, name: str, given: CarContext) -> Callable[[str], Mark | None]:
    """The mark of which each text is a reading: the same for all where one mark has the name."""
    called = found_marks(book, name, given)
    if len(called) == 1:
        return lambda _: called[0]
    return lambda text: mark_read(book, name, text, given)


def _at(problem: Problem, place: Source) -> Problem:
    """A problem of one line at its place in the file."""
    return replace(problem, source=replace(problem.source, name=place.name, line=place.line))


def _readings(file: str) -> Iterator[tuple[int, str]]:
    """Each line that holds a reading, with its number from 1."""
    try:
        content = sys.stdin.buffer.read() if file == "-" else read_named(Path(file), MOST_BYTES)
        text = content.decode("utf-8-sig")
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "it is not UTF-8 text"
        reason = f"cannot be read: {reason}"
        refuse((NotAllowed(typed("--column", file), file, reason, "a file, or - for stdin"),))
    for number, line in enumerate(text.split("\n"), start=1):
        if line.strip():
            yield number, line.removesuffix("\r")


def _json_line(answer: Decoded, place: Source) -> str:
    told = {"line": place.line} | render_decoded(answer)
    told["problems"] = [render_problem(_at(each, place)) for each in answer.problems]
    del told["remarks"]
    return machine.dumps(told, ensure_ascii=False)


def _page_line(answer: Decoded) -> str:
    """The reading and what it says, as much as stands on one line."""
    decoding, names = answer.decoding, answer.names
    if answer.problems:
        told = answer.problems[0].sentence()
    elif decoding.slip is not None:
        told = decoding.slip.sentence
    elif not decoding.alternatives:
        told = said("undecoded")
    else:
        first = merged(decoding.alternatives)[0]
        meanings = (told_of(names[field.field], field) or field.code for field in first.fields)
        share = f"{percent(first.share)}: " if first.share < CLEAR else ""
        told = share + "; ".join(meanings)
    reading = shortened(one_line(decoding.reading.as_typed), WIDEST_READING)
    return shortened(f"{reading}  {one_line(told)}", page_width())
