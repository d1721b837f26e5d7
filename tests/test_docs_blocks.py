"""What a page shows is there: its blocks can be read, its commands given, its paths opened."""

import ast
import csv
import json
import re
import shlex
import tomllib
from collections.abc import Iterator
from pathlib import Path

import polib
import pytest

from tests.test_docs import commands

ROOT = Path(__file__).resolve().parent.parent
PAGES = sorted(
    page.relative_to(ROOT).as_posix()
    for page in (*ROOT.glob("*.md"), *(ROOT / "docs").glob("*.md"))
    if page.name != "CHANGELOG.md"  # what it names may be gone since
)
BLOCK = re.compile(r"^(?P<indent> *)```(?P<kind>\w*)\n(?P<text>.*?)^(?P=indent)```", re.M | re.S)
PATH = re.compile(
    r"`((?:src|docs|tests|bin|benchmarks|demo|witnessmark)/[\w./*-]*|\w+(?:/\w+)*/(?:\w+\.\w+)?)`"
)
ROOMS = (ROOT, ROOT / "src/witnessmark", ROOT / "src")
OF_A_READER = ("case.json", "exhibits/", "revisions/", "tables/", "ashgrove", "out/", "FOLDER/")
"""How the paths begin that a reader has or makes."""


def blocks(page: str) -> Iterator[tuple[str, str]]:
    """The kind and the text of each fenced block."""
    for found in BLOCK.finditer((ROOT / page).read_text("utf-8")):
        yield found["kind"], re.sub(f"^{found['indent']}", "", found["text"], flags=re.M)


def typed(page: str) -> Iterator[list[str]]:
    """Each line of a block that calls the program, in words, without its remark."""
    for _, text in blocks(page):
        for line in text.replace("\\\n", " ").splitlines():
            called = re.match(r"(?:\$ )?(?:\.venv/bin/)?witnessmark (.*)", line)
            if called:
                yield shlex.split(re.sub(r" {2,}#.*", "", called[1]))


def check_columns(text: str) -> None:
    """Every line has as many cells as the first."""
    lengths = {len(row) for row in csv.reader(text.splitlines())}
    assert len(lengths) == 1, text


READ = {
    "toml": tomllib.loads,
    "json": json.loads,
    "csv": check_columns,
    "python": ast.parse,
    "po": polib.pofile,
}


@pytest.mark.parametrize("page", PAGES)
def test_every_block_of_a_page_is_what_it_says_it_is(page):
    """Read as its kind is; the lines of a table have its columns."""
    for kind, text in blocks(page):
        if kind in READ:
            READ[kind](text)
        else:
            assert kind in ("", "console", "bash", "make", "text"), f"{kind} is not read"


def test_every_command_that_a_page_shows_is_there_with_its_options():
    """As `witnessmark`, in a block of any kind."""
    known = dict(commands())
    unknown = []
    for page in PAGES:
        for words in typed(page):
            name = next((n for k in (3, 2, 1) if (n := " ".join(words[:k])) in known), None)
            given = {word.partition("=")[0] for word in words if word.startswith("--")}
            if name is None and given <= {"--version", "--help"} and given:
                continue
            if name is None or given - known[name] - {"--help"}:
                unknown.append(f"{page}: witnessmark {' '.join(words)}")
    assert unknown == []


def test_every_path_that_a_page_names_is_there():
    """From the root of the repository, or from the package."""
    broken = [
        f"{page}: {path}"
        for page in PAGES
        for path in PATH.findall((ROOT / page).read_text("utf-8"))
        if not path.startswith(OF_A_READER) and not any(any(room.glob(path)) for room in ROOMS)
    ]
    assert broken == []


def test_every_module_that_a_page_names_is_there():
    """A room and its modules with dots, or a file of Python by its name alone."""
    modules = {path.name for path in ROOT.rglob("*.py")}
    unknown = [
        f"{page}: {name}"
        for page in PAGES
        for name in re.findall(r"`(\w+\.py)`", (ROOT / page).read_text("utf-8"))
        if name not in modules
    ]
    assert unknown == []
