"""The page of this step: what the marks tell together, with the way to each of them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.safestring import SafeString

from witnessmark.catalogue import voiced
from witnessmark.outline.records import Block
from witnessmark.report.sections.agreement_tables import agreement_tables
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.one_car import one_car_blocks
from witnessmark.report.sections.open import (
    disclosure_blocks,
    moving_blocks,
    unseen_blocks,
    unsettled_blocks,
)
from witnessmark.report.sections.story import date_blocks
from witnessmark.web.shared.blocks import drawn
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.findings import FindingTold, findings_of
from witnessmark.web.shared.kept import kept_by_text
from witnessmark.web.shared.leads import Leads


@dataclass(frozen=True, slots=True)
class StoryPart:
    """A part of the page: its id in the address, its name among the ways, what stands in it."""

    id: str
    name: str
    told: SafeString
    follows: bool = False
    """Is it being worked out, and asked for by the page itself?"""


@dataclass(frozen=True, slots=True)
class StoryTold:
    """What does not fit, and the parts of the page."""

    findings: tuple[FindingTold, ...]
    parts: tuple[StoryPart, ...]


def page(request: HttpRequest, case: str) -> HttpResponse:
    """The story of a case, or what of it cannot be read. What hangs on the looks that are left
    takes longest: the page is shown without it and asks for the whole, which is the same page."""
    bench = bench_of(case)
    given: dict[str, object] = {"bench": bench, "here": "story"}
    opinion = bench.opinion if request.GET.get("whole") else bench.at_once
    if opinion is not None:
        given["story"] = _story(bench, opinion.is_at_once)
    return render(request, "story/page.html", given)


@kept_by_text
def _story(bench: Bench, is_at_once: bool) -> StoryTold:
    """What the page tells of a case."""
    opinion = bench.at_once if is_at_once else bench.opinion
    assert opinion is not None, "a case with faults has no story"
    matter = Matter(voiced(opinion), bench.book)
    leads = Leads(matter)
    return StoryTold(findings_of(matter, leads), tuple(_parts(matter, leads)))


def _parts(matter: Matter, leads: Leads) -> Iterator[StoryPart]:
    """What the report says of these, each with the ways to what it speaks of."""

    def told(blocks: Iterable[Block]) -> SafeString:
        return drawn(tuple(blocks), 2, leads.pairs)

    yield StoryPart("items", "Items", told(agreement_tables(matter, is_whole=True)))
    yield StoryPart("one-car", "One car", told(one_car_blocks(matter)))
    if dates := date_blocks(matter.opinion, matter.book):
        yield StoryPart("dates", "Dates", told(dates))
    yield StoryPart("declared", "What was said", told(disclosure_blocks(matter)))
    if matter.opinion.is_at_once:
        yield StoryPart("unsettled", "Not established", SafeString(""), follows=True)
    else:
        unsettled = (*unsettled_blocks(matter), *moving_blocks(matter))
        yield StoryPart("unsettled", "Not established", told(unsettled))
    yield StoryPart("unseen", "Not seen", told(unseen_blocks(matter)))
