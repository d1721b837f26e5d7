"""What the forms of the claim enter into a case: fields, entries of lists, items, prior odds."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from django.http import HttpRequest

from witnessmark.casefile.profile import examiner_of, parse_profile
from witnessmark.documents.open_row import OpenRow, as_json
from witnessmark.entry import (
    CaseDraft,
    Entered,
    EnteredPair,
    claimed_items,
    set_claims,
    set_field,
    valued,
)
from witnessmark.source import Source
from witnessmark.web.claim.parts import PRIOR_ODDS, Part
from witnessmark.web.claim.problems import EntriesMoved, NotOfAHundred
from witnessmark.web.claim.shown import as_typed
from witnessmark.web.shared.saving import typed

OF_A_HUNDRED = "odds"
"""The field in which prior odds are asked as cars out of a hundred."""


def enter_part(draft: CaseDraft, request: HttpRequest, part: Part) -> Sequence[str]:
    """The fields of a part that now say something else."""
    told = []
    record = part.there(draft.casefile)
    for name in part.names:
        given = typed(request, name)
        if name in request.POST and _clean(given) != as_typed(getattr(record, name)):
            whole = f"{part.path}.{name}" if part.path else name
            told.append(set_field(draft, Entered(whole, Source(name)), _cleaned(given)))
    return told


def enter_items(draft: CaseDraft, request: HttpRequest) -> Sequence[str]:
    """The items whose claimed value is another now."""
    claimed = draft.casefile.claim.items
    pairs = []
    for name in dict.fromkeys((*(each.id for each in draft.book.items), *claimed)):
        given = typed(request, name)
        if name in request.POST and _clean(given) != claimed.get(name, ""):
            pairs.append(EnteredPair(Entered(name, given.source), _cleaned(given)))
    found = claimed_items(draft.book, pairs, draft.problems, claimed)
    new = {name: each for name, each in found.items() if each.value != claimed.get(name, "")}
    return set_claims(draft, new)


def add_entry(draft: CaseDraft, request: HttpRequest, part: Part) -> Sequence[str]:
    """One more entry of a list."""
    fields = _fields(draft, request, part)
    if part.id == "examiners":
        fields = _with_short_name(fields)
    draft.add(part.path, part.row, fields)
    return _told(draft, part, f"one more {part.entry}")


def add_oneself(draft: CaseDraft, request: HttpRequest, part: Part) -> Sequence[str]:
    """The examiner of the account's profile."""
    profile = parse_profile(request.person.profile, "profile").profile  # type: ignore[attr-defined]
    if profile is None:
        return ()
    values = as_json(examiner_of(profile))
    ids = [each.id for each in draft.casefile.assignment.examiners]
    if values["id"] in ids:
        return ()
    columns = part.row.fields_declared()
    given = {n: Entered(v, Source(n)) for n, v in values.items() if n in columns}
    draft.add(part.path, part.row, given)
    return _told(draft, part, profile.name)


def change_entry(draft: CaseDraft, request: HttpRequest, part: Part, at: int) -> Sequence[str]:
    """The fields of an entry that now say something else; or the entry taken away."""
    entries = part.entries(draft.casefile)
    if str(len(entries)) != request.POST.get("count") or at >= len(entries):
        draft.problems.append(EntriesMoved(Source(""), part.entry))
        return ()
    if request.POST.get("deed") == "remove":
        draft.remove(part.path, at)
        return (f"one {part.entry} taken away",)
    fields = {
        name: given
        for name, given in _fields(draft, request, part, entries[at]).items()
        if given.value != as_json(getattr(entries[at], name))
    }
    if not fields:
        return ()
    draft.put(part.path, at, fields)
    return _told(draft, part, f"{part.entry} {at + 1}")


def _told(draft: CaseDraft, part: Part, words: str) -> Sequence[str]:
    if part.id == "statements" and not draft.problems:
        draft.in_book_words(part.path)
    return (words,)


def _fields(
    draft: CaseDraft, request: HttpRequest, part: Part, entry: OpenRow | None = None
) -> dict[str, Entered]:
    """What was typed into the fields that the form has, each as its field holds it."""
    columns = part.row.fields_declared()
    found: dict[str, Entered] = {}
    for name in part.names:
        if name not in request.POST:
            continue
        given = typed(request, name)
        if part.id == PRIOR_ODDS and name == OF_A_HUNDRED:
            found |= dict(_odds(draft, given, entry))
        else:
            found[name] = replace(given, value=valued(columns[name], _clean(given)))
    return found


def _odds(draft: CaseDraft, given: Entered, entry: OpenRow | None) -> Iterator[tuple[str, Entered]]:
    """Cars out of a hundred as odds; those that stand are kept where the number is the same."""
    there: Any = getattr(entry, OF_A_HUNDRED, None)
    text = _clean(given)
    if there is not None and text == of_a_hundred(there):
        yield OF_A_HUNDRED, replace(given, value=there)
        return
    try:
        number = float(text.replace(",", "."))
    except ValueError:
        number = math.nan
    if not 0 < number < 100:
        draft.problems.append(NotOfAHundred(given.source, text))
        yield OF_A_HUNDRED, replace(given, value=1.0)  # told already; the case is not written
        return
    yield OF_A_HUNDRED, replace(given, value=float(f"{number / (100 - number):.9g}"))


def of_a_hundred(odds: float) -> str:
    """Odds as cars out of a hundred.

    >>> of_a_hundred(3 / 7), of_a_hundred(1.0)
    ('30', '50')
    """
    return f"{100 * odds / (1 + odds):.6g}"


def _with_short_name(fields: dict[str, Entered]) -> dict[str, Entered]:
    """The last word of the name as the short one, where none was typed."""
    name = str(fields["name"].value) if "name" in fields else ""
    if "id" in fields and not fields["id"].value and name.split():
        short = name.split()[-1].casefold()
        return {**fields, "id": replace(fields["id"], value=short)}
    return fields


def _clean(given: Entered) -> str:
    """A text as a browser sends it, with the line ends of the case."""
    return str(given.value).replace("\r\n", "\n").strip()


def _cleaned(given: Entered) -> Entered:
    return replace(given, value=_clean(given))
