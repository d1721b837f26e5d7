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
from witnessmark.web.shared.desk import bench_of
from witnessmark.web.shared.findings import findings_of
from witnessmark.web.shared.leads import Leads


@dataclass(frozen=True, slots=True)
class StoryPart:
    """A part of the page: its id in the address, its name among the ways, what stands in it."""

    id: str
    name: str
    told: SafeString


def page(request: HttpRequest, case: str) -> HttpResponse:
    """The story of a case, or what of it cannot be read."""
    bench = bench_of(case)
    given: dict[str, object] = {"bench": bench, "here": "story"}
    if bench.opinion is not None:
        matter = Matter(voiced(bench.opinion), bench.book)
        leads = Leads(matter)
        given["findings"] = findings_of(matter, leads)
        given["parts"] = tuple(_parts(matter, leads))
    return render(request, "story/page.html", given)


def _parts(matter: Matter, leads: Leads) -> Iterator[StoryPart]:
    """What the report says of these, each with the ways to what it speaks of."""

    def told(blocks: Iterable[Block]) -> SafeString:
        return drawn(tuple(blocks), 2, leads.pairs)

    yield StoryPart("items", "Items", told(agreement_tables(matter, is_whole=True)))
    yield StoryPart("one-car", "One car", told(one_car_blocks(matter)))
    if dates := date_blocks(matter.opinion, matter.book):
        yield StoryPart("dates", "Dates", told(dates))
    yield StoryPart("declared", "What was said", told(disclosure_blocks(matter)))
    unsettled = (*unsettled_blocks(matter), *moving_blocks(matter))
    yield StoryPart("unsettled", "Not established", told(unsettled))
    yield StoryPart("unseen", "Not seen", told(unseen_blocks(matter)))
