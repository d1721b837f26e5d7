"""What is typed to enter something: pairs around an equals sign, and options of the entries."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Annotated

import typer

from witnessmark.cli.arguments import option
from witnessmark.cli.problems import NotAPair, typed
from witnessmark.codebook import CodeBook
from witnessmark.entry import WORDS, Entered, EnteredPair, claimed_items, in_words
from witnessmark.problem import Problem
from witnessmark.source import Source

By = Annotated[str, option("WHO", "Who saw it: an examiner’s id or a name.")]
When = Annotated[str, option("MOMENT", "When, such as 2025-03-14T10:30.")]
SeenHow = Annotated[str, option("HOW", "in person (the default), photograph, copy or told.")]
Again = Annotated[
    bool,
    typer.Option("--again", help="Looked at again after something did not fit, or blind."),
]
Photos = Annotated[list[str] | None, option("ID", "An exhibit that shows it; may be repeated.")]
Note = Annotated[str, option("TEXT", "Anything else, in words.")]


def pairs_of(
    texts: Iterable[str], form: str, example: str, problems: list[Problem]
) -> Iterator[EnteredPair]:
    """Each text as a pair of this form; one that is none adds to the problems."""
    for text in texts:
        left, equals, right = text.partition("=")
        if equals and left.strip() and right.strip():
            yield EnteredPair(
                part(form, text, 0, len(left)), part(form, text, len(left) + 1, len(text))
            )
        else:
            problems.append(NotAPair(typed(form, text), text, form, example))


def claims_of(
    book: CodeBook,
    claims: Iterable[str],
    problems: list[Problem],
    standing: Mapping[str, str] | None = None,
) -> dict[str, Entered]:
    """Each --claim ITEM=VALUE by the item's id, the value as the book has it; what is no such
    pair, or claims an item again, adds to the problems. Beside what stands in a case already an
    item may be claimed no longer."""
    pairs = _claim_pairs(claims, problems, may_be_empty=standing is not None)
    return claimed_items(book, pairs, problems, standing)


def _claim_pairs(
    claims: Iterable[str], problems: list[Problem], may_be_empty: bool
) -> Iterator[EnteredPair]:
    for claim in claims:
        name, equals, value = (each.strip() for each in claim.partition("="))
        source = typed("--claim", claim)
        if equals and name and (value or may_be_empty):
            yield EnteredPair(Entered(name, source), Entered(value, source))
        else:
            problems.append(NotAPair(source, claim, "ITEM=VALUE"))


def part(argument: str, text: str, start: int, end: int) -> Entered:
    """A stretch of an argument without the spaces at its ends, and where it was typed."""
    piece = text[start:end]
    start += len(piece) - len(piece.lstrip())
    return Entered(piece.strip(), typed(argument, text, start + 1, max(1, len(piece.strip()))))


OF_FIELD = {"exhibits": "--photo", "asked_in_vain": "--asked"}
"""The options that are not called as the field that they fill."""


def options(**given: object) -> dict[str, Entered]:
    """The fields for which something was given, each with the option that was typed."""
    found = {}
    for name, value in given.items():
        if value not in ("", None, [], False):
            named = OF_FIELD.get(name) or f"--{name.replace('_', '-')}"
            source = typed(named, value) if isinstance(value, str) else Source(named)
            entered = Entered(value, source)
            found[name] = in_words(entered, WORDS[name]) if name in WORDS else entered
    return found
