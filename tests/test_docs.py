"""The documents say what the program does: commands, rules, signs and words."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from typer.main import get_command

from witnessmark.agreement.every_rule import RULES, render_rules
from witnessmark.casefile import OriginSaid, SumKind, WorkBy, WorkSaid
from witnessmark.cli.commands import app_of

ROOT = Path(__file__).resolve().parent.parent
DOCS = ROOT / "docs"
PACKAGE = ROOT / "src/witnessmark"
HELP = {"--help", "-h"}


def page(name: str) -> str:
    """The text of a page of docs/."""
    return (DOCS / name).read_text("utf-8")


def commands() -> Iterator[tuple[str, set[str]]]:
    """Every command as it is typed, with its options."""
    for name, found in every_command(get_command(app_of())):
        opts = (o for p in found.params for o in (*p.opts, *p.secondary_opts))
        yield name, {o for o in opts if o.startswith("-")} - HELP


def every_command(command: Any, name: str = "") -> Iterator[tuple[str, Any]]:
    """Each command of a group and of the groups in it, as it is typed."""
    for each, found in command.commands.items():
        if hasattr(found, "commands"):
            yield from every_command(found, f"{name}{each} ")
        else:
            yield name + each, found


def documented() -> dict[str, set[str]]:
    """Every heading of docs/commands.md that names a command, with the options below it."""
    found = {}
    for part in re.split(r"^### ", page("commands.md"), flags=re.M)[1:]:
        heading = re.match(r"`witnessmark ((?:[a-z-]+ ?)+)", part)
        assert heading, part[:60]
        found[heading[1].strip()] = set(
            re.findall(r"^\| `(--[a-z-]+)", part.split("\n## ")[0], re.M)
        )
    return found


def test_every_command_and_option_is_documented_and_no_other():
    """docs/commands.md against the commands themselves."""
    assert documented() == dict(commands())


def test_every_command_is_documented_with_an_example():
    """A block below its heading begins with the command."""
    for part in re.split(r"^### ", page("commands.md"), flags=re.M)[1:]:
        name = re.match(r"`(witnessmark (?:[a-z-]+ ?)+)", part)
        assert name
        assert f"```\n{name[1].strip()}" in part


def test_every_example_of_the_page_is_one_of_the_help_texts_or_the_page_of_its_options():
    """So that each is run by the tests of the help texts."""
    examples = set(re.findall(r"^witnessmark .+$", page("commands.md"), re.M))
    helps = {
        re.sub(r" +", " ", line.strip())
        for _, text in help_texts()
        for line in text.replace("\\\n", " ").splitlines()
    }
    assert examples - helps == {"witnessmark --version"}


def help_texts() -> Iterator[tuple[str, str]]:
    for name, found in every_command(get_command(app_of())):
        yield name, found.help or ""


def test_every_rule_is_documented_as_it_says_itself():
    """docs/rules.md is of today: `make docs` writes the paragraph of each file of the rules."""
    files = {path.stem for path in (PACKAGE / "agreement" / "rules").glob("*.py")} - {"__init__"}
    assert {rule.id for rule in RULES} == files
    assert f"make docs` -->\n{render_rules()}<!-- end of rules" in page("rules.md")


def test_no_module_knows_a_rule_by_its_name():
    """A rule is found in its folder and says itself what it is: nothing else spells its name."""
    names = re.compile("|".join(rf"\b{rule.id}\b" for rule in RULES))
    spelt = {
        path.relative_to(ROOT).as_posix()
        for path in PACKAGE.rglob("*.py")
        if "rules" not in path.parts and names.search(path.read_text("utf-8"))
    }
    assert spelt == set()


@pytest.mark.parametrize("words", [OriginSaid, WorkSaid, WorkBy, SumKind])
def test_every_word_that_a_case_can_choose_is_documented_as_it_says_itself(words):
    """docs/case.md has a row for each, with its sentence."""
    told = [each for each in words if each]
    assert told
    assert [each for each in told if f"| {each} | {each.says} |" not in page("case.md")] == []


@pytest.mark.parametrize("sign", ["?", "~", "_", "…", "[38]", "|"])
def test_every_sign_of_the_notation_is_documented(sign):
    """docs/notation.md shows each sign as it is typed."""
    assert f"`{sign}`" in page("notation.md") or f"`\\{sign}`" in page("notation.md")


def test_the_signs_documented_are_those_that_are_read():
    """The list above is the parser's own."""
    from witnessmark.reading.notation import PLACE_SIGNS

    assert set(PLACE_SIGNS) == {"?", "~", "_", "…"}


def test_every_word_of_the_glossary_is_used():
    """A word in its first column stands somewhere else too; one that nobody uses is dropped."""
    rows = re.findall(r"^\| ([^|]+) \| [^|]* \| [^|]+ \|", page("glossary.md"), re.M)
    terms = {term.strip().lower() for row in rows for term in row.split(",")} - {"word", "---"}
    assert len(terms) > 40
    used = plain_words()
    assert {term for term in terms if term not in used} == set()


def plain_words() -> str:
    """All that is written in the repository but the glossary, names taken apart, lower case."""
    files = [
        path
        for folder in ("src", "docs", "tests")
        for path in (ROOT / folder).rglob("*")
        if path.suffix in (".py", ".md", ".toml")
        and path.name not in ("glossary.md", "test_docs.py")
    ]
    text = " ".join(path.read_text("utf-8") for path in files)
    apart = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text).replace("_", " ")
    return " ".join(apart.lower().split())


def test_every_page_that_a_page_points_to_is_there():
    """Links inside the repository, from the README and from docs/."""
    pages = [*ROOT.glob("*.md"), *DOCS.rglob("*.md")]
    broken = [
        f"{source.relative_to(ROOT)}: {target}"
        for source in pages
        for target in re.findall(r"\]\(([^)#:\s]+)(?:#[^)]*)?\)", source.read_text("utf-8"))
        if not (source.parent / target).exists()
    ]
    assert broken == []
