"""Each mark as typed and what the code book says it means: facts before any weight."""

from witnessmark.casefile.records import Casefile, MarkReading, Orientation, Seen
from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.decoding.options import part_of
from witnessmark.decoding.records import Alternative, Decoding, FieldMeaning
from witnessmark.examination import Opinion
from witnessmark.outline.records import Paragraph, Section, Table, TableCell
from witnessmark.report.sections.plates import plates
from witnessmark.report.sections.site import unseen_way
from witnessmark.wording import Names, listed, moment_text, share_text, term
from witnessmark.wording.amounts import capital, clause, sentence

SHARE_SHOWN = 0.01
"""An alternative meaning with a smaller share than this is not printed."""

LONGEST_PART = 9
"""A mark that bears a part of a number bears at most so many characters of it."""


def readings_section(opinion: Opinion, book: CodeBook) -> Section:
    """The plates drawn; each mark as typed, normalised where it differs, and what it says."""
    title = said("Readings")
    names = Names(opinion.names)
    rows = tuple(reading_row(opinion.casefile, each, names) for each in opinion.decodings)
    if not rows:
        return Section(title, (Paragraph(said("No mark was read.")),))
    intro = said(
        "Characters are given as they were typed on the day. “?” is a place worn away, "
        "“[38]” a 3 or an 8, “~” a place ground, filled or struck over, “_” a place never "
        "struck."
    )
    head = (said("Mark"), said("As read"), said("What the code book says it means"))
    return Section(
        title,
        (Paragraph(intro, "lead"), *plates(opinion, book, names), Table(head, rows, (3, 3, 5))),
    )


def reading_row(case: Casefile, decoding: Decoding, names: Names) -> tuple[TableCell, ...]:
    """One reading: the mark and by whom, the characters, what they mean."""
    reading = decoding.reading
    changed: tuple[str, ...] = ()
    if reading.changes:
        reasons = "; ".join(dict.fromkeys(clause(change.reason) for change in reading.changes))
        taken = reading.normalised
        changed = (
            said("taken as {characters} ({reasons})", characters=taken, reasons=reasons)
            if reasons
            else said("taken as {characters}", characters=taken),
        )
    return (
        TableCell(capital(names.mark(decoding.mark)), _who(case, decoding)),
        TableCell(reading.as_typed, changed, mono=True),
        meaning_cell(decoding, names),
    )


def _who(case: Casefile, decoding: Decoding) -> tuple[str, ...]:
    """How a mark was seen, by whom it was read and when, and the note."""
    reading = decoding.reading
    noted = _noted(case, decoding)
    parts = [capital(term(reading.seen)), term(reading.legibility)]
    if reading.orientation is not Orientation.UPRIGHT:
        parts.append(term(reading.orientation))
    if noted and noted.again:
        parts.append(said("read again"))
    if noted and noted.claim_known is False:
        parts.append(said("by somebody who did not know the claimed number"))
    lines = [", ".join(parts), unseen_way(reading.seen, clause(reading.by))]
    by, when = clause(reading.by), moment_text(noted.when) if noted and noted.when else ""
    if reading.seen is Seen.TOLD:
        by = ""
    if by:
        told = said("read by {name}", name=by)
        lines.append(f"{told}, {when}" if when else told)
    else:
        lines.append(when)
    lines.append(sentence(noted.note) if noted else "")
    return tuple(line for line in lines if line)


def _noted(case: Casefile, decoding: Decoding) -> MarkReading | None:
    """The entry of the case that this decoding was made from."""
    typed = decoding.reading.as_typed
    same = [each for each in case.readings if each.mark == decoding.mark and each.text == typed]
    by = [each for each in same if each.by == decoding.reading.by]
    return next(iter(by or same), None)


def meaning_cell(decoding: Decoding, names: Names) -> TableCell:
    """What a reading means, the likeliest first; below it, what it could mean besides."""
    alternatives = decoding.alternatives
    below = []
    for each in alternatives[1:4]:
        if each.share >= SHARE_SHOWN:
            meaning = _meaning(each, names, "; ")
            below.append(
                said("or ({share}): {meaning}", share=share_text(each.share), meaning=meaning)
            )
    if decoding.not_listed_share >= SHARE_SHOWN:
        share = share_text(decoding.not_listed_share)
        below.append(said("a code that the book does not list: {share}", share=share))
    if decoding.unread:
        left = decoding.unread
        below.append(said("left over, not explained by any field: {characters}", characters=left))
    if decoding.missing:
        lacking = listed(tuple(names.any(field) for field in decoding.missing))
        below.append(said("characters are missing in: {fields}", fields=lacking))
    if not alternatives:
        undecoded = said("Undecoded: the book is silent, which is no fault of the car.")
        return TableCell(undecoded, tuple(below))
    return TableCell(_meaning(alternatives[0], names), tuple(below))


def _meaning(alternative: Alternative, names: Names, between: str = "\n") -> str:
    """What the fields say: the item, the characters, and the meaning that the book gives."""
    return between.join(_field_meaning(field, names) for field in alternative.fields)


def _beside(item: str, meaning: str) -> str:
    """A meaning as it stands after the item's name: without that name at its beginning.

    >>> _beside("gearbox number", "gearbox number"), _beside("number", "number, last 4")
    ('', 'last 4')
    """
    if meaning.casefold() == item.casefold():
        return ""
    for count in range(1, LONGEST_PART + 1):
        parts = {
            part_of(item, f"last {count}"): said("last {count}", count=count),
            part_of(item, f"first {count}"): said("first {count}", count=count),
        }
        if meaning in parts:
            return parts[meaning]
    return meaning.removeprefix(f"{item}: ")


def _field_meaning(field: FieldMeaning, names: Names) -> str:
    item = names.item(field.says or field.field)
    meaning = _beside(item, field.meaning) if field.listed else said("not listed")
    code = field.code.strip()
    told = ", ".join(dict.fromkeys(part for part in (code, meaning) if part))
    return said("{item}: {told}", item=capital(item), told=told or field.value)
