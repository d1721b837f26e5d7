"""The sections that repeat what was brought and noted: facts before any weight."""

from witnessmark.casefile.records import Casefile, MarkReading
from witnessmark.decoding.records import Alternative, Decoding, FieldMeaning
from witnessmark.examination import Opinion
from witnessmark.report.records import (
    Block,
    Bullets,
    Fact,
    Facts,
    Heading,
    Paragraph,
    Photograph,
    Picture,
    Section,
    Table,
    TableCell,
)
from witnessmark.wording import (
    Names,
    date_text,
    listed,
    moment_text,
    paper_sentence,
    share_text,
    site_sentence,
    unseen_sentence,
)
from witnessmark.wording.amounts import capital, clause, sentence
from witnessmark.wording.sites import UNSEEN

NOT_STATED = "not stated"
SHARE_SHOWN = 0.01
"""An alternative meaning with a smaller share than this is not printed."""
DIGEST_SHOWN = 16


def cover_facts(opinion: Opinion) -> tuple[Fact, ...]:
    """Who asked, for what, by whom examined, and with which tables."""
    case = opinion.casefile
    assignment = case.assignment
    examiners = assignment.examiners
    names = listed(tuple(each.name for each in examiners)) or NOT_STATED
    interest = (
        "; ".join(
            f"{each.name}: {clause(each.declared_interest) or NOT_STATED}" for each in examiners
        )
        or NOT_STATED
    )
    version = opinion.book.version
    return (
        Fact("Case", case.id),
        Fact("Client", assignment.client or NOT_STATED),
        Fact("Purpose", assignment.purpose or NOT_STATED),
        Fact("Intended users", assignment.intended_users or NOT_STATED),
        Fact("Date of inspection", date_text(case.visit.date) if case.visit.date else NOT_STATED),
        Fact("Examiner" if len(examiners) < 2 else "Examiners", names),
        Fact("Declared interest", interest),
        Fact("Code book", f"{opinion.book.title}, version {version}"),
    )


def claim_section(opinion: Opinion) -> Section:
    """What is said about the car, by whom, in the speaker's words."""
    claim = opinion.casefile.claim
    names = Names(opinion.names)
    facts = [Fact("Said by", claim.made_by or NOT_STATED), Fact("In these words", claim.text)]
    facts += [
        Fact(capital(names.item(item)), names.value(value)) for item, value in claim.items.items()
    ]
    facts.append(Fact("Built", claim.built or ""))
    stakes = opinion.casefile.stakes
    if stakes.price_asked is not None:
        facts.append(Fact("Price asked", f"{stakes.price_asked:,.0f} {stakes.currency}".strip()))
    if stakes.note:
        facts.append(Fact("What hangs on it", stakes.note))
    return Section("What is claimed", (Facts(_said(facts)),))


def visit_section(opinion: Opinion) -> Section:
    """Scope, consent, the owner's reply, and the conditions of the visit."""
    case = opinion.casefile
    visit, assignment = case.visit, case.assignment
    when = date_text(visit.date) if visit.date else ""
    facts = (
        Fact("Scope", assignment.scope),
        Fact("Owner’s consent", assignment.owner_consent),
        Fact("Owner’s reply", assignment.owner_reply),
        Fact("When", when),
        Fact("Where", visit.place),
        Fact("Who was present", visit.present),
        Fact("Light", visit.light),
        Fact("Access", visit.access),
        Fact("What was moved", visit.moved),
    )
    stated = tuple(Fact(each.label, each.text.strip() or NOT_STATED) for each in facts)
    return Section("Scope, consent and conditions", (Facts(stated),))


def sites_section(opinion: Opinion) -> Section:
    """Every expected site and how it ended; then what was not seen, and why."""
    rows = tuple(
        (
            TableCell(capital(site.name), (site.where,) if site.where else ()),
            TableCell(capital(site.state.value), strong=True),
            TableCell(site_sentence(site.state, site.reason, site.attachment)),
        )
        for site in opinion.sites
    )
    unseen = tuple(
        unseen_sentence(site.name, site.state, site.reason)
        for site in opinion.sites
        if site.state in UNSEEN
    )
    blocks: list[Block] = [Table(("Site", "State", "How it ended"), rows, (4, 2, 5))]
    blocks.append(Heading("What was not seen, and why"))
    if unseen:
        blocks.append(Bullets(unseen))
    else:
        blocks.append(Paragraph("Every site that the code book expects was looked at."))
    return Section("Sites", tuple(blocks))


def readings_section(opinion: Opinion) -> Section:
    """Each mark as typed, the normalised form where it differs, and what it says."""
    names = Names(opinion.names)
    rows = tuple(_reading_row(opinion.casefile, each, names) for each in opinion.decodings)
    intro = (
        "Characters stand as they were typed on the day. “?” is a place worn away, “[38]” a "
        "3 or an 8, “~” a place ground, filled or struck over, “_” a place never struck."
    )
    if not rows:
        return Section("Readings", (Paragraph("No mark was read."),))
    head = ("Mark", "As read", "What the code book says it means")
    return Section("Readings", (Paragraph(intro, "lead"), Table(head, rows, (3, 3, 5))))


def _reading_row(case: Casefile, decoding: Decoding, names: Names) -> tuple[TableCell, ...]:
    reading = decoding.reading
    noted = _noted(case, decoding)
    who = [f"{capital(reading.seen.value)}, {reading.legibility.value}"]
    if reading.orientation.value != "upright":
        who[0] += f", {reading.orientation.value}"
    by = clause(reading.by)
    if by or (noted and noted.when):
        when = moment_text(noted.when) if noted and noted.when else ""
        who.append(", ".join(part for part in (f"read by {by}" if by else "", when) if part))
    if noted and noted.note:
        who.append(sentence(noted.note))
    changed: tuple[str, ...] = ()
    if reading.changes:
        reasons = dict.fromkeys(clause(change.reason) for change in reading.changes)
        why = f" ({'; '.join(reasons)})" if reasons else ""
        changed = (f"taken as {reading.normalised}{why}",)
    return (
        TableCell(capital(names.mark(decoding.mark)), tuple(who)),
        TableCell(reading.as_typed, changed, mono=True),
        _meaning_cell(decoding, names),
    )


def _noted(case: Casefile, decoding: Decoding) -> MarkReading | None:
    """The entry of the case that this decoding was made from."""
    typed = decoding.reading.as_typed
    same = [each for each in case.readings if each.mark == decoding.mark and each.text == typed]
    by = [each for each in same if each.by == decoding.reading.by]
    return next(iter(by or same), None)


def _meaning_cell(decoding: Decoding, names: Names) -> TableCell:
    alternatives = decoding.alternatives
    below = []
    for each in alternatives[1:4]:
        if each.share >= SHARE_SHOWN:
            below.append(f"or ({share_text(each.share)}): {_meaning(each, names, '; ')}")
    if decoding.not_listed_share >= SHARE_SHOWN:
        below.append(f"a code that the book does not list: {share_text(decoding.not_listed_share)}")
    if decoding.unread:
        below.append(f"left over, explained by no field: {decoding.unread}")
    if decoding.missing:
        lacking = listed(tuple(names.any(field) for field in decoding.missing))
        below.append(f"characters are missing in: {lacking}")
    if not alternatives:
        return TableCell("Undecoded: the book is silent, which is no fault of the car.", (*below,))
    return TableCell(_meaning(alternatives[0], names), tuple(below))


def _meaning(alternative: Alternative, names: Names, between: str = "\n") -> str:
    """What the fields say: the item, the characters, and the meaning that the book gives."""
    return between.join(_field_meaning(field, names) for field in alternative.fields)


def _field_meaning(field: FieldMeaning, names: Names) -> str:
    item = names.item(field.says or field.field)
    meaning = field.meaning.removeprefix(f"{item}: ") if field.listed else "not listed"
    code = field.code.strip()
    said = ", ".join(dict.fromkeys(part for part in (code, meaning) if part))
    return f"{capital(item)}: {said or field.value}"


def papers_section(opinion: Opinion) -> Section:
    """Each paper and where it is, and the number on the title."""
    case = opinion.casefile
    names = Names(opinion.names)
    rows = tuple(
        (
            TableCell(capital(names.mark(paper.mark))),
            TableCell(capital(paper.state.value), strong=True),
            TableCell(
                paper_sentence(paper.state),
                tuple(
                    text
                    for text in (
                        f"Copied from: {names.mark(paper.copied_from)}; counted with it as one."
                        if paper.copied_from
                        else "",
                        sentence(paper.note),
                    )
                    if text
                ),
            ),
        )
        for paper in case.papers
    )
    blocks: list[Block] = []
    if rows:
        blocks.append(Table(("Paper", "State", "What that means here"), rows, (3, 2, 6)))
    else:
        blocks.append(Paragraph("No paper is recorded in this case."))
    title = case.title_paper
    facts = _said([Fact("Number on the title", title.number), Fact("Issued by", title.issued_by)])
    if facts:
        blocks.append(Facts((*facts, Fact("Seen", title.seen.value))))
    return Section("Papers and title", tuple(blocks))


def photographs_section(opinion: Opinion, pictures: tuple[Picture, ...]) -> Section | None:
    """Each exhibit with its caption, the marks it shows and the short form of its digest."""
    case = opinion.casefile
    if not case.exhibits:
        return None
    ready = {picture.exhibit: picture for picture in pictures}
    intro = (
        "Each picture is a reduced copy for reading. The original is kept byte for byte; the "
        f"first {DIGEST_SHOWN} characters of its SHA-256 digest are given."
    )
    blocks: list[Block] = [Paragraph(intro, "lead")]
    for entry in case.exhibits:
        shown = _shows(case, entry.id, Names(opinion.names))
        taken = [f"taken by {entry.taken_by}" if entry.taken_by else ""]
        taken.append(moment_text(entry.taken_at) if entry.taken_at else "")
        details = (
            f"Shows: {shown}" if shown else "Tied to no reading or look",
            capital(", ".join(part for part in taken if part)),
            f"SHA-256 {entry.sha256[:DIGEST_SHOWN]}…",
        )
        picture = ready.get(entry.id, Picture(entry.id, b"", "The file was not brought along."))
        blocks.append(
            Photograph(
                entry.id,
                entry.caption or "No caption was given.",
                tuple(text for text in details if text),
                f"{entry.id}" if picture.jpeg else "",
                picture.missing,
            )
        )
    return Section("Photographs and documents", tuple(blocks))


def _shows(case: Casefile, exhibit: str, names: Names) -> str:
    """The marks, looks, sites and papers of the case that name this exhibit."""
    marks = [names.mark(r.mark) for r in case.readings if exhibit in r.exhibits]
    looks = [
        f"{look.feature.replace('_', ' ')} of the {names.any(look.site)}"
        for look in case.looks
        if exhibit in look.exhibits
    ]
    sites = [names.any(s.site) for s in case.sites if exhibit in s.exhibits]
    papers = [names.mark(p.mark) for p in case.papers if exhibit in p.exhibits]
    title = ["the title"] if exhibit in case.title_paper.exhibits else []
    return "; ".join(dict.fromkeys([*marks, *looks, *sites, *papers, *title]))


def _said(facts: list[Fact]) -> tuple[Fact, ...]:
    """The facts that say something."""
    return tuple(fact for fact in facts if fact.text.strip())
