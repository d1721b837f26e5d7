"""Do the marks tell one story: what does not fit, the tables of the items, and the dates."""

from witnessmark.catalogue import said
from witnessmark.outline.records import Block, Bullets, Paragraph, Section
from witnessmark.report.sections.agreement_tables import agreement_tables
from witnessmark.report.sections.dates import date_blocks
from witnessmark.report.sections.matter import Matter
from witnessmark.wording import misfit_sentence, misfits_beside, stop_sentence


def story_section(matter: Matter) -> Section:
    """What does not fit, the worst first; then every item as each mark has it; then the dates."""
    answer = matter.opinion.answer
    blocks: list[Block] = []
    if answer.stops:
        blocks.append(Paragraph(stop_sentence(answer.stops), "strong"))
    told = tuple(
        matter.citing(misfit_sentence(each), matter.of(*each.about))
        for each in misfits_beside(answer)
    )
    if told:
        blocks.append(Bullets(told, is_numbered=True))
    elif not answer.stops:
        blocks.append(Paragraph(said("Nothing that was noted contradicts anything else.")))
    blocks += agreement_tables(matter)
    blocks += date_blocks(matter.opinion, matter.book)
    return Section(said("Do they tell one story?"), tuple(blocks))
