"""What a phone jotted down becomes entries of the case, once each, whoever hands it over twice."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from witnessmark.casefile import Exhibit, ExhibitEntry, SiteState, parse_casefile
from witnessmark.codebook import find_book, open_book
from witnessmark.entry import CaseDraft, Jotting, checked, enter_jotting, jottings_of

CLEAN = Path(__file__).parents[2] / "demo" / "no-papers" / "case.json"


def sheet(*jottings: dict[str, Any]) -> str:
    """The text that a phone hands over."""
    return json.dumps({"format": "witnessmark-jottings", "format_version": 1, "jottings": jottings})


def jotted(kind: str, **fields: Any) -> Jotting:
    """One jotting as it is read."""
    own = {"id": "0123456789abcdef", "kind": kind, "case": "no-papers", "base": 1}
    found, problems = jottings_of(sheet(own | {"at": "2026-03-02T10:00:00+01:00"} | fields), "sent")
    assert not problems
    return found[0]


@pytest.fixture
def draft() -> CaseDraft:
    """The demonstration car without papers, before anything of today was entered."""
    opened = parse_casefile(CLEAN.read_text("utf-8"), "case.json")
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    book = open_book(folder).book
    assert book is not None
    assert opened.casefile is not None
    return CaseDraft(opened=opened, casefile=opened.casefile, book=book)


def test_a_reading_is_entered_signed_changed_and_taken_away(draft):
    """The second text of the same person replaces their first; an empty one takes it away."""
    mark = draft.casefile.readings[0].mark
    before = len(draft.casefile.readings)
    first = jotted("reading", mark=mark, text="12?4", legibility="worn", claim_known=False)
    assert "12?4" in enter_jotting(draft, first, "Ben")[0]
    made = draft.casefile.readings[-1]
    assert (made.text, made.by, made.claim_known) == ("12?4", "Ben", False)
    assert made.when is not None
    assert made.when.hour == 10
    enter_jotting(draft, jotted("reading", mark=mark, text="1234"), "Ben")
    assert draft.casefile.readings[-1].text == "1234"
    assert len(draft.casefile.readings) == before + 1
    enter_jotting(draft, jotted("reading", mark=mark, text=""), "Ben")
    assert len(draft.casefile.readings) == before
    assert checked(draft)[1] == ()


def test_a_place_and_a_look_end_where_they_belong(draft):
    """With the reason, and with the outcome changed at its own entry."""
    site = draft.casefile.sites[0].site
    enter_jotting(
        draft, jotted("place", place=site, state="not accessible", reason="belly pan"), "Ben"
    )
    entry = next(e for e in draft.casefile.sites if e.site == site and not e.mark)
    assert (entry.state, entry.reason) == (SiteState.NOT_ACCESSIBLE, "belly pan")
    enter_jotting(draft, jotted("look", place=site, outcome="doubtful"), "Ben")
    enter_jotting(draft, jotted("look", place=site, outcome="factory"), "Ben")
    own = [e for e in draft.casefile.looks if e.by == "Ben"]
    assert [(e.site, e.outcome) for e in own] == [(site, "factory")]
    assert checked(draft)[1] == ()


def test_a_picture_is_named_at_its_place_once(draft):
    """Sent again it is the same entry; without its bytes it is refused."""
    site = draft.casefile.sites[0].site
    shot = jotted("picture", place=site, sha256="ab" * 32, name="pad.jpg", moved_from="other")
    assert enter_jotting(draft, shot, "Ben") == ()
    assert "has not come" in draft.problems.pop().sentence()
    entry = ExhibitEntry(id="new", file=f"{'ab' * 32}.jpg", sha256="ab" * 32)
    found = Exhibit(entry, b"", "image/jpeg", 400, 300)
    told = enter_jotting(draft, shot, "Ben", found)
    assert "moved here from other" in told
    enter_jotting(draft, shot, "Ben", found)
    own = [e for e in draft.casefile.exhibits if e.sha256 == "ab" * 32]
    assert [e.taken_by for e in own] == ["Ben"]
    assert own[0].id in next(e for e in draft.casefile.sites if e.site == site).exhibits


def test_what_the_owner_said_and_agreed_to_is_kept(draft):
    """A statement once; the consent in the assignment, its signature as an exhibit."""
    said = jotted("said", about="car", says="the engine was changed in 1971")
    assert enter_jotting(draft, said, "Ben")
    assert not enter_jotting(draft, said, "Ben")
    entry = ExhibitEntry(id="new", file=f"{'cd' * 32}.png", sha256="cd" * 32)
    signed = jotted("consent", says="photographs may be kept", name="R. Holm", sha256="cd" * 32)
    told = enter_jotting(draft, signed, "Ben", Exhibit(entry, b"", "image/png", 400, 300))
    assert told
    assert draft.casefile.assignment.owner_consent == "photographs may be kept"
    assert "R. Holm" in draft.casefile.exhibits[-1].caption
    assert checked(draft)[1] == ()


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ({"kind": "guess"}, "guess"),
        ({"id": "x"}, "'x' is not the id of a jotting"),
        ({"base": 0}, "base"),
        ({"at": "yesterday"}, "yesterday"),
    ],
)
def test_a_jotting_that_cannot_be_read_is_told_with_its_place(wrong, told):
    """Line and column of the text that was handed over; nothing of it is taken."""
    own = {"id": "0123456789abcdef", "kind": "look", "case": "c", "base": 1}
    found, problems = jottings_of(sheet(own | wrong), "visit.json")
    assert found == ()
    assert told in problems[0].sentence()
    assert problems[0].source.name == "visit.json"
    assert problems[0].source.line == 1


@tried_on(200)
@given(
    st.text()
    | st.recursive(
        st.none() | st.booleans() | st.integers() | st.text(max_size=8),
        lambda inner: (
            st.lists(inner, max_size=4)
            | st.dictionaries(
                st.sampled_from(["format", "format_version", "jottings", "id", "kind"]), inner
            )
        ),
    ).map(json.dumps)
)
def test_no_text_raises(text):
    """Whatever a phone sends is read, or told."""
    found, problems = jottings_of(text, "sent")
    assert found == () or not problems
