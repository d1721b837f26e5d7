"""The JSON Schema for editors says what the parser says."""

import json
import re
import tomllib
from datetime import date
from pathlib import Path

import jsonschema
import pytest

from witnessmark.codebook import book_schema, shipped_books
from witnessmark.codebook.book_format import render_tables

FILE = Path(__file__).resolve().parents[2] / "docs/schema/book.schema.json"
PAGE = FILE.parents[1] / "codebook.md"
RENEW = "renew it with bin/schemas"


def as_json(value):
    """A TOML document as an editor's schema service sees it: days are texts."""
    return json.loads(json.dumps(value, default=date.isoformat))


def faults(text):
    """What the schema finds in a book.toml."""
    validator = jsonschema.Draft202012Validator(book_schema())
    return [error.message for error in validator.iter_errors(as_json(tomllib.loads(text)))]


def test_the_published_file_is_up_to_date():
    text = json.dumps(book_schema(), indent=2, ensure_ascii=False)
    assert FILE.read_text("utf-8") == f"{text}\n", RENEW


def test_it_is_a_schema():
    jsonschema.Draft202012Validator.check_schema(book_schema())


def test_it_finds_nothing_in_a_book_without_fault(tiny):
    assert faults(tiny.top) == []


@pytest.mark.parametrize("folder", shipped_books(), ids=lambda folder: folder.name)
def test_it_finds_nothing_in_the_books_that_are_shipped(folder):
    assert faults((folder / "book.toml").read_text("utf-8")) == []


def test_it_finds_what_the_parser_finds(tiny):
    changed = (
        tiny.change("book", "length = 6", 'length = "6"')
        .change("book", 'carried = "plate"', 'carried = "wall"')
        .change("book", "always_struck = true", "always_strukc = true")
    )
    assert len(faults(changed.top)) == len(changed.parsed().problems) == 3


def test_every_key_is_explained():
    """An editor shows the description beside each key."""

    def bare(schema, path=""):
        for name, inner in schema.get("properties", {}).items():
            if not inner.get("description"):
                yield f"{path}.{name}"
            yield from bare(inner, f"{path}.{name}")
            yield from bare(inner.get("items", {}), f"{path}.{name}")

    assert list(bare(book_schema())) == []


def test_the_page_of_the_format_says_what_the_rows_declare():
    """docs/codebook.md holds what `make docs` writes of every table and column."""
    assert f"make docs` -->\n{render_tables()}<!-- end" in PAGE.read_text("utf-8")


def test_what_a_table_holds_is_said_in_whole_sentences():
    told = re.findall(r"^\*\*\w+\.csv\*\*: (.*)$", PAGE.read_text("utf-8"), re.M)
    assert len(told) > 10
    assert [each for each in told if not each.endswith(".")] == []
