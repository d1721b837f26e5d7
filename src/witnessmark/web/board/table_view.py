"""All lines of the board as a table for a spreadsheet, in which no text is a formula."""

import csv
from typing import Final

from django.http import HttpRequest, HttpResponse

from witnessmark import store
from witnessmark.store import people
from witnessmark.web.board.lines import Line, lines_of

HEAD: Final = (
    *("case", "title", "car", "client", "owner", "place", "visit", "put away"),
    *("state", "what blocks", "minutes left", "minutes available", "does not fit", "worst"),
)
_BEGINS: Final = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def table(request: HttpRequest) -> HttpResponse:
    """Every case that this person may see."""
    seen = people.seen_by(request.person)  # type: ignore[attr-defined]
    answer = HttpResponse(content_type="text/csv; charset=utf-8")
    answer["Content-Disposition"] = 'attachment; filename="cases.csv"'
    answer.write("\ufeff")
    rows = csv.writer(answer)
    rows.writerow(HEAD)
    for is_away in (False, True):
        ids = [each.id for each in store.cases(is_away) if each.id in seen]
        rows.writerows(map(harmless, _row(each, is_away)) for each in lines_of(ids))
    return answer


def harmless(text: str) -> str:
    """A text that no spreadsheet takes for a formula: an apostrophe stands before one.

    >>> harmless("=1+1"), harmless(" -5"), harmless("Sprint")
    ("'=1+1", "' -5", 'Sprint')
    """
    return f"'{text}" if text.lstrip(" ").startswith(_BEGINS) else text


def _row(line: Line, is_away: bool) -> tuple[str, ...]:
    told = (line.case, line.title, line.car, line.client, line.owner, line.place)
    visit = line.visit.isoformat() if line.visit else ""
    available = "" if line.available is None else str(line.available)
    away = "yes" if is_away else "no"
    if not line.is_known:
        return (*told, visit, away, "being worked out", "", "", available, "", "")
    minutes = str(line.minutes) if line.is_read else ""
    blocks = "; ".join(line.blocks)
    count, worst = str(len(line.misfits)), next(iter(line.misfits), "")
    return (*told, visit, away, line.state, blocks, minutes, available, count, worst)
