"""What to look at next: what fits into the minutes there are, what else, what is beyond."""

from witnessmark.catalogue import counted, said, voiced
from witnessmark.examination import Opinion
from witnessmark.examination.looks import LookLeft, in_time, minutes_of
from witnessmark.outline.records import Block, Outline, Paragraph, Section
from witnessmark.report.sections.closing import cautions_section
from witnessmark.report.sections.matter import whole_car
from witnessmark.report.sections.next_steps import photograph_wanted
from witnessmark.report.sections.open import looks_table
from witnessmark.wording import minutes_text, order_sentence, stop_sentence

MOST_SHOWN = 6
"""Looks of each kind that are listed."""


def next_looks(opinion: Opinion, minutes: int) -> Outline:
    """The looks that fit into the minutes, those that do not, those beyond this visit, cautions."""
    opinion = voiced(opinion)
    stops, taken = opinion.answer.stops, in_time(opinion.looks, minutes)
    title = opinion.casefile.title or opinion.casefile.id
    fits = said(
        "What fits into {minutes}, shared access counted once",
        minutes=minutes_text(minutes_of(taken)),
    )
    left = [look for look in opinion.looks if look not in taken]
    parts = (
        (fits, list(taken)),
        (said("What takes longer"), [look for look in left if look.is_reachable]),
        (said("Beyond this visit"), [look for look in left if not look.is_reachable]),
    )
    front = [stop_sentence(stops), order_sentence(stops) if opinion.looks else ""]
    if not any(look.is_reachable for look in opinion.looks):
        front.append(said("No further look is possible on this car."))
    if not whole_car(opinion.casefile):
        front.append(photograph_wanted())
    sections = tuple(Section(name, _told(looks, opinion)) for name, looks in parts if looks)
    return Outline(
        said("{case}: what to look at in {minutes}", case=title, minutes=minutes_text(minutes)),
        tuple(Paragraph(each) for each in front if each),
        (*sections, cautions_section()),
        is_numbered=False,
    )


def _told(looks: list[LookLeft], opinion: Opinion) -> tuple[Block, ...]:
    """Looks in a table; of many the first, and how many more."""
    left = len(looks) - MOST_SHOWN
    table = looks_table(looks[:MOST_SHOWN], opinion)
    if left <= 0:
        return (table,)
    more = counted(
        "And {number} more; `--json` lists all.", "And {number} more; `--json` lists all.", left
    )
    return table, Paragraph(more)
