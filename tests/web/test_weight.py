"""Weight: ratios first, bands behind; what is assumed is tried, kept with a reason, taken back."""

import json
import re

import pytest
from django.utils.html import escape

from tests.examined import DRAWS, examining
from witnessmark import store
from witnessmark.web.shared import desk
from witnessmark.web.shared.desk import bench_of
from witnessmark.web.weight import trial_view, view
from witnessmark.web.weight.one_at_a_time import OneAtATime

from .conftest import DEMO, WHEN

ROW = "structure.other"


@pytest.fixture
def unsteady(monkeypatch) -> OneAtATime:
    """Nothing is worked out behind the pages: what is asked for stays not yet there."""
    idle = OneAtATime()
    monkeypatch.setattr(OneAtATime, "_begin", lambda self: None)
    monkeypatch.setattr(view, "BEHIND", idle)
    monkeypatch.setattr(trial_view, "BEHIND", idle)
    return idle


@pytest.fixture
def small_case(home) -> str:
    """A car of which one mark was read, in the store."""
    document = json.loads((DEMO / "clean" / "case.json").read_text("utf-8"))
    document |= {"id": "small", "readings": document["readings"][:1]}
    for section in ("looks", "papers", "sites", "exhibits"):
        document[section] = []
    document["readings"][0]["exhibits"] = []
    document.pop("title_paper", None)
    return store.begin(json.dumps(document), "Ada", "opened", WHEN).case


def work_off(behind: OneAtATime) -> None:
    """Make what waits, as the thread behind the pages does."""
    while behind.waiting:
        behind.at_work, make = behind.waiting.pop(next(reversed(behind.waiting)))
        behind._make(make)


def whole_page(owner, case: str) -> str:
    """The page once what each thing does is there."""
    asked = owner.get(f"/cases/{case}/weight/steady")
    assert asked.status_code == 202
    return asked.content.decode()


def overrides(case: str) -> list[tuple[str, float, str]]:
    """The rows that the case has otherwise."""
    found = bench_of(case).casefile.circumstances.overrides
    return [(each.row, each.value, each.reason) for each in found]


def test_what_does_not_fit_stands_before_any_ratio_and_words_wait_for_the_band(
    owner, demo_case, unsteady
):
    """The page asks for the bands itself, and says until then that they are being worked out."""
    case = demo_case("altered")
    page = owner.get(f"/cases/{case}/weight").content.decode()
    assert page.index("#finding-1") < page.index(">LR<")
    assert "being worked out" in page
    assert "support for" not in page
    answer = owner.get(f"/cases/{case}/weight/steady?revision=1", headers={"HX-Request": "true"})
    assert answer.status_code == 202
    assert b'hx-trigger="load delay:1s"' in answer.content


def test_why_opens_reason_row_basis_and_source_with_the_way_to_the_mark(owner, demo_case, unsteady):
    """Of each thing that moves a ratio."""
    case = demo_case("altered")
    page = whole_page(owner, case)
    item = page[page.index("<span>The casting date of the block.</span>") :]
    item = item[: item.index("</details>")]
    assert "later than" in item
    assert "[invented: Invented for the demonstration" in item
    assert f'href="/cases/{case}/evidence/engine_side"' in item


def test_the_ratios_are_shown_before_what_each_thing_does_which_the_page_asks_for(
    owner, small_case, unsteady, monkeypatch
):
    """The first page examines at once; the second request brings why and looks, each once."""
    asked: list[bool] = []
    real = desk.examine

    def counted(*given, **how):
        asked.append(how["at_once"])
        return real(*given, **how)

    monkeypatch.setattr(desk, "examine", counted)
    here, htmx = f"/cases/{small_case}/weight", {"HX-Request": "true"}
    page = owner.get(here).content.decode()
    assert asked == [True]
    assert ">LR<" in page
    assert "What each thing does to it is being worked out" in page
    rest = owner.get(f"{here}/steady?revision=1", headers=htmx).content.decode()
    assert asked == [True, False]
    assert 'id="q1-why" hx-swap-oob="true"' in rest
    assert 'id="looks" hx-swap-oob="true"' in rest
    assert "What each thing does to it" not in rest
    again = owner.get(f"{here}/steady?revision=1&why=yes", headers=htmx).content.decode()
    assert "q1-" not in again
    story = owner.get(f"/cases/{small_case}/story").content.decode()
    assert asked == [True, False]
    assert "hx-get" not in story[story.index('<section id="unsettled"') :]


def test_a_trial_shows_the_answer_at_another_value_and_saves_nothing(owner, small_case, unsteady):
    """By a link alone; a value that is none is told with its place."""
    case = small_case
    tried = owner.get(f"/cases/{case}/weight/trial", {"row": ROW, "value": "90"})
    assert tried.status_code == 202
    page = tried.content.decode()
    assert "90 %" in page
    assert "nothing is saved" in page
    assert "LR in the trial" in page
    assert 'name="reason"' in page
    for wrong in ("250", "many"):
        refused = owner.get(f"/cases/{case}/weight/trial", {"row": ROW, "value": wrong})
        assert refused.status_code == 422
        assert b"Expected" in refused.content
    assert store.head(case).number == 1


def test_a_value_is_kept_with_its_reason_shown_as_such_and_taken_back(owner, small_case, unsteady):
    """What it was, what it is, who and why; without a reason nothing is kept."""
    case, here = small_case, {"deed": "override", "row": ROW, "value": "0.3", "base": "1"}
    bare = owner.post(f"/cases/{case}/weight", here)
    assert bare.status_code == 422
    assert overrides(case) == []
    for base, value, why in (("1", "0.3", "A guess"), ("2", "0.25", "Most were re-framed")):
        kept = {**here, "base": base, "value": value, "reason": why}
        assert owner.post(f"/cases/{case}/weight", kept).status_code == 302
    assert overrides(case) == [(ROW, 0.25, "Most were re-framed")]
    page = owner.get(f"/cases/{case}/weight").content.decode()
    shown = page[page.index('<section id="taken">') :]
    shown = shown[: shown.index("</section>")]
    assert "25 %</strong>, where the model has 10 %" in shown
    assert "Most were re-framed." in shown
    assert "the owner" in shown
    late = {**here, "value": "0.2", "reason": "Few", "base": "2"}
    late = owner.post(f"/cases/{case}/weight", late)
    assert late.headers["Location"].endswith("/beside")
    assert overrides(case) == [(ROW, 0.25, "Most were re-framed")]
    owner.post(f"/cases/{case}/weight", {"deed": "take back", "row": ROW, "base": "3"})
    assert overrides(case) == []
    assert store.head(case).number == 4


def test_only_a_row_from_memory_can_be_vouched_for(owner, small_case, unsteady):
    """Another one is told with its place, and what was typed stands there still."""
    case = small_case
    form = {"deed": "vouch", "row": "frame_number", "by": "Ada", "reason": "Seen on many"}
    refused = owner.post(f"/cases/{case}/weight", form)
    assert refused.status_code == 422
    assert escape("Seen on many") in refused.content.decode()
    assert store.head(case).number == 1


def test_a_reader_sees_the_weight_and_changes_nothing(signed_in, small_case, unsteady):
    """The page is theirs to read and to try."""
    case = small_case
    reader = signed_in("reader", cases=(case,))
    assert reader.get(f"/cases/{case}/weight/trial", {"row": ROW, "value": "20"}).status_code == 202
    form = {"deed": "override", "row": ROW, "value": "0.3", "reason": "Mine"}
    assert reader.post(f"/cases/{case}/weight", form).status_code == 403
    assert overrides(case) == []


def test_the_bands_come_into_their_places_once_they_are_worked_out(
    owner, small_case, unsteady, monkeypatch
):
    """Those of the page, and those of a trial beside them."""
    monkeypatch.setattr(examining, "DRAWS", DRAWS)
    here, htmx = f"/cases/{small_case}/weight", {"HX-Request": "true"}
    trial = {"row": ROW, "value": "40"}
    assert owner.get(f"{here}/steady", headers=htmx).status_code == 202
    assert owner.get(f"{here}/trial", trial, headers=htmx).status_code == 202
    work_off(unsteady)
    bands = owner.get(f"{here}/steady", headers=htmx)
    assert bands.status_code == 200
    parts = bands.content.decode()
    assert "q1-figures" in parts
    assert f"of {DRAWS}" in parts
    assert "hx-get" not in parts[: parts.index("</div>")]
    tried = owner.get(f"{here}/trial", trial, headers=htmx)
    assert tried.status_code == 200
    assert "turned:" in tried.content.decode()
    assert "support for" in owner.get(here).content.decode()


def test_the_newest_that_was_asked_for_is_worked_out_next(unsteady):
    """What the same one asked for before is dropped; what fails is told to whoever asks."""
    asked: list[str] = []
    for whose, key in (("a page", "one"), ("a slider", "two"), ("a slider", "three")):
        assert unsteady.ask(whose, key, lambda key=key: asked.append(key) or key) is None
    work_off(unsteady)
    assert asked == ["three", "one"]
    assert unsteady.ask("a page", "one", str) == "one"
    assert re.fullmatch("three", unsteady.made("three"))
