"""What was found, assembly by assembly: each place beside its photograph, what was observed
before what it says, and who read it."""

from collections.abc import Iterator

from witnessmark.agreement.records import Outcome
from witnessmark.casefile.records import Casefile, LookSeen, SiteState
from witnessmark.catalogue import said
from witnessmark.decoding.records import Decoding
from witnessmark.outline.records import (
    Block,
    Bullets,
    Columns,
    Heading,
    Paragraph,
    Pictures,
    Section,
    Table,
    TableCell,
    Together,
)
from witnessmark.report.sections.matter import Matter, showing
from witnessmark.report.sections.reading import meaning_cell, noted_of, who_read
from witnessmark.report.sections.site import seen_by
from witnessmark.wording import listed, misfit_sentence, term
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.case_words import feature_word, look_word

LOOKED = (SiteState.READ, SiteState.FOUND_ILLEGIBLE, SiteState.ABSENT)


def found_section(matter: Matter) -> Section:
    """Every place that was looked at and every paper that was read, under its assembly."""
    blocks: list[Block] = []
    title = said("What was found")
    under = ""
    for name, place in sorted(_places(matter), key=lambda each: _order(matter, each[0])):
        if name != under:
            blocks.append(Heading(capital(name)))
            under = name
        blocks.append(place)
    if not blocks:
        blocks.append(Paragraph(said("No mark was read.")))
    signs = said(
        "Characters stand as they were typed on the day: “?” is worn away, “[38]” a 3 or an 8, “~” "
        "ground, filled or struck over, “_” never struck."
    )
    return Section(title, (Paragraph(signs, "quiet"), *blocks))


def _order(matter: Matter, name: str) -> int:
    names = [matter.names.assembly(each.id) for each in matter.book.assemblies]
    return names.index(name) if name in names else len(names)


def _places(matter: Matter) -> Iterator[tuple[str, Block]]:
    """Each place, and each paper, with the name of its assembly."""
    sites = dict.fromkeys(site.site for site in matter.opinion.sites)
    placed = set()
    for number, site in enumerate(sites, start=1):
        outcomes = [each for each in matter.opinion.sites if each.site == site]
        marks = [m for each in outcomes for m in each.marks]
        placed.update(marks)
        looks = [each for each in matter.case.looks if each.site == site]
        decodings = [each for each in matter.opinion.decodings if each.mark in marks]
        if not (looks or decodings or any(each.state in LOOKED for each in outcomes)):
            continue
        states = tuple(dict.fromkeys(term(each.state) for each in outcomes))
        told = said(
            "{number} {place}: {state}",
            number=number,
            place=capital(outcomes[0].name),
            state=listed(states),
        )
        reasons = [sentence(each.reason) for each in outcomes]
        body = _told(matter, told, (site, *marks), decodings, looks, reasons)
        yield _assembly(matter, marks), body
    papers = dict.fromkeys(
        each.mark for each in matter.opinion.decodings if each.mark not in placed
    )
    for mark in papers:
        decodings = [each for each in matter.opinion.decodings if each.mark == mark]
        body = _told(matter, capital(matter.names.mark(mark)), (mark,), decodings, [], [])
        yield said("papers"), body


def _assembly(matter: Matter, marks: list[str]) -> str:
    found = (matter.book.mark(mark) for mark in marks)
    own = next((mark.assembly for mark in found if mark is not None and mark.assembly), "")
    return matter.names.assembly(own) if own else said("plates and other marks")


def _told(
    matter: Matter,
    title: str,
    about: tuple[str, ...],
    decodings: list[Decoding],
    looks: list[LookSeen],
    reasons: list[str],
) -> Block:
    """One place beside its first photograph: as read, how the metal looks, what follows."""
    case = matter.case
    shown = sorted(
        {e for each in about for e in showing(case, each)}, key=lambda e: matter.numbers.get(e, 0)
    )
    blocks: list[Block] = [Paragraph(matter.citing(title, shown).rstrip("."), "strong")]
    blocks.extend(Paragraph(each) for each in dict.fromkeys(reasons) if each)
    if decodings:
        blocks.append(_readings(matter, decodings))
    if looks:
        blocks.append(Bullets(tuple(_look(each, matter) for each in looks)))
    blocks.append(Paragraph(_follows(matter, about), "quiet"))
    if not shown:
        return Together(tuple(blocks))
    pictures = Pictures(tuple(matter.photograph(each) for each in shown[:1]))
    return Together((Columns((pictures,), tuple(blocks), (1.0, 2.1)),))


def _readings(matter: Matter, decodings: list[Decoding]) -> Table:
    """As read and what it says; readings that are the same stand once, with all who read it."""
    alike: dict[tuple[str, str], list[Decoding]] = {}
    for each in decodings:
        alike.setdefault((each.mark, each.reading.normalised), []).append(each)
    has_several = len({mark for mark, _ in alike}) > 1
    rows = []
    for (mark, _), same in alike.items():
        who = tuple(dict.fromkeys(_who(matter.case, each) for each in same))
        name = (capital(matter.names.mark(mark)),) if has_several else ()
        notes = (noted_of(matter.case, each) for each in same)
        below = (*name, *who, *(sentence(n.note) for n in notes if n and n.note))
        typed = same[0].reading.as_typed
        rows.append((TableCell(typed, below, mono=True), meaning_cell(same[0], matter.names)))
    return Table((), tuple(rows), (1.0, 1.25), is_dense=True)


def _who(case: Casefile, decoding: Decoding) -> str:
    return who_read(case, decoding)


def _look(look: LookSeen, matter: Matter) -> str:
    """One thing that was looked for, what was seen, and by whom if not in person."""
    told = said(
        "{feature}: {outcome}",
        feature=capital(feature_word(look.feature)),
        outcome=look_word(look.outcome),
    )
    note = sentence(look.note)
    by = seen_by(look.seen, look.by, None)
    again = said("looked at again") if look.again else ""
    behind = "; ".join(each for each in (by, again) if each)
    return " ".join(filter(None, (f"{told} ({behind})." if behind else f"{told}.", note)))


def _follows(matter: Matter, about: tuple[str, ...]) -> str:
    """What the observation says: what of it does not fit, else how it stands to the claim."""
    answer, marks = matter.opinion.answer, set(about)
    misfits = [each for each in answer.misfits if marks.intersection(each.about)]
    if misfits:
        return " ".join(misfit_sentence(each) for each in misfits)
    outcomes = {
        finding.outcome
        for finding in matter.opinion.findings
        if marks.intersection(subject.mark for subject in finding.subjects)
        and len(finding.subjects) > 1
    }
    if Outcome.DIFFER in outcomes:
        return said("Something here differs from another mark; the annex has it.")
    if Outcome.UNDECIDED in outcomes and Outcome.AGREE not in outcomes:
        return said("What can be read leaves open whether it fits.")
    if Outcome.AGREE in outcomes:
        return said("What can be read here fits the claim and the other marks.")
    return said("It was compared with nothing.")
