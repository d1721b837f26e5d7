"""Every kind of problem says whole sentences that are written out, about its own fields."""

import ast
import inspect
import pkgutil
import sys
from collections.abc import Iterator
from dataclasses import FrozenInstanceError
from enum import Enum
from importlib import import_module
from textwrap import dedent
from types import UnionType
from typing import get_args, get_origin, get_type_hints

import pytest

import witnessmark
from witnessmark.problem import Problem, shown
from witnessmark.source import NOWHERE, Source
from witnessmark.translation import fields_of

for found in pkgutil.walk_packages(witnessmark.__path__, "witnessmark."):
    if "problem" in found.name or found.name.endswith("catalogue"):
        import_module(found.name)


def below(kind: type[Problem]) -> Iterator[type[Problem]]:
    for each in kind.__subclasses__():
        yield each
        yield from below(each)


KINDS = [each for each in below(Problem) if each.__module__.startswith("witnessmark.")]
DECLARED = [each for each in KINDS if "says" in each.__dict__]
VALUES = {str: "{", int: 7, float: 0.5, bool: True, Source: Source("b.csv", 2)}
"""One value of each type of a field; the text would break a sentence that it were part of."""


class Several(Problem):
    """Stands here for every way to fill in a value."""

    text: str
    names: tuple[str, ...]
    counts: tuple[int, ...]
    character: str
    other: Source
    says = "{text} is {text!r} or {text!q}, {names!l}: {names!n}, {counts!o}"
    wants = "{character!u} at {other!p}, not 0x{byte:02X}"

    @property
    def byte(self) -> int:
        """A value that follows from the fields."""
        return ord(self.character)


def test_a_sentence_is_filled_with_the_fields_of_its_record():
    problem = Several(NOWHERE, "{0}" * 30, ("a", "{b}"), (1, 2), "\n", Source("x.toml", 3))
    long = "{0}" * 19 + "{0…"
    assert problem.sentence() == (
        f"{'{0}' * 30} is {'{0}' * 30!r} or {long[:59] + '…'!r}, a, {{b}}: 2, 1 or 2"
    )
    assert problem.expected() == "U+000A at x.toml:3, not 0x0A"


def test_a_value_is_shown_in_quotes_and_never_longer_than_sixty_characters():
    assert shown("a'b") == '"a\'b"'
    assert shown("x" * 60) == repr("x" * 60)
    assert shown("x" * 61) == repr("x" * 59 + "…")


def test_a_kind_of_problem_is_a_frozen_record():
    problem = Several(NOWHERE, "a", (), (), "b", NOWHERE)
    assert problem == Several(NOWHERE, "a", (), (), "b", NOWHERE)
    assert "text='a'" in repr(problem)
    with pytest.raises(FrozenInstanceError):
        problem.text = "b"


def test_there_are_kinds_in_every_room_that_reads():
    assert len(DECLARED) > 150
    rooms = {each.__module__.split(".")[1] for each in DECLARED}
    assert rooms >= {"casefile", "codebook", "reading", "examination", "cli", "translation"}


@pytest.mark.parametrize("kind", DECLARED, ids=lambda kind: f"{kind.__module__}.{kind.__name__}")
def test_what_a_kind_says_is_written_out_and_names_what_the_record_has(kind):
    """So that the catalogue can find it, and a translator sees the whole of it."""
    written = list(sentences(kind))
    assert written
    for sentence in written:
        named = fields_of(sentence)
        assert named is not None, sentence
        for name in named:
            plain = name.split("!")[0].split(":")[0]
            assert plain in get_type_hints(kind) or isinstance(
                inspect.getattr_static(kind, plain), property | int
            ), sentence
    record = kind(*map(value_of, field_types(kind)))
    assert record.says in written
    assert record.sentence()
    assert isinstance(record.expected(), str)


def sentences(kind: type[Problem]) -> Iterator[str]:
    """All that the class body and its bases' write out under `says` or `wants`."""
    for each in kind.__mro__[: kind.__mro__.index(Problem)]:
        (body,) = ast.parse(dedent(inspect.getsource(each))).body
        assert isinstance(body, ast.ClassDef)
        for line in body.body:
            match line:
                case ast.Assign(targets=[ast.Name(id=name)], value=value) if is_said(name):
                    yield from texts(value, each)
                case ast.FunctionDef(name=name) if is_said(name):
                    for part in ast.walk(line):
                        if isinstance(part, ast.Return) and part.value is not None:
                            yield from texts(part.value, each)


def is_said(name: str) -> bool:
    return name.split("_")[0] in ("says", "wants")


def texts(value: ast.expr, kind: type[Problem]) -> Iterator[str]:
    """The texts that an expression chooses between, or a constant; nothing else may stand there."""
    match value:
        case ast.Constant(value=str(text)):
            yield text
        case ast.IfExp(body=first, orelse=second):
            yield from texts(first, kind)
            yield from texts(second, kind)
        case ast.Name(id=name) if name.isupper():
            yield vars(sys.modules[kind.__module__])[name]
        case ast.Attribute(attr=name) if is_said(name):
            pass  # another text of the class, which is found where it stands
        case _:
            raise AssertionError(f"not written out: {ast.unparse(value)}")


def field_types(kind: type[Problem]) -> list[object]:
    return list(get_type_hints(kind).values())


def value_of(hint: object) -> object:
    """A value of this type, with braces in it where it is text."""
    if get_origin(hint) is tuple:
        return (value_of(get_args(hint)[0]),)
    if isinstance(hint, UnionType):
        return value_of(get_args(hint)[0])
    if isinstance(hint, type) and issubclass(hint, Enum):
        return next(iter(hint))
    return VALUES[hint]
