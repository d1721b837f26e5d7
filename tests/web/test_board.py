"""The board: a line a case, found by what one remembers of it, and the ways a case comes in."""

import csv
import io
import json
import zipfile
from dataclasses import replace
from datetime import date

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from witnessmark import store
from witnessmark.casefile import parse_casefile, render_casefile
from witnessmark.casefile.records import Assignment, Visit
from witnessmark.casefile.revisions import Alteration, Revisions
from witnessmark.store import accounts, people
from witnessmark.web.board import lines, unpacked
from witnessmark.web.shared.saving import now

SPRINT = {
    "book": "tarvane-1952-1961",
    "title": "A barn find",
    "model_year": "1955",
    "model": "Solent Sprint",
    "number": "700143",
    "made_by": "Orla Fenwick",
}


@pytest.fixture(autouse=True)
def nothing_kept(monkeypatch):
    """No line is known from another test."""
    monkeypatch.setattr(lines, "_KNOWN", {})
    monkeypatch.setattr(lines, "_PLAIN", {})


@pytest.fixture
def sprint(owner):
    """A case just begun, which takes no time to examine."""
    answer = owner.post("/new", SPRINT)
    assert answer.status_code == 302, answer.content.decode()
    return answer["Location"].split("/")[2]


def begun_text(case: str, **changed) -> str:
    """The document of a case with these fields otherwise."""
    parsed = parse_casefile(store.head(case).text, "case.json").casefile
    return render_casefile(replace(parsed, **changed))


def revised(case: str, **changed) -> None:
    store.revise(case, 1, begun_text(case, **changed), who="Ada", did="x", at=now())


def told(answer) -> str:
    return answer.content.decode()


def test_a_line_says_what_is_open_blocks_and_does_not_fit(owner, demo_case):
    """What was never examined is said to be worked out, and the page asks for it behind."""
    demo_case("altered")
    before = told(owner.get("/"))
    assert "being worked out" in before
    assert 'hx-get="/board/worked-out" hx-trigger="load"' in before
    assert 'hx-swap-oob="true" id="line-altered"' in told(owner.get("/board/worked-out"))
    after = told(owner.get("/"))
    assert "being worked out" not in after
    assert 'hx-trigger="load"' not in after
    line = after[after.index('id="line-altered"') :]
    assert line.index("Blocked:") < line.index("Does not fit: 11.") < line.index("1 of 9 places")


def test_todays_visits_come_first(owner, sprint):
    """And a page of a day has its cars with their minutes."""
    owner.post("/new", {**SPRINT, "title": "Another"})
    today = now().date()
    revised(sprint, visit=Visit(date=today))
    page = told(owner.get("/"))
    assert page.index("<h2>Today") < page.index("line-a-barn-find") < page.index("<h2>Others")
    day = told(owner.get(f"/days/{today.isoformat()}"))
    assert "not begun: 9 places" in day
    assert "min left" in day
    assert "Another" not in day
    assert owner.get("/days/yesterday").status_code == 404


@pytest.mark.parametrize("typed", ["0014", "70 01 43", "fenwick", "wexmoor", "BARN"])
def test_a_case_is_found_by_part_of_what_one_remembers(owner, sprint, typed):
    """A number as typed or without blanks, owner, place, title; as one types and without script."""
    owner.post("/new", {"book": "jaguar-1948-1974", "title": "Another"})
    revised(sprint, visit=Visit(place="A hall in Wexmoor"))
    for page in (
        owner.get("/", {"q": typed}),
        owner.get("/", {"q": typed, "only": "found"}, headers={"HX-Request": "true"}),
    ):
        assert "line-a-barn-find" in told(page)
        assert "line-another" not in told(page)
    assert "No case with" in told(owner.get("/", {"q": "701"}))


def test_a_case_is_found_by_what_does_not_fit(owner, demo_case):
    """Once it was examined."""
    demo_case("altered")
    assert "not searched yet" in told(owner.get("/", {"q": "casting date of the block"}))
    owner.get("/board/worked-out")
    assert "line-altered" in told(owner.get("/", {"q": "casting date of the block"}))


def test_a_case_is_put_away_and_brought_back(owner, signed_in, sprint):
    """Nobody who only reads does either, and sees no case that is not theirs."""
    reader = signed_in("reader")
    assert "line-a-barn-find" not in told(reader.get("/"))
    assert reader.post("/board/away", {"away": sprint}).status_code == 403
    owner.post("/board/away", {"away": sprint})
    assert "Put away: 1" in told(owner.get("/"))
    owner.post("/board/away", {"back": sprint})
    assert "Put away: 1" not in told(owner.get("/"))


def test_the_table_holds_no_formula(owner, sprint):
    """A text that a spreadsheet would take for one begins with an apostrophe."""
    revised(sprint, title='=HYPERLINK("x")', assignment=Assignment(client="\t@a"))
    rows = list(csv.reader(io.StringIO(told(owner.get("/cases.csv")).removeprefix("\ufeff"))))
    assert rows[1][:4] == ["a-barn-find", '\'=HYPERLINK("x")', "Solent sprint 1955", "'\t@a"]


def test_a_new_case_has_what_was_typed_and_the_examiner_of_the_account(owner):
    """With every place that the book expects; a title that is taken gets another short name."""
    person = people.people()[0]
    accounts.put_profile(person.id, 'name = "Ines Calder"\n')
    for name in ("a-barn-find", "a-barn-find-2"):
        assert owner.post("/new", SPRINT)["Location"] == f"/cases/{name}/claim"
    case = parse_casefile(store.head("a-barn-find").text, "case.json").casefile
    assert case.claim.items == {
        "model_year": "1955",
        "model": "solent-sprint",
        "chassis_number": "700143",
    }
    assert [each.name for each in case.assignment.examiners] == ["Ines Calder"]
    assert case.opened == now().date()
    assert len(case.sites) == 9


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("model_year", "1970", "not a year of the book"),
        ("number", "12", "chassis number"),
        ("model", "Rapier", "is not a model"),
        ("id", "../x", "../x"),
        ("book", "none", "not a code book"),
    ],
)
def test_a_new_case_that_is_wrong_is_told_at_its_field(owner, field, value, said):
    """And no case is begun; what was typed stands there still."""
    answer = owner.post("/new", {**SPRINT, field: value})
    assert answer.status_code == 422
    page = told(answer)
    wrong = page[page.index(f'id="{field}-wrong"') :].split("</p>")[0]
    assert said in wrong
    assert 'value="A barn find"' in page
    assert store.cases() == ()


def test_books_and_models_are_offered_as_one_types(owner):
    """A number leads to the books that know such a form, a book and year to their models."""
    page = told(owner.get("/new/models", {"number": "700143", "title": "My Sprint"}))
    assert "book=tarvane-1952-1961" in page
    assert "my-sprint" in page
    models = told(owner.get("/new/models", {"book": "tarvane-1952-1961", "model_year": "1955"}))
    assert '<option value="solent-sprint">' in models
    assert told(owner.get("/new", {"number": "700143"})).count("book=tarvane-1952-1961") == 1


def zipped(files: dict[str, str]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, text in files.items():
            packed.writestr(name, text)
    return out.getvalue()


def brought(owner, content: bytes, name: str = "case.zip", **more):
    return owner.post("/bring-in", {"file": SimpleUploadedFile(name, content), **more})


@pytest.fixture
def document(owner, sprint) -> str:
    """The document of a case that is not here."""
    return store.head(sprint).text.replace('"a-barn-find"', '"elsewhere"', 1)


def test_a_case_is_brought_in_as_a_zip_or_a_document(owner, document):
    """Byte for byte; one whose name is taken may be called otherwise."""
    content = zipped({"My car/case.json": document, "My car/notes.txt": "x"})
    assert brought(owner, content)["Location"] == "/cases/elsewhere/claim"
    assert store.head("elsewhere").text == document
    again = brought(owner, document.encode(), "case.json")
    assert again.status_code == 422
    assert "already a case" in told(again)
    assert brought(owner, document.encode(), "case.json", id="third").status_code == 302
    assert store.head("third").text == document.replace('"elsewhere"', '"third"', 1)


def test_its_history_comes_with_it(owner, document, tmp_path):
    """Who made each revision, and what was done."""
    folder = tmp_path / "car"
    folder.mkdir()
    (folder / "case.json").write_text(document)
    revisions = Revisions(folder / "case.json")
    later = document.replace("A barn find", "Found again")
    made = revisions.record(
        document.encode(), Alteration(later, "title: Found again", "Ben", now())
    )
    assert made.number == 2
    files = {f"{each.relative_to(folder)}": each.read_text() for each in folder.rglob("*.json")}
    assert brought(owner, zipped(files)).status_code == 302
    found = store.revisions("elsewhere")
    assert [each.text for each in found] == [document, later]
    assert (found[1].who, found[1].did) == ("Ben", "title: Found again")


def test_a_history_that_is_broken_is_told_and_not_left_out(owner, document, tmp_path):
    """The document alone is still taken in."""
    folder = tmp_path / "car"
    folder.mkdir()
    (folder / "case.json").write_text(document)
    made = Alteration(document.replace("A barn find", "Found again"), "title", "Ben", now())
    Revisions(folder / "case.json").record(document.encode(), made)
    files = {f"{each.relative_to(folder)}": each.read_text() for each in folder.rglob("*.json")}
    first = min(name for name in files if name != "case.json")
    answer = brought(owner, zipped(files | {first: files[first][:-20]}))
    assert answer.status_code == 422
    assert "revisions do not follow each other" in told(answer)
    assert first in told(answer)
    assert brought(owner, zipped({"case.json": files["case.json"]})).status_code == 302


def faulty(document: str) -> dict[str, tuple[bytes, str]]:
    """What is no case, and what is told of it."""
    link = zipfile.ZipInfo("exhibits/a.jpg")
    link.external_attr = 0o120777 << 16
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        packed.writestr("case.json", document)
        packed.writestr(link, "/etc/passwd")
    whole = zipped({"case.json": document})
    return {
        "no file of a case": (b"%PDF-1.7", "neither a zip nor a case"),
        "cut": (whole[:-30], "cannot be unpacked"),
        "leads out": (zipped({"case.json": document, "../../x": ""}), "leads out"),
        "a link": (out.getvalue(), "leads out"),
        "two": (zipped({"a/case.json": document, "b/case.json": document}), "holds 2"),
        "none": (zipped({"a.txt": ""}), "holds 0"),
        "a bomb": (zipped({"case.json": document, "exhibits/a.jpg": "0" * 3_000_000}), "megabytes"),
        "a fault": (document.replace('"1955"', '"1955"', 1).encode()[:-9], "case.json:"),
    }


@pytest.mark.parametrize("which", list(faulty("")))
def test_what_is_no_case_is_told_and_not_taken_in(owner, document, home, monkeypatch, which):
    """With its place; nothing is left behind in the folder of the workshop."""
    monkeypatch.setattr(unpacked, "MOST_MEGABYTES", 1)
    content, said = faulty(document)[which]
    answer = brought(owner, content)
    assert answer.status_code == 422
    assert said in told(answer)
    assert [each.id for each in store.cases()] == ["a-barn-find"]
    assert not list(home.glob("coming-*"))


def test_twelve_minutes_need_no_lift_and_take_nothing_off(owner, sprint):
    """Place by place, a tap away from where it is noted, with the cautions."""
    page = told(owner.get(f"/cases/{sprint}/triage"))
    assert f'href="/cases/{sprint}/evidence/scuttle"' in page
    assert "9 of 12 minutes" in page
    assert "/evidence/axle" not in page
    assert "Nobody goes under a car that stands on a jack alone" in page


def test_an_assistant_may_begin_a_case_and_sees_it_then(signed_in, owner):
    """A reader may not."""
    assert signed_in("reader").post("/new", SPRINT).status_code == 403
    assistant = signed_in("assistant")
    assert assistant.get(assistant.post("/new", SPRINT)["Location"]).status_code == 200
    assert json.loads(store.head("a-barn-find").text)["opened"] == date.today().isoformat()


def test_a_demonstration_car_is_brought_in_by_its_name(owner):
    """With its photographs; of no other name."""
    assert (
        owner.post("/bring-in", {"demonstration": "panel"}).headers["Location"].endswith("/claim")
    )
    assert owner.post("/bring-in", {"demonstration": "../clean"}).status_code == 422
