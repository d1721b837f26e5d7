"""Two people read the same marks: the second by a link, blind; then both see where they differ."""

import json

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import DEMO, DESK, PHONE
from tests.browser.desk import choose, saved

pytestmark = pytest.mark.browser

CAR = json.loads((DEMO / "panel/case.json").read_text("utf-8"))


def test_a_second_examiner_reads_blind(workshop, owner_state, watched, new_case):
    """Nothing of what was read, claimed or noted is in a page before they are done."""
    case = new_case("panel")
    owner = watched.page(storage_state=owner_state, viewport=DESK)
    owner.goto(workshop(f"/cases/{case}/second"))
    owner.get_by_label("Who reads a second time").fill("Jo Farr")
    owner.get_by_role("button", name="Make a link").click()
    link = owner.get_by_label("The link").input_value()
    page = watched.page(viewport=PHONE, has_touch=True)
    sources = [_source(page, link)]
    sources += [_source(page, f"{link}/places/{each}") for each in ("frame_rail", "scuttle")]
    for each in _never_shown():
        assert all(each not in source for source in sources), each
    form = page.locator("form", has=page.locator('[name="window-0"]')).last
    form.locator('[name="window-0"]').fill("582[08]63")
    choose(form, "legibility", "worn")
    saved(page)
    assert "plate_aluminium" in page.content()
    page.get_by_role("link", name="All places").first.click()
    page.get_by_role("button", name="I am done").click()
    differs = page.locator("tr", has_text="Ines Calder").first
    expect(differs).to_contain_text("582[08]63")
    owner.reload()
    expect(owner.locator("table")).to_contain_text("582[08]63")


def _source(page, address: str) -> str:
    """What comes from the workshop, not what the browser makes of it."""
    answer = page.goto(address)
    assert answer is not None
    return answer.text()


def _never_shown() -> set[str]:
    """Readings, claims and words about them, as far as nothing else of a page could say them."""
    claim = CAR["claim"]
    texts = {part.strip() for each in CAR["readings"] for part in each["text"].split("|")}
    said = {claim["text"], claim["made_by"], CAR["title"], CAR["assignment"]["client"]}
    said |= {each["says"] for each in claim["statements"]}
    said |= {each["caption"] for each in CAR["exhibits"]} | {"drophead", "saxe"}
    said |= {each["name"] for each in CAR["assignment"]["examiners"]}
    return {each for each in texts if len(each) > 4} | said
