"""A trial: the answers as if one assumed row had another value. Nothing of it is saved."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from witnessmark.entry import CaseDraft, Entered, checked
from witnessmark.examination import Opinion, quick_answer, steadiness_alone
from witnessmark.source import Source
from witnessmark.web.shared import books
from witnessmark.web.shared.desk import Bench, bench_of, on_bench
from witnessmark.web.weight.answers import (
    as_field,
    assumed_shown,
    band_text,
    unit_of,
    used_value,
)
from witnessmark.web.weight.one_at_a_time import BEHIND
from witnessmark.web.weight.stated import (
    as_number,
    enter_override,
    overridden,
    trial_fields,
    value_text,
)
from witnessmark.weighing import Assumed, Steadiness, Weighed, assumed_rows, weighed
from witnessmark.wording import Names, lr_text
from witnessmark.wording.amounts import capital
from witnessmark.wording.conclusions import about_words, turned_text, words_of


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialRow:
    """One conclusion as it stands and in the trial."""

    name: str
    now: str
    now_band: str
    then: str
    then_band: str
    turned: str
    words: str
    is_moved: bool


def trial(request: HttpRequest, case: str) -> HttpResponse:
    """What the answers would be, the bands once they are worked out; of no row every row that
    there is, of no value the one that is used."""
    bench = bench_of(case)
    if bench.faults:
        return redirect("weight", case)
    stated = overridden(bench)
    rows = {each.id: each for each in assumed_rows()}
    row = rows.get(request.GET.get("row", ""))
    given: dict[str, Any] = {"bench": bench, "here": "weight"}
    if row is None:
        shown = (assumed_shown(each, bench.casefile, stated) for each in rows.values())
        return render(request, "weight/rates.html", {**given, "rates": tuple(shown)})
    given |= {
        "at": request.GET.get("at", "trial"),
        "row": assumed_shown(row, bench.casefile, stated),
        "unit": unit_of(row),
        "typed": request.GET.get("value", "") or as_field(row, used_value(row, bench.casefile)),
    }
    if "value" in request.GET:
        given |= _tried(request, bench, row)
    status = 422 if given.get("problems") else 202 if given.get("is_working") else 200
    is_part = request.htmx  # type: ignore[attr-defined]
    name = "weight/trial.html" if is_part else "weight/trial_page.html"
    return render(request, name, given, status=status)


def _tried(request: HttpRequest, bench: Bench, row: Assumed) -> dict[str, Any]:
    """What comes of the value that was typed, or what is wrong with it."""
    draft = CaseDraft(opened=bench.on.opened, casefile=bench.casefile, book=bench.book)
    text = Entered(request.GET["value"], Source("value"))
    enter_override(draft, trial_fields(row.id, as_number(text, is_share=row.is_share)))
    changed, problems = checked(draft)
    if problems:
        return {"problems": problems}
    value = draft.casefile.circumstances.overrides[-1].value
    found = {"is_tried": True, "value": value, "told": value_text(value)}
    return {**found, **_then(request, bench, changed)}


def _then(request: HttpRequest, bench: Bench, changed: str) -> dict[str, Any]:
    """Each conclusion now and then: the ratios at once, the bands when both are there."""
    state, person = books.state(), request.person.name  # type: ignore[attr-defined]
    whole: Opinion | None = BEHIND.made((bench.kept.text, state))
    if whole is None:
        BEHIND.ask(("steady", bench.case), (bench.kept.text, state), lambda: bench.steady)
    then = BEHIND.ask(
        ("trial", bench.case, person), ("trial", changed, state), lambda: _steadied(changed)
    )
    on = on_bench(changed)
    is_working = whole is None or then is None
    answer = quick_answer(on.casefile, on.book)
    tried = weighed(answer, None if is_working else then, on.casefile.circumstances)
    assert bench.answer is not None, "a case with faults has no trial"
    steady = None if is_working or whole is None else whole.steadiness
    now = weighed(bench.answer, steady, bench.casefile.circumstances)
    assert bench.at_once is not None, "it has an answer"
    rows = tuple(_moved(zip(now, tried, strict=True), Names(bench.at_once.names)))
    return {
        "is_working": is_working,
        "moved": [each for each in rows if each.is_moved],
        "unmoved": [each for each in rows if not each.is_moved],
    }


def _moved(pairs: Iterable[tuple[Weighed, Weighed]], names: Names) -> Iterable[TrialRow]:
    """The conclusions with a figure."""
    for now, then in pairs:
        if now.standing.has_figure:
            shown = tuple((lr_text(each.log10_lr), band_text(each)) for each in (now, then))
            yield TrialRow(
                name=capital(about_words(now, names)),
                now=shown[0][0],
                now_band=shown[0][1],
                then=shown[1][0],
                then_band=shown[1][1],
                turned="" if then.turned is None else turned_text(then.turned),
                words=capital(words_of(then)),
                is_moved=shown[0] != shown[1],
            )


def _steadied(text: str) -> Steadiness:
    """How far the answers of this case rest on assumed rates, and nothing else of it."""
    on = on_bench(text)
    return steadiness_alone(on.casefile, on.book)
