"""What was jotted down at the car, where nobody waits for the laptop: one thing each, kept by a
phone under an id of its own until it is told that the case has it.

A jotting is an object of JSON: who it is, which case, when by the phone's clock, of which kind, and
the fields of the entry it is to become. Whoever takes it in enters it here, whichever way it came.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any, Final

from witnessmark.casefile import Exhibit, SiteState
from witnessmark.catalogue import said
from witnessmark.documents.json_rows import JsonRows
from witnessmark.documents.json_scan import scan_json
from witnessmark.documents.open_row import OpenRow, named_or_not
from witnessmark.documents.row import form, many_rows, moment, named, number, word
from witnessmark.entry.brought import enter_exhibit, enter_statements
from witnessmark.entry.draft import CaseDraft, Entered, EnteredPair
from witnessmark.entry.problems import BadJottingId, NoSuchPicture
from witnessmark.entry.seen import LookEntered, enter_looks, enter_readings, enter_sites
from witnessmark.examination import in_book_words
from witnessmark.examination.entries import state_read, with_state
from witnessmark.problem import Problem
from witnessmark.source import Source

KINDS: Final = ("place", "reading", "look", "picture", "said", "consent")
FORMAT: Final = "witnessmark-jottings"


class Jotting(OpenRow, called="a jotting"):
    """One thing jotted down; the fields of its entry stand beside these, and are checked when it is
    entered. `base`: the revision of the case that whoever wrote it had before them."""

    id: str = form(
        "its own id: 8 to 40 letters, digits and dashes",
        r"[A-Za-z0-9-]{8,40}",
        refused=BadJottingId,
    )
    kind: str = word("what it is: place, reading, look, picture, said or consent", KINDS)
    case: str = named("the case it is meant for")
    base: int = number("the revision that was before whoever wrote it", 1, 9_999_999)
    at: datetime | None = moment("when, by the clock of the phone", default=None)
    moved_from: str = named_or_not("the case it was first jotted down for, where that was another")

    def entered(self, name: str, default: Any = "") -> Entered:
        """What it says in this field, with the field as its place."""
        return Entered(self.unknown.get(name, default), Source(name))

    def among(self, *names: str) -> dict[str, Entered]:
        """Those of these fields that it has."""
        return {name: self.entered(name) for name in names if name in self.unknown}


class JottingSheet(OpenRow, called="a list of jottings"):
    """What a phone hands over: its jottings, in the order in which they were made."""

    format: str = word("the word that says what this is", (FORMAT,))
    format_version: int = number("the version of this format", 1, 1)
    jottings: tuple[Jotting, ...] = many_rows("what was jotted down", Jotting)


def jottings_of(text: str, name: str) -> tuple[tuple[Jotting, ...], tuple[Problem, ...]]:
    """The jottings of a JSON text that lists them, or what cannot be read of it, each at its line
    and column: then none is given. Never raises for any text."""
    scan = scan_json(text.removeprefix("\ufeff"), name)
    if scan.problems or scan.readable is None:
        return (), scan.problems
    rows = JsonRows(scan.places)
    sheet = rows.row(JottingSheet, json.loads(scan.readable))
    return ((), tuple(rows.problems())) if sheet is None else (sheet.jottings, ())


def enter_jotting(
    draft: CaseDraft, jotting: Jotting, by: str, picture: Exhibit | None = None
) -> tuple[str, ...]:
    """Enter it as this person's; `picture` is what its digest names. Tells what was entered."""
    if jotting.kind in ("picture", "consent") and picture is None:
        draft.problems.append(NoSuchPicture(Source("sha256"), str(jotting.entered("sha256").value)))
        return ()
    told = _ENTERING[jotting.kind](draft, jotting, by, picture)
    if told and jotting.moved_from:
        return (*told, said("moved here from {case}", case=jotting.moved_from))
    return told


type _Enters = Callable[[CaseDraft, Jotting, str, Exhibit | None], tuple[str, ...]]


def _place(draft: CaseDraft, jotting: Jotting, by: str, _: Exhibit | None) -> tuple[str, ...]:
    pair = EnteredPair(jotting.entered("place"), jotting.entered("state"))
    return enter_sites(draft, [pair], jotting.among("reason"))


def _reading(draft: CaseDraft, jotting: Jotting, by: str, _: Exhibit | None) -> tuple[str, ...]:
    """A reading, or another text of the one that this person made here before; an empty text takes
    it away again."""
    mark, text = jotting.entered("mark"), jotting.entered("text")
    how = jotting.among("legibility", "orientation", "seen", "note", "claim_known")
    how["when"] = Entered(_moment(jotting), Source("at"))
    readings = in_book_words(draft.casefile, draft.book).readings
    own = (n for n, e in enumerate(readings) if (e.mark, e.by, e.again) == (mark.value, by, False))
    at = next(own, None)
    if at is None:
        signed = {**how, "by": Entered(by, Source("by"))}
        return enter_readings(draft, [EnteredPair(mark, text)], signed) if text.value else ()
    if not text.value:
        draft.remove("readings", at)
        return (said("{mark}: a reading taken away", mark=str(mark.value)),)
    draft.put("readings", at, {"text": text, **how})
    named = draft.book.mark(str(mark.value))
    if named is None or draft.problems:
        return ()
    state = state_read(named, str(text.value))
    draft.casefile = with_state(draft.casefile, draft.book, draft.context, named, state)
    return (f"{named.name}: {text.value}",)


def _look(draft: CaseDraft, jotting: Jotting, by: str, _: Exhibit | None) -> tuple[str, ...]:
    """A look, or another outcome of the one that this person had here before."""
    place, feature = jotting.entered("place"), jotting.entered("feature", "surface")
    outcome, beside = jotting.entered("outcome"), jotting.among("note", "seen")
    beside["when"] = Entered(_moment(jotting), Source("at"))
    own_place = (place.value, feature.value, by, False)
    looks = in_book_words(draft.casefile, draft.book).looks
    same = (n for n, e in enumerate(looks) if (e.site, e.feature, e.by, e.again) == own_place)
    at = next(same, None)
    if at is None:
        signed = {**beside, "by": Entered(by, Source("by"))}
        return enter_looks(draft, [LookEntered(place, feature, outcome)], signed)
    if not outcome.value:
        draft.remove("looks", at)
        return (said("{place}: a look taken away", place=str(place.value)),)
    draft.put("looks", at, {"outcome": outcome, **beside})
    draft.in_book_words("looks")
    return (f"{place.value}, {feature.value}: {outcome.value}",)


def _picture(
    draft: CaseDraft, jotting: Jotting, by: str, picture: Exhibit | None
) -> tuple[str, ...]:
    """A photograph with the digest that its phone gave it, named at what it shows."""
    assert picture is not None, "looked for before"
    shows = [jotting.entered(name) for name in ("mark", "place") if jotting.unknown.get(name)][:1]
    for each in shows:
        _let_be(draft, each)
    named = jotting.entered("name", "photo")
    beside = jotting.among("caption", "number_regions", "shows_whole_car")
    beside["taken_by"] = Entered(by, Source("by"))
    return (enter_exhibit(draft, picture, named, shows, beside),)


def _let_be(draft: CaseDraft, shows: Entered) -> None:
    """An entry of the place, at which a photograph can be named."""
    name = str(shows.value)
    if all(each.id != name for each in draft.book.sites):
        return
    if all(each.site != name for each in draft.casefile.sites):
        state = replace(shows, value=SiteState.NOT_LOOKED_FOR.value)
        enter_sites(draft, [EnteredPair(shows, state)], {})


def _said(draft: CaseDraft, jotting: Jotting, by: str, _: Exhibit | None) -> tuple[str, ...]:
    """What the owner or seller said at the car of one part."""
    pair = EnteredPair(jotting.entered("about", "car"), jotting.entered("says"))
    same = (pair.left.value, pair.right.value)
    if same in ((e.about, e.says) for e in draft.casefile.claim.statements):
        return ()
    return enter_statements(draft, [pair], {})


def _consent(
    draft: CaseDraft, jotting: Jotting, by: str, picture: Exhibit | None
) -> tuple[str, ...]:
    """What the owner agreed to or refused, and the picture of what they signed."""
    assert picture is not None, "looked for before"
    words, signer = jotting.entered("says"), str(jotting.entered("name").value)
    consent = Entered(words.value, words.source)
    made = draft.put_in(draft.casefile.assignment, {"owner_consent": consent}, ("assignment",))
    if made is None:
        return ()
    draft.casefile = replace(draft.casefile, assignment=made)
    caption = said("signed by {name}: {words}", name=signer, words=str(words.value))
    signed = {"caption": Entered(caption, words.source), "number_regions": Entered([], NO_REGION)}
    return (enter_exhibit(draft, picture, Entered("consent", words.source), (), signed),)


NO_REGION: Final = Source("regions")

_ENTERING: Mapping[str, _Enters] = {
    "place": _place,
    "reading": _reading,
    "look": _look,
    "picture": _picture,
    "said": _said,
    "consent": _consent,
}


def _moment(jotting: Jotting) -> str:
    return "" if jotting.at is None else jotting.at.isoformat()
