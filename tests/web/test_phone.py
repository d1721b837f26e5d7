"""A phone joins by a code once, is given the places and nothing of the claim, and what it sends is
in the case once, or told with the reason."""

import hashlib
import io
import json
import re
from datetime import timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from PIL import Image

from witnessmark import store
from witnessmark.casefile import parse_casefile
from witnessmark.store import phones
from witnessmark.web.phone import join_view
from witnessmark.web.shared.saving import now


@pytest.fixture
def case(demo_case) -> str:
    return demo_case("no-papers")


@pytest.fixture
def code(owner, case) -> str:
    """A code for one phone, from the owner's page."""
    answer = owner.post("/phones", {"case": case, "by": "the owner"})
    assert b"<svg" in answer.content
    found = re.search(rb"/join/([A-Za-z0-9_-]+)", answer.content)
    assert found
    return found[1].decode()


@pytest.fixture
def phone(code) -> Client:
    """A phone that has joined."""
    browser = Client()
    assert browser.get(f"/join/{code}").status_code == 200
    clock = str(int(now().timestamp()) + 90)
    answer = browser.post(f"/join/{code}", {"name": "the grey one", "clock": clock})
    assert answer.status_code == 302
    return browser


def send(phone: Client, *jottings: dict, **more):
    """Hand jottings over."""
    sheet = {"format": "witnessmark-jottings", "format_version": 1, "jottings": jottings}
    text = json.dumps(sheet)
    return phone.post("/phone/jottings", text, content_type="application/json", **more)


def reading(case: str, number: int = 1, **more) -> dict:
    """A reading as a phone jots it down."""
    own = {"id": f"0123456789abcd{number:02}", "kind": "reading", "case": case, "base": 1}
    own |= {"at": "2026-03-02T10:00:00+01:00", "mark": "frame_number", "text": "4 70181?"}
    return own | {"legibility": "worn", "claim_known": False} | more


def told(case: str):
    """The case as it stands."""
    found = parse_casefile(store.head(case).text, "case.json").casefile
    assert found is not None
    return found


def test_a_code_lets_one_phone_in_once(owner, code, phone, monkeypatch):
    """A second one is told to ask; the owner sees the phone, its clock, and lets it go."""
    other = Client()
    assert other.post(f"/join/{code}", {"name": "another"}).status_code == 404
    page = owner.get("/phones").content.decode()
    assert "the grey one" in page
    assert "differs from this one by" in page
    number = phones.phones()[0].id
    owner.post(f"/phones/{number}/gone")
    assert phone.get("/phone/hello").status_code == 410
    assert send(phone, reading("no-papers")).status_code == 410
    late = phones.let_phone_in("the owner", ("no-papers",), now())
    monkeypatch.setattr(join_view, "now", lambda: now() + timedelta(minutes=16))
    assert other.get(f"/join/{late}").status_code == 404


def test_a_visit_has_every_place_and_nothing_of_the_claim(phone, case):
    """Neither the number that is claimed nor what anybody read."""
    assert phone.get("/phone").status_code == 200
    hello = phone.get("/phone/hello").json()
    assert hello["cases"] == [{"id": case, "revision": 1}]
    visit = phone.get(f"/phone/visits/{case}").json()
    assert len(visit["places"]) == 9
    frame = next(each for each in visit["places"] if each["id"] == "frame_rail")
    assert [each["id"] for each in frame["marks"]] == ["frame_number"]
    assert set("0123456789") <= set(frame["marks"][0]["signs"])
    whole, held = json.dumps(visit), told(case)
    hidden = [each for each in held.claim.items.values() if each.isdecimal() and len(each) > 4]
    hidden += [each.text for each in held.readings if len(each.text) > 5]
    assert hidden
    assert [each for each in hidden if each in whole] == []
    assert phone.get("/phone/visits/another").status_code == 404


def test_what_is_sent_twice_is_there_once(phone, case):
    """The answer names the revision; the same id again changes nothing."""
    first = send(phone, reading(case)).json()["jottings"][0]
    assert first == {"id": "0123456789abcd01", "revision": 2}
    assert send(phone, reading(case, text="other")).json()["jottings"] == [first]
    own = [each for each in told(case).readings if each.mark == "frame_number"]
    assert [each.text for each in own if each.by == "the owner"] == ["4 70181?"]
    assert "at the car" in store.head(case).did


def test_a_later_text_of_the_same_reader_replaces_the_first(phone, case):
    """From the revision that has the first; nobody else's entry is touched."""
    before = {(e.mark, e.by, e.text) for e in told(case).readings}
    send(phone, reading(case))
    send(phone, reading(case, 2, base=2, text="4 701813"))
    after = {(e.mark, e.by, e.text) for e in told(case).readings}
    assert after - before == {("frame_number", "the owner", "4 701813")}


def test_what_cannot_be_taken_is_told_and_the_rest_is_taken(phone, case):
    """One of another case, one with a mark that is none; the sound one is in."""
    wrong = [reading("another", 3), reading(case, 4, mark="no_such_mark")]
    answers = send(phone, *wrong, reading(case, 5)).json()["jottings"]
    assert "was let into" in answers[0]["problems"][0]
    assert "no_such_mark" in answers[1]["problems"][0]
    assert answers[2]["revision"] == 2
    broken = phone.post("/phone/jottings", b"{\xff", content_type="application/json")
    assert broken.status_code == 422
    assert broken.json()["problems"]


def test_a_picture_is_kept_byte_for_byte_before_it_is_acknowledged(phone, case):
    """Under the digest that the phone worked out; another digest is told and asked for again."""
    stream = io.BytesIO()
    Image.new("RGB", (64, 48), "grey").save(stream, "JPEG")
    content = stream.getvalue()
    sha256 = hashlib.sha256(content).hexdigest()
    own = {"kind": "picture", "sha256": sha256, "place": "frame_rail", "name": "frame.jpg"}
    own |= {"number_regions": [{"left": 2, "top": 2, "width": 20, "height": 9}]}
    shot = {k: v for k, v in reading(case, 6).items() if k in ("id", "case", "base", "at")} | own
    assert "has not come" in send(phone, shot).json()["jottings"][0]["problems"][0]
    again = phone.post(f"/phone/pictures/{'0' * 64}", {"picture": upload(content)})
    assert again.status_code == 409
    kept = phone.post(f"/phone/pictures/{sha256}", {"picture": upload(content)}).json()
    assert kept == {"sha256": sha256, "size": len(content)}
    assert store.exhibit_path(sha256).read_bytes() == content
    assert send(phone, shot).json()["jottings"][0]["revision"] == 2
    entry = next(each for each in told(case).exhibits if each.sha256 == sha256)
    assert (entry.taken_by, entry.number_regions[0].width) == ("the owner", 20)
    assert phone.post(f"/phone/pictures/{sha256}", {"picture": upload(b"MZ")}).status_code == 422


def upload(content: bytes) -> SimpleUploadedFile:
    """A file as a form sends it."""
    return SimpleUploadedFile("shot.jpg", content, "image/jpeg")


def test_nobody_without_a_phone_gets_anything(owner, case):
    """Not even the owner's browser: what is not a phone has no visit."""
    for path in ("/phone/hello", f"/phone/visits/{case}", "/phone"):
        assert owner.get(path).status_code == 404
    assert send(owner, reading(case)).status_code == 404
