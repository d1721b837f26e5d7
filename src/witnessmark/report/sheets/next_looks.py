"""What to look at next: what fits into the minutes there are, what else, what is beyond; on one
screen by name, or all of it as the report has it."""

from collections.abc import Iterable, Iterator

from witnessmark.catalogue import said, voiced
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.examination.looks import LookLeft, in_time, minutes_of
from witnessmark.outline.records import (
    Block,
    Fact,
    Facts,
    Outline,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.report.sections.awaited import awaited_blocks, awaited_facts
from witnessmark.report.sections.closing import cautions_section
from witnessmark.report.sections.matter import Matter, whole_car
from witnessmark.report.sections.next_steps import photograph_wanted
from witnessmark.report.sections.open import looks_table
from witnessmark.weighing import Stop
from witnessmark.wording import (
    again_sentence,
    cautions,
    look_name,
    look_text,
    minutes_text,
    only_look_sentence,
    order_sentence,
    stop_sentence,
)
from witnessmark.wording.amounts import capital, few, sentence
from witnessmark.wording.conclusions import about_words

ROWS_SHOWN = 3
"""Looks of which it is told on one screen what they bear on."""

MOST_NAMES = 115
"""Characters of a list of names: two lines."""


def next_looks(opinion: Opinion, book: CodeBook, minutes: int, everything: bool) -> Outline:
    """The looks that fit into the minutes, those that do not, those beyond this visit, cautions."""
    matter = Matter(voiced(opinion), book)
    opinion = matter.opinion
    stops, taken = opinion.answer.stops, in_time(opinion.looks, minutes)
    left = [look for look in opinion.looks if look not in taken]
    fits = said("Fits, {minutes}", minutes=minutes_text(minutes_of(taken)))
    parts = (
        (fits, list(taken)),
        (said("Takes longer"), [look for look in left if look.is_reachable]),
        (said("Beyond this visit"), [look for look in left if not look.is_reachable]),
    )
    order = order_sentence(stops) if everything else _order(stops)
    is_any = any(look.is_reachable for look in opinion.looks)
    front = [stop_sentence(stops), order if is_any else ""]
    if not is_any:
        front.append(said("No further look is possible on this car."))
    if not whole_car(opinion.casefile):
        front.append(photograph_wanted())
    told = tuple(Paragraph(each, "lead") for each in front if each)
    title = said(
        "{case}: what to look at in {minutes}",
        case=opinion.casefile.title or opinion.casefile.id,
        minutes=minutes_text(minutes),
    )
    if not everything:
        return Outline(title, (*told, *_in_short(parts, matter)))
    sections = [Section(name, (looks_table(looks, opinion),)) for name, looks in parts if looks]
    if awaited := tuple(awaited_blocks(matter)):
        sections.append(Section(said("Awaited"), awaited))
    return Outline(title, told, (*sections, cautions_section()), is_numbered=False)


def _order(stops: tuple[Stop, ...]) -> str:
    return only_look_sentence() if stops else said("First what did not fit, then the quickest.")


def _in_short(parts: Iterable[tuple[str, list[LookLeft]]], matter: Matter) -> Iterator[Block]:
    """The first looks in a row each, all others by name, and what to mind."""
    (fits, taken), *others = parts
    if rows := tuple(_row(look, matter) for look in taken[:ROWS_SHOWN]):
        head = (fits, said("What it bears on"), said("Time"))
        yield Table(head, rows, (5, 4, 2), is_dense=True)
    again = (again_sentence(look, matter.opinion, matter.names) for look in taken[:1])
    yield from (Paragraph(each) for each in again if each)
    facts = [
        Fact(name, sentence(few([_named(e, matter) for e in looks], MOST_NAMES, "; ")))
        for name, looks in ((said("Also fits"), taken[ROWS_SHOWN:]), *others)
        if looks
    ]
    minded = dict.fromkeys(
        sentence(each) for look in taken for each in look_text(look).caution.split(". ") if each
    )
    usual = few([each.heading for each in cautions()], MOST_NAMES)
    told = [*minded, said("See --all on: {headings}.", headings=usual)]
    yield Facts((*facts, *awaited_facts(matter), Fact(said("Mind"), " ".join(told))))


def _row(look: LookLeft, matter: Matter) -> tuple[TableCell, ...]:
    weighed = matter.opinion.weighed
    bears = dict.fromkeys(about_words(e, matter.names) for e in weighed if e.about in look.pieces)
    return (
        TableCell(capital(look_name(look, matter.names))),
        TableCell(", ".join(bears)),
        TableCell(minutes_text(look.cost)),
    )


def _named(look: LookLeft, matter: Matter) -> str:
    name = look_name(look, matter.names)
    if not look.cost:
        return name
    return said("{look}, {minutes}", look=name, minutes=minutes_text(look.cost))
