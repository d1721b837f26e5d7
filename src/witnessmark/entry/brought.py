"""What was brought, entered: papers, what was said of the car, photographs and scans."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from witnessmark.casefile import Exhibit, ExhibitEntry, Paper, PaperState, Statement
from witnessmark.casefile.pictures import camera_moment
from witnessmark.catalogue import said
from witnessmark.codebook import MarkKind
from witnessmark.entry.draft import CaseDraft, Entered, EnteredPair
from witnessmark.entry.places import named_in_a_row, placed
from witnessmark.entry.problems import PaperUnlisted
from witnessmark.entry.words import in_words
from witnessmark.examination.book_words import item_named
from witnessmark.examination.check import WHOLE_CAR
from witnessmark.examination.entries import with_exhibit, without_exhibit
from witnessmark.wording.amounts import capital
from witnessmark.wording.terms import term

_ODD = re.compile(r"[^A-Za-z0-9._-]+")


def enter_papers(
    draft: CaseDraft,
    papers: Iterable[EnteredPair],
    fields: Mapping[str, Entered],
    says: Sequence[EnteredPair] = (),
) -> tuple[str, ...]:
    """Papers and where each is, at the entry of the paper where there is one, with what one of
    no book says of the car; tells what was entered."""
    told = []
    for pair in papers:
        at = _put_paper(draft, pair, fields, says)
        if at is not None:
            paper = draft.casefile.papers[at]
            name = draft.names.mark(paper.mark) if paper.mark else paper.name
            told.append(said("{paper}: {state}", paper=capital(name), state=term(paper.state)))
    return tuple(filter(None, (named_in_a_row(told),)))


def _put_paper(
    draft: CaseDraft,
    pair: EnteredPair,
    fields: Mapping[str, Entered],
    says: Sequence[EnteredPair],
) -> int | None:
    """Put the state at the entry of this paper, or add one; gives which it is, None where
    something is at fault."""
    name = str(pair.left.value)
    state = {"state": in_words(pair.right, PaperState), **fields}
    marks = () if "kind" in fields else draft.book.marks_named(name, draft.context)
    mark = marks[0].id if len(marks) == 1 else ""
    entries = draft.casefile.papers
    if not mark and "kind" not in fields and name not in (each.name for each in entries):
        known = tuple(m.id for m in draft.book.marks if m.kind is MarkKind.PAPER)
        draft.problems.append(PaperUnlisted(pair.left.source, name, known))
        return None
    same = (n for n, e in enumerate(entries) if (e.mark == mark if mark else e.name == name))
    at = next(same, len(entries))
    if says:
        state["says"] = _said_there(draft, says, at)
    own = {"mark": replace(pair.left, value=mark)} | ({} if mark else {"name": pair.left})
    return draft.enter("papers", at, Paper, own, state)


def _said_there(draft: CaseDraft, says: Sequence[EnteredPair], at: int) -> Entered:
    """What the paper at this place says of the car, by the items of the book."""
    rows = []
    for n, pair in enumerate(says):
        path = ("papers", at, "says", n)
        draft.given |= {
            (*path, "item"): pair.left.source,
            (*path, "value"): pair.right.source,
        }
        item = item_named(draft.book, str(pair.left.value))
        rows.append({"item": item, "value": pair.right.value})
    return Entered(rows, says[0].left.source)


def enter_statements(
    draft: CaseDraft, statements: Iterable[EnteredPair], fields: Mapping[str, Entered]
) -> tuple[str, ...]:
    """Parts and what is said of each; tells what was entered."""
    section = "claim.statements"
    old = len(draft.casefile.claim.statements)
    for pair in statements:
        draft.add(section, Statement, {"about": pair.left, "says": pair.right, **fields})
    draft.in_book_words(section)
    names = draft.names
    told = tuple(
        said("{part}: {words}", part=capital(names.any(each.about)), words=each.says)
        for each in draft.casefile.claim.statements[old:]
    )
    return tuple(filter(None, (named_in_a_row(told),)))


def has_exhibit(draft: CaseDraft, found: Exhibit) -> bool:
    """Is this file, byte for byte, in the case already?"""
    return found.entry.sha256 in (each.sha256 for each in draft.casefile.exhibits)


def enter_exhibit(
    draft: CaseDraft,
    found: Exhibit,
    name: Entered,
    shows: Iterable[Entered],
    fields: Mapping[str, Entered],
) -> str:
    """A photograph or scan of this name, unless the case has it already; it is named at whatever
    was noted there where it shows a place, a mark, a paper, `car` or `title`. Tells which it is."""
    known = {entry.sha256: entry.id for entry in draft.casefile.exhibits}
    is_new = not has_exhibit(draft, found)
    own_id = _free_id(str(name.value), set(known.values())) if is_new else known[found.entry.sha256]
    if is_new:
        taken = camera_moment(found.content, found.media_type)
        own = {
            "id": own_id,
            "file": found.entry.file,
            "sha256": found.entry.sha256,
            **({"taken_at": taken} if taken else {}),
        }
        values = {field: Entered(value, name.source) for field, value in own.items()}
        draft.add("exhibits", ExhibitEntry, {**values, **fields})
    for shown in shows:
        name_exhibit(draft, shown, own_id)
    if not is_new:
        return said("{id}: in the case already", id=own_id)
    if not found.width_px:
        return said("{id}: a PDF", id=own_id)
    width, height = found.width_px, found.height_px
    return said("{id}: {width} × {height} upright", id=own_id, width=width, height=height)


def _free_id(stem: str, taken: set[str]) -> str:
    """A short id made of a file's name, that no exhibit has yet.

    >>> _free_id("Pad, left (2)", {"Pad-left-2"})
    'Pad-left-2-2'
    """
    name = free = _ODD.sub("-", stem)[:60].strip("-._") or "photo"
    count = 1
    while free in taken:
        count += 1
        free = f"{name}-{count}"
    return free


def name_exhibit(draft: CaseDraft, shown: Entered, exhibit: str) -> None:
    """Name an exhibit at the place, mark or paper that it is said to show."""
    name, book = str(shown.value), draft.book
    if name.lower() == WHOLE_CAR:
        entries = (
            replace(each, shows_whole_car=True) if each.id == exhibit else each
            for each in draft.casefile.exhibits
        )
        draft.casefile = replace(draft.casefile, exhibits=tuple(entries))
        return
    if name.lower() == "title":
        title = draft.casefile.title_paper
        shows = (*title.exhibits, *((exhibit,) if exhibit not in title.exhibits else ()))
        draft.casefile = replace(draft.casefile, title_paper=replace(title, exhibits=shows))
        return
    place = _place_shown(draft, shown)
    if place is not None:
        draft.casefile = with_exhibit(draft.casefile, book, place, exhibit)


def take_exhibit_off(draft: CaseDraft, shown: Entered, exhibit: str) -> str:
    """Name an exhibit no longer at the place, mark or paper that it was said to show; it stays
    among the exhibits of the case. Tells so."""
    if str(shown.value).lower() == "title":
        title = draft.casefile.title_paper
        left = tuple(each for each in title.exhibits if each != exhibit)
        draft.casefile = replace(draft.casefile, title_paper=replace(title, exhibits=left))
    else:
        place = _place_shown(draft, shown)
        if place is None:
            return ""
        draft.casefile = without_exhibit(draft.casefile, draft.book, place, exhibit)
    return said("{id}: no longer at {place}", id=exhibit, place=str(shown.value))


def _place_shown(draft: CaseDraft, shown: Entered) -> tuple[str, str] | None:
    """The site and mark, or the paper, that is named."""
    found = draft.book.marks_named(str(shown.value), draft.context)
    papers = [mark.id for mark in found if mark.kind is MarkKind.PAPER]
    return ("", papers[0]) if len(papers) == 1 else placed(draft, shown)
