"""Each mark as typed and what the code book says it means: facts before any weight."""

from witnessmark.casefile.records import Casefile, MarkReading, Orientation, Seen
from witnessmark.catalogue import said
from witnessmark.decoding.options import part_of
from witnessmark.decoding.records import Alternative, Decoding, FieldMeaning
from witnessmark.outline.records import TableCell
from witnessmark.report.sections.seen import unseen_way
from witnessmark.wording import Names, listed, share_text, term
from witnessmark.wording.amounts import capital, clause
from witnessmark.wording.case_words import signer_name

SHARE_SHOWN = 0.01
"""An alternative meaning with a smaller share than this is not printed."""

LONGEST_PART = 9
"""A mark that bears a part of a number bears at most so many characters of it."""


def who_read(case: Casefile, decoding: Decoding) -> str:
    """By whom a mark was read and how it was seen, how legible it is, and what it was taken as
    where that is not as typed."""
    reading, noted = decoding.reading, noted_of(case, decoding)
    who = clause(signer_name(reading.by, case))
    parts = [
        who if reading.seen is not Seen.TOLD else "",
        unseen_way(reading.seen, who) or term(reading.seen),
        term(reading.legibility),
    ]
    if reading.orientation is not Orientation.UPRIGHT:
        parts.append(term(reading.orientation))
    if noted and noted.again:
        parts.append(said("read again"))
    if noted and noted.claim_known is False:
        parts.append(said("without knowing the claimed number"))
    if reading.changes:
        reasons = "; ".join(dict.fromkeys(clause(change.reason) for change in reading.changes))
        taken = reading.normalised
        parts.append(
            said("taken as {characters} ({reasons})", characters=taken, reasons=reasons)
            if reasons
            else said("taken as {characters}", characters=taken)
        )
    return ", ".join(filter(None, parts))


def noted_of(case: Casefile, decoding: Decoding) -> MarkReading | None:
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
            meaning = _meaning(each, names)
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


def _meaning(alternative: Alternative, names: Names, between: str = "; ") -> str:
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
