"""A line of the board: what is told of a case at once, and what is told once it was examined.

Both follow from the text of the case and its books alone, and are kept by the digest of the text.
"""

import json
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from typing import Any, Final

from witnessmark import store
from witnessmark.casefile import Casefile, PaperState
from witnessmark.codebook import MODEL, MODEL_YEAR
from witnessmark.examination import car_context
from witnessmark.examination.looks import minutes_together
from witnessmark.plan.places import is_open
from witnessmark.web.shared import books
from witnessmark.web.shared.desk import Bench, bench_at
from witnessmark.wording import stop_sentence

LINES_KEPT: Final = 4000


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """What the board tells of a case. `is_known`: it was examined, and `state`, `blocks`,
    `minutes` and `misfits` say what came of it."""

    case: str
    title: str
    model: str = ""
    year: str = ""
    client: str = ""
    owner: str = ""
    place: str = ""
    visit: date | None = None
    available: int | None = None
    is_known: bool = False
    is_read: bool = True
    state: str = ""
    blocks: tuple[str, ...] = ()
    minutes: int = 0
    misfits: tuple[str, ...] = ()
    searched: str = ""

    @property
    def car(self) -> str:
        """Model and year as they are claimed."""
        return " ".join(filter(None, (self.model, self.year)))

    def has(self, wanted: str) -> bool:
        """Is this in it, as it was typed or without blanks and signs?"""
        text = f"{self.searched} {' '.join(self.misfits)}".casefold()
        close = _closely(wanted)
        return wanted.casefold() in text or (len(close) > 1 and close in _closely(text))


@lru_cache(LINES_KEPT)
def _closely(text: str) -> str:
    """The letters and figures alone."""
    return "".join(sign for sign in text.casefold() if sign.isalnum())


_KNOWN: dict[tuple[str, str], Line] = {}
_PLAIN: dict[str, Line] = {}


def lines_of(case_ids: Iterable[str]) -> tuple[Line, ...]:
    """A line of each of these cases, in this order: as far as it is known, without examining."""
    wanted = tuple(case_ids)
    digests = store.digests(wanted)
    state = books.state()
    new = [each for each in wanted if each in digests and digests[each] not in _PLAIN]
    for kept in store.heads(new).values() if new else ():
        _keep(_PLAIN, kept.sha256, plain_line(kept))
    found = []
    for each in wanted:
        sha256 = digests.get(each, "")
        line = _KNOWN.get((sha256, state)) or _PLAIN.get(sha256)
        if line is not None:
            found.append(line)
    return tuple(found)


def work_out(case: str) -> Line:
    """The line of a case with what an examination says, which is kept."""
    kept = store.head(case)
    key = (kept.sha256, books.state())
    if key not in _KNOWN:
        _keep(_KNOWN, key, examined_line(bench_at(kept)))
    return _KNOWN[key]


def _keep[K](where: dict[K, Line], key: K, line: Line) -> None:
    if len(where) >= LINES_KEPT:
        where.clear()
    where[key] = line


def plain_line(kept: store.KeptRevision) -> Line:
    """What the document itself says."""
    values = json.loads(kept.text.removeprefix("\ufeff"))
    items = _at(values, "claim", "items")
    items = items if isinstance(items, dict) else {}
    readings = _at(values, "readings")
    read = [_text(each, "text") for each in readings] if isinstance(readings, list) else []
    line = Line(
        case=kept.case,
        title=_text(values, "title") or kept.case,
        model=str(items.get(MODEL, "")).replace("-", " ").capitalize(),
        year=str(items.get(MODEL_YEAR, "")),
        client=_text(values, "assignment", "client"),
        owner=_text(values, "claim", "made_by"),
        place=_text(values, "visit", "place"),
        visit=_day(_text(values, "visit", "date")),
        available=_whole(_at(values, "assignment", "minutes_available")),
    )
    told = (kept.case, line.title, line.client, line.owner, line.place, *map(str, items.values()))
    return replace(line, searched="\n".join((*told, *read)))


def examined_line(bench: Bench) -> Line:
    """The same with what its book and an examination say of it."""
    line = plain_line(bench.kept)
    if bench.faults:
        told = str(bench.faults[0].sentence())
        return replace(line, is_known=True, is_read=False, state="not examined", blocks=(told,))
    casefile, book = bench.casefile, bench.book
    model = book.model_named(casefile.claim.items.get(MODEL, ""))
    answer = bench.answer
    stop = stop_sentence(answer.stops) if answer is not None else ""
    awaited = sum(each.state is PaperState.AWAITED for each in casefile.papers)
    misfits = tuple(each for each in bench.misfits if each != stop)
    return replace(
        line,
        model=model.name if model else line.model,
        is_known=True,
        state=_state(casefile, len(bench.places), bench.open_places, awaited),
        blocks=(stop,) if stop else (),
        minutes=_minutes_left(bench),
        misfits=misfits,
        searched=f"{line.searched}\n{model.name if model else ''}\n{bench.book_title}",
    )


def _state(casefile: Casefile, places: int, left: int, awaited: int) -> str:
    """How far the examination is, in words."""
    told = f"{left} of {places} places left" if left else "all places looked at"
    if left == places and not casefile.readings:
        told = f"not begun: {places} places"
    return f"{told}; papers awaited: {awaited}" if awaited else told


def _minutes_left(bench: Bench) -> int:
    """Minutes for the places that nobody has been at, a shared access counted once."""
    context = car_context(bench.casefile, bench.book)
    rows = (bench.book.site(each.row.id, context) for each in bench.places if is_open(each))
    return minutes_together(
        (row.id, row.minutes, row.access_group, row.access_minutes) for row in rows if row
    )


def _at(values: Any, *path: str) -> Any:
    for name in path:
        values = values.get(name) if isinstance(values, dict) else None
    return values


def _text(values: Any, *path: str) -> str:
    found = _at(values, *path)
    return found if isinstance(found, str) else ""


def _whole(found: Any) -> int | None:
    return found if isinstance(found, int) else None


@lru_cache(512)
def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
