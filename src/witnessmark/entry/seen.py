"""What was seen on the car, entered: readings, how the metal looks, how places ended."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from witnessmark.casefile import LookSeen, MarkReading, SiteSeen, SiteState
from witnessmark.catalogue import said
from witnessmark.entry.draft import CaseDraft, Entered, EnteredPair, decoded
from witnessmark.entry.places import named_in_a_row, place_name, placed, reached
from witnessmark.entry.words import in_words
from witnessmark.examination.entries import state_read, with_place_reached, with_state
from witnessmark.wording.amounts import capital
from witnessmark.wording.terms import term


def enter_readings(
    draft: CaseDraft, readings: Iterable[EnteredPair], fields: Mapping[str, Entered]
) -> tuple[str, ...]:
    """Marks and what each says, and how the place of each ended; tells what was entered."""
    old, before = len(draft.casefile.readings), draft.casefile.sites
    for pair in readings:
        draft.add("readings", MarkReading, {"mark": pair.left, "text": pair.right, **fields})
    draft.in_book_words("readings")
    told = []
    for each in decoded(draft, old) if not draft.problems else ():
        mark, text = draft.book.mark(each.mark), each.reading.as_typed
        if mark is not None:
            state = state_read(mark, text)
            draft.casefile = with_state(draft.casefile, draft.book, draft.context, mark, state)
            told.append(said("{mark}: {text}", mark=capital(mark.name), text=text))
    return _lines(named_in_a_row(told), reached(draft, before))


@dataclass(frozen=True, slots=True)
class LookEntered:
    """A place, what was looked at there if more than the place itself, and how it looks."""

    place: Entered
    feature: Entered | None
    outcome: Entered


def enter_looks(
    draft: CaseDraft, looks: Iterable[LookEntered], fields: Mapping[str, Entered]
) -> tuple[str, ...]:
    """How the metal looks, and that the places were reached; tells what was entered."""
    old, before = len(draft.casefile.looks), draft.casefile.sites
    for look in looks:
        site = placed(draft, look.place)
        if site is not None:
            named = {"site": replace(look.place, value=site[0]), "outcome": look.outcome}
            named |= {} if look.feature is None else {"feature": look.feature}
            draft.add("looks", LookSeen, {**named, **fields})
    draft.in_book_words("looks")
    told = []
    for each in draft.casefile.looks[old:]:
        draft.casefile = with_place_reached(draft.casefile, each.site)
        told.append(
            said(
                "{place}, {feature}: {outcome}",
                place=capital(place_name(draft, each.site)),
                feature=each.feature.replace("_", " "),
                outcome=each.outcome,
            )
        )
    return _lines(named_in_a_row(told), reached(draft, before))


def enter_sites(
    draft: CaseDraft, sites: Iterable[EnteredPair], fields: Mapping[str, Entered]
) -> tuple[str, ...]:
    """Places and how each ended, at the entry of the place or the mark where there is one; tells
    what was entered."""
    told = []
    for pair in sites:
        at = _put_site(draft, pair, fields)
        if at is not None:
            entry = draft.casefile.sites[at]
            place = place_name(draft, entry.site, entry.mark)
            told.append(said("{place}: {state}", place=capital(place), state=term(entry.state)))
    return _lines(named_in_a_row(told))


def _put_site(draft: CaseDraft, pair: EnteredPair, fields: Mapping[str, Entered]) -> int | None:
    """Put the state at the entry of the place or the mark that is named, or add one; gives which
    it is, None where something is at fault."""
    place = placed(draft, pair.left)
    if place is None:
        return None
    state = {"state": in_words(pair.right, SiteState), **fields}
    entries = draft.casefile.sites
    at = next((n for n, e in enumerate(entries) if (e.site, e.mark) == place), len(entries))
    site, mark = (replace(pair.left, value=each) for each in place)
    return draft.enter("sites", at, SiteSeen, {"site": site, "mark": mark}, state)


def _lines(*told: str) -> tuple[str, ...]:
    return tuple(filter(None, told))
