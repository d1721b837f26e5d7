"""The books of a case are found, opened and joined, or it is said what is wrong with them."""

from pathlib import Path
from shutil import copytree

from witnessmark.casefile import Casefile, parse_casefile
from witnessmark.codebook import find_book
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.entry import BooksOpened, KnownBooks, books_of, versions_of

BOOK = "tarvane-1952-1961"


def case_of(book: str, *beside: str) -> tuple[Casefile, JsonPlaces]:
    named = f'"book": "{book}", "beside": [{", ".join(f'"{each}"' for each in beside)}]'
    parsed = parse_casefile(
        f'{{"format": "witnessmark-case", "format_version": 2, "id": "sprint", {named}}}', "case"
    )
    assert parsed.casefile is not None
    return parsed.casefile, parsed.places


def test_the_shipped_books_of_a_case_are_one_and_have_versions() -> None:
    """They are opened once for all cases that know them."""
    known: KnownBooks = {}
    found = books_of(*case_of(BOOK, "dated-parts"), known=known)
    assert isinstance(found, BooksOpened)
    version, beside = versions_of(found)
    assert (version.id, [each.id for each in beside]) == (BOOK, ["dated-parts"])
    assert version.sha256 == found.each[0].sha256
    assert books_of(*case_of(BOOK, "dated-parts"), known=known) is found


def test_every_book_beside_that_cannot_be_used_is_told() -> None:
    """Each at its place in the case."""
    found = books_of(*case_of(BOOK, "nowhere", BOOK))
    assert isinstance(found, tuple)
    assert [each.sentence() for each in found] == [
        "'nowhere' is not a code book",
        f"'{BOOK}' is already in use",
    ]
    assert all(each.source.name == "case" and each.source.line == 1 for each in found)


def test_a_case_without_a_folder_opens_shipped_books_alone(tmp_path: Path) -> None:
    """A path in a case that came from elsewhere is no way into this machine."""
    shipped = find_book(BOOK)
    assert shipped is not None
    own = copytree(shipped, tmp_path / "books" / BOOK)
    refused = books_of(*case_of(str(own)))
    assert isinstance(refused, tuple)
    assert [each.sentence() for each in refused] == [f"{str(own)!r} is not a code book"]
    heard: list[Path] = []
    found = books_of(
        *case_of(f"books/{BOOK}"), tmp_path, heeded=lambda _, folder: heard.append(folder)
    )
    assert isinstance(found, BooksOpened)
    assert heard == [own]
