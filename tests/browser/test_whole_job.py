"""The whole job through the pages' own controls: from a new case to the documents and the folder,
of which the command line then says the same as the workshop."""

import json
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DEMO, DESK, PHONE, SERVE
from tests.browser.desk import choose, read, saved, step

pytestmark = pytest.mark.browser

CAR: dict[str, Any] = json.loads((DEMO / "panel/case.json").read_text("utf-8"))
CLAIM: dict[str, Any] = CAR["claim"]
LONG = 120_000
"""Milliseconds until steadiness or documents are there, on a machine that is busy."""


def test_a_car_from_the_call_to_the_folder(workshop, owner_state, watched, tmp_path):
    asked = {"storage_state": owner_state, "viewport": DESK, "accept_downloads": True}
    page = watched.page(**asked)
    page.goto(workshop("/"))
    _begin(page)
    _claim(page)
    _plan(page)
    page.set_viewport_size(PHONE)
    _evidence(page)
    page.set_viewport_size(DESK)
    step(page, "story")
    expect(page.get_by_role("heading", name="Do the marks tell one story?")).to_be_visible()
    step(page, "weight")
    expect(page.locator("#working")).not_to_have_attribute("hx-get", "", timeout=LONG)
    page.locator("#working:not([hx-get])").wait_for(timeout=LONG)
    step(page, "report")
    _issue(page)
    issued = _downloaded(page, "section.issued", "own-panel-opinion.json", tmp_path)
    assert _downloaded(page, "section.issued", "own-panel.pdf", tmp_path)[:5] == b"%PDF-"
    folder = _folder(page, tmp_path)
    _as_typed(json.loads((folder / "case.json").read_text("utf-8")))
    examined = _command_line("examine", str(folder), "--json")
    _same(json.loads(issued), json.loads(examined))


def _begin(page: Page) -> None:
    """A new case: its number, its book, the year, the model."""
    page.get_by_role("link", name="New case").click()
    page.get_by_label("Identification number").fill(CLAIM["items"]["chassis_number"])
    page.get_by_label("Code book").select_option(CAR["book"])
    page.get_by_label("Model year").fill(CLAIM["items"]["model_year"])
    page.get_by_label("Model", exact=True).fill(CLAIM["items"]["model"])
    page.get_by_label("Title").fill(CAR["title"])
    page.get_by_label("Short name").fill("own-panel")
    page.get_by_label("Who says what it is").fill(CLAIM["made_by"])
    page.get_by_label("For whom you look").fill(CAR["assignment"]["client"])
    page.get_by_role("button", name="Open the case").click()
    expect(page).to_have_title(f"Claim: {CAR['title']}")


def _claim(page: Page) -> None:
    """What is said about it, each field kept as it is typed."""
    for name in ("text", "built"):
        page.locator(f'#part-said [name="{name}"]').fill(CLAIM[name])
        saved(page)
    car = page.locator("#part-items")
    for name in ("works", "body_works", "paint"):
        field = car.locator(f'[name="{name}"]')
        if not field.is_visible():
            car.locator("details > summary").click()
        field.fill(CLAIM["items"][name])
        saved(page)
    page.locator("details:has(> #part-statements) > summary").click()
    said = page.locator("#part-statements")
    for count, statement in enumerate(CLAIM["statements"]):
        added = said.locator("details").last
        if added.get_attribute("open") is None:
            added.locator("summary").click()
        added.locator('[name="about"]').fill(statement["about"])
        added.locator('[name="says"]').fill(statement["says"])
        added.locator('[name="origin"]').select_option(statement["origin"])
        added.get_by_role("button", name="Add the statement").click()
        entry = said.locator(f'form[action$="/claim/statements/{count}"]')
        entry.first.wait_for(state="attached")
        saved(page)


def _plan(page: Page) -> None:
    """The minutes there are, and the sheet to take along."""
    step(page, "plan")
    page.get_by_label("I have").fill(str(CAR["assignment"]["minutes_available"]))
    page.get_by_role("button", name="Show the best looks").click()
    saved(page)
    sheet = page.locator("section", has=page.get_by_role("heading", name="Field sheet")).last
    with page.expect_download(timeout=LONG) as coming:
        sheet.get_by_role("link", name="PDF, A4").click()
    assert Path(coming.value.path()).read_bytes()[:5] == b"%PDF-"


def _evidence(page: Page) -> None:
    """On a phone, place by place: how it ended, what is read, how it looks, photographs."""
    step(page, "evidence")
    for place in CAR["sites"]:
        _go(page, f"/evidence/{place['site']}")
        _place(page, place)
    for paper in CAR["papers"]:
        _go(page, f"/papers/{paper['mark']}")
        choose(page.locator("#place form").first, "state", paper["state"])
        saved(page)
        _readings(page, paper["mark"])


def _go(page: Page, address: str) -> None:
    """To a place by the walk, which is a tap away, once it stands as the last save left it."""
    page.wait_for_load_state("networkidle")
    page.get_by_role("link", name="The walk", exact=True).click()
    page.locator(f'#walk-list a[href$="{address}"]').click()
    page.wait_for_url(f"**{address}")


def _place(page: Page, place: dict[str, Any]) -> None:
    if place["state"] != "read":
        state = page.locator("form.state").first
        choose(state, "state", place["state"])
        state.locator('[name="reason"]').fill(place.get("reason", ""))
        saved(page)
    if place["site"] == "scuttle":
        pictures = sorted((DEMO / "panel/exhibits").iterdir())[:2]
        page.get_by_label("Add photographs or scans").set_input_files(pictures)
        page.get_by_role("button", name="Add them").click()
        expect(page.locator("figure.photo img")).to_have_count(2)
    for mark in page.locator("form.reading-form").evaluate_all(
        "f => [...new Set(f.map(e => e.dataset.of))]"
    ):
        _readings(page, mark)
    for look in CAR["looks"]:
        if look["site"] == place["site"]:
            form = page.locator(f'form[action*="/looks/{look["feature"]}?"]').first
            choose(form, "outcome", look["outcome"])
            saved(page)


def _readings(page: Page, mark: str) -> None:
    """The first reading that the case has of a mark."""
    found = next((each for each in CAR["readings"] if each["mark"] == mark), None)
    if found:
        read(page, mark, found["text"], found.get("legibility", "clear"))


def _issue(page: Page) -> None:
    """Freeze the report under its number."""
    page.locator("a.leaf img").first.wait_for(timeout=LONG)
    page.get_by_text("Issue the report as it stands").click()
    page.get_by_label("Number of the report").fill("26-031")
    page.get_by_role("button", name="Issue it").click()
    page.locator("section.issued").wait_for(timeout=LONG)


def _downloaded(page: Page, within: str, name: str, to: Path) -> bytes:
    with page.expect_download(timeout=LONG) as coming:
        page.locator(within).get_by_role("link", name=name, exact=True).click()
    coming.value.save_as(to / name)
    return (to / name).read_bytes()


def _folder(page: Page, to: Path) -> Path:
    with page.expect_download(timeout=LONG) as coming:
        page.get_by_role("link", name="Download the case").click()
    with zipfile.ZipFile(coming.value.path()) as found:
        found.extractall(to / "folder")
    return to / "folder/own-panel"


def _as_typed(case: dict[str, Any]) -> None:
    """The first reading of each mark, each place, statement and look came through as typed."""
    typed: dict[str, str] = {}
    for each in CAR["readings"]:
        typed.setdefault(each["mark"], each["text"])
    kept = {each["mark"]: each["text"].replace(" | ", "|") for each in case["readings"]}
    assert kept == typed
    states = {each["site"]: each["state"] for each in CAR["sites"]}
    assert {e["site"]: e["state"] for e in case["sites"]}.items() >= states.items()
    said = [{name: e for name, e in each.items() if e} for each in case["claim"]["statements"]]
    assert said == CLAIM["statements"]
    assert len(case["looks"]) == len(CAR["looks"])
    assert len(case["exhibits"]) == 2


def _command_line(*words: str) -> str:
    command = (sys.executable, "-c", SERVE, *words)
    return subprocess.run(command, capture_output=True, text=True, check=True, timeout=300).stdout


def _same(issued: dict[str, Any], examined: dict[str, Any]) -> None:
    """Key by key, so that what differs is named."""
    assert issued.keys() == examined.keys()
    for name, each in issued.items():
        assert examined[name] == each, name
