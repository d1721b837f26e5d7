"""From the text of a case to a `Casefile`, with everything that is wrong at once."""

import json
from dataclasses import dataclass, replace
from typing import Any

from witnessmark.casefile.check import check_case
from witnessmark.casefile.records import FORMAT, FORMAT_VERSION, Casefile
from witnessmark.casefile.upgrade import changes_from_format_1, unknown_originals
from witnessmark.documents.changes import OLD_VERSION, FormatChange, with_changes
from witnessmark.documents.json_places import JsonPlaces, places_of
from witnessmark.documents.json_rows import JsonRows, json_kind
from witnessmark.documents.json_scan import MOST_PROBLEMS, JsonScan, scan_json
from witnessmark.documents.problems import WrongFormat, WrongVersion
from witnessmark.documents.problems_json import (
    FieldMissing,
    FieldWrongKind,
    NotAnObject,
    TooLarge,
    TooManyProblems,
)
from witnessmark.problem import Problem
from witnessmark.source import Source

MOST_MEGABYTES = 5
"""Largest text of a case, in millions of bytes (and of characters)."""


@dataclass(frozen=True, slots=True)
class CaseParsed:
    """A case as far as its text gave one.

    `casefile` is None where its text or its fields are at fault. It is there
    where only what the fields say of each other is, so that later rooms can
    add what they find; with any problem at all nothing should be concluded
    from it. `places` finds every value in the text. `changes` is what stands otherwise
    in the casefile than in a text of the format before; empty for one of the present.
    """

    casefile: Casefile | None
    problems: tuple[Problem, ...]
    places: JsonPlaces
    changes: tuple[FormatChange, ...] = ()


def parse_casefile(text: str, name: str) -> CaseParsed:
    """Read the text of a case; `name` is the file as the user would write it.

    Never raises for any text. A byte order mark at the start is overlooked.
    """
    text = text.removeprefix("\ufeff")
    if len(text) > MOST_MEGABYTES * 1_000_000:
        problem = TooLarge(Source(name), MOST_MEGABYTES)
        return CaseParsed(None, (problem,), places_of(name, ""))
    scan = scan_json(text, name)
    if scan.readable is None:
        return CaseParsed(None, scan.problems, scan.places)
    foreign = _foreign(scan.places)
    if foreign:
        return CaseParsed(None, (*scan.problems, *foreign), scan.places)
    if scan.places.typed(("format_version",)) == str(OLD_VERSION):
        return _read_old(scan, scan.readable)
    return _read_fields(scan, json.loads(scan.readable))


class NotACaseError(ValueError):
    """Values that are no case; its text is the first thing that is wrong."""


def case_from(document: object) -> Casefile:
    """The case in these values, as JSON gives them; `NotACaseError` where they are none.

    Without a format and a version they are taken as being of the present one.
    """
    if isinstance(document, dict):
        document = {"format": FORMAT, "format_version": FORMAT_VERSION} | document
    parsed = parse_casefile(json.dumps(document), "casefile")
    if parsed.casefile is None:
        raise NotACaseError(parsed.problems[0].sentence())
    return parsed.casefile


def _read_old(scan: JsonScan, readable: str) -> CaseParsed:
    """A case of the format before, read as if it had been brought over; places are its own."""
    document = json.loads(readable)
    changes = changes_from_format_1(document)
    faults = tuple(
        FieldWrongKind(
            scan.places.source(path),
            "original",
            json_kind(scan.places.typed(path)),
            "true or false, or null",
        )
        for path in unknown_originals(document)
    )
    parsed = _read_fields(scan, with_changes(document, changes), faults)
    return replace(parsed, changes=changes)


def _foreign(places: JsonPlaces) -> tuple[Problem, ...]:
    """Why this is not a case of our version: its fields would then only confuse."""
    if not places.typed(()).startswith("{"):
        return (NotAnObject(places.source(()), json_kind(places.typed(()))),)
    problems: list[Problem] = []
    for name in ("format", "format_version"):
        source, typed = places.source((name,)), places.typed((name,))
        if not typed:
            problems.append(FieldMissing(source, name, Casefile.fields_declared()[name].key.about))
        elif name == "format" and typed != f'"{FORMAT}"':
            problems.append(WrongFormat(source, typed.strip('"'), "case", f'"format": "{FORMAT}"'))
        elif name != "format" and typed not in (str(FORMAT_VERSION), str(OLD_VERSION)):
            problems.append(_wrong_version(source, typed))
    return tuple(problems)


def _wrong_version(source: Source, typed: str) -> Problem:
    if typed.isdecimal() and len(typed) < 20:
        return WrongVersion(source, typed, FORMAT_VERSION, f'"format_version": {FORMAT_VERSION}')
    wanted = f"the whole number {FORMAT_VERSION}"
    return FieldWrongKind(source, "format_version", json_kind(typed), wanted)


def _read_fields(scan: JsonScan, document: Any, faults: tuple[Problem, ...] = ()) -> CaseParsed:
    rows = JsonRows(scan.places, scan.patched)
    casefile = rows.row(Casefile, document)
    problems = [*scan.problems, *faults]
    is_sound = not problems
    problems += rows.problems() if casefile is None else check_case(casefile, scan.places)
    return CaseParsed(casefile if is_sound else None, _shortened(problems), scan.places)


def _shortened(problems: list[Problem]) -> tuple[Problem, ...]:
    """As many problems as anybody reads, in the order of their places."""

    def order(problem: Problem) -> tuple[int, int]:
        return (problem.source.line or 0, problem.source.column or 0)

    ordered = sorted(problems, key=order)
    if len(ordered) <= MOST_PROBLEMS:
        return tuple(ordered)
    kept = ordered[:MOST_PROBLEMS]
    last = kept[-1].source
    return (*kept, TooManyProblems(Source(last.name, last.line), MOST_PROBLEMS))
