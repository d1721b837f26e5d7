"""The evidence page: a reading typed, saved and decoded, and nothing of it lost or let loose."""

import io
import json
import re

import pytest
from PIL import Image

from witnessmark import store
from witnessmark.codebook import open_book, shipped_books
from witnessmark.web.evidence import said
from witnessmark.web.evidence.plates import has_windows, plate_rows, typed_text
from witnessmark.web.shared import desk
from witnessmark.web.shared.desk import bench_of

BY_SCRIPT = {"HX-Request": "true"}
STRANGE = "\"><script>alert('x')</script>&lt;"


def case_of(name: str):
    return json.loads(store.head(name).text)


def readings_of(name: str, mark: str) -> list[dict]:
    return [each for each in case_of(name)["readings"] if each["mark"] == mark]


@pytest.fixture
def bare(home, demo_case):
    """The clean car with nothing read or looked at; gives its id."""
    whole = json.loads(store.head(demo_case("clean")).text)
    for site in whole["sites"]:
        site |= {"state": "not looked for", "exhibits": [], "reason": ""}
    text = json.dumps(whole | {"readings": [], "looks": [], "id": "bare"})
    return store.begin(text, "Ada", "opened", store.head("clean").at).case


def test_evidence_opens_at_the_first_place_where_nobody_has_been(owner, bare):
    """The walk names every place with its state in a word, and how many are open."""
    there = owner.get(f"/cases/{bare}/evidence").headers["Location"]
    page = owner.get(there).content.decode()
    places = len(case_of(bare)["sites"])
    assert f"{places} of {places} places are open" in page
    assert page.count('aria-current="location"') == 1
    assert 'value="not looked for" checked' in page
    assert "Nothing was read here yet" in page


def test_a_place_answered_as_absent_says_so_where_it_says_what_was_read(owner, bare):
    form = {"state": "absent", "reason": "Bare metal", "attachment": "in place"}
    owner.post(f"/cases/{bare}/evidence/frame_rail", form)
    page = owner.get(f"/cases/{bare}/evidence/frame_rail").content.decode()
    says = page.split('id="says-now"')[1]
    told = "Right-hand frame rail: absent; somebody looked, and nothing is there. Bare metal."
    assert told in says
    assert "Nothing was read here yet" not in says


def test_a_reading_is_kept_by_its_form_without_script_and_changed_and_taken_away(owner, bare):
    """Signed and dated; its place counts as read; what it says stands beside it."""
    address = f"/cases/{bare}/readings/frame_number"
    form = {"text": "4 70[18]13", "legibility": "worn", "by": "the owner", "note": "raking light"}
    answer = owner.post(address, form)
    assert answer.headers["Location"] == f"/cases/{bare}/evidence/frame_rail"
    page = owner.get(answer.headers["Location"]).content.decode()
    assert "4 70[18]13" in page
    assert 'value="read" checked' in page
    assert "chassis number" in page.split('id="says-now"')[1]
    kept = readings_of(bare, "frame_number")[0]
    assert (kept["by"], kept["legibility"], kept["note"]) == ("the owner", "worn", "raking light")
    assert kept["when"]
    owner.post(address, form | {"text": "4 70181?"})
    assert [each["text"] for each in readings_of(bare, "frame_number")] == ["4 70181?"]
    owner.post(address, {"by": "the owner", "deed": "remove"})
    assert readings_of(bare, "frame_number") == []


def test_how_well_it_can_be_read_is_asked_and_never_taken_for_granted(owner, bare):
    """Nothing is chosen beforehand; without an answer what was typed stays in its field, and is
    not kept. Where no character was made out there is nothing to ask."""
    page = owner.get(f"/cases/{bare}/evidence/frame_rail").content.decode()
    assert not re.search('name="legibility"[^>]* checked', page)
    address = f"/cases/{bare}/readings/frame_number"
    form = {"text": "4 701813", "by": "the owner", "form": "read-frame_number-the-owner"}
    answer = owner.post(address, form)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert ">4 701813</textarea>" in page
    assert "not said how well it can be read" in page
    assert 'data-field="legibility"' in page
    assert store.head(bare).number == 1
    assert owner.post(address, form | {"text": "~~~~~~~"}).status_code == 302
    assert owner.post(address, form | {"legibility": "poor"}).status_code == 302
    assert readings_of(bare, "frame_number")[0]["legibility"] == "poor"


def test_what_is_minded_at_every_place_of_an_access_stands_once(owner, bare):
    """In full at the first of them and over them in the plan; at the others a mark that leads
    there, with what only they ask for."""

    def page(site: str) -> str:
        return owner.get(f"/cases/{bare}/evidence/{site}").content.decode()

    plan = owner.get(f"/cases/{bare}/plan").content.decode()
    every = "Never under a car on a jack alone"
    walk = bench_of(bare).plan.reaches[-1]
    first, *others = (each.row.id for each in walk.sites)
    assert plan.count(every) == 1
    assert every in page(first)
    for each in others:
        assert every not in page(each)
        assert f'href="/cases/{bare}/plan#care-{walk.access_group}"' in page(each)
    assert f'id="care-{walk.access_group}"' in plan


def test_a_photograph_is_taken_off_a_place_and_stays_in_the_case(owner, demo_case):
    """Off whatever was noted there; named elsewhere it stays so."""
    case = demo_case("clean", exhibits=True)
    here = f"/cases/{case}/evidence/frame_rail"
    before = case_of(case)
    [one, *_] = next(e["exhibits"] for e in before["sites"] if e["site"] == "frame_rail")
    assert f'name="exhibit" value="{one}"' in owner.get(here).content.decode()
    sent = {"deed": "off", "exhibit": one, "shows": "frame_rail", "back": here}
    assert owner.post(f"/cases/{case}/photographs", sent)["Location"] == here
    after = case_of(case)
    assert f'name="exhibit" value="{one}"' not in owner.get(here).content.decode()
    assert after["exhibits"] == before["exhibits"]


def test_a_reading_that_is_none_stays_in_its_field_with_what_is_wrong(owner, bare):
    """Told at the form it was typed into; nothing is saved, with script or without."""
    address = f"/cases/{bare}/readings/frame_number"
    form = {"text": "4 70[1", "by": "the owner", "form": "read-frame_number-the-owner"}
    page = owner.post(address, form)
    assert page.status_code == 422
    assert ">4 70[1</textarea>" in page.content.decode()
    assert "never closed" in page.content.decode()
    fragment = owner.post(address, form, headers=BY_SCRIPT)
    assert fragment.status_code == 422
    assert b'id="told-read-frame_number-the-owner"' in fragment.content
    assert b"<textarea" not in fragment.content
    assert store.head(bare).number == 1


def test_a_save_by_script_is_acknowledged_before_anything_is_examined(owner, bare, monkeypatch):
    """What depends on it is asked for behind it: the walk, what it says, the strip. A field that
    somebody types in is never replaced."""
    examined: list[str] = []
    form = {"text": "4 701813", "legibility": "clear", "by": "the owner", "form": "x"}
    form |= {"base": "1", "was": "{}"}
    with monkeypatch.context() as patched:
        patched.setattr(desk, "quick_answer", lambda *_: examined.append("answered"))
        patched.setattr(said, "compare", lambda *_: examined.append("compared") or ())
        answer = owner.post(f"/cases/{bare}/readings/frame_number", form, headers=BY_SCRIPT)
    fragments = answer.content.decode()
    assert examined == []
    assert store.head(bare).number == 2
    for name in ("told-x", "saved", "now-state-frame_rail"):
        assert f'id="{name}"' in fragments
    assert 'data-value="read"' in fragments
    assert not re.search("<(input|textarea|select|form)", fragments)
    page = owner.get(f"/cases/{bare}/evidence/frame_rail").content.decode()
    trigger = answer.headers["HX-Trigger"]
    behind = re.search(f'hx-get="([^"]+)" hx-trigger="{trigger} from:body"', page)
    assert behind is not None
    brought = owner.get(behind[1], headers=BY_SCRIPT).content.decode()
    for name in ("strip", "walk-list", "says-now"):
        assert f'id="{name}" ' in brought
    assert brought.count('hx-swap-oob="true"') == 3
    assert "chassis number" in brought.split('id="says-now"')[1].lower()
    assert not re.search("<(input|textarea|select|form)", brought)
    owner.post(f"/cases/{bare}/readings/frame_number", form, headers=BY_SCRIPT)
    assert store.head(bare).number == 2, "a form sent twice changes nothing"


def test_what_is_typed_is_told_at_once_with_its_doubt(owner, bare):
    """What is unsure, what was taken otherwise, how long it is, what it would mean."""
    address = f"/cases/{bare}/readings/frame_number/live"
    told = owner.post(address, {"text": "4 7O[38]1?3"}).content.decode()
    assert "1 place: one of these" in told
    assert "1 place: worn away" in told
    assert "chassis number has no letter O" in told
    assert "chassis number: 6 of 6" in told
    assert told.index('class="means"') < told.index("chassis number: 6 of 6")
    assert owner.post(address, {"text": "  "}).content.strip() == b""
    assert "never closed" in owner.post(address, {"text": "4 [7"}).content.decode()


def test_a_plate_is_filled_in_window_by_window(owner, bare):
    """In the plate's own rows; a window left out in the middle is named, none is invented."""
    page = owner.get(f"/cases/{bare}/evidence/scuttle").content.decode()
    assert page.count('class="plate-row"') > 1
    mark = re.search(r"/readings/(plate_\w+)\?", page)[1]
    form = {"window-0": "SP", "window-2": "4004?", "legibility": "clear", "by": "the owner"}
    owner.post(f"/cases/{bare}/readings/{mark}", form)
    assert readings_of(bare, mark)[0]["text"] == "SP |  | 4004?"


def test_windows_become_one_reading_and_windows_again():
    """Whatever stands in them; a text typed in one go is left in one field."""
    book = open_book(next(each for each in shipped_books() if "tarvane" in each.name)).book
    mark = book.mark("plate_brass")
    for text in ("SP | 700143", "SP |  | 40047", "_ | 700143 | ?", "SP |"):
        windows = {w.name: w.text for row in plate_rows(mark, text) for w in row}
        again = typed_text(mark, windows)
        assert [e.strip() for e in again.split("|")] == [e.strip() for e in text.split("|")]
        assert has_windows(mark, text)
    assert not has_windows(mark, "SP 700143 40047")


def test_one_person_never_overwrites_what_another_has_put_into_a_field_left_alone(
    signed_in, owner, bare
):
    """Each form sends what it was read from: the store puts both together, and where both changed
    one field both are kept and told."""
    address = f"/cases/{bare}/readings/frame_number"
    own = {"by": "the owner", "form": "x", "legibility": "clear"}
    owner.post(address, own | {"text": "4 701813", "note": "first"})
    ben = signed_in("assistant", "Ben", (bare,))
    was = {"text": "4 701813", "note": "first"}
    theirs = own | {"text": "4 7018?3", "note": "first", "was": json.dumps(was), "base": "2"}
    ben.post(address, theirs, headers=BY_SCRIPT)
    mine = own | {"text": "4 701813", "note": "second", "was": json.dumps(was), "base": "3"}
    answer = owner.post(address, mine, headers=BY_SCRIPT).content.decode()
    kept = readings_of(bare, "frame_number")[0]
    assert (kept["text"], kept["note"]) == ("4 7018?3", "second")
    assert "Somebody else" not in answer
    was |= {"note": "second"}
    both = own | {"text": "4 70181?", "note": "second", "was": json.dumps(was), "base": "4"}
    answer = owner.post(address, both, headers=BY_SCRIPT).content.decode()
    assert "Somebody else wrote into the same place" in answer
    told = answer[: answer.index('id="saved"')]
    assert "4 7018?3" in told
    assert "4 70181?" in told
    assert [each.mine for each in store.beside(bare) if each.path[-1] == "text"] == ["4 70181?"]


def test_nobody_signs_with_the_name_of_another(owner, bare):
    """A reading or look that is added bears the name of whoever is signed in."""
    at = f"/cases/{bare}"
    for address, form in (
        ("readings/frame_number", {"text": "4 701813", "legibility": "clear"}),
        ("evidence/frame_rail/looks/surface", {"outcome": "factory"}),
    ):
        answer = owner.post(
            f"{at}/{address}", form | {"by": "Ines", "form": "x"}, headers=BY_SCRIPT
        )
        assert answer.status_code == 422
        assert "has no such entry any more" in answer.content.decode()
    assert store.head(bare).number == 1


def test_a_place_and_a_look_are_noted_by_their_forms(owner, bare):
    """A state with its reason; a look by its outcome, which can be taken away."""
    at = f"/cases/{bare}/evidence/frame_rail"
    owner.post(at, {"state": "not accessible", "reason": "no lift", "form": "state-frame_rail"})
    site = next(each for each in case_of(bare)["sites"] if each["site"] == "frame_rail")
    assert (site["state"], site["reason"]) == ("not accessible", "no lift")
    owner.post(f"{at}/looks/surface", {"outcome": "disturbed", "by": "the owner"})
    looks = case_of(bare)["looks"]
    assert [(each["site"], each["outcome"], each["by"]) for each in looks] == [
        ("frame_rail", "disturbed", "the owner")
    ]
    owner.post(f"{at}/looks/surface", {"by": "the owner", "deed": "remove"})
    assert case_of(bare)["looks"] == []
    refused = owner.post(at, {"state": "gone", "form": "state-frame_rail"})
    assert refused.status_code == 422
    assert 'class="problem"' in refused.content.decode()


def test_papers_and_the_title_have_cards_of_their_own(owner, bare):
    """Where a paper is, one of no book, the number on the title."""
    owner.post(f"/cases/{bare}/papers/build_card", {"state": "lost", "note": "in a flood"})
    owner.post(f"/cases/{bare}/papers", {"name": "Letter", "kind": "archive letter",
                                         "state": "in hand", "deed": "add"})  # fmt: skip
    owner.post(f"/cases/{bare}/title-paper", {"number": "700143", "issued_by": "An office",
                                              "seen": "copy"})  # fmt: skip
    case = case_of(bare)
    states = {each["mark"] or each["name"]: each["state"] for each in case["papers"]}
    assert (states["build_card"], states["Letter"]) == ("lost", "in hand")
    assert case["title_paper"]["number"] == "700143"
    for page in ("papers/build_card", "papers", "title-paper"):
        assert owner.get(f"/cases/{bare}/{page}").status_code == 200


def picture() -> bytes:
    """A small photograph whose camera noted where it was taken."""
    image, stream = Image.new("RGB", (400, 300), "teal"), io.BytesIO()
    notes = image.getexif()
    notes[0x8825] = {1: "N", 2: (51.0, 30.0, 0.0), 3: "E", 4: (0.0, 7.0, 0.0)}
    notes[0x010F] = "A camera"
    image.save(stream, "JPEG", exif=notes)
    return stream.getvalue()


def test_a_photograph_stays_as_it_came_and_is_shown_without_its_place(owner, bare):
    """Named at its place; a number marked on it stands large above the reading field."""
    original = picture()
    file = io.BytesIO(original)
    file.name = "Rail <b>left</b>.jpg"
    back = f"/cases/{bare}/evidence/frame_rail"
    answer = owner.post(f"/cases/{bare}/photographs",
                        {"photo": file, "shows": "frame_rail", "back": back})  # fmt: skip
    assert answer.headers["Location"] == back
    entry = case_of(bare)["exhibits"][-1]
    at = f"/cases/{bare}/photographs/{entry['id']}"
    fetched = owner.get(f"{at}/original")
    assert b"".join(fetched.streaming_content) == original
    assert "attachment" in fetched.headers["Content-Disposition"]
    shown = owner.get(f"{at}/shown").content
    assert b"A camera" in original
    assert b"A camera" not in shown
    assert not Image.open(io.BytesIO(shown)).getexif()
    region = {"left": 10, "top": 20, "width": 100, "height": 40}
    form = {f"region-0-{side}": str(each) for side, each in region.items()}
    assert b"saved" in owner.post(at, form | {"was": "{}"}, headers=BY_SCRIPT).content
    marked = case_of(bare)["exhibits"][-1]["number_regions"]
    assert [{side: each[side] for side in region} for each in marked] == [region]
    assert Image.open(io.BytesIO(owner.get(f"{at}/part/0").content)).width == 124 - 2
    elsewhere = owner.get(f"{at}?from=//elsewhere.example/").content.decode()
    assert "elsewhere.example" not in elsewhere
    assert f"{at}/part/0" in owner.get(back).content.decode()
    wrong = owner.post(at, {"region-0-left": "ten", "region-0-top": "1", "region-0-width": "1",
                            "region-0-height": "1", "form": "photo-about"})  # fmt: skip
    assert wrong.status_code == 422
    assert 'value="ten"' in wrong.content.decode()


def test_a_file_that_is_no_photograph_is_refused_by_name(owner, bare):
    """Nothing of it enters the case."""
    file = io.BytesIO(b"no picture at all")
    file.name = "notes.jpg"
    answer = owner.post(f"/cases/{bare}/photographs", {"photo": file, "shows": "frame_rail"})
    assert answer.status_code == 422
    assert "notes.jpg" in answer.content.decode()
    assert store.head(bare).number == 1


def test_a_reader_sees_everything_and_changes_nothing(signed_in, bare):
    """The fields are shut, and a form that comes all the same is turned away."""
    reader = signed_in("reader", "Rhea", (bare,))
    page = reader.get(f"/cases/{bare}/evidence/frame_rail").content.decode()
    assert "data-keep" not in page
    assert page.count("<fieldset disabled>") == page.count("<fieldset")
    for address, form in (
        ("readings/frame_number", {"text": "4"}),
        ("readings/frame_number/live", {"text": "4"}),
        ("evidence/frame_rail", {"state": "read"}),
        ("evidence/frame_rail/looks/surface", {"outcome": "factory"}),
        ("title-paper", {"number": "1"}),
        ("photographs", {}),
    ):
        assert reader.post(f"/cases/{bare}/{address}", form).status_code == 403
    assert store.head(bare).number == 1


def test_no_text_that_somebody_typed_becomes_part_of_a_page(owner, bare):
    """Script and quotation marks in every field come back as they were typed, and do nothing."""
    at, by = f"/cases/{bare}", {"by": "the owner"}
    typed = {
        "readings/frame_number": {"text": "4 701813", "legibility": "clear", "note": STRANGE},
        "evidence/frame_rail": {"state": "read", "reason": STRANGE},
        "evidence/frame_rail/looks/surface": {"outcome": "factory", "note": STRANGE},
        "papers": {"name": "a<b>\"c'", "kind": "other paper", "state": "lost", "note": STRANGE,
                   "deed": "add"},
        "papers/build_card": {"state": "lost", "note": STRANGE},
        "title-paper": {"number": "7<b>", "issued_by": STRANGE, "seen": "copy"},
    }  # fmt: skip
    for address, form in typed.items():
        assert owner.post(f"{at}/{address}", form | by).status_code == 302, address
    refused = owner.post(f"{at}/readings/frame_number",
                         {"text": f"[{STRANGE}", "form": STRANGE, **by})  # fmt: skip
    live = owner.post(f"{at}/readings/frame_number/live", {"text": STRANGE})
    shown = ("evidence/frame_rail", "papers", "papers/build_card", "title-paper")
    pages = [owner.get(f"{at}/{each}") for each in shown]
    for each in (*pages, refused, live):
        text = each.content.decode()
        assert [bad for bad in ("<script>alert", "7<b>", "a<b>") if bad in text] == []
    assert "&lt;script&gt;alert" in pages[0].content.decode()
