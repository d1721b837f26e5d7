"""A visit with a phone, from the owner's code to a case that the laptop examines, through a
connection that is cut twice; and the parts of its script against what they must give."""

import hashlib
import io
import json
import re
import zipfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import DEMO
from tests.browser.desk import step

pytestmark = pytest.mark.browser

THUMB = {"width": 360, "height": 740}
CAR = json.loads((DEMO / "clean" / "case.json").read_text("utf-8"))
CUT = ("Failed to load resource", "ERR_INTERNET_DISCONNECTED", "ERR_FAILED")
"""What a browser says of a connection that the test has cut."""


def unvisited(case: str) -> bytes:
    """The demonstration car as it is before anybody went to see it."""
    bare = {**CAR, "papers": []}
    for name in ("readings", "looks", "sites", "exhibits"):
        bare[name] = []
    bare.pop("title_paper", None)
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as out:
        out.writestr(f"{case}/case.json", json.dumps(bare))
    return stream.getvalue()


@pytest.fixture
def case(workshop, owner_state, browser) -> str:
    """A case to be visited."""
    name = "to-be-seen"
    context = browser.new_context(storage_state=owner_state)
    page = context.new_page()
    page.goto(workshop("/bring-in"))
    packed = {"name": "car.zip", "mimeType": "application/zip", "buffer": unvisited(name)}
    page.get_by_label("The file").set_input_files(files=packed)
    page.get_by_label("Short name here").fill(name)
    page.get_by_role("button", name="Bring it in").click()
    page.wait_for_url(workshop(f"/cases/{name}/claim"))
    context.close()
    return name


def joined(owner: Page, phone: Page, workshop, case: str) -> None:
    """The owner makes a code for this case; the phone opens it and joins."""
    owner.goto(workshop("/phones"))
    owner.get_by_label(case, exact=True).check()
    owner.get_by_role("button", name="Make a code").click()
    expect(owner.locator(".phone-code svg")).to_be_visible()
    address = re.search(r"http://\S+/join/[\w-]+", owner.inner_text("main"))
    assert address
    phone.goto(address[0])
    phone.get_by_label("What this phone is called").fill("the grey one")
    phone.get_by_role("button", name="Join").click()
    phone.get_by_role("button", name=case).click()
    expect(phone.get_by_role("heading", level=1)).to_have_text(case)


def shot() -> dict[str, object]:
    """A photograph of a stamping, as a phone hands it over."""
    picture = Image.new("RGB", (1200, 900), (120, 118, 112))
    draw = ImageDraw.Draw(picture)
    for at, sign in enumerate("700143"):
        draw.text((240 + 120 * at, 380), sign, fill=(40, 38, 36), font_size=140)
    stream = io.BytesIO()
    picture.save(stream, "JPEG", quality=92)
    return {"name": "rail.jpg", "mimeType": "image/jpeg", "buffer": stream.getvalue()}


def small_targets(page: Page) -> list[str]:
    """Whatever is pressed and is smaller than a thumb."""
    return page.evaluate(
        """() => [...document.querySelectorAll("button, input, textarea, select, summary")]
        .filter((each) => each.offsetParent && !each.hidden)
        .map((each) => [each, each.getBoundingClientRect()])
        .filter(([, box]) => box.width < 44 || box.height < 44)
        .map(([each]) => each.outerHTML.slice(0, 90))"""
    )


def seen_at(phone: Page, heading: str) -> None:
    """Everything of a card: each mark read as in the demonstration, each feature looked at."""
    expect(phone.get_by_role("heading", level=1)).to_contain_text(heading)
    assert small_targets(phone) == []
    assert phone.evaluate("document.documentElement.scrollWidth") <= THUMB["width"]
    texts = {each["mark"]: each["text"] for each in CAR["readings"]}
    for mark in phone.locator("section.mark").all():
        field = mark.locator("input.reading")
        text = texts.get((field.get_attribute("id") or "").removeprefix("read-"))
        if text:
            field.fill(text)
            mark.get_by_role("radio", name="clear", exact=True).click()
    for look in phone.locator("section.look").all():
        factory = look.get_by_role("radio", name="factory", exact=True)
        if factory.count():
            factory.click()


def photographed(phone: Page) -> None:
    """One photograph through the file field, its number's region drawn by finger, then kept."""
    with phone.expect_file_chooser() as chosen:
        phone.get_by_role("button", name="Take photographs").click()
    chosen.value.set_files(files=[shot()])
    canvas = phone.locator("canvas.shot")
    expect(canvas).to_be_visible()
    expect(phone.locator(".judged li").first).to_be_visible()
    canvas.scroll_into_view_if_needed()
    drag(phone, canvas, (0.15, 0.4), (0.85, 0.6))
    phone.get_by_role("button", name="Keep it").click()
    expect(canvas).to_have_count(0)


def drag(page: Page, on: Locator, start: tuple[float, float], to: tuple[float, float]) -> None:
    """A finger over part of something."""
    box = on.bounding_box()
    assert box
    at = [(box["x"] + x * box["width"], box["y"] + y * box["height"]) for x, y in (start, to)]
    page.mouse.move(*at[0])
    page.mouse.down()
    page.mouse.move(*at[1], steps=6)
    page.mouse.up()


def test_a_whole_visit_through_a_connection_cut_twice(workshop, owner_state, watched, case):
    """From the code to a case that the laptop examines: nothing lost, nothing twice."""
    owner = watched.page(storage_state=owner_state)
    phone = watched.page(viewport=THUMB, has_touch=True, is_mobile=True)
    joined(owner, phone, workshop, case)
    line, places = phone.locator("#line"), phone.locator(".walk button")
    many = places.count()
    assert many == 9
    assert CAR["claim"]["items"]["chassis_number"] not in phone.content()
    places.first.click()
    for at in range(many):
        if at == 2:
            phone.context.set_offline(True)
        if at != 1:
            seen_at(phone, f"{at + 1}. ")
        else:
            phone.get_by_role("radio", name=re.compile("^cannot reach")).click()
            phone.get_by_label("What is to be seen there").fill("the lift was taken")
            phone.get_by_label("What is to be seen there").blur()
        if at == 3:
            photographed(phone)
            expect(line).to_contain_text("unsent")
            expect(line).to_contain_text("out of reach")
        if at == 4:
            phone.context.set_offline(False)
            expect(line).to_contain_text("all sent", timeout=70_000)
        if at == 5:
            phone.route("**/phone/jottings", lambda route: route.abort())
        if at == 7:
            phone.unroute("**/phone/jottings")
        phone.locator("nav.step button").click()
    expect(line).to_contain_text("all sent", timeout=90_000)
    expect(phone.locator(".end")).to_contain_text("All is on the laptop")
    consented(phone)
    expect(line).to_contain_text("all sent", timeout=30_000)
    # What was cut on purpose the browser notes as faults of its own.
    watched.faults[:] = [e for e in watched.faults if not any(cut in e for cut in CUT)]
    kept_on_the_laptop(owner, workshop, case)


def consented(phone: Page) -> None:
    """The owner's words, name and signature."""
    phone.get_by_text("What the owner agrees to").click()
    phone.get_by_label("In the owner's words").fill("Photographs may be kept.")
    phone.get_by_label("Name", exact=True).fill("R. Holm")
    sign = phone.locator("canvas.sign")
    sign.scroll_into_view_if_needed()
    drag(phone, sign, (0.2, 0.6), (0.8, 0.4))
    phone.get_by_role("button", name="Keep", exact=True).last.click()
    expect(phone.locator(".end")).to_contain_text("Kept, with the signature.")


def kept_on_the_laptop(owner: Page, workshop, case: str) -> None:
    """Each reading once, the place that was out of reach with its reason, picture and consent; and
    the laptop weighs it."""
    with owner.expect_download() as got:
        owner.goto(workshop(f"/cases/{case}/report"))
        owner.locator('a[href$="folder.zip"]').first.click()
    with zipfile.ZipFile(Path(got.value.path())) as packed:
        name = next(e for e in packed.namelist() if e.endswith("case.json") and e.count("/") < 2)
        kept = json.loads(packed.read(name))
        files = {each for each in packed.namelist() if "/exhibits/" in each}
        digests = {hashlib.sha256(packed.read(each)).hexdigest() for each in files}
    marks = [each["mark"] for each in kept["readings"]]
    assert len(marks) == len(set(marks)) >= 8
    texts = {each["mark"]: each["text"] for each in CAR["readings"]}
    assert {each["mark"]: each["text"] for each in kept["readings"]} == {
        mark: texts[mark] for mark in marks
    }
    assert all(each["claim_known"] is False for each in kept["readings"])
    out = [e for e in kept["sites"] if e["state"] == "not accessible"]
    assert [each["reason"] for each in out] == ["the lift was taken"]
    assert kept["assignment"]["owner_consent"] == "Photographs may be kept."
    assert hashlib.sha256(shot()["buffer"]).hexdigest() in digests
    regions = [e["number_regions"] for e in kept["exhibits"] if e["file"].endswith(".jpg")]
    assert len(regions) == 1
    assert regions[0][0]["width"] > 500
    owner.goto(workshop(f"/cases/{case}/weight"))
    expect(owner.locator("main")).to_contain_text("support")
    step(owner, "story")


@pytest.fixture(scope="module")
def script(workshop, browser) -> Page:
    """A page with the phone's modules at hand."""
    page = browser.new_page()
    page.goto(workshop("/static/mark.svg"))
    page.goto(workshop("/sign-in"))
    page.evaluate(
        """async () => {
        globalThis.spoken = await import("/static/phone/spoken.js");
        globalThis.digests = await import("/static/phone/sha256.js");
        }"""
    )
    return page


def test_its_own_digest_is_the_platforms(script):
    """At every length round a block's border, and of some megabytes."""
    lengths = [*range(130), 3_000_001]
    found = script.evaluate(
        """(lengths) => lengths.map((n) => new Uint8Array(n).map((_, i) => i * 7).buffer)
        .map((each) => digests.ownDigest(each))""",
        lengths,
    )
    wanted = [hashlib.sha256(bytes(i * 7 % 256 for i in range(n))).hexdigest() for n in lengths]
    assert found == wanted


SPOKEN = {
    "V zero two zero six delta zulu, second unsure": "V?206DZ",
    "one two four three seven nine november five nine four seven one eight": "124379N594718",
    "double five either three or eight nine": "55[38]9",
    "four space seven zero zero illegible four three": "4 700?43",
    "victor oh two, third and second unsure": "V??",
    "seven hundred": "",
    "alpha bravo dash nine": "AB-9",
    "sierra papa next window seven zero zero": "SP | 700",
    "seven zero zero struck over struck over": "700~~",
    "triple nine unsure": "99?",
    "zed niner xray": "Z9X",
    "seven zero gap three": "70\u20263",
}


@pytest.mark.parametrize("said", SPOKEN)
def test_what_is_said_becomes_what_is_written(script, said):
    """A word that is none is told, and then nothing is taken."""
    found = script.evaluate("([said, signs]) => spoken.heard(said, signs)", [said, LETTERS])
    if SPOKEN[said]:
        assert (found["text"], found["unknown"]) == (SPOKEN[said], [])
    else:
        assert found["unknown"] == ["hundred"]


LETTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
FIGURES = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
NAMES = {str(at): name for at, name in enumerate(FIGURES)}
SPELT = re.findall(
    r"\w+",
    """alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november oscar
    papa quebec romeo sierra tango uniform victor whiskey xray yankee zulu""",
)
NAMES |= {name[0].upper(): name for name in SPELT}


def test_any_number_spelt_out_is_that_number(script):
    """By figures and the international spelling alphabet; nothing is added or put right."""

    @settings(max_examples=40, deadline=None)
    @given(st.text(LETTERS, min_size=1, max_size=17))
    def spelt(number):
        said = " ".join(NAMES[each] for each in number)
        found = script.evaluate("([said, signs]) => spoken.heard(said, signs)", [said, LETTERS])
        assert (found["text"], found["unknown"]) == (number, [])

    spelt()
