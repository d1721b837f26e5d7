"""A book under a shipped id that is not the shipped one is never taken for it."""

import json
from pathlib import Path

import pytest

from tests.worked.pdf_pages import page_texts, text_of

ID = "tarvane-1952-1961"


@pytest.fixture
def case_by_other_book(demo_folder, own_book):
    """The clean demonstration car, by a book of the shipped id with one empty line more."""
    folder = demo_folder / "clean" / "mine" / ID
    folder.parent.mkdir()
    own_book.rename(folder)
    table = folder / "tables" / "codes-paint.csv"
    table.write_text(table.read_text("utf-8") + "\n", "utf-8")
    case = demo_folder / "clean" / "case.json"
    document = json.loads(case.read_text("utf-8"))
    document["book"] = f"mine/{ID}"
    case.write_text(json.dumps(document), "utf-8")
    return folder


def told(text):
    """The text in one line."""
    return " ".join(text.split())


def caution(folder):
    """What is said, up to the digest."""
    return (
        f"Caution: the code book in “{folder}” is not the {ID} that comes with this program. It "
        "has the same identifier but different content (SHA-256 "
    )


@pytest.mark.parametrize(
    "line",
    [
        "book show {}",
        "decode {} engine_number 38117",
        "compare {} engine_number=38117 frame_number=38117",
    ],
)
def test_a_command_by_such_a_book_says_so(type_in, case_by_other_book, line):
    """Its folder and digest; the answer stands on the other stream as ever."""
    ended = type_in(*line.format(f"demo/clean/mine/{ID}").split())
    assert told(ended.err).startswith(caution(f"demo/clean/mine/{ID}"))
    assert ended.out


def test_an_opinion_by_such_a_book_says_so_everywhere(type_in, case_by_other_book):
    """On the page, in the JSON, on page one of the report and of its masked copy."""
    page = type_in("examine", "demo/clean")
    assert caution(f"mine/{ID}") in told(page.out)
    assert caution(f"demo/clean/mine/{ID}") in told(page.err)
    opinion = json.loads(type_in("examine", "demo/clean", "--json").out)
    assert opinion["book"]["is_other_than_shipped"]
    for command, folder in (("report", f"mine/{ID}"), ("masked-copy", ID)):
        assert type_in(command, "demo/clean", "--out", f"{command}.pdf").code == 0
        first = page_texts(Path(f"{command}.pdf").read_bytes())[0]
        assert caution(folder) in told(first)


def test_a_supplement_does_not_take_one_for_the_other(type_in, case_by_other_book):
    """Issued by the shipped book, examined again by the other: the supplement tells them apart."""
    case = case_by_other_book.parents[1] / "case.json"
    other = case.read_text("utf-8")
    case.write_text(other.replace(f"mine/{ID}", ID), "utf-8")
    case.with_name("issued.json").write_text(
        type_in("examine", "demo/clean", "--json").out, "utf-8"
    )
    document = json.loads(other)
    document["report"]["issue"] = 2
    case.write_text(json.dumps(document), "utf-8")
    given = ("--supplement-to", "demo/clean/issued.json", "--because", "The book changed.")
    assert type_in("report", "demo/clean", *given, "--out", "supplement.pdf").code == 0
    text = text_of(Path("supplement.pdf"))
    assert "whose content is not that of the shipped book with this identifier" in text


def test_the_shipped_book_is_the_shipped_book_wherever_it_lies(type_in, own_book):
    """A copy byte for byte is that book, and nothing is said."""
    assert type_in("book", "show", str(own_book)).err == ""
    (own_book / "book.toml").write_bytes((own_book / "book.toml").read_bytes() + b"\n")
    assert "Caution" in type_in("book", "show", str(own_book)).err
