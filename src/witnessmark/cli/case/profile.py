"""`witnessmark profile`: what an examiner says of themselves in every case, kept once."""

import os
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Any

import typer

from witnessmark.casefile.problems import CaseUnreadable
from witnessmark.casefile.profile import (
    FIELDS,
    Profile,
    parse_profile,
    render_profile,
    unfit_profile,
)
from witnessmark.catalogue import said
from witnessmark.cli.arguments import option
from witnessmark.cli.problems import NotWritable, typed, why
from witnessmark.cli.terminal import known, print_line, print_outline, refuse
from witnessmark.cli.writing import read_named, write_or_refuse
from witnessmark.documents.utf8 import decode_text
from witnessmark.entry import NotAllowed
from witnessmark.outline.records import Fact, Facts, Outline
from witnessmark.source import Source
from witnessmark.wording.case_words import field_word

HELP = """Each option sets one line and leaves the others as they are; an empty text clears it.
A new case takes its examiner from here, and holds all that its report prints: cases that
are there do not change. Without an option, or with --show, the profile is printed.

\b
Example:
  witnessmark profile --name "Ines Calder" --firm "Calder & Brook" --fee-independent
"""

MOST_BYTES = 1_000_000
INTEREST = "--interest"
"""The option for a field that has a longer name in the case."""


def profile_path() -> Path:
    """Where it is kept: in the folder that the system has for a program's settings.

    A folder that is not named from the root counts as not named, as the XDG rules say.
    """
    folder = Path(typer.get_app_dir("witnessmark"))
    if not folder.is_absolute():
        folder = Path(os.path.expanduser("~/.config"), "witnessmark")
    path = folder / "profile.toml"
    if not path.is_absolute():
        told = "no home folder is known to this system"
        refuse((NotWritable(Source(""), str(path), told),))
    return path


def kept_profile() -> Profile | None:
    """The profile, or None where none is kept; one that is at fault ends the command."""
    path = profile_path()
    try:
        content = read_named(path, MOST_BYTES)
    except (FileNotFoundError, NotADirectoryError):
        return None
    except OSError as fault:
        refuse((CaseUnreadable(Source(str(path)), why(fault)),))
    parsed = parse_profile(known(decode_text(content, str(path))), str(path))
    if parsed.problems:
        refuse(parsed.problems)
    return parsed.profile


def profile(
    name: Annotated[str | None, option("NAME", "Full name.")] = None,
    qualifications: Annotated[str | None, option("TEXT", "What qualifies you.")] = None,
    firm: Annotated[str | None, option("NAME", "The firm that reports.")] = None,
    address: Annotated[str | None, option("TEXT", "Its address.")] = None,
    telephone: Annotated[str | None, option("NUMBER", "Its telephone number.")] = None,
    declared_interest: Annotated[
        str | None,
        typer.Option(INTEREST, metavar="TEXT", help="Interest in cars, sales or owners."),
    ] = None,
    compensation: Annotated[str | None, option("TEXT", "How the fee is worked out.")] = None,
    fee_depends: Annotated[
        bool | None,
        typer.Option(
            "--fee-depends/--fee-independent",
            help="Whether the fee depends on what is concluded, on a value or on a sale.",
        ),
    ] = None,
    show: Annotated[bool, typer.Option("--show", help="Print the profile.")] = False,
    forget: Annotated[bool, typer.Option("--forget", help="Delete the profile.")] = False,
) -> None:
    """Set, print or delete the profile."""
    given: dict[str, Any] = {
        each: value.strip() if isinstance(value, str) else value
        for each, value in locals().items()
        if each in FIELDS and value is not None
    }
    if forget:
        if given or show:
            wanted = "--forget alone"
            refuse((NotAllowed(Source("--forget"), "--forget", "deletes the profile", wanted),))
        _forget()
        return
    if given:
        _keep(given)
    _print(kept_profile())


def _keep(given: dict[str, Any]) -> None:
    """Write the profile with these fields otherwise, or end the command with all problems."""
    before = kept_profile()
    now = replace(before or Profile(name=""), **given)
    if problems := unfit_profile(now, lambda name: _option(name, given)):
        refuse(problems)
    path = profile_path()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as fault:
        refuse((NotWritable(Source(""), str(path), why(fault)),))
    write_or_refuse(path, render_profile(now).encode())


def _option(field: str, given: dict[str, Any]) -> Source:
    """The option that sets a field, with what was typed for it."""
    option = INTEREST if field == "declared_interest" else f"--{field}"
    return typed(option, str(given.get(field, ""))[:60])


def _forget() -> None:
    path = profile_path()
    try:
        path.unlink()
    except (FileNotFoundError, NotADirectoryError):
        print_line(said("No profile is kept in {path}.", path=path))
        return
    except OSError as fault:
        refuse((NotWritable(Source(""), str(path), why(fault)),))
    with suppress(OSError):  # of others, or not empty
        path.parent.rmdir()
    print_line(said("The profile is deleted: {path}.", path=path))


def _print(kept: Profile | None) -> None:
    path = profile_path()
    if kept is None:
        print_line(said("No profile is kept in {path}.", path=path))
        return
    print_outline(
        Outline(said("Profile, kept in {path}", path=path), (Facts(tuple(_facts(kept))),))
    )


def _facts(kept: Profile) -> Iterator[Fact]:
    for name in FIELDS:
        value = getattr(kept, name)
        if isinstance(value, bool):
            value = said("yes") if value else said("no")
        if value:
            yield Fact(field_word(name), value)
