"""`--language FILE`: a document in the language of a translation, which is one file."""

from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.main import get_command

from tests.worked.pdf_pages import text_of
from witnessmark.catalogue import language
from witnessmark.cli.commands import app_of

TRANSLATION = r"""msgid ""
msgstr ""
"Language: de\n"
"Content-Type: text/plain; charset=UTF-8\n"

msgid "the claimed car was built with the claimed {item}"
msgstr "dieses Auto wurde wie angegeben gebaut: {item}"

msgid "Configuration: {item}"
msgstr "Ausführung: {item}"

msgid "{title}, report {report}"
msgstr "{title}, Bericht {report}"

msgid "{day} {month} {year}"
msgstr "am {day}.{month}{year}"

msgid "Without any access: {places}, {minutes}"
msgstr "Ohne Zugang: {places}, {minutes}"
"""


@pytest.fixture
def translation(tmp_path: Path) -> str:
    """A translation of a few sentences, by its name."""
    (tmp_path / "de.po").write_text(TRANSLATION, "utf-8")
    return "de.po"


def pages(path: Path) -> PdfReader:
    return PdfReader(BytesIO(path.read_bytes()))


MESSAGES = ("questions", "letter")
"""They write text to paste."""


def documents() -> list[str]:
    """The commands that write a document to print in a language."""
    found = get_command(app_of()).commands.items()
    options = {name: {o for p in each.params for o in p.opts} for name, each in found}
    return [
        name
        for name, each in options.items()
        if {"--language", "--out"} <= each and name not in MESSAGES
    ]


def test_a_report_is_examined_and_written_in_the_language_of_a_file(
    type_in, demo_folder, tmp_path, translation
):
    """witnessmark report demo/clean --language de.po --out de.pdf"""
    ended = type_in(
        "report", "demo/clean", "--language", translation, "--paper", "letter", "--out", "de.pdf"
    )
    assert (ended.code, ended.out, ended.err) == (0, "de.pdf\nde-annex.pdf\nde-annex.html\n", "")
    text = text_of(tmp_path / "de-annex.pdf")
    assert "Ausführung" in text  # wording
    assert "dieses Auto wurde wie angegeben gebaut" in text  # the Opinion itself
    assert pages(tmp_path / "de.pdf").trailer["/Root"]["/Lang"] == "de"
    assert pages(tmp_path / "de.pdf").metadata.title.endswith(", Bericht 26-034, issue 1")
    assert language() == "en"
    type_in("report", "demo/clean", "--out", "en.pdf")
    assert "The claimed car was built with the claimed model" in text_of(tmp_path / "en.pdf")


@pytest.mark.parametrize("name", documents())
def test_every_document_can_be_written_in_another_language(
    name, type_in, demo_folder, tmp_path, translation
):
    ended = type_in(name, "demo/no-papers", "--language", translation, "--out", "x.pdf")
    assert (ended.code, ended.err) == (0, "")
    assert pages(tmp_path / "x.pdf").trailer["/Root"]["/Lang"] == "de"
    assert language() == "en"


@pytest.mark.parametrize("name", documents())
def test_a_file_that_is_no_translation_is_a_problem_and_nothing_is_written(
    name, type_in, demo_folder, tmp_path
):
    (tmp_path / "x.po").write_text('msgid "1 to {odds}"\nmsgstr "1 zu {quote}"\n', "utf-8")
    (tmp_path / "y.po").write_text('msgid "1 to {odds}"\nmsgstr "1 zu eins"\n', "utf-8")
    for file, told in (
        ("x.po", "x.po:2:14: the translation of '1 to {odds}' has a name in braces"),
        ("y.po", "y.po:2:8: the translation of '1 to {odds}' leaves out a name in braces"),
        ("none.po", "'none.po' cannot be read as a translation"),
        ("demo/clean/case.json", "cannot be read as a translation: it does not begin as one"),
    ):
        ended = type_in(name, "demo/clean", "--language", file, "--out", "x.pdf")
        assert (ended.code, ended.out) == (2, "")
        assert told in ended.err
        assert "expected" in ended.err
    assert not (tmp_path / "x.pdf").exists()


def test_the_documents_are_named():
    assert {"report", "field-sheet", "picture-request"} <= set(documents())
