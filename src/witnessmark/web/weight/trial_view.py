"""A trial: the answers as if one assumed row had another value. Nothing of it is saved."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from witnessmark.entry import CaseDraft, Entered, checked
from witnessmark.examination import Opinion, car_marks, in_book_words, quick_answer
from witnessmark.examination.examine import DRAWS
from witnessmark.source import Source
from witnessmark.web.shared import books
from witnessmark.web.shared.desk import Bench, bench_of, on_bench
from witnessmark.web.weight.answers import as_field, band_text
from witnessmark.web.weight.one_at_a_time import BEHIND
from witnessmark.web.weight.stated import as_typed, enter_override, trial_fields
from witnessmark.weighing import Steadiness, Weighed, assumed_rows, steadiness, weighed
from witnessmark.wording import Names, lr_text
from witnessmark.wording.amounts import capital, rate_text
from witnessmark.wording.conclusions import about_words, row_words, turned_text, words_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
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
    """What the answers would be; the bands once they are worked out."""
    bench = bench_of(case)
    row, text = request.GET.get("row", ""), request.GET.get("value", "")
    known = {each.id: each for each in assumed_rows()}
    if bench.faults or row not in known:
        return redirect("weight", case)
    draft = CaseDraft(opened=bench.on.opened, casefile=bench.casefile, book=bench.book)
    value = as_typed(row, text, Entered(text, Source("value")))
    enter_override(draft, trial_fields(row, value))
    changed, problems = checked(draft)
    given: dict[str, Any] = {
        "bench": bench, "here": "weight", "row": row, "words": capital(row_words(row)),
        "problems": problems, "typed": text, "unit": "per cent" if known[row].is_share else "times",
    }  # fmt: skip
    status = 422
    if not problems:
        number = draft.casefile.circumstances.overrides[-1].value
        given |= {"value": number, "told": rate_text(number), "typed": as_field(known[row], number)}
        given |= _tried(request, bench, changed)
        status = 202 if given["is_working"] else 200
    name = "weight/trial.html" if request.htmx else "weight/trial_page.html"  # type: ignore[attr-defined]
    return render(request, name, given, status=status)


def _tried(request: HttpRequest, bench: Bench, changed: str) -> dict[str, Any]:
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
    assert bench.opinion is not None, "it has an answer"
    rows = tuple(_moved(zip(now, tried, strict=True), Names(bench.opinion.names)))
    return {
        "is_working": is_working,
        "moved": [each for each in rows if each.is_moved],
        "unmoved": [each for each in rows if not each.is_moved],
    }


def _moved(pairs: Iterable[tuple[Weighed, Weighed]], names: Names) -> Iterable[Moved]:
    """The conclusions with a figure."""
    for now, then in pairs:
        if now.standing.has_figure:
            shown = tuple((lr_text(each.log10_lr), band_text(each)) for each in (now, then))
            yield Moved(
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
    return steadiness(car_marks(in_book_words(on.casefile, on.book), on.book), DRAWS)
