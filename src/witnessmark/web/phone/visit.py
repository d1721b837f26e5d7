"""What a phone is given of a case: every place with its card, and nothing of the claim, of what
others read, or of what any of it means."""

from collections.abc import Iterator
from typing import Any, Final

from witnessmark.casefile import Legibility, Orientation, SiteState
from witnessmark.plan import SitePlan
from witnessmark.web.evidence.cards import FeatureCard, MarkCard, place_card
from witnessmark.web.evidence.forms import me_of, my_names
from witnessmark.web.evidence.plates import has_windows, plate_rows
from witnessmark.web.shared.desk import Bench
from witnessmark.wording import cautions_at_a_car, misfit_sentence, term
from witnessmark.wording.visit import car_name

FORMAT: Final = "witnessmark-visit"


def visit_of(bench: Bench, by: str) -> dict[str, Any]:
    """The visit as JSON has it; `by` signs what is jotted down."""
    return {
        "format": FORMAT,
        "format_version": 1,
        "case": bench.case,
        "car": car_name(bench.plan),
        "base": bench.number,
        "by": by,
        "cautions": [{"head": each.heading, "says": each.sentence} for each in cautions_at_a_car()],
        "states": [
            {"value": each.value, "word": term(each), "says": each.says} for each in SiteState
        ],
        "legibility": [each.value for each in Legibility],
        "orientation": [each.value for each in Orientation],
        "places": [_place(bench, each, by) for each in bench.places],
    }


def end_of(bench: Bench, _: str) -> dict[str, Any]:
    """What does not fit, in the words of every page, with the places that it speaks of."""
    answer = bench.answer
    found = [each for each in answer.misfits if each.argues] if answer is not None else []
    return {
        "misfits": [
            {"says": misfit_sentence(each), "places": _places_of(bench, each.about)}
            for each in found
        ]
    }


def _places_of(bench: Bench, about: tuple[str, ...]) -> list[str]:
    marks = (bench.book.mark(each) for each in about)
    sites = {each.row.id for each in bench.places}
    named = (*about, *(mark.site for mark in marks if mark is not None))
    return [each for each in dict.fromkeys(named) if each in sites]


def _place(bench: Bench, site: SitePlan, by: str) -> dict[str, Any]:
    card = place_card(bench, site, by)
    mine = my_names(by, bench.casefile)
    return {
        "id": card.key,
        "number": card.number,
        "name": card.name,
        "where": list(card.where),
        "effort": card.effort,
        "minutes": site.row.minutes,
        "rank": site.rank,
        "care": card.caution or site.row.caution,
        "look_for": list(card.look_for),
        "drawing": str(card.drawing),
        "state": site.state.value,
        "reason": card.state.reason,
        "marks": [_mark(bench, each, mine) for each in card.marks],
        "features": [_feature(bench, each, site.row.id, by) for each in card.features],
        "photographs": len(card.photos),
    }


def _mark(bench: Bench, card: MarkCard, mine: frozenset[str]) -> dict[str, Any]:
    found = bench.book.mark(card.id)
    assert found is not None, "a card is of a mark of the book"
    own = next((e for e in card.readings if not e.is_new and e.whose.by in mine), None)
    signs = dict.fromkeys(sign for each in found.fields for sign in each.alphabet)
    return {
        "id": card.id,
        "name": card.name,
        "form": card.form,
        "signs": "".join(signs),
        "windows": [
            {"heading": each.heading, "places": each.places}
            for row in (plate_rows(found, "") if has_windows(found, "") else ())
            for each in row
        ],
        "lengths": [[min(e.widths, default=0), max(e.widths, default=0)] for e in found.fields],
        "text": own.text if own else "",
        "legibility": next((e.value for e in own.legibility if e.is_chosen), "") if own else "",
        "state": _chosen(card),
    }


def _chosen(card: MarkCard) -> str:
    chosen: Iterator[str] = iter(())
    if card.state is not None:
        chosen = (each.value for each in card.state.choices if each.is_chosen)
    return next(chosen, "")


def _feature(bench: Bench, card: FeatureCard, site: str, by: str) -> dict[str, Any]:
    me = me_of(by, bench.casefile)
    own = next((e for e in card.looks if not e.is_new and e.whose.by in (by, me)), None)
    return {
        "id": card.id,
        "prompt": card.prompt,
        "outcomes": [{"id": each.id, "sketch": str(each.sketch)} for each in card.outcomes],
        "outcome": own.outcome if own else "",
    }
