"""The books: read by everybody who is in, brought and changed by the owner alone."""

import io
import zipfile
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from witnessmark.answers.book_rows import rows_of, tables_of
from witnessmark.bookmaking.new_book import NewBook, render_new_book
from witnessmark.codebook import shipped_books
from witnessmark.web.books import upload
from witnessmark.web.shared import books
from witnessmark.web.shared.shelf import on_shelf

TARVANE = "tarvane-1952-1961"
OWN = "club-1950-1952"
CODES = "tables/codes.csv"
SOUND = render_new_book(
    NewBook(
        id=OWN,
        maker="Club",
        title="Club cars",
        first_year=1950,
        last_year=1952,
        version="2026-01-01",
    )
)
"""The texts of a small sound book."""
UNSOUND = SOUND | {CODES: SOUND[CODES].replace("Black,,,,,,invented", "Black,,,,,,hearsay")}
PAINT = "paints,07,signal-red,Signal Red,,1951,1952,,,invented,example"


def zipped(files: dict[str, str | bytes], above: str = "book/") -> SimpleUploadedFile:
    """The zip of a book's folder."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(f"{above}{name}", content)
    return SimpleUploadedFile("book.zip", stream.getvalue())


def one_by_one(files: dict[str, str]) -> list[SimpleUploadedFile]:
    """The files as a browser sends them, without their folders."""
    return [
        SimpleUploadedFile(name.rpartition("/")[2], text.encode()) for name, text in files.items()
    ]


def bring(browser, *files: SimpleUploadedFile, to: str = "/books/bring"):
    """Send these files through the form."""
    return browser.post(to, {"files": list(files)})


@pytest.fixture
def own(owner):
    """The owner's browser, with a sound book of the workshop's own in its place."""
    assert bring(owner, zipped(SOUND)).status_code == 302
    return owner


# ------------------------------------------------------------------- read


@pytest.mark.parametrize("name", [TARVANE, "seventeen-characters"])
def test_every_page_of_a_book_opens(owner, name):
    book = on_shelf(name).book
    pages = ["", "/coverage", "/whole", f"/marks/{book.marks[0].id}", f"/items/{book.items[0].id}"]
    pages += [f"/tables/{each.name}" for each in tables_of(book)]
    for page in pages:
        assert owner.get(f"/books/of/{name}{page}").status_code == 200, page
    for page in ("/tables/summary", "/marks/none", "/items/none", "/propose/book.toml", "/import"):
        assert owner.get(f"/books/of/{name}{page}").status_code == 404, page


@pytest.mark.parametrize("folder", shipped_books(), ids=lambda each: each.name)
def test_each_row_of_each_table_is_called_something_and_says_on_what_it_rests(folder):
    book = on_shelf(folder.name).book
    for table in tables_of(book):
        for row in rows_of(book, table.name):
            assert row.label
            assert (row.basis and row.source) or table.name == "items", row
            assert "object at" not in repr(row)


def test_a_table_is_shown_a_hundred_rows_a_page_and_filtered_by_text(owner):
    address = "/books/of/chevrolet-1964-1972/tables/codes"
    first = owner.get(address).content.decode()
    assert "1 to 100 of 1194" in first
    assert first.count('data-label="Rests on"') == 100
    assert "1101 to 1194 of 1194" in owner.get(address, {"page": "99999"}).content.decode()
    found = owner.get(address, {"list": "paints", "q": "tuxedo BLACK"}).content.decode()
    assert "Tuxedo Black" in found
    assert 0 < found.count('data-label="Rests on"') < 30
    assert "explains, never argues" in owner.get(address, {"q": "memory"}).content.decode()
    nothing = owner.get(address, {"q": "<script>alert(1)</script>"}).content.decode()
    assert "No row of this table holds that" in nothing
    assert "<script>alert" not in nothing


def test_a_code_is_found_in_every_book_that_speaks_of_it(own):
    page = own.get("/books/search", {"q": "saloon"}).content.decode()
    assert OWN in page
    assert TARVANE in page
    assert "No row of these books" in own.get("/books/search", {"q": "zzzz"}).content.decode()


def test_a_reader_reads_and_changes_nothing(own, signed_in, home):
    reader = signed_in("reader")
    assert reader.get(f"/books/of/{OWN}").status_code == 200
    for page in ("/books/bring", f"/books/of/{OWN}/import", "/books/aside/anything"):
        assert reader.get(page).status_code == 403
        assert reader.post(page).status_code == 403
    form = dict(zip(own_columns(), PAINT.split(","), strict=True)) | {"take": "yes"}
    before = (home / "books" / OWN / CODES).read_bytes()
    assert reader.post(f"/books/of/{OWN}/propose/codes", cells(form)).status_code == 200
    assert (home / "books" / OWN / CODES).read_bytes() == before


def test_the_own_books_are_walked_through_once_in_a_request(own, monkeypatch):
    walks = []
    walked = books._walked
    monkeypatch.setattr(books, "_walked", lambda: walks.append(1) or walked())
    assert own.get(f"/books/of/{OWN}").status_code == 200
    assert own.get("/books").status_code == 200
    assert len(walks) == 2


# ------------------------------------------------------------------- brought


def test_a_sound_book_takes_its_place_and_the_one_before_is_kept(own, home):
    """From single files as from a zip."""
    newer = {name: text.replace("2026-01-01", "2026-02-02") for name, text in SOUND.items()}
    found = own.post("/books/bring", {"files": one_by_one(newer)}, follow=True).content.decode()
    assert f"books-before/{OWN}-2026-01-01" in found
    assert on_shelf(OWN).book.version == "2026-02-02"
    kept = home / "books-before" / f"{OWN}-2026-01-01"
    assert (kept / "book.toml").read_text("utf-8") == SOUND["book.toml"]
    assert {each.name for each in (home / "books-unsound").iterdir()} == set()


def test_an_unsound_book_is_kept_aside_and_each_fault_shown_at_its_cell(own, home):
    before = (home / "books" / OWN / CODES).read_bytes()
    found = own.post("/books/bring", {"files": [zipped(UNSOUND)]}, follow=True)
    assert found.redirect_chain[-1][0] == f"/books/aside/{OWN}"
    page = found.content.decode().replace("&#x27;", "'")
    assert '<td class="wrong">hearsay<i>here</i></td>' in page
    assert "'hearsay' is not one of the words for 'basis'" in page
    assert "tables/codes.csv, line 4, column 28" in page
    assert (home / "books" / OWN / CODES).read_bytes() == before
    assert (home / "books-unsound" / OWN / CODES).read_text("utf-8") == UNSOUND[CODES]


def test_one_goes_on_with_what_is_kept_aside_by_the_mended_file_alone(own, home):
    bring(own, zipped(UNSOUND))
    mended = one_by_one({CODES: SOUND[CODES] + PAINT + "\n"})
    found = bring(own, *mended, to=f"/books/aside/{OWN}")
    assert found.headers["Location"].startswith(f"/books/of/{OWN}")
    assert any(row.value == "signal-red" for row in on_shelf(OWN).book.codes)
    assert own.get(f"/books/aside/{OWN}").status_code == 404


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"book.toml": 'format = "witnessmark-book'}, "book.toml, line 1"),
        ({CODES: SOUND[CODES] + "too,few\n"}, "the row has 2 cells, the header 11"),
        ({CODES: SOUND[CODES].replace("table,code", "table,kode")}, "'kode'"),
        ({CODES: SOUND[CODES].replace("01,black", ",black")}, "here: empty"),
        ({CODES: "<script>alert(1)</script>\n"}, "&lt;script&gt;"),
    ],
)
def test_whatever_is_wrong_with_a_book_is_told_with_its_place(owner, change, told):
    found = owner.post("/books/bring", {"files": [zipped(SOUND | change)]}, follow=True)
    page = found.content.decode()
    assert told in page.replace("&#x27;", "'")
    assert "<script>alert" not in page


def test_a_book_that_bears_the_name_of_a_shipped_one_is_kept_aside(owner):
    other = {name: text.replace(OWN, TARVANE) for name, text in SOUND.items()}
    page = owner.post("/books/bring", {"files": [zipped(other)]}, follow=True).content.decode()
    assert "a book that comes with the program is called" in page


def test_an_archive_writes_nothing_outside_and_only_what_a_book_has(owner, home):
    bad = {"../../out.csv": "x", "/etc/out.csv": "x", "tables/../../up.csv": "x", "run.sh": "x"}
    assert bring(owner, zipped(SOUND | bad)).status_code == 302
    there = {each.relative_to(home / "books" / OWN) for each in (home / "books" / OWN).rglob("*.*")}
    assert there == {Path(name) for name in SOUND}
    assert not list(home.parent.glob("out.csv"))


@pytest.mark.parametrize(
    ("file", "told"),
    [
        (SimpleUploadedFile("a.zip", b"PK\x03\x04 and no more"), "cannot be read"),
        (zipped({"notes.txt": "x"}), "holds no book.toml"),
        (zipped({"book.toml": b"\0" * 3_000_000}), "is too large"),
        (SimpleUploadedFile("book.toml", b"#" * 2_200_000), "is too large"),
    ],
)
def test_what_is_no_book_is_told_and_nothing_is_kept(owner, home, file, told):
    found = bring(owner, file)
    assert found.status_code == 422
    assert told in found.content.decode()
    assert not (home / "books-unsound").exists()


def test_an_archive_of_many_small_bombs_stops_at_what_a_book_may_have(owner, monkeypatch):
    monkeypatch.setattr(upload, "MOST_IN_ALL", 1_000_000)
    bombs = {f"tables/codes-{n}.csv": b"\0" * 400_000 for n in range(4)}
    found = bring(owner, zipped({"book.toml": "x", **bombs}))
    assert found.status_code == 422
    assert "is too large" in found.content.decode()


# ------------------------------------------------------------------- lists and rows


def own_columns() -> list[str]:
    """The columns of the table of codes."""
    return SOUND[CODES].partition("\n")[0].split(",")


def cells(row: dict[str, str]) -> dict[str, str]:
    """The form of a row; what is no column stands as it is."""
    return {f"c_{n}" if n in own_columns() else n: text for n, text in row.items()}


def take(browser, text: str, **more: str):
    """Send a list for the table of codes."""
    file = SimpleUploadedFile("codes.csv", text.encode())
    return browser.post(f"/books/of/{OWN}/import", {"list": file, **more}, follow=True)


def test_a_list_is_taken_in_whole_and_a_row_that_is_there_is_not_added_twice(own):
    text = f"{','.join(own_columns())}\n{PAINT}\n"
    assert "1 row added." in take(own, text).content.decode()
    assert any(row.value == "signal-red" for row in on_shelf(OWN).book.codes)
    again = take(own, text).content.decode()
    assert "No row was added. 1 stood there already" in again


def test_of_a_list_with_a_fault_nothing_is_taken_and_the_cell_is_shown(own, home):
    before = (home / "books" / OWN / CODES).read_bytes()
    text = f"table,code,value,meaning\n{','.join(PAINT.split(',')[:3])},Red\npaints,08,Blue!,Blue\n"
    found = take(own, text, basis="invented", source="example")
    assert found.status_code == 422
    page = found.content.decode()
    assert '<td class="wrong">Blue!<i>here</i></td>' in page
    assert "nothing was written" in page
    assert (home / "books" / OWN / CODES).read_bytes() == before


def test_a_proposed_row_becomes_a_line_of_csv_and_touches_no_shipped_book(owner):
    address = f"/books/of/{TARVANE}/propose/codes-paint"
    row = dict.fromkeys(own_columns(), "") | {
        "table": "paints",
        "code": "99",
        "value": "sea-grey",
        "meaning": "Sea Grey, light",
        "basis": "invented",
        "source": "the demonstration",
    }
    page = owner.post(address, cells(row)).content.decode()
    line = 'paints,99,sea-grey,"Sea Grey, light",,,,,,invented,the demonstration'
    assert line.replace('"', "&quot;") in page
    assert "Take it into the book" not in page
    found = owner.post(address, cells(row | {"download": "yes"}))
    assert found["Content-Type"].startswith("text/csv")
    assert found.content.decode().splitlines() == [",".join(own_columns()), line]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"source": ""}, "'source'"),
        ({"basis": "hearsay"}, "'hearsay' is not one of the words for 'basis'"),
        ({"value": "Sea Grey"}, "lower-case words and digits, joined by hyphens"),
        ({"meaning": '=HYPERLINK("http://example.org")'}, "for a formula"),
        ({"source": "@SUM(1)"}, "for a formula"),
        ({"models": "zeppelin"}, "zeppelin"),
    ],
)
def test_a_proposed_row_that_the_book_could_not_take_says_why_at_its_field(owner, change, told):
    row = dict.fromkeys(own_columns(), "") | {
        "table": "paints",
        "code": "99",
        "value": "sea-grey",
        "meaning": "Sea Grey",
        "basis": "invented",
        "source": "the demonstration",
    }
    found = owner.post(f"/books/of/{TARVANE}/propose/codes-paint", cells(row | change))
    page = found.content.decode().replace("&#x27;", "'")
    assert found.status_code == 422
    assert told in page
    [wrong] = [part for part in page.split('<div class="field">')[1:] if 'class="problem"' in part]
    assert f'name="c_{next(iter(change))}"' in wrong


def test_the_owner_takes_a_proposed_row_into_a_book_of_their_own(own):
    form = dict(zip(own_columns(), PAINT.split(","), strict=True)) | {"take": "yes"}
    found = own.post(f"/books/of/{OWN}/propose/codes", cells(form), follow=True)
    assert "1 row added." in found.content.decode()
    assert any(row.value == "signal-red" for row in on_shelf(OWN).book.codes)
