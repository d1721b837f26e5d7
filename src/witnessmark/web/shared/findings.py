"""What does not fit, numbered as every page numbers it: `#finding-N` of the story."""

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.catalogue import as_said
from witnessmark.report.sections.matter import Matter
from witnessmark.web.shared.leads import Lead, Leads
from witnessmark.weighing import Misfit
from witnessmark.wording import misfit_sentence, misfits_beside, stop_sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingTold:
    """One thing that does not fit: its number, its sentence, who says so, the ways to its marks and
    photographs."""

    number: int
    sentence: str
    is_stop: bool = False
    is_quiet: bool = False
    basis: str = ""
    source: str = ""
    marks: tuple[Lead, ...] = ()
    photographs: tuple[Lead, ...] = ()


def findings_of(matter: Matter, leads: Leads) -> tuple[FindingTold, ...]:
    """What makes the car a matter for the authority first, then the rest, the worst first: in the
    order and number of `Bench.misfits`; last what was declared or is only told, without the sign
    of what does not fit."""
    return tuple(_told(matter, leads))


def _told(matter: Matter, leads: Leads) -> Iterator[FindingTold]:
    answer = matter.opinion.answer
    if answer.stops:
        about = tuple(each.about for each in answer.stops)
        yield FindingTold(
            number=1,
            sentence=stop_sentence(answer.stops),
            is_stop=True,
            marks=leads.to(about),
            photographs=leads.photographs(about),
        )
    first = 2 if answer.stops else 1
    for number, each in enumerate(misfits_beside(answer), start=first):
        yield _misfit(number, each, leads)


def _misfit(number: int, misfit: Misfit, leads: Leads) -> FindingTold:
    return FindingTold(
        number=number,
        sentence=misfit_sentence(misfit),
        is_quiet=not misfit.argues,
        basis=as_said(misfit.basis.value),
        source=misfit.source,
        marks=leads.to(misfit.about),
        photographs=leads.photographs(misfit.about),
    )
