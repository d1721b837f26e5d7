"""An examiner's own particulars, kept once: what a new case takes its examiner from.

A profile is plain TOML, one line a field. Nothing but `witnessmark profile` and a new case reads
it: a case holds all that its report prints.
"""

import json
from collections.abc import Callable
from dataclasses import dataclass, replace

from witnessmark.casefile.assignment_records import Assignment, Examiner, Signer
from witnessmark.casefile.parse import parse_casefile
from witnessmark.casefile.records import Casefile
from witnessmark.casefile.render import render_casefile
from witnessmark.documents.entries import FileText
from witnessmark.documents.row import named
from witnessmark.documents.toml_entries import TomlReader, read_toml
from witnessmark.problem import Problem
from witnessmark.source import Source


class Profile(Signer, called="a profile"):
    """What an examiner says of themselves in every case."""

    name: str = named("the full name")


FIELDS = tuple(Profile.columns)


@dataclass(frozen=True, slots=True)
class ProfileParsed:
    """A profile, or None and what is wrong with its text."""

    profile: Profile | None
    problems: tuple[Problem, ...] = ()


def parse_profile(text: str, name: str) -> ProfileParsed:
    """Read the text of a profile; `name` is the file as the user would write it."""
    read = read_toml(FileText(name, text.removeprefix("\ufeff")))
    if read.problem is not None:
        return ProfileParsed(None, (read.problem,))
    problems: list[Problem] = []
    entry = TomlReader(read.places, problems).entry(Profile.shape, read.values, ())
    if problems:
        return ProfileParsed(None, tuple(problems))
    typed = {each: entry.values[each] for each in FIELDS if entry.is_written(each)}
    profile = Profile(**typed)  # type: ignore[arg-type]  # each is of its column's kind
    unfit = unfit_profile(profile, entry.source)
    return ProfileParsed(None if unfit else profile, unfit)


def unfit_profile(profile: Profile, source_of: Callable[[str], Source]) -> tuple[Problem, ...]:
    """What no case could hold of it, each with the place that `source_of` gives its field."""
    found: list[Problem] = []
    for name in FIELDS:
        alone = Examiner(id="a", **{"name": "A", name: getattr(profile, name)})
        case = Casefile(id="a", book="a", assignment=Assignment(examiners=(alone,)))
        problems = parse_casefile(render_casefile(case), "").problems
        found += (replace(each, source=source_of(name)) for each in problems[:1])
    return tuple(found)


def examiner_of(profile: Profile) -> Examiner:
    """The examiner of a new case; the last word of the name is the short id."""
    own = {name: getattr(profile, name) for name in FIELDS}
    return Examiner(id=(profile.name.split() or ["examiner"])[-1].casefold(), **own)


def render_profile(profile: Profile) -> str:
    """The profile as TOML, a line for each field that says something."""
    lines = {name: getattr(profile, name) for name in FIELDS}
    # JSON writes texts as TOML does, but for the sign DEL, which no case may hold.
    return "".join(
        f"{name} = {json.dumps(value, ensure_ascii=False)}\n"
        for name, value in lines.items()
        if value is not None and value != ""
    )
